"""Published values that the formulas must give. Each row names its source."""

import math
import random

import answer
import learn
import physics as ph

COMPANION = "(printed result of the named worked example)"


def rows():
    yield from air()
    yield from plates()
    yield from losses()
    yield from ageing_and_time()
    yield from statistics()


def air():
    for h, want in ((0, 1.2250), (1500, 1.0581), (3000, 0.9092)):
        got = ph.density(ph.pressure(h), 288.15 - 0.0065 * h)
        yield f"ISO 2533 density at {h} m", got, want, 3e-4
    for t, mu, k in ((300, 184.6e-7, 0.0263), (350, 208.2e-7, 0.0300)):
        yield f"Incropera Table A.4 viscosity at {t} K", ph.viscosity(t), mu, 0.005
        yield f"Incropera Table A.4 conductivity at {t} K", ph.conductivity(t), k, 0.005
    # air-flow rule of thumb CFM = 1.76 W/K: 1 kW over 20 F; common practice, no source
    m3h = 158 * 0.3048**3 * 60
    yield "air-flow rule of thumb: rise at 158 CFM", ph.case_rise(1000, 1.204, m3h), 20 / 1.8, 0.02


def plates():
    ra = ph.rayleigh(0.0025, 232 - 23, 0.71, 26.4e-6, 38.3e-6, 9.81)
    yield f"Incropera 6e Ex. 9.2 Rayleigh {COMPANION}", ra, 1.8144e9, 0.005
    ra = ph.rayleigh(1 / 333.0, 60, 0.6, 1.896e-5, 1.896e-5 / 0.7202, 9.81)
    yield f"Cengel Ex. 9.2a Rayleigh {COMPANION}", ra, 7.649e8, 0.005
    ra = ph.rayleigh(0.0033, 30, 0.3, 16.2e-6, 22.9e-6, 9.8)
    h = ph.nusselt_natural(ra, 0.71) * 0.0265 / 0.3
    yield f"Incropera 6e Ex. 9.3 laminar Churchill-Chu {COMPANION}", h, 4.225, 0.005
    h = ph.nusselt_forced(15 * 0.5 / 1.94e-5, 0.707) * 0.02885 / 0.5
    yield "Lienhard Ex. 6.5 h", h, 21.222, 0.005
    yield "Lienhard Ex. 6.5 heat", h * 0.25 * 90, 477.5, 0.005
    re = 10 * 0.5 / (30.84e-6 * 101325 / 6000)
    yield "Incropera Ex. 7.1 Reynolds", re, 9600, 0.005
    h = ph.nusselt_forced(re, 0.687) * 0.0364 / 0.5
    yield "Incropera Ex. 7.1 heat per metre", h * 0.5 * 273, 570, 0.005
    yield f"Cengel Ex. 9.2a radiation, plate 0.6 x 0.6 m (memory) {COMPANION}", ph.h_radiation(1.0, 90, 30) * 60 * 0.36, 182.4, 0.005


def losses():
    ti = "TI LM2745/LM2748 SNOSAL2E p. 25"
    duty, hot = 1.2 / 3.3, 0.013 * 1.3
    yield f"{ti} switching", ph.switching(3.3, 4, 15e-9, 16e-9, 300e3), 61.38e-3, 0.005
    yield f"{ti} high-side conduction", ph.conduction(16, duty, hot, 1), 98.42e-3, 0.005
    yield f"{ti} low-side conduction", ph.conduction(16, 1 - duty, hot, 1), 172e-3, 0.005
    yield "TI SNOSAL2E p. 26 ripple", ph.ripple(3.6, 1.2, 2.2e-6, 300e3), 1.212, 0.005
    yield f"{ti} gate", ph.charge(1, 3e-9, 1, 3e-9, 3.3, 300e3), 5.94e-3, 0.005
    high = ph.conduction(25, 1.8 / 22, ph.at_temperature(0.042, ph.RDS, 50), 1)
    low = ph.conduction(3.2**2, 1 - 1.8 / 22, 0.042 * 1.1, 1)
    yield "Linear Technology LTC3728 Rev. G p. 28 high-side conduction", high, 96.6e-3, 0.005
    yield "Linear Technology LTC3728 Rev. G p. 28 low-side conduction", low, 434e-3, 0.005
    yield "Analog Devices ADP3654 Rev. 0 p. 11 gate", ph.charge(1, 120e-9, 0, 0, 12, 300e3), 0.432, 0.005
    both = ph.conduction(4, 1.8 / 3.3, 0.20, 1) + ph.conduction(4, 1 - 1.8 / 3.3, 0.16, 1)
    yield "ROHM BD9130NV Rev. 002 p. 12", both, 0.7272, 0.005
    copper = [ph.at_temperature(1, ph.COPPER, t) for t in (20, 90, 125)]
    yield "copper R(90)/R(20), IEC 60028", copper[1] / copper[0], 1.2751, 0.0005
    yield "copper R(125)/R(25), IEC 60028", copper[2], 1.3854, 0.0005
    yield "Rds(on) 25 to 125 C: middle of 1.40-1.60", ph.at_temperature(1, ph.RDS, 125), 1.5, 0.1 / 1.5


def ageing_and_time():
    wants = {"liquid": (4000, 8000, 32000), "polymer": (6324.6, 20000, 200000)}
    for kind, hours in wants.items():
        for t, want in zip((95, 85, 65), hours):
            got = answer.life_hours(kind, 2000, 105, t)
            yield f"capacitor maker's rule, {kind} at {t} C", got, want, 1e-4
    yield "Lienhard Ex. 2.9: 95 % of tau 58.10 s", 58.10 * math.log(20), 174.05, 1e-4
    tau = 3600 / math.log(2)
    for hour, want in ((1, 25.0), (2, 37.5)):
        yield f"Theraja III Ex. 45.13 after {hour} h", answer.warming(50, 0, tau, hour * 3600), want, 1e-6
        yield f"Theraja III Ex. 45.13 back from {want} C", answer.minutes_to(want, 50, 0, tau), hour * 60, 1e-6


def statistics():
    yield "95 % point of the normal", 0.5 * math.erfc(answer.Z95 / math.sqrt(2)), 0.05, 1e-9
    run = {"hot_c": 90.0}
    yield "IEC 60584-1 class 2, +-2.5 C, with placement and room", learn.known_variance(run, None), 2.5**2 / 3 + 1.25, 1e-9
    # EM with no prior weight must stop where the marginal likelihood is flat.
    # Made data, from the definition; no outside source.
    boards = made_boards()
    mu, s, d2 = learn.em(boards, [3.0, 1.0], [9.0, 0.2], 2.0, weights=(0, 0, 0))
    best = [*mu, *s, d2]
    for k, name in enumerate(("mu0", "mu1", "s0", "s1", "discrepancy2")):
        yield f"EM is at the likelihood's summit along {name} (1 + slope)", 1 + scaled_slope(boards, best, k), 1.0, 1e-4


def made_boards():
    rng = random.Random(7)
    boards = []
    for _ in range(8):
        b, slope = rng.gauss(2, 3), rng.gauss(1.2, 0.4)
        xs = [rng.uniform(5, 30) for _ in range(6)]
        boards.append([([1.0, x], b + slope * x + rng.gauss(0, 2.2), 1.5) for x in xs])
    return boards


def scaled_slope(boards, parameters, k):
    """Derivative of the log likelihood by the logarithm of one parameter."""
    step = 1e-4

    def value(factor):
        p = list(parameters)
        p[k] *= factor
        return log_likelihood(boards, p[:2], p[2:4], p[4])

    return (value(1 + step) - value(1 - step)) / (2 * step)


def log_likelihood(boards, mu, s, d2):
    """By the chain rule: each row's density given the rows before it."""
    total = 0.0
    for rows in boards:
        for i, (x, y, known) in enumerate(rows):
            m, c = learn.posterior(mu, s, rows[:i], d2)
            variance = learn.quadratic(x, c) + known + d2
            miss = y - sum(a * b for a, b in zip(x, m))
            total -= 0.5 * (math.log(variance) + miss * miss / variance)
    return total


def run(out):
    """Prints every row; 1 when one fails."""
    failed = 0
    for source, got, want, tolerance in rows():
        good = abs(got - want) <= tolerance * abs(want)
        failed += not good
        print(f"{'pass' if good else 'FAIL'}  {source}: {got:.6g}, published {want:.6g} ({tolerance:g})", file=out)
    print("all pass" if not failed else f"{failed} failed", file=out)
    return 1 if failed else 0
