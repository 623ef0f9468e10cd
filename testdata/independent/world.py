#!/usr/bin/env python3
"""Writes a random, valid knowledge folder and questions that reach every regime.

usage: world.py SEED DIR [--boards N] [--questions N] [--runs]

Everything is invented. The same seed writes the same bytes.
"""

import sys

sys.dont_write_bytecode = True

import argparse
import csv
import json
import pathlib
import random

from worldruns import COLUMNS, runs

SHAPES = ("block", "finned", "fin-stack", "none")
# Boards made to reach one regime each; the rest are ordinary.
EXTREMES = ("feeble", "furnace", "throttles", "crippled", "edge")


# ---- writing TOML ----------------------------------------------------------


def literal(value):
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Date):
        return str(value)
    return json.dumps(value)


class Date(str):
    """Written without quotes."""


def table(name, item):
    """One [[name]] with its [name.sub] tables and [[name.list]] rows."""
    plain = [(k, v) for k, v in item.items() if not is_table(v)]
    lines = [f"[[{name}]]"] + [f"{k} = {literal(v)}" for k, v in plain]
    for key, value in item.items():
        if isinstance(value, dict):
            lines += [f"[{name}.{key}]"] + [f"{k} = {literal(v)}" for k, v in value.items()]
        elif is_table(value):
            for row in value:
                lines += [f"[[{name}.{key}]]"] + [f"{k} = {literal(v)}" for k, v in row.items()]
    return "\n".join(lines) + "\n"


def is_table(value):
    return isinstance(value, dict) or (isinstance(value, list) and value and isinstance(value[0], dict))


def write(path, tables):
    path.write_text("\n".join(table(name, item) for name, item in tables), encoding="utf-8")


# ---- the pieces --------------------------------------------------------------


class Maker:
    """Draws the pieces of a world from one stream of random numbers."""

    def __init__(self, rng):
        self.rng = rng

    def between(self, low, high, digits=3):
        return round(self.rng.uniform(low, high), digits)

    def maybe(self, item, key, chance, value):
        """Sets an optional key sometimes; draws either way."""
        if self.rng.random() < chance:
            item[key] = value

    def chip(self, number, socket):
        count = 2 + number % 7
        size = self.rng.choice((0.45, 1.0, 1.0, 1.8, 2.6))  # of the whole chip's appetite
        chip = {
            "id": f"c{number}", "name": f"Chip {number}", "maker": "Invented", "socket": socket,
            "cores": 8, "threads": 16, "source": "invented",
            "idle_w": self.between(8, 25, 1), "point": [],
        }
        ghz = self.between(1.0, 2.4, 2)
        volts, watts = self.between(0.65, 0.85), self.between(32, 50, 1) * size + chip["idle_w"]
        for k in range(count):
            chip["point"].append({"ghz": round(ghz, 3), "volts": round(volts, 4), "watts": round(watts, 2)})
            ghz += self.rng.uniform(0.25, 0.9) * 5 / (count + 2)
            rise = 1 + self.rng.uniform(0.0, 0.30) / count if self.rng.random() < 0.85 else 1.0
            volts = round(volts * rise, 4)
            # watts/volts must rise too
            watts = watts * rise * (1 + self.rng.uniform(0.12, 1.8) / count)
        points = chip["point"]
        stock = self.rng.randrange(max(1, count - 2), count)
        low, high = points[stock - 1]["ghz"], points[stock]["ghz"]
        chip["all_core_ghz"] = high if self.rng.random() < 0.5 else self.between(low + 0.01, high, 2)
        chip["all_core_ghz"] = min(max(chip["all_core_ghz"], points[0]["ghz"]), points[-1]["ghz"])
        top = points[stock]
        chip["rated_power_w"] = round(top["watts"] * self.rng.uniform(0.45, 1.15), 1)
        chip["current_max_a"] = round(0.92 * top["watts"] / top["volts"] * self.rng.uniform(0.5, 1.2), 1)
        self.maybe(chip, "core_share", 0.5, self.between(0.75, 0.98, 2))
        self.maybe(chip, "tunable", 0.7, True)
        self.maybe(chip, "temp_max_c", 0.7, 95.0)
        self.maybe(chip, "burst_power_w", 0.3, round(chip["rated_power_w"] * 1.4, 1))
        return chip

    def discrete(self, number):
        stage = {
            "id": f"s{number}", "name": f"Stage {number}", "kind": "discrete",
            "temp_max_c": float(self.rng.choice((125, 150, 175))), "source": "invented",
            "high_count": self.rng.randint(1, 2), "low_count": self.rng.randint(1, 3),
            "high_mohm": self.between(2.5, 9, 2), "low_mohm": self.between(0.9, 4.5, 2),
            "rise_ns": self.between(3, 14, 1), "fall_ns": self.between(3, 12, 1),
            "high_gate_nc": self.between(5, 15, 1), "low_gate_nc": self.between(12, 40, 1),
            "drive_v": self.rng.choice((5.0, 8.0, 12.0)), "dead_ns": self.between(8, 30, 1),
            "diode_v": self.between(0.6, 0.9, 2), "high_out_nc": self.between(5, 20, 1),
            "low_out_nc": self.between(10, 40, 1), "recovery_nc": self.between(0, 40, 1),
        }
        return self.options(stage)

    def integrated(self, number):
        stage = {
            "id": f"s{number}", "name": f"Stage {number}", "kind": "integrated",
            "temp_max_c": float(self.rng.choice((125, 150))), "source": "invented",
            "vin_v": 12.0, "vout_v": self.between(1.0, 1.8, 2),
            "khz": float(self.rng.choice((300, 500, 600))), "temp_c": float(self.rng.choice((25, 75, 100))),
            "loss": [],
        }
        amps, watts = self.between(3, 12, 1), self.between(0.5, 1.2, 2)
        for _ in range(self.rng.randint(2, 7)):
            stage["loss"].append({"amps": round(amps, 1), "watts": round(watts, 3)})
            step = self.rng.uniform(4, 14)
            amps, watts = amps + step, watts + step * (0.04 + 0.004 * amps) * self.rng.uniform(0.6, 1.4)
        return self.options(stage)

    def options(self, stage):
        self.maybe(stage, "rds_per_k", 0.3, self.between(0.003, 0.006, 4))
        self.maybe(stage, "junction_k_per_w", 0.3, self.between(1, 8, 1))
        self.maybe(stage, "derating_c", 0.3, self.between(0, 35, 1))
        self.maybe(stage, "switching_share", 0.3 if stage["kind"] == "integrated" else 0.1, self.between(0.3, 0.8, 2))
        return stage

    def board(self, number, socket, stages, extreme):
        shape = SHAPES[number % len(SHAPES)] if number % 8 != 7 else "finned"
        board = {
            "id": f"b{number}", "name": f"Board {number}", "maker": "Invented", "socket": socket,
            "format": "ATX", "released": Date("2024-05-01"), "source": "invented",
            "estimated": ["regulator.switching_khz"],
            "limit": self.shipped(), "regulator": self.regulator(stages), "heatsink": self.heatsink(shape),
        }
        if self.rng.random() < 0.75:
            board["capacitor"] = self.capacitor()
        self.maybe(board, "tunable", 0.7, True)
        self.maybe(board, "area_cm2", 0.3, self.between(60, 180, 0))
        self.maybe(board, "laminate_c", 0.3, float(self.rng.choice((90, 105, 120, 150))))
        self.maybe(board, "socket_k_per_w", 0.3, self.between(0.03, 0.14))
        if extreme:
            EXTREME[extreme](board)
        return board

    def shipped(self):
        limit = {}
        self.maybe(limit, "power_w", 0.5, self.between(65, 330, 0))
        self.maybe(limit, "current_a", 0.5, self.between(60, 320, 0))
        self.maybe(limit, "hot_spot_c", 0.6, self.between(85, 120, 0))
        self.maybe(limit, "chip_power_w", 0.3, self.between(95, 260, 0))
        return limit

    def regulator(self, stages):
        regulator = {
            "phases": self.rng.choice((4, 6, 8, 10, 12, 16)), "stage": self.rng.choice(stages)["id"],
            "switching_khz": self.between(250, 700, 0), "inductor_nh": self.between(120, 470, 0),
            "inductor_mohm": self.between(0.2, 0.9, 2),
        }
        self.maybe(regulator, "core_loss_w", 0.6, self.between(0.05, 0.5, 2))
        self.maybe(regulator, "plane_mohm", 0.6, self.between(0.05, 0.35, 2))
        self.maybe(regulator, "input_v", 0.2, self.between(11.4, 12.6, 1))
        return regulator

    def heatsink(self, shape):
        sink = {"shape": shape}
        if shape == "none":
            return sink
        which = self.rng.choice(("mass", "area", "both"))
        if which != "area":
            sink["mass_g"] = self.between(40, 420, 0)
        if which != "mass":
            sink["area_cm2"] = self.between(90, 1400, 0)
        self.maybe(sink, "height_mm", 0.6, self.between(12, 60, 0))
        self.maybe(sink, "pad_k_per_w", 0.4, self.between(0.1, 0.8, 2))
        self.maybe(sink, "factor", 0.3, self.between(0.6, 1.0, 2))
        return sink

    def capacitor(self):
        capacitor = {
            "kind": self.rng.choice(("polymer", "liquid")), "rated_c": 105.0,
            "rated_h": float(self.rng.choice((2000, 5000, 10000))),
        }
        self.maybe(capacitor, "local_share", 0.4, self.between(0.2, 0.9, 2))
        return capacitor

    def surroundings(self):
        yield "enclosure", {"id": "open-bench", "name": "Open bench"}
        yield "enclosure", {"id": "open-breeze", "name": "Open bench and a fan", "airspeed_ms": self.between(0.5, 3, 2)}
        for k in range(1, 6):
            case = {"id": f"e{k}", "name": f"Case {k}", "flow_m3h": self.between(10, 140, 1)}
            self.maybe(case, "airspeed_ms", 0.7, self.between(0, 2.5, 2))
            self.maybe(case, "other_w", 0.6, self.between(0, 90, 0))
            self.maybe(case, "default", 1.0 if k == 2 else 0.0, True)
            yield "enclosure", case
        yield "enclosure", {"id": "cupboard", "name": "Shut cupboard", "flow_m3h": 6.0, "other_w": 40.0}
        yield "cooler", {"id": "plain", "name": "Cooler with nothing stated"}
        for k in range(1, 4):
            yield "cooler", {
                "id": f"k{k}", "name": f"Cooler {k}", "heat_into_case_share": self.between(0, 1, 2),
                "airspeed_ms": self.between(0, 4, 2),
            }
        yield "load", {"id": "render", "name": "Render", "activity": 1.0, "default": True}
        for name in ("compile", "gaming", "office"):
            span = {"compile": (0.7, 0.95), "gaming": (0.35, 0.7), "office": (0.03, 0.3)}[name]
            yield "load", {"id": name, "name": name, "activity": self.between(*span, 2)}
        yield "room", {"word": "mild", "celsius": 21.0, "source": "invented"}
        yield "room", {"word": "hot", "celsius": 30.0, "source": "invented", "default": True}
        yield "thermometer", {"id": "t1", "class_c": 1.5, "class_percent": 0.4, "note": "class 1"}
        yield "thermometer", {"id": "t2", "class_c": 2.2, "class_percent": 0.75, "note": "standard"}
        yield "thermometer", {"id": "t3", "class_c": 0.5, "note": "constant"}


def feeble(board):
    """Meets its first point's limits: the throttle temperature is very low."""
    board["limit"]["hot_spot_c"] = 62.0
    board["regulator"]["phases"] = 4


def furnace(board):
    """Cannot settle under a large load, and states no throttle temperature."""
    board["limit"].pop("hot_spot_c", None)
    board["regulator"].update(phases=2, plane_mohm=0.4, inductor_mohm=0.9)
    board["heatsink"] = {"shape": "none"}


def throttles(board):
    """Lowers its clock for temperature most of the time."""
    board["limit"]["hot_spot_c"] = 88.0
    board["regulator"].update(phases=4, plane_mohm=0.3)
    board["heatsink"] = {"shape": "block", "mass_g": 90.0}


def crippled(board):
    """States a throttle temperature but cannot settle at a large load."""
    furnace(board)
    board["limit"]["hot_spot_c"] = 105.0


def edge(board):
    """Caps that even a first point breaks."""
    board["limit"].update(power_w=30.0, current_a=25.0)


EXTREME = {"feeble": feeble, "furnace": furnace, "throttles": throttles, "crippled": crippled, "edge": edge}


# ---- questions ---------------------------------------------------------------


class Asker:
    """Questions about one world."""

    def __init__(self, rng, boards, chips, around):
        self.rng, self.boards, self.chips = rng, boards, chips
        self.enclosures = [x["id"] for kind, x in around if kind == "enclosure"]
        self.coolers = [x["id"] for kind, x in around if kind == "cooler"]
        self.loads = [x["id"] for kind, x in around if kind == "load"]

    def ask(self, number):
        rng = self.rng
        board = self.boards[number % len(self.boards)]
        fits = [c for c in self.chips if c["socket"] == board["socket"]]
        wrong = [c for c in self.chips if c["socket"] != board["socket"]]
        chip = rng.choice(wrong) if wrong and rng.random() < 0.02 else rng.choice(fits)
        question = {
            "board": board["id"], "chip": chip["id"],
            "room_c": rng.choice((-20.0, 60.0, None)) if rng.random() < 0.1 else round(rng.uniform(-15, 50), 1),
            "enclosure": self.some(self.enclosures), "cooler": self.some(self.coolers),
            "load": "render" if rng.random() < 0.4 else self.some(self.loads),
            "setup": rng.choice(("rated", "shipped", "shipped", "open", "open", "custom")),
            "power_w": None, "current_a": None, "ghz": self.target(chip),
            "graphics_w": self.number(0.5, 0, 450), "altitude_m": self.number(0.5, 0, 4000),
        }
        if question["setup"] == "custom":
            question.update(self.custom(chip))
        return question

    def some(self, ids):
        return None if self.rng.random() < 0.1 else self.rng.choice(ids)

    def number(self, chance, low, high):
        value = round(self.rng.uniform(low, high), 1)
        return value if self.rng.random() < chance else None

    def target(self, chip):
        first, last = chip["point"][0]["ghz"], chip["point"][-1]["ghz"]
        dice = self.rng.random()
        if dice < 0.5:
            return None
        if dice < 0.93:
            return round(self.rng.uniform(first + 0.005, last - 0.005), 2)
        return self.rng.choice((round(last + 0.3, 2), last, first, last, round(first - 0.1, 2)))

    def custom(self, chip):
        top = chip["point"][-1]
        power = round(top["watts"] * self.rng.uniform(0.15, 1.3), 1)
        current = round(top["watts"] / top["volts"] * self.rng.uniform(0.15, 1.3), 1)
        kind = self.rng.choice(("power", "current", "both"))
        return {"power_w": None if kind == "current" else power, "current_a": None if kind == "power" else current}


# ---- the world -----------------------------------------------------------------


def world(seed, folder, board_count, question_count, with_runs):
    rng = random.Random(seed)
    make = Maker(rng)
    sockets = ("alpha", "beta")
    chips = [make.chip(k, sockets[0] if k < 6 else sockets[1]) for k in range(1, 9)]
    stages = [make.discrete(k) if k % 2 else make.integrated(k) for k in range(1, 9)]
    boards = []
    for k in range(1, board_count + 1):
        extreme = EXTREMES[k - 1] if k <= len(EXTREMES) else None
        socket = sockets[1] if k % 5 == 0 and k > 5 else sockets[0]
        boards.append(make.board(k, socket, stages, extreme))
    around = list(make.surroundings())
    folder.mkdir(parents=True, exist_ok=True)
    write(folder / "chips.toml", [("chip", c) for c in chips])
    write(folder / "stages.toml", [("stage", s) for s in stages])
    write(folder / "surroundings.toml", around)
    write_boards(folder, boards, split=rng.random() < 0.3)
    asker = Asker(rng, boards, chips, around)
    questions = [asker.ask(k) for k in range(question_count)]
    text = "[\n" + ",\n".join(json.dumps(q) for q in questions) + "\n]\n"
    (folder / "questions.json").write_text(text, encoding="utf-8")
    write_runs(folder / "runs.csv", [])
    if with_runs:
        write_runs(folder / "runs.csv", runs(rng, folder))


def write_boards(folder, boards, split):
    """Sometimes the last boards stand in extra/."""
    kept = len(boards) - 2 if split and len(boards) > 4 else len(boards)
    write(folder / "boards.toml", [("board", b) for b in boards[:kept]])
    more = folder / "extra" / "more.toml"
    if kept < len(boards):
        more.parent.mkdir(exist_ok=True)
        write(more, [("board", b) for b in boards[kept:]])
    elif more.exists():
        more.unlink()


def write_runs(path, rows):
    with open(path, "w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, COLUMNS, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("seed", type=int)
    parser.add_argument("folder", type=pathlib.Path)
    parser.add_argument("--boards", type=int, default=14)
    parser.add_argument("--questions", type=int, default=210)
    parser.add_argument("--runs", action="store_true")
    args = parser.parse_args()
    world(args.seed, args.folder, args.boards, args.questions, args.runs)
    return 0


if __name__ == "__main__":
    sys.exit(main())
