"""Runs of an invented world: the model with coefficients of each board's own, and noise."""

import math

from answer import Case
from balance import Hardware
from chip import Chip, bisect_down
from knowledge import Knowledge
from learn import PartsOnly

COLUMNS = (
    "id,date,board,chip,firmware,enclosure,cooler,thermometer,load,setup,power_limit_w,current_limit_a,"
    "room_c,graphics_w,altitude_m,minutes,ghz,volts,package_w,hot_c,outcome,by,note"
).split(",")

# How the world's boards truly scatter; not the model's prior on purpose.
MEAN, SPREAD, SCATTER_C = (5.0, 0.85, 1.15), (2.5, 0.20, 0.30), 1.6


class World(Case):
    """A question answered with a board's true coefficients."""

    def __init__(self, advisor, question, theta):
        k = advisor.knowledge
        chip = k.ids["chip"][question["chip"]]
        super().__init__(advisor, question, k.ids["board"][question["board"]], chip, Chip(chip), question["target"])
        self.theta = theta

    def run(self):
        """(clock, true temperature, outcome)."""
        clock, _, _ = self.curves.within(self.target, self.activity, *self.caps)
        hot = self.settle(clock)
        if self.throttle_c is None or not self.too_hot(hot):
            return clock, hot, "crashed" if hot is None else "settled"
        first = self.curves.first
        if self.too_hot(self.settle(first)):
            return first, None, "crashed"
        clock = bisect_down(lambda g: not self.too_hot(self.settle(g)), first, clock)
        return clock, self.settle(clock), "throttled"


class Bench:
    """What World needs of an advisor."""

    def __init__(self, folder):
        self.knowledge = Knowledge(folder)
        self.lessons = PartsOnly()
        self.hardware = {
            board["id"]: Hardware(board, self.knowledge.get("stage", board["regulator"]["stage"]))
            for board in self.knowledge.lists["board"]
        }


def runs(rng, folder):
    """Two to six runs of most boards."""
    bench = Bench(folder)
    rows = []
    for number, board in enumerate(bench.knowledge.lists["board"]):
        theta = truth(rng, number)
        if rng.random() < 0.2:
            continue
        for _ in range(rng.randint(2, 6)):
            rows.append(one(rng, bench, board, theta, len(rows) + 1))
    return rows


def truth(rng, number):
    """Ordinary scatter; one board in eight so odd that the bounds of the thetas bind."""
    theta = [rng.gauss(m, s) for m, s in zip(MEAN, SPREAD)]
    if number % 8 == 5:
        return [theta[0], 0.5, -0.6]
    if number % 8 == 6:
        return [theta[0], 0.03, 0.4]
    return [theta[0], max(theta[1], 0.3), max(theta[2], 0.1)]


def one(rng, bench, board, theta, number):
    k = bench.knowledge
    chip = rng.choice([c for c in k.lists["chip"] if c["socket"] == board["socket"]])
    question = {
        "board": board["id"], "chip": chip["id"], "room_c": round(rng.uniform(16, 38), 1),
        "enclosure": rng.choice(k.lists["enclosure"])["id"], "cooler": rng.choice(k.lists["cooler"])["id"],
        "load": rng.choice(("render", "render", "compile", "gaming")),
        "setup": rng.choice(("rated", "shipped", "open")), "target": chip["all_core_ghz"],
        "graphics_w": rng.choice((None, 0.0, round(rng.uniform(20, 300), 0))),
        "altitude_m": rng.choice((None, None, round(rng.uniform(0, 2500), 0))),
    }
    case = World(bench, question, theta)
    clock, hot, outcome = case.run()
    row = {key: question[key] for key in COLUMNS if question.get(key) is not None}
    row.update(
        id=f"r{number}", date="2025-03-01", firmware="1.0", outcome=outcome, by="invented", minutes=rng.randint(20, 60),
        thermometer=rng.choice(("t1", "t2", "t3", "")), power_limit_w=finite(case.caps[0]),
        current_limit_a=finite(case.caps[1]), note="",
    )
    if outcome == "crashed":
        return row
    package, _, volts = case.curves.draw(clock, case.activity)
    if outcome == "settled" and rng.random() < 0.08:
        row["outcome"] = "unsettled"
        hot -= rng.uniform(5, 15)
    noise = rng.gauss(0, math.hypot(SCATTER_C, 1.5 / math.sqrt(3), 1.0, 0.5))
    measured = max(round(hot + noise, 1), question["room_c"] + 1)
    row.update(ghz=round(clock, 3), volts=round(volts, 4), package_w=round(package, 1), hot_c=measured)
    return row


def finite(cap):
    return "" if math.isinf(cap) else cap
