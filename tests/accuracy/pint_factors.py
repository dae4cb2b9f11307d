"""Prints, one a line, what Pint makes of AMOUNT UNIT TARGET, for each three arguments."""

import sys

import pint

registry = pint.UnitRegistry()
arguments = iter(sys.argv[1:])
for amount, unit, target in zip(arguments, arguments, arguments):
    print(repr(registry.Quantity(float(amount), unit).to(target).magnitude))
