"""The words round the columns: titles above, scale at the left, signs and notes below."""

from isofolio.drawings.captions import BAR
from isofolio.drawings.lettering import LINE, balance, fitting, wrap
from isofolio.drawings.painting import DESCENT, rule, text_lines
from isofolio.drawings.placing import EDGE, GAP, PAIR, Plan, centred_room, crest, crown_lines
from isofolio.drawings.svg import Element

BOLD = 1.1  # width of the titles, which are semibold, over ordinary type
TICK = 8.0  # px
SIGNS = LINE + DESCENT  # px under the base line for + and -
UNDER_TITLE = 6.0  # px that keep a title from the label above the last column


def paint_axis(plan: Plan, base: float) -> list[Element]:
    """The least axis that can be read: 0 at the base line and one tick at the top, with unit."""
    top = base - plan.height
    unit = f"{plan.scale:g}\u00a0mEq/L"
    return [
        rule(0.0, TICK, top),
        *text_lines([unit], 0.0, top - LINE / 2 - EDGE, anchor="start", kind="ion-second"),
        *text_lines(["0"], 0.0, base + LINE / 2 + EDGE, anchor="start", kind="ion-second"),
    ]


def paint_signs(plan: Plan, base: float) -> list[Element]:
    """+ and - under the columns, or why there are none."""
    parts: list[Element] = []
    middle = base + LINE / 2 + EDGE
    for index, left in enumerate(plan.lefts):
        if any(bar.column == index for bar in plan.bars):
            parts += text_lines(["+"], left + BAR / 2, middle)
            parts += text_lines(["\u2212"], left + BAR + GAP + BAR / 2, middle)
        else:
            parts += text_lines([plan.columns[index].empty], left + PAIR / 2, middle)
    return parts


def paint_titles(plan: Plan, top: float, room: float) -> list[Element]:
    """The titles, each centred on its column; the last lines level at the foot of the room [px]."""
    parts: list[Element] = []
    for index, left in enumerate(plan.lefts):
        lines = title_lines(plan, index)
        middle = top + room - len(lines) * LINE / 2
        parts += text_lines(lines, left + PAIR / 2, middle, kind="ion-title")
    return parts


def title_lines(plan: Plan, index: int) -> tuple[str, ...]:
    """The title of a column, wrapped to the room over it."""
    return balance(plan.columns[index].title, fitting(centred_room(plan, index) / BOLD))


def titles_room(plan: Plan) -> float:
    """Height of the tallest title [px]."""
    return max(len(title_lines(plan, index)) for index in range(len(plan.columns))) * LINE


def paint_notes(plan: Plan, top: float) -> tuple[list[Element], float]:
    """The notes under the columns, and how deep they reach [px].

    One or two columns have them one below the other, as wide as the drawing; more columns each
    have theirs below themselves.
    """
    parts: list[Element] = []
    deepest, across = top, len(plan.columns) <= 2
    for index, column in enumerate(plan.columns):
        limit = fitting(plan.width if across else centred_room(plan, index))
        lines, start = wrap(column.note, limit), deepest if across else top
        x, anchor = (0.0, "start") if across else (plan.lefts[index] + PAIR / 2, "middle")
        middle = start + len(lines) * LINE / 2
        parts += text_lines(lines, x, middle, anchor=anchor, kind="ion-second")
        deepest = max(deepest, start + len(lines) * LINE)
    return parts, deepest - top


def sky(plan: Plan) -> float:
    """Room over the scale [px]: a line for its tick, more for a label above the last column."""
    needs = [
        len(crown_lines(bar, plan.rooms[-1])) * LINE + DESCENT + crest(plan, bar.column)
        for bar in plan.bars
        if bar.words == "above"
    ]
    return max([LINE + 2 * EDGE, *(need - plan.height for need in needs)])
