"""The heat balance T = local + b + theta1 loss/G + theta2 psi P (section 6)."""

from physics import HeatPath, Regulator

TOP_C = 250.0
STEP_C = 2.5  # of the scan for the smallest root


class Hardware:
    """A board with its stage, prepared once."""

    def __init__(self, board, stage):
        self.board, self.stage = board, stage
        self.regulator = Regulator(board, stage)
        self.heat = HeatPath(board)
        self.psi = board.get("socket_k_per_w", 0.08)


class Situation:
    """One board at one package power in one place; everything but T is fixed."""

    def __init__(self, hardware, around, package_w, amps, volts):
        self.hw, self.around = hardware, around
        self.package_w, self.amps, self.volts = package_w, amps, volts
        self.x2 = hardware.psi * package_w

    def loss(self, temp_c):
        return self.hw.regulator.loss(self.volts, self.amps, temp_c)

    def local(self, temp_c):
        """Local air depends on T through the regulator's own loss."""
        return self.around.local(self.package_w, self.loss(temp_c)[0])

    def conductance(self, temp_c):
        return self.hw.heat.conductance(temp_c, self.local(temp_c), self.around.airspeed, self.around.p)

    def x(self, temp_c):
        """The regression row (1, loss/G, psi P)."""
        return [1.0, self.loss(temp_c)[0] / self.conductance(temp_c), self.x2]

    def right(self, temp_c, theta):
        """The right side of the balance."""
        loss, _ = self.loss(temp_c)
        local = self.around.local(self.package_w, loss)
        g = self.hw.heat.conductance(temp_c, local, self.around.airspeed, self.around.p)
        return local + theta[0] + theta[1] * loss / g + theta[2] * self.x2

    def settle(self, theta):
        """The smallest root between the room and 250 C, or None when there is none."""

        def f(t):
            return t - self.right(t, theta)

        return smallest_root(f, self.around.room_c, TOP_C)

    def gain(self, temp_c, theta):
        """g: total slope of the right side in T, central differences with Richardson."""

        def slope(h):
            return (self.right(temp_c + h, theta) - self.right(temp_c - h, theta)) / (2 * h)

        return (4 * slope(0.05) - slope(0.1)) / 3


def smallest_root(f, low, high):
    """The first rise of f through zero, by scan and bisection. f < 0 means still
    warming. A hump that the scan's nodes miss is looked for where they peak."""
    if f(low) >= 0:
        return low
    count = max(2, int((high - low) / STEP_C) + 1)
    ts = [low + (high - low) * k / count for k in range(count + 1)]
    before, here = None, f(low)
    for k in range(1, count + 1):
        after = f(ts[k])
        if before is not None and before < here >= after:
            peak = summit(f, ts[k - 2], ts[k])
            if f(peak) >= 0:
                return bisect(f, ts[k - 2], peak)
        if after >= 0:
            return bisect(f, ts[k - 1], ts[k])
        before, here = here, after
    return None


def summit(f, low, high):
    """The highest point of f by golden section."""
    ratio = 0.6180339887498949
    for _ in range(50):
        a, b = high - ratio * (high - low), low + ratio * (high - low)
        if f(a) < f(b):
            low = a
        else:
            high = b
    return 0.5 * (low + high)


def bisect(f, low, high):
    while high - low > 1e-10:
        middle = 0.5 * (low + high)
        if middle in (low, high):
            break
        if f(middle) < 0:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)
