"""The twin against walks worked out by hand (tests/cases/notation) and recorded before (tests/cases/twin): says where it differs."""

import glob
import os
import re
import sys

import notation
from hardware import Machine

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.join(HERE, "..", "..")
MOST_OF_EACH = 40


def machines():
    places = ["src/Reckoner/Catalogue/*/*.machine", "tests/cases/notation/*.machine", "tests/cases/twin/machines/*.machine"]
    for place in places:
        for path in glob.glob(os.path.join(ROOT, place)):
            with open(path, encoding="utf-8") as file:
                yield os.path.basename(path)[: -len(".machine")], file.read()


def walks(text):
    """Each walk: what it was asked for, and its lines without the names of steps."""
    for match in re.finditer(r"^walk!? (.*)\n((?:(?!end\n).*\n)*)end\n", text, re.MULTILINE):
        asked = dict(word.split("=") for word in match.group(1).split())
        yield asked, re.sub(r" @\S+", "", match.group(2)).splitlines()


def ours(machine, asked):
    def registers(bits):
        return " ".join(f"{name}={b:0{width}b}" for (name, width, _), b in zip(machine.registers, bits))

    rows = machine.walk([int(asked[name]) % (1 << width) for name, width, _ in machine.operands])
    for cycle, (_, seen, at_edge, _) in enumerate(rows):
        for moment, at in enumerate(seen[:-1], 1):
            yield f"{cycle}.{moment} {registers(at)}"
        yield f"{cycle} {registers(at_edge)}"
    results = zip(machine.results, machine.outcome(rows[-1][2]))
    yield " ".join(["="] + [f"{name}={number}" for (name, _, _), number in results])


def main(share=1, shares=1):
    """Compares all, or the given share of those of each machine (1 is the first)."""
    known = dict(machines())
    compared = total = 0
    paths = glob.glob(os.path.join(ROOT, "tests/cases/notation/*.expected")) + glob.glob(
        os.path.join(ROOT, "tests/cases/twin/*.walks")
    )
    for path in sorted(paths):
        name = os.path.basename(path).rsplit(".", 1)[0]
        symbols = [symbol for symbol, _ in notation.description(known[name]).symbols]
        with open(path, encoding="utf-8") as file:
            recorded = list(walks(file.read()))
        total += len(recorded[:MOST_OF_EACH])
        for asked, lines in recorded[:MOST_OF_EACH][share - 1 :: shares]:
            widths = {s: int(asked[s]) for s in symbols if s in asked}
            compared += 1
            if list(ours(Machine(known[name], known.__getitem__, widths), asked)) != lines:
                print(f"differs: {name} {asked}")
    print(f"{compared} of {total} walks compared")


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
