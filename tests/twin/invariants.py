"""Reads what Reckoner printed of loops and holds it against the twin: every state that is reached, and every one that could be.

A line of the file names a machine ("name", "text", "beside", its "width"), what was printed ("parts", each with its "loops"), at which
widths all operands are run ("widths"), at which so many that are drawn ("drawn"), and at which every state is taken ("all"). Nothing is
believed of how the formulas were found.
"""

import json
import random
import re
import sys
from fractions import Fraction

import claims
from hardware import SIGNED, Machine, as_number, mask, product

PLACES = re.compile(r"^(\w+)\[(.+)\.\.(.+)\]$")


def python(text):
    """Widths and powers as they are printed: 2n, 2^(n-i+1), 1/2."""
    text = re.sub(r"(\d)([ni])\b", r"\1*\2", text)
    text = re.sub(r"\b(\d+)/(\d+)\b", r"Fraction(\1, \2)", text)
    text = re.sub(r"(?<![<>])=", "==", text)
    return re.sub(r"\b2\^", "Fraction(2)**", text).replace("^", "**")


class Invariant:
    """The formulas of one place of the schedule, each a Python function of n, i and the numbers of names."""

    def __init__(self, machine, formulas, pieces):
        self.machine, self.facts = machine, []
        self.read = {}
        for name, places in pieces.items():
            register, high, low = PLACES.match(places).groups()
            self.read[name] = (register, eval(f"lambda n, i: ({python(high)}, {python(low)})"))
        operands = [o[0] for o in machine.operands]
        names = sorted([*self.read, *operands], key=len, reverse=True)
        known = {f"N{k}": name for k, name in enumerate(names)}
        for formula in formulas:
            used, text = [], formula
            for key, name in known.items():
                for shown, found in ((f"[{name} < 0]", f"(V[{key}] < 0)"), (f"|{name}|", f"abs(V[{key}])"), (name, f"V[{key}]")):
                    pattern = re.escape(shown)
                    if shown == name:
                        pattern = rf"(?<![\w.]){pattern}(?![\w.\[])"
                    text, count = re.subn(pattern, found, text)
                    used += [name] if count else []
            function = eval(f"lambda n, i, V: {python(text)}", {"Fraction": Fraction, **known})
            self.facts.append((formula, used, function))

    def numbers(self, n, i, registers, operands):
        """The numbers of pieces and operands in a state."""
        found = dict(operands)
        for name, (register, places) in self.read.items():
            index, _, width, reading = self.machine.places[register]
            high, low = places(n, i)
            bits = registers[index] >> low & mask(high - low + 1)
            found[name] = as_number(bits, width, reading == SIGNED and (high, low) == (width - 1, 0))
        return found

    def broken(self, n, i, registers, operands):
        numbers = self.numbers(n, i, registers, operands)
        return [formula for formula, _, function in self.facts if not function(n, i, numbers)]


class Loops:
    """The loops of a machine with what is said of each."""

    def __init__(self, machine, part, n):
        self.machine, self.n, self.outside = machine, n, part["outside"]
        said = iter(part["loops"])
        self.parts = []
        for segment in machine.schedule:
            loop = next(said) if segment.loop else None
            self.parts.append((segment, loop and (self.of(loop, "head"), self.of(loop, "exit"))))

    def of(self, loop, place):
        return Invariant(self.machine, loop[place], loop["pieces"])

    def is_meant(self, numbers):
        return claims.is_given(self.machine, {**self.machine.numbers, **numbers}) != self.outside

    def names(self, operands):
        return dict(zip((o[0] for o in self.machine.operands), self.machine.numbers_of(operands)))

    def step(self, segment, registers, last):
        for step in segment.steps:
            registers = step(registers, last, [], [])
        return registers

    def trace(self, operands):
        """How many states a run has, and what does not hold in one of them."""
        numbers, states = self.names(operands), 0
        registers = self.machine.load(operands)
        for segment, said in self.parts:
            for at in range(segment.count):
                if said:
                    states += 1
                    if wrong := said[0].broken(self.n, at, registers, numbers):
                        return states, f"{numbers}, round {at}: {wrong}"
                registers = self.step(segment, registers, int(bool(said) and at == segment.count - 1))
            if said:
                states += 1
                if wrong := said[1].broken(self.n, 0, registers, numbers):
                    return states, f"{numbers}, behind the loop: {wrong}"
        return states, None

    def every(self):
        """Every state in which what is said at the head holds, reached or not, steps to one in which it holds again."""
        states = 0
        for segment, said in self.parts:
            if not said:
                continue
            for at in range(segment.count):
                last = int(at == segment.count - 1)
                for registers, numbers in self.satisfying(said[0], at):
                    states += 1
                    after = self.step(segment, registers, last)
                    wrong = said[last].broken(self.n, 0 if last else at + 1, after, numbers)
                    if wrong:
                        return states, f"{registers} with {numbers}, round {at}: {wrong}"
        return states, None

    def satisfying(self, head, at):
        """States, a register at a time; a formula is asked as soon as all that it names is there."""
        pieces = {}
        for name, (register, _) in head.read.items():
            pieces.setdefault(self.machine.places[register][0], []).append(name)
        asked = [[] for _ in self.machine.registers]
        for formula, used, function in head.facts:
            indices = [k for k in pieces if any(p in used for p in pieces[k])]
            asked[max(indices, default=0)].append(function)

        def further(registers, index, numbers):
            if index == len(self.machine.registers):
                yield tuple(registers), numbers
                return
            for bits in range(1 << self.machine.registers[index][1]):
                own = registers + [bits]
                known = head.numbers(self.n, at, own + [0] * (len(self.machine.registers) - len(own)), numbers)
                if all(function(self.n, at, known) for function in asked[index]):
                    yield from further(own, index + 1, numbers)

        for operands in product([range(1 << width) for _, width, _ in self.machine.operands]):
            numbers = self.names(operands)
            if self.is_meant(numbers):
                yield from further([], 0, numbers)


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        tasks = [json.loads(line) for line in file]
    for task in tasks:
        wrong, reached, taken = [], 0, 0
        for part in task["parts"]:
            counts = dict(task["drawn"])
            for n in sorted({*task["widths"], *counts, *task["all"]}):
                machine = Machine(task["text"], task["beside"].__getitem__, {task["width"]: n})
                loops = Loops(machine, part, n)
                widths = [width for _, width, _ in machine.operands]
                if n in task["widths"]:
                    tried = product([range(1 << width) for width in widths])
                else:
                    draw = random.Random(n)
                    tried = ([draw.getrandbits(width) for width in widths] for _ in range(counts.get(n, 0)))
                for operands in tried:
                    if loops.is_meant(loops.names(operands)):
                        states, fault = loops.trace(operands)
                        reached += states
                        wrong += [f"n = {n}: {fault}"] if fault else []
                if n in task["all"]:
                    states, fault = loops.every()
                    taken += states
                    wrong += [f"n = {n}: {fault}"] if fault else []
        print(json.dumps({"name": task["name"], "reached": reached, "taken": taken, "wrong": wrong[:8]}), flush=True)


if __name__ == "__main__":
    main()
