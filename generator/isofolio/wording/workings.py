"""A working as text: figures that keep their units, signs that a line may break at."""

from isofolio.measures.workings_terms import Part, Parts, Term, Working
from isofolio.wording.figures import HARD, rounded, unit_text

# After these, and before those of CLOSING, there is no space.
OPENING = frozenset({"(", "√", "^", "log", "e"})
CLOSING = frozenset({")", "^"})


def term_text(term: Term) -> str:
    """A number with its unit and what it counts, all held together but for a long name.

    >>> term_text(Term(9.0, 2, "g/L", "sodium chloride")) == (
    ...     "9.00" + HARD + "g/L" + HARD + "sodium chloride")
    True
    """
    name = HARD + term.name if term.name else ""
    return rounded(term.number, term.decimals) + unit_text(term.unit) + name


def expression_text(parts: Parts) -> str:
    """An expression; brackets and powers stand close, other signs between spaces.

    >>> expression_text((Term(0.5, 1), "×", "(", Term(2.0, 0), "+", "√", Term(9.0, 0), ")"))
    '0.5 × (2 + √9)'
    """
    text = ""
    for before, part in zip(("(", *parts), parts, strict=False):
        close = before in OPENING or part in CLOSING
        text += ("" if close else " ") + _part_text(part)
    return text


def working_text(working: Working) -> str:
    """The whole line: the expression, and what it comes to, which stays with its sign.

    >>> from isofolio.measures.workings_terms import exact
    >>> line = Working("ecf_gain", "", "", (exact(1.0), "+", exact(1.0)), exact(2.0), "")
    >>> working_text(line) == "1 + 1 =" + HARD + "2"
    True
    """
    result = term_text(working.result)
    expression = expression_text(working.expression)
    return result if expression == result else f"{expression} ={HARD}{result}"


def _part_text(part: Part) -> str:
    return part if isinstance(part, str) else term_text(part)
