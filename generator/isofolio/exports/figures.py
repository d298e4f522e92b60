"""Numbers as data: twelve significant digits, no negative zero."""

DIGITS = 12

# What is left of a difference that ought to be nothing (cations less anions): rounding of the
# machine. It is written as 0, so that two machines write the same bytes.
NOISE = 1e-9


def exported(number: float) -> float:
    """A computed number as exports carry it.

    number: in the unit of its quantity. Returns it with 12 significant digits; 0.0 for what is
    smaller than a billionth, and for a negative zero.

    >>> exported(154.00410677618077), exported(-0.0), exported(-2.8e-14)
    (154.004106776, 0.0, 0.0)
    """
    if abs(number) < NOISE:
        return 0.0
    return float(f"{number:.{DIGITS}g}")
