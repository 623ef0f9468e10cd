#!/usr/bin/env python3
"""An independent reading of the heat model, to check the Go one against.

usage: model.py KNOWLEDGE_DIR [QUESTIONS.json] [--learn] [--lessons]
       model.py --selftest

Questions are a JSON array in the file or on standard input; results are a JSON
array on standard output. --learn uses the runs; --lessons prints what was
learned from them instead of answering.
"""

import sys

sys.dont_write_bytecode = True

import argparse
import json

import selftest
from answer import Advisor
from balance import Hardware
from knowledge import Knowledge
from learn import Learned, PartsOnly


def load(folder, learn):
    knowledge = Knowledge(folder)
    hardware = {
        board["id"]: Hardware(board, knowledge.get("stage", board["regulator"]["stage"]))
        for board in knowledge.lists["board"]
    }
    return Advisor(knowledge, hardware, Learned(knowledge, hardware) if learn else PartsOnly())


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", nargs="?")
    parser.add_argument("questions", nargs="?")
    parser.add_argument("--learn", action="store_true")
    parser.add_argument("--lessons", action="store_true")
    parser.add_argument("--selftest", action="store_true")
    args = parser.parse_args()
    if args.selftest:
        return selftest.run(sys.stdout)
    if not args.folder:
        parser.error("name a knowledge folder")
    advisor = load(args.folder, args.learn or args.lessons)
    if args.lessons:
        print(json.dumps(advisor.lessons.summary(), indent=1))
        return 0
    if args.questions:
        with open(args.questions, encoding="utf-8") as file:
            questions = json.load(file)
    else:
        questions = json.load(sys.stdin)
    print(json.dumps([advisor.answer(q) for q in questions], indent=1, allow_nan=False))
    return 0


if __name__ == "__main__":
    sys.exit(main())
