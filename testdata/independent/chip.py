"""What the chip draws and the clock that the caps allow (section 3)."""

import math

from curve import MonotoneCubic

SLACK = 1e-9  # relative: a cap equal to the draw is respected whatever the last bit says
STEPS = 2000  # of the downward search for the highest clock inside the caps


class Chip:
    def __init__(self, chip):
        self.chip = chip
        points = chip["point"]
        ghz = [p["ghz"] for p in points]
        self.first, self.last = float(ghz[0]), float(ghz[-1])
        self.watts = MonotoneCubic(ghz, [p["watts"] for p in points])
        self.volts = MonotoneCubic(ghz, [p["volts"] for p in points])
        self.core_share = chip.get("core_share", 0.92)

    def draw(self, ghz, activity):
        """(package W, core A, V): P = idle + activity (watts - idle), I = core_share P / V."""
        idle = self.chip["idle_w"]
        package = idle + activity * (self.watts(ghz) - idle)
        volts = self.volts(ghz)
        return package, self.core_share * package / volts, volts

    def within(self, target, activity, power_cap, current_cap):
        """(clock, limited_by, first point breaks a cap): the highest clock <= target inside the caps."""

        def use(ghz):
            package, amps, _ = self.draw(ghz, activity)
            return package / power_cap, amps / current_cap

        def fits(ghz):
            return max(use(ghz)) <= 1 + SLACK

        if fits(target):
            return target, "chip", False
        # I(ghz) need not be monotone between the points, so search downwards.
        above = target
        for k in range(1, STEPS + 1):
            below = target - (target - self.first) * k / STEPS if k < STEPS else self.first
            if fits(below):
                clock = bisect_down(fits, below, above)
                return clock, binding(use(clock)), False
            above = below
        return self.first, binding(use(self.first)), True


def binding(used):
    """The cap that is used most; power when both are alike."""
    return "power" if used[0] >= used[1] else "current"


def bisect_down(good, low, high):
    """The highest x between a good low and a bad high."""
    for _ in range(60):
        middle = 0.5 * (low + high)
        if good(middle):
            low = middle
        else:
            high = middle
    return low


def caps(setup, question, chip, board):
    """(power cap W, current cap A) of the power setup; infinity where there is none."""
    rated = chip["rated_power_w"], chip["current_max_a"]
    limit = board.get("limit", {})
    if setup == "rated":
        return rated
    if setup == "shipped":
        return limit.get("power_w", rated[0]), limit.get("current_a", rated[1])
    if setup == "open":
        return math.inf, math.inf
    power, current = question.get("power_w"), question.get("current_a")
    return (math.inf if power is None else power), (math.inf if current is None else current)
