"""What MPFR makes of floating-point operands: lines of codes and a rounding in; out a code and whether it is invalid, by zero, too large, inexact."""

import sys

import gmpy2
from gmpy2 import mpfr

ROUNDINGS = [gmpy2.RoundToNearest, gmpy2.RoundToZero, gmpy2.RoundDown, gmpy2.RoundUp]

OPERATIONS = {"mul": gmpy2.mul, "add": gmpy2.add, "div": gmpy2.div, "sqrt": gmpy2.sqrt}


class Format:
    def __init__(self, e, m):
        self.e, self.m = e, m
        self.bias = (1 << (e - 1)) - 1
        self.special = (1 << e) - 1

    def context(self, rounding):
        # MPFR's numbers are fractions from a half to one, so its exponents are one more.
        return gmpy2.context(
            precision=self.m + 1,
            emax=self.bias + 1,
            emin=2 - self.bias - self.m,
            subnormalize=True,
            round=ROUNDINGS[rounding],
        )

    def number(self, code):
        sign, field, rest = code >> (self.e + self.m), code >> self.m & self.special, code & (1 << self.m) - 1
        if field == self.special:
            size = mpfr("nan") if rest else mpfr("inf")
        else:
            size = gmpy2.mul_2exp(mpfr(rest + (1 << self.m) * (field > 0)), max(field, 1))
            size = gmpy2.div_2exp(size, self.bias + self.m)
        return -size if sign else size

    def signals(self, code):
        rest = code & (1 << self.m) - 1
        return code >> self.m & self.special == self.special and 0 < rest < 1 << (self.m - 1)

    def code(self, x):
        if gmpy2.is_nan(x):
            return "NaN"
        sign = (1 if gmpy2.is_signed(x) else 0) << (self.e + self.m)
        if gmpy2.is_infinite(x):
            return f"{sign | self.special << self.m:X}"
        if gmpy2.is_zero(x):
            return f"{sign:X}"
        whole, exponent = abs(x).as_mantissa_exp()
        whole, exponent = int(whole), int(exponent)
        least = 1 - self.bias - self.m
        # As many places as the format has, and no exponent below its least.
        top = whole.bit_length() + exponent
        quantum = max(top - self.m - 1, least)
        whole = whole << (exponent - quantum) if exponent >= quantum else whole >> (quantum - exponent)
        field = 0 if whole < 1 << self.m else quantum - least + 1
        return f"{sign | (whole + (field - 1 << self.m) if field else sign | whole):X}"


def main():
    operation, e, m = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
    form = Format(e, m)
    wide = gmpy2.context(precision=200)
    said = []
    for line in sys.stdin:
        *codes, rounding = line.split()
        codes = [int(c, 16) for c in codes]
        with gmpy2.local_context(wide):
            operands = [form.number(c) for c in codes]
        with gmpy2.local_context(form.context(int(rounding))) as context:
            result = OPERATIONS[operation](*operands)
            # Its own flag is set by every NaN, the standard's by those that come of numbers, or that signal.
            none = gmpy2.is_nan(result)
            invalid = (none and not any(map(gmpy2.is_nan, operands))) or any(form.signals(c) for c in codes)
            flags = (invalid, context.divzero, context.overflow and not none, context.inexact and not none)
        said.append(form.code(result) + " " + "".join(str(int(bool(f))) for f in flags))
    print("\n".join(said))


main()
