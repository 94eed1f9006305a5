"""Reads a description into a tree, by the grammar of docs/handbook/notation.md."""

import re
from types import SimpleNamespace as Node

TOKEN = re.compile(
    r"""(?P<blank>[ \t\r]+|--[^\n]*)|(?P<string>"[^"\n]*")|(?P<bits>0[bB][01x][01x_]*)|(?P<number>[0-9][0-9_]*)|(?P<name>[^\W\d_]\w*)
       |(?P<sign><-|<=|>=|<>|\.\.|[-+*/^=<>:,()\[\]])|(?P<line>\n)""",
    re.VERBOSE,
)
GOES_ON = set("<- <= >= <> .. + - * / ^ = < > , ( [ and or xor not in".split())


class Reader:
    def __init__(self, text):
        self.tokens = list(sentences(text))
        self.at = 0

    def peek(self, ahead=0):
        return self.tokens[min(self.at + ahead, len(self.tokens) - 1)]

    def next(self):
        self.at += 1
        return self.tokens[self.at - 1]

    def has(self, *texts):
        return self.peek().text in texts and self.peek().kind in ("name", "sign", "line")

    def eat(self, *texts):
        if self.has(*texts):
            return self.next().text
        return None

    def need(self, text):
        if not self.eat(text):
            raise SyntaxError(f"{text!r} expected, found {self.peek().text!r} in line {self.peek().row}")

    def name(self):
        token = self.next()
        if token.kind != "name":
            raise SyntaxError(f"a name expected, found {token.text!r} in line {token.row}")
        return token.text

    def end(self):
        self.need("\n")


def sentences(text):
    """Words and signs; a line that cannot be over yet goes on in the next one, and a claim may begin a line with its "when"."""
    found = [Node(kind="line", text="\n", row=0, close=False)]
    depth, at, row = 0, 0, 1
    while at < len(text):
        match = TOKEN.match(text, at)
        if not match:
            raise SyntaxError(f"{text[at]!r} in line {row}")
        kind, word, close = match.lastgroup, match.group(), at > 0 and not text[at - 1].isspace()
        at = match.end()
        if kind == "line":
            row += 1
            if depth == 0 and found[-1].text != "\n" and found[-1].text not in GOES_ON:
                found.append(Node(kind="line", text="\n", row=row, close=False))
            continue
        if kind == "blank":
            continue
        depth += {"(": 1, "[": 1, ")": -1, "]": -1}.get(word, 0)
        if word in ("when", "exactly") and found[-1].text == "\n":
            found.pop()
        found.append(Node(kind=kind, text=word, row=row, close=close))
    if found[-1].text != "\n":
        found.append(Node(kind="line", text="\n", row=row, close=False))
    return found[1:] + [Node(kind="end", text="", row=row, close=False)]


# ---- values and formulas: tuples whose first part says what they are


def value(r):
    first = logic(r, True)
    if r.eat("when"):
        condition = logic(r, True)
        r.need("else")
        return ("when", first, condition, value(r))
    return first


def formula(r):
    return logic(r, False)


def span(r, word):
    """What a sum or an "every" runs over; both words are names wherever no name and "in" stand behind them."""
    if not (r.has(word) and r.peek(1).kind == "name" and r.peek(2).text == "in"):
        return None
    r.next()
    name = r.name()
    r.need("in")
    low = total(r, False)
    r.need("..")
    return name, low, total(r, False)


def logic(r, hard):
    run = None if hard else span(r, "every")
    if run:
        r.need(":")
        return ("every", *run, logic(r, hard))
    left = negation(r, hard)
    while r.has("and", "or", "xor"):
        left = ("logic", r.next().text, left, negation(r, hard))
    return left


def negation(r, hard):
    if r.eat("not"):
        return ("not", negation(r, hard))
    left = total(r, hard)
    if not hard and r.eat("in"):
        low = total(r, hard)
        r.need("..")
        return ("in", left, low, total(r, hard))
    chain = [left]
    while r.has("=", "<>", "<", "<=", ">", ">="):
        chain += [r.next().text, total(r, hard)]
    return ("chain", chain) if len(chain) > 1 else left


def total(r, hard):
    left = product(r, hard)
    while r.has("+", "-"):
        left = ("binary", r.next().text, left, product(r, hard))
    return left


def product(r, hard):
    run = None if hard else span(r, "sum")
    if run:
        r.need("of")
        return ("sum", *run, product(r, hard))
    left = sign(r, hard)
    while r.has("*", "/"):
        left = ("binary", r.next().text, left, sign(r, hard))
    return left


def sign(r, hard):
    if r.eat("-"):
        return ("minus", sign(r, hard))
    left = join(r, hard)
    if r.eat("^"):
        return ("binary", "^", left, sign(r, hard))
    return left


def join(r, hard):
    parts = [postfix(r, hard)]
    while hard and r.has(":"):
        r.next()
        parts.append(postfix(r, hard))
    return ("join", parts) if len(parts) > 1 else parts[0]


def postfix(r, hard):
    left = atom(r, hard)
    while hard and r.has("[") and r.peek().close:
        left = ("slice", left, *places(r))
    return left


def places(r):
    r.need("[")
    high = total(r, False)
    low = total(r, False) if r.eat("..") else high
    r.need("]")
    return high, low


def atom(r, hard):
    token = r.next()
    if token.kind == "bits":
        return ("bits", token.text[2:].replace("_", ""))
    if token.kind == "number":
        number = ("number", int(token.text.replace("_", "")))
        if r.peek().kind == "name" and r.peek().close and r.peek().text not in ("and", "or", "xor", "in", "when"):
            return ("binary", "*", number, ("name", r.name()))
        return number
    if token.text == "(":
        inner = value(r) if hard else formula(r)
        r.need(")")
        return inner
    if token.kind != "name":
        raise SyntaxError(f"a value expected, found {token.text!r} in line {token.row}")
    if token.text == "last" and hard:
        return ("last",)
    if r.has("(") and r.peek().close:
        r.next()
        inner = [value(r) if hard else formula(r)]
        while r.eat(","):
            inner.append(value(r) if hard else formula(r))
        r.need(")")
        return ("call", token.text, inner)
    return ("name", token.text)


# ---- sentences


def phrase(r):
    if r.peek().kind != "string":
        return
    r.next()
    while r.peek().kind == "name" and r.peek(1).kind == "string":
        r.next()
        r.next()


def typed(r):
    signed = bool(r.eat("signed"))
    return signed, total(r, False)


def description(text):
    head = re.match(r"(?:[ \t]*(?:--[^\n]*)?\n)*[ \t]*machine[ \t]+(\S+)", text)
    r = Reader("\n" * head.group().count("\n") + text[head.end() :])
    d = Node(
        name=head.group(1), follows=None, symbols=[], constants=[], operands=[], given=[], registers=[], parts=[], tables=[],
        meanings=[], core=None, schedule=[], results=[], laws=[], outside=[], formulas={},
    )
    while r.peek().kind != "end":
        if not r.eat("\n"):
            declaration(r, d)
    return d


def declaration(r, d):
    word = r.peek().text
    if word == "follows" or word == "core":
        machine = named_machine(r)
        if word == "follows":
            d.follows = machine
            return
        d.core = (machine, [])
        while not r.eat("end"):
            name = r.name()
            r.need("=")
            d.core[1].append((name, value(r)))
            r.end()
        r.end()
        return
    r.next()
    if word in ("title", "note"):
        phrase(r)
    elif word in ("width", "parameter"):
        name = r.name()
        r.need("=")
        usual = total(r, False)
        r.need("in")
        total(r, False)
        r.need("..")
        total(r, False)
        d.symbols.append((name, usual))
    elif word == "constant":
        name = r.name()
        type_ = typed(r) if r.eat(":") else None
        r.need("=")
        d.constants.append((name, type_, formula(r)))
    elif word == "operand":
        name = named(r)
        phrase(r)
        r.need(":")
        d.operands.append((name, typed(r)))
    elif word == "given":
        d.given.append(formula(r))
    elif word == "register":
        name = r.name()
        phrase(r)
        r.need(":")
        type_ = typed(r)
        r.need("loads")
        d.registers.append((name, type_, value(r)))
    elif word == "part":
        name = r.name()
        phrase(r)
        r.need("=")
        d.parts.append((name, value(r)))
    elif word == "meaning":
        while not r.has("\n"):
            r.next()
    elif word == "unit":
        while not r.has("\n"):
            r.next()
    elif word == "table":
        table(r, d)
    elif word == "repeat":
        d.schedule.append(repeat(r))
    elif word == "step":
        d.schedule.append(Node(count=("number", 1), condition=None, steps=[step(r)], loop=False))
        return
    elif word == "result":
        name = named(r)
        r.need("=")
        d.results.append((name, value(r)))
    elif word == "formula":
        name = named(r)
        parameters = []
        if r.eat("("):
            parameters.append(r.name())
            while r.eat(","):
                parameters.append(r.name())
            r.need(")")
        r.need("=")
        d.formulas[name] = (parameters, formula(r))
    elif word in ("law", "outside"):
        first = formula(r)
        exactly = bool(r.eat("exactly"))
        when = formula(r) if r.eat("when") else None
        (d.laws if word == "law" else d.outside).append((first, exactly, when))
    else:
        raise SyntaxError(f"{word!r} in line {r.peek().row}")
    r.end()


def named_machine(r):
    """The name of a machine may have hyphens: all that stands in the line, put together again."""
    r.next()
    name = ""
    while not r.has("\n"):
        name += r.next().text
    r.end()
    return name


def table(r, d):
    name = r.name()
    r.need("(")
    indices = []
    while True:
        index = r.name()
        r.need(":")
        indices.append((index, typed(r)))
        if not r.eat(","):
            break
    r.need(")")
    r.need(":")
    type_ = typed(r)
    r.end()
    rows = []
    while not r.eat("end"):
        condition = None if r.eat("else") else formula(r)
        r.need(":")
        rows.append((condition, formula(r)))
        r.end()
    d.tables.append((name, indices, type_, rows))


def repeat(r):
    condition = None
    if r.eat("at"):
        r.need("most")
        count = total(r, False)
        r.need("while")
        condition = value(r)
    else:
        count = total(r, False)
    r.end()
    steps = []
    if r.has("step"):
        while r.eat("step"):
            steps.append(step(r))
    else:
        steps.append(Node(name=None, moments=moments(r)))
    r.need("end")
    return Node(count=count, condition=condition, steps=steps, loop=True)


def step(r):
    name = named(r)
    phrase(r)
    r.end()
    return Node(name=name, moments=moments(r))


def moments(r):
    found = [block(r)]
    while r.eat("then"):
        r.end()
        found.append(block(r))
    return found


def is_statement(r):
    if r.has("let", "if", "case", "hold", "note"):
        return True
    # A transfer: targets before an arrow.
    if r.peek().kind != "name" or r.has("else", "end", "then", "step", "repeat"):
        return False
    ahead = 0
    while r.peek(ahead).text not in ("\n", "") and r.peek(ahead).text != "<-":
        ahead += 1
    return r.peek(ahead).text == "<-"


def block(r):
    found = []
    while is_statement(r):
        statement(r, found)
    return found


def statement(r, found):
    if r.eat("hold"):
        r.end()
    elif r.eat("note"):
        phrase(r)
        r.end()
    elif r.eat("let"):
        found.append(let(r))
    elif r.eat("if"):
        found.append(branch(r))
    elif r.eat("case"):
        found.append(case(r))
    else:
        targets = [target(r)]
        while r.eat(":"):
            targets.append(target(r))
        r.need("<-")
        found.append(("transfer", targets, value(r)))
        via(r)
        r.end()


def via(r):
    if r.eat("via"):
        r.name()


def target(r):
    name, slices = r.name(), []
    while r.has("["):
        slices.append(places(r))
    return name, slices


def named(r):
    name = r.name()
    while r.peek().kind == "name" and r.peek(1).kind == "string":
        r.next()
        r.next()
    return name


def says(r):
    if r.eat("says"):
        phrase(r)
        if r.eat("else"):
            phrase(r)


def let(r):
    name = named(r)
    second = named(r) if r.eat(",") else None
    r.need("=")
    if r.eat("case"):
        subject = value(r)
        r.end()
        arms = []
        while not r.eat("end"):
            labels_ = labels(r)
            arms.append((labels_, value(r)))
            r.end()
        r.end()
        return ("choose", name, subject, arms)
    what = value(r)
    via(r)
    says(r)
    r.end()
    return ("let", name, second, what)


def labels(r):
    if r.eat("else"):
        says(r)
        r.need(":")
        return None
    found = []
    while True:
        token = r.next()
        if token.kind == "bits":
            found.append(token.text[2:].replace("_", ""))
        elif token.text == "-":
            found.append(-int(r.next().text))
        else:
            found.append(int(token.text.replace("_", "")))
        if not r.eat(","):
            break
    says(r)
    r.need(":")
    return found


def branch(r):
    from_token = r.at
    condition = value(r)
    said = [t.text for t in r.tokens[from_token : r.at]]
    says(r)
    r.end()
    taken = block(r)
    other = []
    if r.eat("else"):
        if r.eat("if"):
            return ("if", condition, taken, [branch(r)], said)
        r.end()
        other = block(r)
    r.need("end")
    r.end()
    return ("if", condition, taken, other, said)


def case(r):
    subject = value(r)
    r.end()
    arms = []
    while not r.eat("end"):
        labels_ = labels(r)
        r.eat("\n")
        arms.append((labels_, block(r)))
    r.end()
    return ("case", subject, arms)
