"""What is claimed of operands and results, judged for every operand, by docs/handbook/checking.md."""

from arithmetic import NoValue, number
from hardware import SIGNED, mask, product


def all_operands(machine):
    return product([range(1 << width) for _, width, _ in machine.operands])


def is_given(machine, names):
    return all(truth(g, names) for g in machine.given)


def truth(formula, names):
    try:
        return bool(number(formula, names))
    except NoValue:
        return False


def holds(claim, names):
    formula, exactly, when = claim
    if exactly:
        return truth(formula, names) == truth(when, names)
    return (when is not None and not truth(when, names)) or truth(formula, names)


def order(numbers):
    """Smallest first: the sum of magnitudes, fewer negative ones, then one by one, the last first, the one nearer to 0."""
    return (sum(map(abs, numbers)), sum(n < 0 for n in numbers), [(abs(n), n < 0) for n in reversed(numbers)])


class Outcomes:
    """Every operand with its walk's registers and results."""

    def __init__(self, machine):
        self.machine = machine
        self.each = []
        for bits in all_operands(machine):
            numbers = machine.numbers_of(bits)
            rows = machine.walk(bits)
            results = machine.outcome(rows[-1][2])
            names = dict(machine.numbers)
            names.update(zip((n for n, _, _ in machine.operands), numbers))
            given = is_given(machine, names)
            names.update(zip((n for n, _, _ in machine.results), results))
            self.each.append((bits, numbers, given, results, names, rows))


def section(name, cases):
    """`cases`: operands that it is about, with whether it holds for each."""
    cases = list(cases)
    failing = [(numbers, results) for numbers, results, good in cases if not good]
    least = min(failing, key=lambda f: order(f[0]), default=None)
    return {"name": name, "cases": len(cases), "failures": len(failing), "smallest": least}


def check(outcomes, before=None):
    machine = outcomes.machine
    found = [section("laws", ((n, r, all(holds(c, names) for c in machine.tree.laws)) for _, n, g, r, names, _ in outcomes.each if g))]
    if machine.tree.outside:
        found.append(
            section(
                "outside",
                ((n, r, all(holds(c, names) for c in machine.tree.outside)) for _, n, g, r, names, _ in outcomes.each if not g),
            )
        )
    if before is not None:
        found.append(section("follows", compared(outcomes, before)))
    return found


def compared(outcomes, before):
    here = [n for n, _, _ in outcomes.machine.results]
    there = [n for n, _, _ in before.machine.results]
    common = [n for n in here if n in there]
    for (_, numbers, given, results, _, _), (_, _, given_before, results_before, _, _) in zip(outcomes.each, before.each):
        if given and given_before:
            good = all(results[here.index(n)] == results_before[there.index(n)] for n in common)
            yield numbers, results, good


def averages(outcomes):
    """How many operands inside "given" take how many cycles."""
    found = {}
    for _, _, given, _, _, rows in outcomes.each:
        if given:
            found[len(rows) - 1] = found.get(len(rows) - 1, 0) + 1
    return found


# ---- idle bits


def idle(outcomes):
    """A mark for each bit after each clock edge of the schedule, and how many operands reach it."""
    machine = outcomes.machine
    edges = [(p, at, s) for p, part in enumerate(machine.schedule) for at in range(part.count) for s in range(len(part.steps))]
    states = [[] for _ in range(len(edges) + 1)]
    for bits, _, given, _, _, _ in outcomes.each:
        if given:
            trace(machine, machine.load(bits), edges, states)
    known = {}
    return [row(machine, place, reached, edges, known) for place, reached in enumerate(states)]


def steps_from(machine, edges, place, registers):
    """The next edge that takes place from behind this one, or None at the end."""
    while place < len(edges):
        p, at, s = edges[place]
        part = machine.schedule[p]
        if s == 0 and part.goes_on and not part.goes_on(registers):
            place += (part.count - at) * len(part.steps)
            continue
        last = int(not part.goes_on and part.loop and at == part.count - 1)
        return place + 1, part.steps[s](registers, last, [], [])
    return None


def trace(machine, registers, edges, states):
    states[0].append(registers)
    here = steps_from(machine, edges, 0, registers)
    while here:
        states[here[0]].append(here[1])
        here = steps_from(machine, edges, *here)


def results_from(machine, edges, place, registers, known):
    path = []
    here = (place, registers)
    while True:
        key = (here[0], tuple(here[1]))
        if key in known:
            results = known[key]
            break
        path.append(key)
        after = steps_from(machine, edges, *here)
        if after is None:
            results = machine.outcome(here[1])
            break
        here = after
    for key in path:
        known[key] = results
    return results


def row(machine, place, reached, edges, known):
    marks = {}
    different = {tuple(r) for r in reached}
    for index, (name, width, _) in enumerate(machine.registers):
        text = ""
        for bit in reversed(range(width)):
            values = {r[index] >> bit & 1 for r in different}
            if not values:
                text += "0"  # nobody gets there
            elif len(values) == 1:
                text += str(values.pop())
            else:
                text += "#" if any(matters(machine, edges, place, r, index, bit, known) for r in different) else "-"
        marks[name] = text
    return len(reached), marks


def matters(machine, edges, place, registers, index, bit, known):
    turned = list(registers)
    turned[index] ^= 1 << bit
    return results_from(machine, edges, place, registers, known) != results_from(machine, edges, place, turned, known)
