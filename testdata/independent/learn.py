"""What measured runs teach: per-board posteriors and EM over boards (sections 7 and 8)."""

import math

from balance import Situation
from physics import Surroundings

MU0 = [3.0, 1.0, 1.0]  # b in C, theta1, theta2
S0 = [4.0**2, 0.35**2, 0.5**2]
DISCREPANCY0 = 2.0  # C
PRIOR_BOARDS_MU, PRIOR_BOARDS_S, PRIOR_RUNS = 1, 4, 5
CLASS2_C = 2.5  # C, IEC 60584-1 class 2, when a run names no thermometer
PLACEMENT_C, ROOM_C = 1.0, 0.5
FLOOR = 0.05  # of theta1 and theta2


def counts(run):
    """Settled and throttled runs count as values."""
    return run["outcome"] in ("settled", "throttled")


def known_variance(run, thermometer):
    """Thermometer (tolerance/sqrt 3) + placement + room, as squares, C^2."""
    tolerance = CLASS2_C
    if thermometer is not None:
        percent = thermometer.get("class_percent", 0.0) / 100 * abs(run["hot_c"])
        tolerance = max(thermometer.get("class_c", 0.0), percent)
    return tolerance**2 / 3 + PLACEMENT_C**2 + ROOM_C**2


def observation(run, knowledge, hardware):
    """(x, y, known noise variance) of one run."""
    chip = knowledge.get("chip", run["chip"])
    amps = chip.get("core_share", 0.92) * run["package_w"] / run["volts"]
    around = Surroundings(
        run["room_c"],
        knowledge.get("enclosure", run["enclosure"]),
        knowledge.get("cooler", run["cooler"]),
        run.get("graphics_w") or 0.0,
        run.get("altitude_m") or 0.0,
    )
    s = Situation(hardware, around, run["package_w"], amps, run["volts"])
    hot = run["hot_c"]
    name = run.get("thermometer")
    thermometer = knowledge.get("thermometer", name) if name else None
    return s.x(hot), hot - s.local(hot), known_variance(run, thermometer)


def posterior(mu, s, rows, discrepancy2):
    """Mean and covariance of the coefficients after the rows, one at a time
    (the same as the closed form, without inverting a matrix)."""
    p = len(mu)
    m = list(mu)
    c = [[s[i] if i == j else 0.0 for j in range(p)] for i in range(p)]
    for x, y, known in rows:
        cx = [sum(c[i][j] * x[j] for j in range(p)) for i in range(p)]
        variance = sum(x[i] * cx[i] for i in range(p)) + known + discrepancy2
        miss = y - sum(x[i] * m[i] for i in range(p))
        m = [m[i] + cx[i] * miss / variance for i in range(p)]
        c = [[c[i][j] - cx[i] * cx[j] / variance for j in range(p)] for i in range(p)]
    return m, c


def quadratic(x, c):
    """x'Cx."""
    return sum(x[i] * c[i][j] * x[j] for i in range(len(x)) for j in range(len(x)))


def em(boards, mu0, s0, d0, weights=(PRIOR_BOARDS_MU, PRIOR_BOARDS_S, PRIOR_RUNS), rounds=100000, tolerance=1e-11):
    """(mu, diag S, discrepancy^2) of the random-coefficient model by EM, from the
    prior on. boards: one list of (x, y, known variance) each; any number of
    coefficients; weights may be zero (maximum likelihood)."""
    w_mu, w_s, w_d = weights
    mu, s, d2 = list(mu0), list(s0), d0**2
    size, n = len(boards), sum(len(rows) for rows in boards)
    for _ in range(rounds):
        each = [posterior(mu, s, rows, d2) for rows in boards]
        new_mu = [(w_mu * mu0[k] + sum(m[k] for m, _ in each)) / (size + w_mu) for k in range(len(mu))]
        new_s = [
            (w_s * s0[k] + sum((m[k] - new_mu[k]) ** 2 + c[k][k] for m, c in each)) / (size + w_s)
            for k in range(len(mu))
        ]
        latent = sum(
            expected_square(row, m, c, d2) for rows, (m, c) in zip(boards, each) for row in rows
        )
        new_d2 = (w_d * d0**2 + latent) / (n + w_d)
        old, new = [*mu, *s, d2], [*new_mu, *new_s, new_d2]
        mu, s, d2 = new_mu, new_s, new_d2
        if all(abs(a - b) <= tolerance * (abs(a) + 1e-9) for a, b in zip(old, new)):
            break
    return mu, s, d2


def expected_square(row, m, c, d2):
    """E[d^2 | data]: residual r = d + known noise e, d ~ N(0, d2), e ~ N(0, known),
    and r itself ~ N(y - x'm, x'Cx) given the data."""
    x, y, known = row
    gain = d2 / (d2 + known)
    r = y - sum(a * b for a, b in zip(x, m))
    return gain**2 * (r * r + quadratic(x, c)) + gain * known


def floor(m, c):
    """Condition the normal on 0.05 where the mean of theta1 or theta2 is below
    it: the lower one first, then the other is tested again."""
    m, c = list(m), [list(row) for row in c]
    order = [1, 2] if m[1] <= m[2] else [2, 1]
    for k in order:
        if m[k] >= FLOOR:
            continue
        if c[k][k] > 0:
            column = [c[i][k] / c[k][k] for i in range(3)]
            miss = FLOOR - m[k]
            m = [m[i] + column[i] * miss for i in range(3)]
            c = [[c[i][j] - column[i] * c[k][j] for j in range(3)] for i in range(3)]
        m[k] = FLOOR
    return m, c


class PartsOnly:
    """Section 6: the same coefficients for every board."""

    discrepancy2 = DISCREPANCY0**2

    def coefficients(self, _board):
        return MU0, [[S0[0], 0.0, 0.0], [0.0, S0[1], 0.0], [0.0, 0.0, S0[2]]]

    def evidence(self, _board, _chip, _package_w):
        return "estimated"


class Learned:
    """Sections 7 and 8."""

    def __init__(self, knowledge, hardware):
        self.runs = [run for run in knowledge.runs if counts(run)]
        self.rows = {}
        for run in self.runs:
            row = observation(run, knowledge, hardware[run["board"]])
            self.rows.setdefault(run["board"], []).append(row)
        self.mu, self.s, self.discrepancy2 = MU0, S0, DISCREPANCY0**2
        if len(self.rows) >= 3:
            boards = [self.rows[board] for board in sorted(self.rows)]
            self.mu, self.s, self.discrepancy2 = em(boards, MU0, S0, DISCREPANCY0)

    def coefficients(self, board):
        return floor(*posterior(self.mu, self.s, self.rows.get(board, []), self.discrepancy2))

    def evidence(self, board, chip, package_w):
        """measured: settled, this board and chip, within 10 % of this package power."""
        if board not in self.rows:
            return "estimated"
        near = [
            run for run in self.runs
            if run["outcome"] == "settled" and run["board"] == board and run["chip"] == chip
            and abs(run["package_w"] - package_w) <= 0.10 * package_w
        ]
        return "measured" if near else "projected"

    def summary(self):
        return {"mu": self.mu, "s_diagonal": self.s, "discrepancy_c": math.sqrt(self.discrepancy2),
                "boards": {b: {"mean": m, "covariance": c} for b in sorted(self.rows)
                           for m, c in [self.coefficients(b)]}}
