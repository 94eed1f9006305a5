"""Reads machines with what Reckoner says of them, a JSON document a line, and says where it finds something else."""

import json
import sys

import claims
import conditions
from hardware import Machine, as_number


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        tasks = [json.loads(line) for line in file]
    for task in tasks:
        judge = Judge(task)
        try:
            judge.all()
        except Exception as error:  # whatever this reader cannot do is told and counted as a disagreement
            judge.wrong.append(f"{type(error).__name__}: {error}")
        print(json.dumps({"seed": task["seed"], "compared": judge.compared, "wrong": judge.wrong[:8]}), flush=True)


class Judge:
    def __init__(self, task):
        self.task, self.compared, self.wrong = task, {}, []

    def machine(self, widths, text=None):
        find = self.task["beside"].__getitem__
        return Machine(text or self.task["text"], find, {k: int(v) for k, v in widths.items()})

    def all(self):
        for document in self.task["documents"]:
            getattr(self, document["kind"])(document)

    def same(self, what, theirs, ours):
        self.compared[what] = self.compared.get(what, 0) + 1
        if theirs != ours:
            self.wrong.append(f"{what}: Reckoner says {json.dumps(theirs)}, the twin {json.dumps(ours)}")

    # ---- walks

    def walk(self, document):
        said = document["said"]
        machine = self.machine(said["width"])
        numbers = [int(said["operands"][name]) for name, _, _ in machine.operands]
        rows = machine.walk([n % (1 << width) for n, (_, width, _) in zip(numbers, machine.operands)])
        self.same("cycles", said["cycles"], len(rows) - 1)
        for theirs, (name, seen, registers, _) in zip(said["rows"], rows):
            where = f"registers at cycle {theirs['cycle']}"
            self.same(f"registers", (where, theirs["registers"]), (where, self.shown(machine, registers)))
            self.same("steps", theirs["step"], name)
            for moment, at in zip(theirs["moments"], seen):
                self.same("moments", (where, moment["registers"]), (where, self.shown(machine, at)))
        results = machine.outcome(rows[-1][2])
        self.same("results", said["results"], {n: str(r) for (n, _, _), r in zip(machine.results, results)})
        names = dict(machine.numbers)
        names.update(zip((n for n, _, _ in machine.operands), numbers))
        given = claims.is_given(machine, names)
        self.same("given", said["given"], given)
        names.update(zip((n for n, _, _ in machine.results), results))
        judged = [claims.holds(c, names) for c in (machine.tree.laws if given else machine.tree.outside)]
        self.same("claims", [c["holds"] for c in said["laws" if given else "outside"]], judged)

    def shown(self, machine, registers):
        return {name: format(bits, f"0{width}b") for (name, width, _), bits in zip(machine.registers, registers)}

    # ---- every operand

    def check(self, document):
        said = document["said"]
        machine = self.machine(said["width"])
        outcomes = claims.Outcomes(machine)
        before = None
        if machine.tree.follows:
            text = self.task["beside"][machine.tree.follows]
            before = claims.Outcomes(self.machine(said["width"], text))
        ours = claims.check(outcomes, before)
        self.same("sections", [s["name"] for s in said["sections"]], [s["name"] for s in ours])
        for theirs, mine in zip(said["sections"], ours):
            name = theirs["name"]
            self.same("cases", (name, theirs["cases"]), (name, str(mine["cases"])))
            self.same("failures", (name, theirs["failures"]), (name, str(mine["failures"])))
            self.same("smallest", (name, self.case(theirs["smallest"])), (name, self.named(machine, mine["smallest"])))
            self.expected(machine, theirs["smallest"])
        if "averages" in said:
            lengths = {int(d["cycles"]): int(d["cases"]) for d in said["averages"].get("distribution", [])}
            if lengths:
                self.same("distribution", sorted(lengths.items()), sorted(claims.averages(outcomes).items()))

    def case(self, smallest):
        return smallest and [smallest["operands"], smallest["results"]]

    def named(self, machine, found):
        if found is None:
            return None
        operands = {name: str(n) for (name, _, _), n in zip(machine.operands, found[0])}
        return [operands, {name: str(r) for (name, _, _), r in zip(machine.results, found[1])}]

    def expected(self, machine, smallest):
        """The results that are expected satisfy the laws."""
        if not smallest or not smallest.get("expected"):
            return
        names = dict(machine.numbers)
        for part in ("operands", "expected"):
            names.update({k: int(v) for k, v in smallest[part].items()})
        self.same("expected", True, all(claims.holds(c, names) for c in machine.tree.laws))

    def idle(self, document):
        said = document["said"]
        if said["judged"] != "over all operands":
            return
        machine = self.machine(said["width"])
        ours = claims.idle(claims.Outcomes(machine))
        self.same("idle rows", len(said["rows"]), len(ours))
        for theirs, (cases, marks) in zip(said["rows"], ours):
            where = f"cycle {theirs['cycle']}"
            self.same("idle cases", (where, theirs["cases"]), (where, str(cases)))
            self.same("idle bits", (where, theirs["registers"]), (where, marks))

    # ---- slips

    def slips(self, document):
        said = document["said"]
        right = claims.Outcomes(self.machine(said["width"]))
        self.same("slip cases", said["cases"], str(sum(given for _, _, given, _, _, _ in right.each)))
        for slip in said["slips"]:
            text = document["texts"].get(slip["name"])
            if text is not None:
                self.slip(said, slip, right, text)

    def slip(self, said, slip, right, text):
        name = slip["name"]
        exposing = self.exposing(right, claims.Outcomes(self.machine(said["width"], text)))
        self.same("slips", (name, slip["exposed"]), (name, str(sum(e for e, *_ in exposing))))
        least = min((x for x in exposing if x[0]), key=lambda x: claims.order(x[1]), default=None)
        ours = least and self.named(right.machine, (least[1], least[2]))
        self.same("slip smallest", (name, self.case(slip["smallest"])), (name, ours))
        if "exactly_when" not in slip:
            return
        self.exactly(name, slip["exactly_when"], right, exposing, True)
        if slip.get("exactly_when_at_next_width") is None:
            return
        next_right = claims.Outcomes(self.machine(said["next_width"]))
        wrong = claims.Outcomes(self.machine(said["next_width"], text))
        self.exactly(name, slip["exactly_when"], next_right, self.exposing(next_right, wrong), slip["exactly_when_at_next_width"])

    def exposing(self, right, wrong):
        """For each operand inside "given": whether its results differ, what they are, and what may be said of it."""
        found = []
        for (_, numbers, given, results, names, rows), (_, _, _, slipped, _, _) in zip(right.each, wrong.each):
            if given:
                found.append((results != slipped, numbers, slipped, names, [told for _, _, _, told in rows]))
        return found

    def exactly(self, name, condition, right, exposing, holds):
        decisions = []
        walk(right.machine.tree, decisions)
        try:
            said = conditions.read(condition)
            meets = all(bool(said((names, told, decisions))) == wrong for wrong, _, _, names, told in exposing)
        except conditions.Unknown:
            self.compared["conditions of other kinds"] = self.compared.get("conditions of other kinds", 0) + 1
            return
        self.same("exactly when", (name, condition, holds), (name, condition, meets))


def walk(tree, found):
    """The texts of all conditions of "if"."""
    for segment in tree.schedule:
        for step in segment.steps:
            for moment in step.moments:
                conditions_in(moment, found)


def conditions_in(statements, found):
    for s in statements:
        if s[0] == "if":
            found.append(" ".join(s[4]))
            conditions_in(s[2], found)
            conditions_in(s[3], found)
        elif s[0] == "case":
            for _, inner in s[2]:
                conditions_in(inner, found)


if __name__ == "__main__":
    sys.exit(main())
