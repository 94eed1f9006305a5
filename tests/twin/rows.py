"""Which rows of a table follow from the row above as it was written, worked out from the description alone."""

import json
import sys

from hardware import Machine


def schedule(machine):
    """The cycles that may come, in their order: what asks whether to go on, the step, whether it is the last round."""
    for part in machine.schedule:
        for at in range(part.count):
            last = int(not part.goes_on and part.loop and at == part.count - 1)
            for index, step in enumerate(part.steps):
                yield part, at, index, step, last


def standings(machine, operands, rows):
    """R, F or W for each row: as the machine has it, right given the row above, or neither; then how many are missing, or extra."""
    walked = [registers for _, _, registers, _ in machine.walk(operands)]
    said = ["R" if rows[0] == walked[0] else "W"]
    own, at, ended = rows[0], 1, None
    missing = 0
    for part, _, index, step, last in schedule(machine):
        if ended is part:
            continue
        if index == 0 and part.goes_on and not part.goes_on(own):
            ended = part
            continue
        after = step(own, last, [], [])
        if at >= len(rows):
            own, missing = after, missing + 1
            continue
        row = rows[at]
        right = at < len(walked) and row == walked[at]
        said.append("W" if row != after else "R" if right else "F")
        own, at = row, at + 1
    return "".join(said), missing, len(rows) - len(said)


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        asked = json.load(file)
    machines = {
        name: Machine(text, asked["texts"].__getitem__, {n: int(w) for n, w in asked["widths"][name].items()})
        for name, text in asked["texts"].items()
        if name in asked["widths"]
    }
    print(json.dumps([list(standings(machines[t["machine"]], t["operands"], t["rows"])) for t in asked["tables"]]))


main()
