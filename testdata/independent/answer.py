"""From a question to the numbers of its answer (section 9)."""

import math

from balance import Situation
from chip import Chip, bisect_down, caps
from physics import Surroundings, efficiency

Z95 = 1.6448536269514722  # 95 % point of the standard normal
LAMINATE_C = 130.0
HOURS_A_YEAR = 8760.0
MOST_YEARS = 15.0


class Advisor:
    def __init__(self, knowledge, hardware, lessons):
        self.knowledge, self.hardware, self.lessons = knowledge, hardware, lessons

    def answer(self, question):
        k = self.knowledge
        board, chip = k.ids["board"][question["board"]], k.ids["chip"][question["chip"]]
        curves = Chip(chip)
        target = question.get("ghz")
        target = chip["all_core_ghz"] if target is None else target
        reason = refusal(board, chip, curves, target)
        if reason:
            return {"refused": reason}
        return Case(self, question, board, chip, curves, float(target)).result()


def refusal(board, chip, curves, target):
    if board["socket"] != chip["socket"]:
        return "socket mismatch"
    if target > curves.last:
        return "target above the last point"
    if target < curves.first:
        return "target below the first point"
    tunable = board.get("tunable", False) and chip.get("tunable", False)
    if target > chip["all_core_ghz"] and not tunable:
        return "tuning not allowed"
    return None


def limits(hw, semi_w):
    """[(kind, C)]: the board maker's, the stage maker's, the laminate's."""
    found = []
    hot = hw.board.get("limit", {}).get("hot_spot_c")
    if hot is not None:
        found.append(("board", float(hot)))
    if semi_w is not None:
        # junction maximum less derating less K/W times the semiconductor loss of one phase
        stage = hw.stage
        derating, k_per_w = stage.get("derating_c", 25.0), stage.get("junction_k_per_w", 4.0)
        found.append(("stage", stage["temp_max_c"] - derating - k_per_w * semi_w))
    found.append(("laminate", float(hw.board.get("laminate_c", LAMINATE_C))))
    return found


class Case:
    """One question with everything it needs."""

    def __init__(self, advisor, question, board, chip, curves, target):
        k = advisor.knowledge
        self.curves, self.target, self.advisor = curves, target, advisor
        self.board, self.chip = board, chip
        self.hw = advisor.hardware[board["id"]]
        room = question.get("room_c")
        room = k.get("room", None)["celsius"] if room is None else room
        self.around = Surroundings(
            room, k.get("enclosure", question.get("enclosure")), k.get("cooler", question.get("cooler")),
            question.get("graphics_w") or 0.0, question.get("altitude_m") or 0.0,
        )
        self.activity = k.get("load", question.get("load"))["activity"]
        self.setup = question.get("setup") or "rated"
        self.caps = caps(self.setup, question, chip, board)
        self.theta, self.cov = advisor.lessons.coefficients(board["id"])
        self.d2 = advisor.lessons.discrepancy2
        self.throttle_c = board.get("limit", {}).get("hot_spot_c")

    def at(self, ghz, room_c=None):
        package, amps, volts = self.curves.draw(ghz, self.activity)
        around = self.around if room_c is None else self.around.with_room(room_c)
        return Situation(self.hw, around, package, amps, volts)

    def settle(self, ghz):
        return self.at(ghz).settle(self.theta)

    def uncertainty(self, situation, temp_c):
        """u = sqrt(x'Cx + discrepancy^2) / (1 - g)."""
        x, c = situation.x(temp_c), self.cov
        variance = sum(x[i] * c[i][j] * x[j] for i in range(3) for j in range(3)) + self.d2
        loop = 1 - situation.gain(temp_c, self.theta)
        return math.sqrt(variance) / loop if loop > 0 else math.inf

    def kept(self, ghz, room_c=None):
        """margin_kept at a clock and a room, never throttled; -inf when it cannot settle."""
        s = self.at(ghz, room_c)
        t = s.settle(self.theta)
        if t is None:
            return -math.inf
        lowest = min(value for _, value in limits(self.hw, s.loss(t)[1]))
        return lowest - t - Z95 * self.uncertainty(s, t)

    def room_ceiling(self, ghz):
        """The room where margin_kept = 0 at the clock that the caps allow, -50 to 100 C."""
        if self.kept(ghz, -50.0) < 0 or self.kept(ghz, 100.0) > 0:
            return None
        return bisect_down(lambda room: self.kept(ghz, room) >= 0, -50.0, 100.0)

    def package_ceiling(self):
        """(package W, at least) along the chip's own points, caps ignored."""
        first, last = self.curves.first, self.curves.last
        if self.kept(first) < 0:
            return None, False
        below = first
        for k in range(1, 25):
            above = first + (last - first) * k / 24 if k < 24 else last
            if self.kept(above) < 0:
                ghz = bisect_down(lambda g: self.kept(g) >= 0, below, above)
                return self.curves.draw(ghz, self.activity)[0], False
            below = above
        return self.curves.draw(last, self.activity)[0], True

    def too_hot(self, temp_c):
        return temp_c is None or temp_c > self.throttle_c + 1e-9

    def throttle(self, clock):
        """(clock, first point breaks the throttle temperature): the highest clock
        whose expected temperature does not exceed it."""
        first = self.curves.first
        if self.too_hot(self.settle(first)):
            return first, True
        above = clock
        for k in range(1, 33):
            below = clock - (clock - first) * k / 32 if k < 32 else first
            if not self.too_hot(self.settle(below)):
                return bisect_down(lambda g: not self.too_hot(self.settle(g)), below, above), False
            above = below
        return first, True

    def result(self):
        allowed, by, first_point = self.curves.within(self.target, self.activity, *self.caps)
        clock, unthrottled = allowed, self.settle(allowed)
        if self.throttle_c is not None and self.too_hot(unthrottled):
            clock, broken = self.throttle(allowed)
            by, first_point = "temperature", first_point or broken
        s = self.at(clock)
        t = s.settle(self.theta)
        out = {
            "evidence": self.advisor.lessons.evidence(self.board["id"], self.chip["id"], s.package_w),
            "clock": {
                "sustained_ghz": clock, "target_ghz": self.target, "limited_by": by,
                "loss_percent": 100 * (1 - clock / allowed),
            },
            "first_point": first_point,
            "settles": t is not None,
        }
        out.update(self.hot(s, t, unthrottled) if t is not None else self.cold(s))
        if t is None:
            out["hot_spot"]["unthrottled_c"] = unthrottled
        package, at_least = self.package_ceiling() if t is not None else (None, False)
        out["ceiling"] = {
            "room_c": self.room_ceiling(allowed), "package_w": package, "package_at_least": at_least,
        }
        return out

    def hot(self, s, t, unthrottled):
        """Everything that needs a settled temperature."""
        loss, semi = s.loss(t)
        local = s.local(t)
        u = self.uncertainty(s, t)
        found = limits(self.hw, semi)
        kind, value = min(found, key=lambda pair: pair[1])
        high = t + Z95 * u
        return {
            "hot_spot": {
                "expected_c": t, "low_c": t - Z95 * u, "high_c": high, "uncertainty_c": u,
                "unthrottled_c": unthrottled,
            },
            "limit": {"value_c": value, "kind": kind},
            "limits": [{"value_c": v, "kind": name} for name, v in found],
            "margin": {
                "expected_c": value - t, "kept_c": value - high,
                "exceed_probability": 0.5 * math.erfc((value - t) / u / math.sqrt(2)),
            },
            "power": {
                "package_w": s.package_w, "core_a": s.amps, "volts": s.volts, "regulator_loss_w": loss,
                "regulator_efficiency": efficiency(s.volts, s.amps, loss),
            },
            "air": {"local_c": local, "case_rise_c": local - s.around.room_c, "airspeed_ms": s.around.airspeed},
            "time": self.time(s, t, local, value),
            "capacitor": capacitor(self.board.get("capacitor"), t, local),
        }

    def time(self, s, t, local, limit):
        """tau = C/G/(1-g); minutes to 95 % and to the limit when that is below T."""
        loop = 1 - s.gain(t, self.theta)
        if loop <= 0:
            return {"to_95_percent_min": None, "to_limit_min": None}
        tau = time_constant(self.hw.heat.capacity(), s.conductance(t), loop)
        return {"to_95_percent_min": tau * math.log(20) / 60, "to_limit_min": minutes_to(limit, t, local, tau)}

    def cold(self, s):
        """The answer of a board that cannot settle: what depends on T is null."""
        found = limits(self.hw, None)
        kind, value = min(found, key=lambda pair: pair[1])
        cap = self.board.get("capacitor")
        nothing = {"temperature_c": None, "life_h": None, "life_years": None}
        return {
            "hot_spot": dict.fromkeys(("expected_c", "low_c", "high_c", "uncertainty_c", "unthrottled_c")),
            "limit": {"value_c": value, "kind": kind},
            "limits": [{"value_c": v, "kind": name} for name, v in found],
            "margin": {"expected_c": None, "kept_c": None, "exceed_probability": 1.0},
            "power": {
                "package_w": s.package_w, "core_a": s.amps, "volts": s.volts, "regulator_loss_w": None,
                "regulator_efficiency": None,
            },
            "air": {"local_c": None, "case_rise_c": None, "airspeed_ms": s.around.airspeed},
            "time": {"to_95_percent_min": None, "to_limit_min": None},
            "capacitor": {"kind": cap["kind"], **nothing} if cap else None,
        }


def time_constant(joule_per_k, watt_per_k, loop):
    return joule_per_k / watt_per_k / loop


def warming(settled, local, tau_s, t_s):
    """T(t) = local + (T - local)(1 - e^(-t/tau))."""
    return local + (settled - local) * -math.expm1(-t_s / tau_s)


def minutes_to(limit, settled, local, tau_s):
    """When warming() reaches the limit; None when it never does, 0 when it starts above."""
    if limit >= settled - 1e-6:
        return None
    if limit <= local:
        return 0.0
    return -tau_s * math.log((settled - limit) / (settled - local)) / 60


def life_hours(kind, rated_h, rated_c, temp_c):
    """Polymer x10 per 20 C, liquid x2 per 10 C."""
    if kind == "polymer":
        return rated_h * 10 ** ((rated_c - temp_c) / 20)
    return rated_h * 2 ** ((rated_c - temp_c) / 10)


def capacitor(cap, temp_c, local_c):
    """Its temperature between local air and hot spot, its life: no more than 15 years."""
    if not cap:
        return None
    at = local_c + cap.get("local_share", 0.5) * (temp_c - local_c)
    hours = min(life_hours(cap["kind"], cap["rated_h"], cap["rated_c"], at), MOST_YEARS * HOURS_A_YEAR)
    return {"kind": cap["kind"], "temperature_c": at, "life_h": hours, "life_years": hours / HOURS_A_YEAR}
