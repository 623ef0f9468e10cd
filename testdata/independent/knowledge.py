"""Reads a knowledge folder as plain dictionaries. No mistakes are looked for."""

import csv
import pathlib
import tomllib

KINDS = ("chip", "board", "stage", "enclosure", "cooler", "load", "room", "thermometer")
FILES = ("chips.toml", "boards.toml", "stages.toml", "surroundings.toml")


class Knowledge:
    """Everything in the folder: lists by kind in file order, and by id."""

    def __init__(self, folder):
        folder = pathlib.Path(folder)
        self.lists = {kind: [] for kind in KINDS}
        named = [folder / name for name in FILES]
        for path in named + sorted((folder / "extra").glob("*.toml")):
            if path.exists():
                self._add(tomllib.loads(path.read_text(encoding="utf-8")))
        self.ids = {
            kind: {item["id"]: item for item in items if "id" in item}
            for kind, items in self.lists.items()
        }
        self.runs = read_runs(folder / "runs.csv")

    def _add(self, tables):
        for kind in KINDS:
            self.lists[kind] += tables.get(kind, [])

    def get(self, kind, ident):
        """The item with this id; without an id the default of its kind:
        the one marked default, otherwise the first."""
        if ident:
            return self.ids[kind][ident]
        items = self.lists[kind]
        marked = [item for item in items if item.get("default")]
        return (marked or items)[0]


def read_runs(path):
    """The rows of runs.csv; numbers as floats, empty cells as None."""
    if not path.exists():
        return []
    with open(path, encoding="utf-8-sig", newline="") as file:
        return [
            {key: cell(key, text) for key, text in row.items()}
            for row in csv.DictReader(file)
        ]


NUMBERS = {
    "power_limit_w", "current_limit_a", "room_c", "graphics_w", "altitude_m",
    "minutes", "ghz", "volts", "package_w", "hot_c",
}


def cell(key, text):
    text = (text or "").strip()
    if text == "":
        return None
    return float(text) if key in NUMBERS else text
