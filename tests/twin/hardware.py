"""A description at chosen widths, turned into Python: what every register holds after every moment, by docs/handbook/notation.md."""

from fractions import Fraction
from types import SimpleNamespace as Node

import notation
from arithmetic import number, part

BARE, UNSIGNED, SIGNED = "bare", "unsigned", "signed"


def mask(width):
    return (1 << width) - 1


def as_number(bits, width, signed):
    return bits - (1 << width) if signed and bits >> (width - 1) & 1 else bits


class Value:
    """Bits that are computed: Python for them, how many they are, how they are read."""

    def __init__(self, code, width, reading):
        self.code, self.width, self.reading = code, width, reading

    def signed_code(self):
        top = 1 << (self.width - 1)
        return f"((({self.code}) ^ {top}) - {top})"


class Machine:
    """One machine bound at widths; `find` gives the text of a machine that it names."""

    def __init__(self, text, find, widths=None, inside=False):
        self.tree = d = text if not isinstance(text, str) else notation.description(text)
        self.find = find
        self.numbers = dict(widths or {})
        for name, usual in d.symbols:
            if name not in self.numbers:
                self.numbers[name] = number(usual, self.numbers)
        self.typed = {}
        for name, type_, formula in d.constants:
            self.numbers[name] = number(formula, self.numbers)
            if type_:
                self.typed[name] = self.type_of(type_)
        self.operands = [(name, *self.type_of(type_)) for name, type_ in d.operands]
        self.registers, self.places, self.tables, self.loads = [], {}, {}, []
        self.core = None
        self.names = {}
        self.cells = {}
        self.bits_of = {}
        self.numbers.update({"formula " + f: said for f, said in d.formulas.items()})
        if d.core:
            self.core = Machine(find(d.core[0]), find, self.core_widths(d.core[0]), inside=True)
        for name, type_, loads in d.registers:
            self.registers.append((name, *self.type_of(type_)))
        own = len(self.registers)
        if self.core:
            self.registers += self.core.registers
        for index, (name, width, reading) in enumerate(self.registers):
            self.places[name] = (index, 0, width, reading)
        if self.core:
            for name, (index, low, width, reading) in self.core.places.items():
                self.places[name] = (index + own, low, width, reading)
        for name, what in d.parts:
            reading = UNSIGNED
            if what[0] == "call" and what[1] == "signed":
                what, reading = what[2][0], SIGNED
            high, at = self.whole(what[2]), self.whole(what[3])
            if what[1][1] in [o for o, _, _ in self.operands]:
                self.bits_of[name] = (what[1][1], high, at, reading)
                self.numbers["formula " + name] = part(what[1][1], high, at, reading == SIGNED)
                continue
            index, low, _, _ = self.places[what[1][1]]
            self.places[name] = (index, low + at, high - at + 1, reading)
        for t in d.tables:
            self.table(*t)
        if self.core:
            self.tables.update(self.core.tables)
            self.cells.update(self.core.cells)
        self.given = d.given
        self.decisions = {}
        if not inside:
            self.build(own)

    def core_widths(self, name):
        known = {symbol for symbol, _ in notation.description(self.find(name)).symbols}
        return {n: v for n, v in self.numbers.items() if n in known}

    def whole(self, formula):
        found = number(formula, self.numbers)
        if Fraction(found).denominator != 1:
            raise ValueError(f"{found} is not whole")
        return int(found)

    def type_of(self, type_):
        return self.whole(type_[1]), SIGNED if type_[0] else UNSIGNED

    # ---- values

    def width_of(self, e):
        """The width that a value has by itself; None where it takes that of its place."""
        kind = e[0]
        if kind == "bits":
            return len(e[1])
        if kind in ("last", "chain"):
            return 1
        if kind == "number":
            return None
        if kind == "name":
            if e[1] in self.typed and e[1] not in self.names:
                return self.typed[e[1]][0]
            if e[1] in self.names:
                return self.names[e[1]].width
            return self.places[e[1]][2] if e[1] in self.places else None
        if kind == "slice":
            return self.whole(e[2]) - self.whole(e[3]) + 1
        if kind == "join":
            return sum(1 if p[0] == "number" else self.width_of(p) for p in e[1])
        if kind in ("not", "minus"):
            return self.width_of(e[1])
        if kind == "binary" and e[1] == "*":
            first, second = self.width_of(e[2]), self.width_of(e[3])
            return first + second if first and second else None
        if kind in ("binary", "logic"):
            return self.width_of(e[2]) or self.width_of(e[3])
        if kind == "when":
            return self.width_of(e[1]) or self.width_of(e[3])
        if kind == "call":
            name, inner = e[1], e[2]
            if name == "extend":
                return self.whole(inner[1]) if len(inner) > 1 else None
            if name == "copies":
                return self.whole(inner[1])
            if name in self.tables:
                return self.tables[name][2]
            return self.width_of(inner[0])
        raise ValueError(kind)

    def is_number(self, e):
        """Whether this is a number, whose bits are as many as its place wants."""
        kind = e[0]
        if kind == "number":
            return True
        if kind == "name":
            return e[1] in self.numbers and e[1] not in self.typed and e[1] not in self.names and e[1] not in self.places
        if kind == "minus":
            return self.is_number(e[1])
        if kind == "binary":
            return self.is_number(e[2]) and self.is_number(e[3])
        return False

    def bits(self, e, want=None):
        """A value with the width that it has, or the one that its place wants."""
        kind = e[0]
        if self.is_number(e):
            return Value(str(self.whole(e) & mask(want)), want, BARE)
        if kind == "bits":
            return Value(str(int(e[1], 2)), len(e[1]), BARE)
        if kind == "last":
            return Value("last", 1, BARE)
        if kind == "name":
            return self.named(e[1])
        if kind == "slice":
            inner = self.bits(e[1])
            high, low = self.whole(e[2]), self.whole(e[3])
            return Value(f"(({inner.code}) >> {low} & {mask(high - low + 1)})", high - low + 1, BARE)
        if kind == "join":
            code, width = "0", 0
            for part in e[1]:
                one = self.bits(part, 1)
                code, width = f"(({code}) << {one.width} | {one.code})", width + one.width
            return Value(code, width, BARE)
        if kind == "not":
            inner = self.bits(e[1], want)
            return Value(f"({inner.code} ^ {mask(inner.width)})", inner.width, inner.reading)
        if kind == "minus":
            inner = self.bits(e[1], want)
            return Value(f"(-({inner.code}) & {mask(inner.width)})", inner.width, inner.reading)
        if kind == "logic":
            left, right = self.sides(e[2], e[3], want)
            code = f"({left.code} {dict([('and', '&'), ('or', '|'), ('xor', '^')])[e[1]]} {right.code})"
            return Value(code, left.width, left.reading if left.reading == right.reading else BARE)
        if kind == "binary":
            return self.computed(e, want)
        if kind == "chain":
            return self.compared(e[1])
        if kind == "when":
            first, second = self.sides(e[1], e[3], want)
            condition = self.bits(e[2], 1)
            return Value(f"({first.code} if {condition.code} else {second.code})", first.width, together(first, second))
        if kind == "call":
            return self.called(e[1], e[2], want)
        raise ValueError(kind)

    def named(self, name):
        if name in self.names:
            return self.names[name]
        if name in self.typed:
            width, reading = self.typed[name]
            return Value(str(int(self.numbers[name]) & mask(width)), width, reading)
        index, low, width, reading = self.places[name]
        whole = self.registers[index][1]
        code = f"R[{index}]" if (low, width) == (0, whole) else f"(R[{index}] >> {low} & {mask(width)})"
        return Value(code, width, reading)

    def sides(self, first, second, want=None):
        width = self.width_of(first) or self.width_of(second) or want
        left, right = self.bits(first, width), self.bits(second, width)
        if left.width != right.width:
            raise ValueError(f"sides of {left.width} and {right.width} bits")
        return left, right

    def computed(self, e, want):
        if e[1] == "*":
            left, right = self.bits(e[2]), self.bits(e[3])
            reading, width = together(left, right), left.width + right.width
            if reading == SIGNED:
                return Value(f"({left.signed_code()} * {right.signed_code()} & {mask(width)})", width, reading)
            return Value(f"({left.code} * {right.code})", width, reading)
        left, right = self.sides(e[2], e[3], want)
        return Value(f"({left.code} {e[1]} {right.code} & {mask(left.width)})", left.width, together(left, right))

    def compared(self, chain):
        left, relation, right = chain
        left, right = self.sides(left, right)
        sign = {"=": "==", "<>": "!="}.get(relation, relation)
        if together(left, right) == SIGNED:
            return Value(f"int({left.signed_code()} {sign} {right.signed_code()})", 1, BARE)
        return Value(f"int({left.code} {sign} {right.code})", 1, BARE)

    def called(self, name, inner, want):
        if name in ("signed", "unsigned"):
            what = self.bits(inner[0], want)
            return Value(what.code, what.width, name)
        if name == "extend":
            width = self.whole(inner[1]) if len(inner) > 1 else want
            what = self.bits(inner[0])
            if what.reading == SIGNED:
                return Value(f"({what.signed_code()} & {mask(width)})", width, SIGNED)
            return Value(what.code, width, what.reading)
        if name in ("shl", "shr"):
            what, enters = self.bits(inner[0], want), self.bits(inner[1], 1)
            if name == "shl":
                code = f"((({what.code}) << {enters.width} | {enters.code}) & {mask(what.width)})"
            else:
                code = f"(({what.code}) >> {enters.width} | ({enters.code}) << {what.width - enters.width})"
            return Value(code, what.width, what.reading)
        if name == "copies":
            bit, width = self.bits(inner[0], 1), self.whole(inner[1])
            return Value(f"({mask(width)} if {bit.code} else 0)", width, BARE)
        if name == "abs":
            what = self.bits(inner[0], want)
            return Value(f"(abs({what.signed_code()}) & {mask(what.width)})", what.width, UNSIGNED)
        cells, indices, width, reading = self.tables[name]
        keys = ", ".join(self.bits(i, w).code for i, w in zip(inner, indices))
        return Value(f"{cells}[({keys},)]", width, reading)

    def table(self, name, indices, type_, rows):
        """Its cells by the bits of its indices; the first row whose condition is true gives the number."""
        width, reading = self.type_of(type_)
        shapes = [(index, *self.type_of(t)) for index, t in indices]
        cells = {}
        for bits in product([range(1 << w) for _, w, _ in shapes]):
            known = dict(self.numbers)
            known.update({i: as_number(b, w, r == SIGNED) for b, (i, w, r) in zip(bits, shapes)})
            for condition, gives in rows:
                if condition is None or number(condition, known):
                    cells[bits] = int(number(gives, known)) & mask(width)
                    break
        key = f"T_{len(self.cells)}_{abs(hash(name)) % 9973}"
        self.cells[key] = cells
        self.tables[name] = (key, [w for _, w, _ in shapes], width, reading)

    # ---- the schedule, as one function for the load and one for each step

    def build(self, own):
        lines = []
        for index, (name, width, reading) in enumerate(self.operands):
            self.names[name] = Value(f"O[{index}]", width, reading)
        self.names.update(self.operand_parts(self.names))
        inside = {}
        lines.append("def load(O):")
        if self.core:
            for index, (name, width, reading) in enumerate(self.core.operands):
                what = dict(self.tree.core[1])[name]
                lines.append(f"    C{index} = {self.bits(what, width).code}")
                inside[name] = Value(f"C{index}", width, reading)
        loaded = [self.bits(loads, width).code for (_, _, loads), (_, width, _) in zip(self.tree.registers, self.registers)]
        if self.core:
            self.core.names = {**inside, **self.core.operand_parts(inside)}
            loaded += [
                self.core.bits(loads, width).code
                for (_, _, loads), (_, width, _) in zip(self.core.tree.registers, self.core.registers)
            ]
            self.core.names = {}
        self.names = {}
        lines.append(f"    return [{', '.join(loaded)}]")
        # Steps of a core speak of its registers by their own names; each is known in this machine too.
        self.schedule = []
        for owner in ([self.core] if self.core else []) + [self]:
            for segment in owner.tree.schedule:
                self.segment(owner, segment, lines)
        self.results = []
        for name, what in self.tree.results:
            value = self.bits(what)
            self.results.append((name, value.width, value.reading == SIGNED))
            lines.append(f"def result_{len(self.results) - 1}(R):\n    return {value.code}")
        scope = dict(self.cells)
        exec("\n".join(lines), scope)
        self.load = scope["load"]
        self.take = [scope[f"result_{i}"] for i in range(len(self.results))]
        for part in self.schedule:
            part.goes_on = scope[part.goes_on] if part.goes_on else None
            part.steps = [scope[s] for s in part.steps]

    def operand_parts(self, operands):
        """Bits of operands at the load."""
        return {
            name: Value(f"({operands[of].code} >> {low} & {mask(high - low + 1)})", high - low + 1, reading)
            for name, (of, high, low, reading) in self.bits_of.items()
        }

    def segment(self, owner, segment, lines):
        names, self.numbers_before = {}, self.numbers
        self.names, own, self.numbers = names, self.numbers, dict(self.numbers, **owner.numbers)
        typed, self.typed = self.typed, dict(self.typed, **owner.typed)
        part = Node(count=owner.whole(segment.count), steps=[], names=[s.name for s in segment.steps], loop=segment.loop, goes_on=None)
        key = f"s{len(self.schedule)}"
        if segment.condition is not None:
            part.goes_on = f"{key}_while"
            lines.append(f"def {part.goes_on}(R):\n    last = 0\n    return {self.bits(segment.condition, 1).code}")
        for index, step in enumerate(segment.steps):
            part.steps.append(f"{key}_{index}")
            lines.append(f"def {key}_{index}(R, last, seen, told):")
            self.names = {}
            for moment in step.moments:
                lines.append("    N = list(R)")
                self.block(moment, lines, "    ")
                lines.append("    R = N\n    seen.append(R)")
            lines.append("    return R")
        self.schedule.append(part)
        self.names, self.numbers, self.typed = {}, own, typed

    def block(self, statements, lines, indent):
        before = dict(self.names)
        for statement in statements:
            getattr(self, "act_" + statement[0])(statement, lines, indent)
        if indent != "    ":
            self.names = before

    def wire(self, name, code, width, reading, lines, indent):
        variable = f"w{len(lines)}_{len(self.names)}"
        lines.append(f"{indent}{variable} = {code}")
        self.names[name] = Value(variable, width, reading)
        return variable

    def act_let(self, statement, lines, indent):
        _, name, second, what = statement
        if second is None:
            value = self.bits(what)
            self.wire(name, value.code, value.width, value.reading, lines, indent)
            return
        if what[0] == "call":
            width = next(w for w in map(self.width_of, what[2]) if w)
            a, b, c = (self.bits(e, width) for e in what[2])
            reading = together(a, together_value(b, c))
            x, y, z = (self.wire(object(), v.code, width, BARE, lines, indent) for v in (a, b, c))
            self.wire(name, f"{x} ^ {y} ^ {z}", width, reading, lines, indent)
            self.wire(second, f"{x} & {y} | {x} & {z} | {y} & {z}", width, BARE, lines, indent)
            return
        left, right = self.sides(what[2], what[3])
        reading, width = together(left, right), left.width
        x, y = (self.wire(object(), v.code, width, BARE, lines, indent) for v in (left, right))
        self.wire(name, f"{x} {what[1]} {y} & {mask(width)}", width, reading, lines, indent)
        code = f"{x} + {y} >> {width}" if what[1] == "+" else f"int({x} < {y})"
        self.wire(second, code, 1, BARE, lines, indent)

    def act_choose(self, statement, lines, indent):
        _, name, subject, arms = statement
        chosen = self.bits(subject)
        width = next((w for w in (self.width_of(e) for _, e in arms) if w), None)
        variable = self.wire(object(), chosen.code, chosen.width, chosen.reading, lines, indent)
        values = [self.bits(e, width) for _, e in arms]
        code = "None"
        for (labels, _), value in reversed(list(zip(arms, values))):
            code = value.code if labels is None else f"({value.code} if {self.fits(variable, chosen, labels)} else {code})"
        reading = values[0].reading
        for value in values:
            reading = reading if value.reading in (reading, BARE) else value.reading if reading == BARE else BARE
        self.wire(name, code, width, reading, lines, indent)

    def fits(self, variable, chosen, labels):
        tests = []
        for label in labels:
            if isinstance(label, str):
                care = int("".join("0" if c == "x" else "1" for c in label), 2)
                tests.append(f"{variable} & {care} == {int(label.replace('x', '0'), 2)}")
            else:
                tests.append(f"{variable} == {label & mask(chosen.width)}")
        return "(" + " or ".join(tests) + ")"

    def act_if(self, statement, lines, indent):
        _, condition, taken, other, said = statement
        variable = self.wire(object(), self.bits(condition, 1).code, 1, BARE, lines, indent)
        lines.append(f"{indent}told.append(({' '.join(said)!r}, {variable}))")
        lines.append(f"{indent}if {variable}:\n{indent}    pass")
        self.block(taken, lines, indent + "    ")
        lines.append(f"{indent}else:\n{indent}    pass")
        self.block(other, lines, indent + "    ")

    def act_case(self, statement, lines, indent):
        _, subject, arms = statement
        chosen = self.bits(subject)
        variable = self.wire(object(), chosen.code, chosen.width, chosen.reading, lines, indent)
        word = "if"
        for labels, statements in arms:
            lines.append(f"{indent}{word} {'True' if labels is None else self.fits(variable, chosen, labels)}:\n{indent}    pass")
            self.block(statements, lines, indent + "    ")
            word = "elif"

    def act_transfer(self, statement, lines, indent):
        _, targets, what = statement
        places = []
        for name, slices in targets:
            index, low, width, reading = self.places[name]
            for high, at in slices:
                low, width, reading = low + self.whole(at), self.whole(high) - self.whole(at) + 1, BARE
            places.append((index, low, width))
        total = sum(width for _, _, width in places)
        variable = self.wire(object(), self.bits(what, total).code, total, BARE, lines, indent)
        for index, low, width in places:
            total -= width
            keep = mask(self.registers[index][1]) ^ mask(width) << low
            lines.append(f"{indent}N[{index}] = N[{index}] & {keep} | ({variable} >> {total} & {mask(width)}) << {low}")

    # ---- running

    def walk(self, operands):
        """Rows of (loop, round, step's name, moments, registers); the load first, and what was decided in each."""
        registers = self.load(operands)
        rows = [(None, [], registers, [])]
        for part in self.schedule:
            for at in range(part.count):
                if part.goes_on and not part.goes_on(registers):
                    break
                last = int(not part.goes_on and part.loop and at == part.count - 1)
                for name, step in zip(part.names, part.steps):
                    seen, told = [], []
                    registers = step(registers, last, seen, told)
                    rows.append((name, seen, registers, told))
        return rows

    def outcome(self, registers):
        return tuple(as_number(take(registers), width, signed) for take, (_, width, signed) in zip(self.take, self.results))

    def numbers_of(self, bits):
        return [as_number(b, width, reading == SIGNED) for b, (_, width, reading) in zip(bits, self.operands)]


def together(left, right):
    return left.reading if left.reading != BARE else right.reading


def together_value(left, right):
    return Value("", left.width, together(left, right))


def product(ranges):
    if not ranges:
        yield ()
        return
    for first in ranges[0]:
        for rest in product(ranges[1:]):
            yield (first, *rest)
