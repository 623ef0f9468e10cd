"""Air, regulator losses and the heat path, SI units unless a name says otherwise."""

import math

from curve import MonotoneCubic

KELVIN = 273.15
SIGMA = 5.670374419e-8  # W/m2K4, Stefan-Boltzmann (CODATA 2018)
GRAVITY = 9.80665  # m/s2, standard
CP = 1006.0  # J/kgK, air
GAS = 287.05287  # J/kgK, dry air (ISO 2533)

# ---- 1 Air ----------------------------------------------------------------


def pressure(altitude_m):
    """p = 101325 (1 - 0.0065 h / 288.15)^5.25588, Pa."""
    return 101325.0 * (1 - 0.0065 * altitude_m / 288.15) ** 5.25588


def density(p, kelvin):
    """rho = p / (287.05287 T), kg/m3."""
    return p / (GAS * kelvin)


def viscosity(kelvin):
    """mu = 1.458e-6 T^1.5 / (T + 110.4), Pa s."""
    return 1.458e-6 * kelvin**1.5 / (kelvin + 110.4)


def conductivity(kelvin):
    """k = 2.64638e-3 T^1.5 / (T + 245.4 10^(-12/T)), W/mK."""
    return 2.64638e-3 * kelvin**1.5 / (kelvin + 245.4 * 10 ** (-12 / kelvin))


# ---- 2 Surroundings -------------------------------------------------------


def case_rise(p_case_w, rho, flow_m3h):
    """P_case / (rho cp Q), K; Q = flow / 3600. No flow given = open bench = 0."""
    if flow_m3h is None:
        return 0.0
    return p_case_w / (rho * CP * flow_m3h / 3600.0)


class Surroundings:
    """Room, enclosure, cooler, graphics and altitude of a question or a run."""

    def __init__(self, room_c, enclosure, cooler, graphics_w, altitude_m):
        self.room_c = room_c
        self.flow = enclosure.get("flow_m3h")
        self.other_w = enclosure.get("other_w", 0.0)
        self.share = cooler.get("heat_into_case_share", 0.5)
        self.graphics_w = graphics_w
        self.p = pressure(altitude_m)
        # v = sqrt(enclosure^2 + cooler^2)
        self.airspeed = math.hypot(enclosure.get("airspeed_ms", 0.0), cooler.get("airspeed_ms", 0.0))

    def with_room(self, room_c):
        other = object.__new__(Surroundings)
        other.__dict__.update(self.__dict__, room_c=room_c)
        return other

    def local(self, package_w, loss_w):
        """Local air, C: room + rise, P_case = share P + graphics + other + loss(T)."""
        p_case = self.share * package_w + self.graphics_w + self.other_w + loss_w
        return self.room_c + case_rise(p_case, density(self.p, self.room_c + KELVIN), self.flow)


# ---- 4 Regulator ----------------------------------------------------------

COPPER = 0.003854  # 1/K referred to 25 C
RDS = 0.005  # 1/K unless the stage says otherwise


def ripple(vin, v, henry, hertz):
    """dI = (Vin - V) D / (L f), A peak to peak, D = V / Vin."""
    return (vin - v) * (v / vin) / (henry * hertz)


def at_temperature(r25, per_k, temp_c):
    """R(T) = R25 (1 + a (T - 25))."""
    return r25 * (1 + per_k * (temp_c - 25.0))


def conduction(irms2, duty, ohm, count):
    """i_rms^2 D R / n: parallel devices share."""
    return irms2 * duty * ohm / count


def switching(vin, amps, rise_s, fall_s, hertz):
    """1/2 Vin i (t_rise + t_fall) f."""
    return 0.5 * vin * amps * (rise_s + fall_s) * hertz


def charge(count_high, q_high, count_low, q_low, volts, hertz):
    """(n_high Q_high + n_low Q_low) V f, for gates; output charge takes half."""
    return (count_high * q_high + count_low * q_low) * volts * hertz


def dead_time(diode_v, amps, dead_s, hertz):
    """V_diode i 2 t_dead f: two edges a cycle."""
    return diode_v * amps * 2 * dead_s * hertz


def discrete(stage, vin, duty, amps, irms2, hertz, temp_c):
    """Every bullet but the inductor for one phase, W."""
    per_k = stage.get("rds_per_k", RDS)
    nh, nl = stage["high_count"], stage["low_count"]
    nano = 1e-9
    return (
        conduction(irms2, duty, at_temperature(stage["high_mohm"] * 1e-3, per_k, temp_c), nh)
        + conduction(irms2, 1 - duty, at_temperature(stage["low_mohm"] * 1e-3, per_k, temp_c), nl)
        + switching(vin, amps, stage["rise_ns"] * nano, stage["fall_ns"] * nano, hertz)
        + charge(nh, stage["high_gate_nc"] * nano, nl, stage["low_gate_nc"] * nano, stage["drive_v"], hertz)
        + dead_time(stage["diode_v"], amps, stage["dead_ns"] * nano, hertz)
        + 0.5 * charge(nh, stage["high_out_nc"] * nano, nl, stage["low_out_nc"] * nano, vin, hertz)
        + stage["recovery_nc"] * nano * vin * hertz
    )


def integrated(stage, table, amps, hertz, temp_c):
    """The maker's table for one phase, W: clamped below its first ampere, end
    slope past its last, scaled for frequency and temperature."""
    if amps > table.xs[-1]:
        watts = table.ys[-1] + table.slopes[-1] * (amps - table.xs[-1])
    else:
        watts = table(max(amps, table.xs[0]))
    share = stage.get("switching_share", 0.5)
    frequency = 1 + share * (hertz / (stage["khz"] * 1e3) - 1)
    return watts * frequency * (1 + stage.get("rds_per_k", RDS) * (temp_c - stage["temp_c"]))


def efficiency(volts, amps, loss_w):
    """V I / (V I + loss)."""
    return volts * amps / (volts * amps + loss_w)


class Regulator:
    """The loss of one board's regulator."""

    def __init__(self, board, stage):
        self.r, self.stage = board["regulator"], stage
        self.table = None
        if stage["kind"] == "integrated":
            rows = stage["loss"]
            self.table = MonotoneCubic([r["amps"] for r in rows], [r["watts"] for r in rows])

    def loss(self, volts, amps, temp_c):
        """(total loss of the board, semiconductor part of one phase), W."""
        r = self.r
        vin, hertz, n = r.get("input_v", 12.0), r["switching_khz"] * 1e3, r["phases"]
        i = amps / n
        duty = volts / vin
        di = ripple(vin, volts, r["inductor_nh"] * 1e-9, hertz)
        irms2 = i * i + di * di / 12.0
        if self.table is None:
            semi = discrete(self.stage, vin, duty, i, irms2, hertz, temp_c)
        else:
            semi = integrated(self.stage, self.table, i, hertz, temp_c)
        inductor = irms2 * at_temperature(r["inductor_mohm"] * 1e-3, COPPER, temp_c) + r.get("core_loss_w", 0.0)
        plane = amps * amps * r.get("plane_mohm", 0.0) * 1e-3
        return n * (semi + inductor) + plane, semi


# ---- 5 Heat path ----------------------------------------------------------

M2_PER_KG = {"none": 0.0, "block": 0.10, "finned": 0.20, "fin-stack": 0.50}


def rayleigh(beta, dt, length, nu, alpha, gravity=GRAVITY):
    return gravity * beta * dt * length**3 / (nu * alpha)


def nusselt_natural(ra, pr):
    """Churchill-Chu, laminar vertical plate."""
    return 0.68 + 0.670 * ra**0.25 / (1 + (0.492 / pr) ** (9 / 16)) ** (4 / 9)


def nusselt_forced(re, pr):
    """0.664 Re^1/2 Pr^1/3: mean over a laminar flat plate."""
    return 0.664 * math.sqrt(re) * pr ** (1 / 3)


def h_convection(surface_c, air_c, length, speed, p):
    """Nu = (natural^3 + forced^3)^(1/3); h = Nu k / L, W/m2K, at the film temperature."""
    film = 0.5 * (surface_c + air_c) + KELVIN
    rho, mu, k = density(p, film), viscosity(film), conductivity(film)
    pr, nu, alpha = CP * mu / k, mu / rho, k / (rho * CP)
    ra = rayleigh(1 / film, max(surface_c - air_c, 0.0), length, nu, alpha)
    natural, forced = nusselt_natural(ra, pr), nusselt_forced(speed * length / nu, pr)
    return (natural**3 + forced**3) ** (1 / 3) * k / length


def h_radiation(emissivity, surface_c, air_c):
    """eps sigma (Ts^2 + Ta^2)(Ts + Ta), kelvin."""
    ts, ta = surface_c + KELVIN, air_c + KELVIN
    return emissivity * SIGMA * (ts * ts + ta * ta) * (ts + ta)


class HeatPath:
    """Conductance from the hot spot to the local air, and the heat capacity."""

    def __init__(self, board):
        sink = board["heatsink"]
        shape = sink["shape"]
        per_kg = M2_PER_KG[shape]
        self.area, self.mass = 0.0, 0.0
        if shape != "none":
            mass_g, area_cm2 = sink.get("mass_g"), sink.get("area_cm2")
            self.area = area_cm2 * 1e-4 if area_cm2 is not None else mass_g * 1e-3 * per_kg
            self.mass = mass_g * 1e-3 if mass_g is not None else self.area / per_kg
        self.factor = sink.get("factor", 0.9)
        self.height = sink.get("height_mm", 30.0) * 1e-3
        self.pad = sink.get("pad_k_per_w", 0.25)
        self.board_area = board.get("area_cm2", 100.0) * 1e-4

    def conductance(self, temp_c, local_c, speed, p):
        """G = 1/(1/(h_sink A 0.9) + R_pad) + h_board A_board, W/K."""
        h_board = h_convection(temp_c, local_c, 0.08, speed / 2, p) + h_radiation(0.9, temp_c, local_c)
        total = h_board * self.board_area
        if self.area > 0:
            h_sink = h_convection(temp_c, local_c, self.height, speed, p) + 0.5 * h_radiation(0.8, temp_c, local_c)
            total += 1 / (1 / (h_sink * self.area * self.factor) + self.pad)
        return total

    def capacity(self):
        """C = 897 mass + 60, J/K."""
        return 897.0 * self.mass + 60.0
