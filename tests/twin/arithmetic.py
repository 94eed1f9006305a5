"""Exact numbers and truths of formulas, by docs/handbook/notation.md: "Arithmetic in formulas"."""

import math
from fractions import Fraction


class NoValue(Exception):
    """A division by zero, a logarithm of what has none."""


def rounded_log(x, up):
    if x <= 0:
        raise NoValue
    at = 0
    while Fraction(2) ** (at + 1) <= x:
        at += 1
    while Fraction(2) ** at > x:
        at -= 1
    return at + (1 if up and Fraction(2) ** at != x else 0)


def number(e, names):
    """The value of a formula: a fraction, or a truth."""
    kind = e[0]
    if kind == "number":
        return e[1]
    if kind == "bits":
        return int(e[1], 2)
    if kind == "name":
        return names[e[1]] if e[1] in names else applied(e[1], [], names)
    if kind == "minus":
        return -number(e[1], names)
    if kind == "not":
        return not number(e[1], names)
    if kind == "logic":
        left = number(e[2], names)
        if e[1] == "and":
            return left and number(e[3], names)
        if e[1] == "or":
            return left or number(e[3], names)
        return left != number(e[3], names)
    if kind == "chain":
        left = number(e[1][0], names)
        for relation, right in zip(e[1][1::2], e[1][2::2]):
            right = number(right, names)
            if not compared(left, relation, right):
                return False
            left = right
        return True
    if kind == "in":
        return number(e[2], names) <= number(e[1], names) <= number(e[3], names)
    if kind == "binary":
        left, right = number(e[2], names), number(e[3], names)
        if e[1] == "/":
            if right == 0:
                raise NoValue
            return Fraction(left) / right
        if e[1] == "^":
            return Fraction(left) ** int(right)
        return left + right if e[1] == "+" else left - right if e[1] == "-" else left * right
    if kind in ("sum", "every"):
        low, high = number(e[2], names), number(e[3], names)
        each = (number(e[4], {**names, e[1]: i}) for i in range(int(low), int(high) + 1))
        return sum(each) if kind == "sum" else all(each)
    if kind == "call" and "formula " + e[1] in names:
        return applied(e[1], [number(a, names) for a in e[2]], names)
    if kind == "call" and e[1] in ("mod", "max", "min"):
        left, right = (number(a, names) for a in e[2])
        if e[1] == "mod":
            if right == 0:
                raise NoValue
            return left - right * math.floor(Fraction(left) / right)
        return max(left, right) if e[1] == "max" else min(left, right)
    if kind == "call":
        inner = e[2][0]
        if inner[0] == "call" and inner[1] == "log2":
            return rounded_log(number(inner[2][0], names), e[1] == "ceil")
        x = Fraction(number(inner, names))
        if e[1] == "round":
            return math.floor(x + Fraction(1, 2))
        return {"floor": math.floor, "ceil": math.ceil, "trunc": math.trunc, "abs": abs}[e[1]](x)
    raise ValueError(kind)


def applied(name, inputs, names):
    """A formula of the description with numbers for its parameters; formulas are kept among the names, behind a word and a blank."""
    parameters, body = names["formula " + name]
    return number(body, {**names, **dict(zip(parameters, inputs))})


def part(name, high, low, signed):
    """Bits of an operand as a formula."""
    below = ("call", "mod", [("name", name), ("number", 1 << (high + 1))])
    bits = ("call", "floor", [("binary", "/", below, ("number", 1 << low))])
    if not signed:
        return [], bits
    half, whole = ("number", 1 << (high - low)), ("number", 2 << (high - low))
    return [], ("binary", "-", ("call", "mod", [("binary", "+", bits, half), whole]), half)


def compared(left, relation, right):
    return {
        "=": left == right,
        "<>": left != right,
        "<": left < right,
        "<=": left <= right,
        ">": left > right,
        ">=": left >= right,
    }[relation]
