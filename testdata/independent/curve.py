"""The monotone cubic of Fritsch and Butland (1984), with the end slopes of gonum's interp."""


class MonotoneCubic:
    """A cubic Hermite curve through the points; call it inside them only."""

    def __init__(self, xs, ys):
        self.xs, self.ys = [float(x) for x in xs], [float(y) for y in ys]
        self.slopes = slopes(self.xs, self.ys)

    def __call__(self, x):
        xs, ys, d = self.xs, self.ys, self.slopes
        i = 0
        while i < len(xs) - 2 and x > xs[i + 1]:
            i += 1
        if x in (xs[i], xs[i + 1]):
            return ys[i] if x == xs[i] else ys[i + 1]
        h = xs[i + 1] - xs[i]
        t = (x - xs[i]) / h
        # Hermite basis rather than powers of (x - x_i)
        return (
            ys[i] * (1 + 2 * t) * (1 - t) ** 2
            + ys[i + 1] * t * t * (3 - 2 * t)
            + h * t * (1 - t) * (d[i] * (1 - t) - d[i + 1] * t)
        )


def slopes(xs, ys):
    h = [b - a for a, b in zip(xs, xs[1:])]
    secant = [(b - a) / step for a, b, step in zip(ys, ys[1:], h)]
    if len(secant) == 1:
        return [secant[0], secant[0]]
    inner = [interior(*four) for four in zip(h, h[1:], secant, secant[1:])]
    first = edge(h[0], h[1], secant[0], secant[1])
    last = edge(h[-1], h[-2], secant[-1], secant[-2])
    return [first] + inner + [last]


def interior(h0, h1, s0, s1):
    """Weighted harmonic mean 3(h0+h1)/((2 h1 + h0)/s0 + (h1 + 2 h0)/s1), 0 at a turn."""
    if s0 * s1 <= 0:
        return 0.0
    return 3 * (h0 + h1) / ((2 * h1 + h0) / s0 + (h1 + 2 * h0) / s1)


def edge(h_edge, h_inner, s_edge, s_inner):
    """Three-point end slope ((2 h_e + h_i) s_e - h_e s_i)/(h_e + h_i), kept monotone."""
    g = ((2 * h_edge + h_inner) * s_edge - h_edge * s_inner) / (h_edge + h_inner)
    if g * s_edge <= 0:
        return 0.0
    if s_edge * s_inner <= 0 and abs(g) > 3 * abs(s_edge):
        return 3 * s_edge
    return g
