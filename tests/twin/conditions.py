"""What slips are said to bite "exactly when", by docs/handbook/operands.md: "Conditions"."""

import re

import notation
from claims import truth

COUNTED = re.compile(r"^(.*) happens (?:(at least|at most|exactly) )?(once|twice|\d+ times?)$")
PLACED = re.compile(r"^(.*) happens the (first|last) time$")
AFTER = re.compile(r"^(.*) happens right after (.*)$")
SCALED = re.compile(r"(2\^\(.*?\)|2\^[a-z]\w*)( - 1)? = -?\d+")


class Unknown(Exception):
    """A kind of condition that is not judged here."""


def read(text):
    """A function of a case: the names of its operands and right results, and what was decided in each cycle."""
    text = re.sub(r"\s+", " ", text)
    for word in (" or ", " and "):
        parts = split(text, word)
        if len(parts) > 1:
            inner = [read(p) for p in parts]
            return (lambda c: any(f(c) for f in inner)) if word == " or " else (lambda c: all(f(c) for f in inner))
    if text == "always":
        return lambda c: True
    for pattern, meaning in ((AFTER, after), (PLACED, placed), (COUNTED, counted)):
        match = pattern.match(text)
        if match:
            return meaning(*match.groups())
    match = re.match(r"^(.*) is (odd|even)$", text)
    if match:
        return lambda c: c[0][match.group(1)] % 2 == (match.group(2) == "odd")
    if "happens" in text or "outcome" in text or "cycle" in text:
        raise Unknown(text)
    reader = notation.Reader(SCALED.sub(lambda m: m.group(1) + (m.group(2) or ""), text) + "\n")
    formula = notation.formula(reader)
    if not reader.has("\n"):
        raise Unknown(text)
    return lambda c: truth(formula, c[0])


def split(text, word):
    """Cut at a word outside quotes and brackets."""
    parts, depth, quoted, start = [], 0, False, 0
    for at, letter in enumerate(text):
        quoted ^= letter == '"'
        depth += {"(": 1, ")": -1}.get(letter, 0) if not quoted else 0
        if not quoted and depth == 0 and text.startswith(word, at):
            parts.append(text[start:at])
            start = at + len(word)
    return parts + [text[start:]]


def outcomes(event):
    """In which cycles an event was looked at, and how it came out; only of decisions that stand in one place."""
    event = event.strip('"')
    turned = event.startswith("not ")
    for words, flip in ((event, False), (event[4:] if turned else event, turned)):
        said = " ".join(t.text for t in notation.sentences(words + "\n") if t.kind not in ("line", "end"))
        yield said, flip


def cycles(event, case):
    for said, flip in outcomes(event):
        found = [{v ^ flip for s, v in row if s == said} for row in case[1]]
        if any(found):
            if any(len([1 for s, _ in row if s == said]) > 1 for row in case[1]) or case[2].count(said) != 1:
                raise Unknown(event)
            return [f.pop() for f in found if f]
        if said in case[2]:
            return []
    raise Unknown(event)


def counted(event, bound, times):
    times = {"once": 1, "twice": 2}.get(times) or int(times.split()[0])
    return lambda c: {"at least": lambda n: n >= times, "at most": lambda n: n <= times}.get(bound, lambda n: n == times)(
        sum(cycles(event, c))
    )


def placed(event, which):
    return lambda c: bool(cycles(event, c)) and bool(cycles(event, c)[0 if which == "first" else -1])


def after(event, before):
    raise Unknown(event)
