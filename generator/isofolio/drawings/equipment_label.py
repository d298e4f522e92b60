"""A drawn label of a fluid that does not exist, with the places to read numbered."""

from isofolio.drawings.equipment_figure import Figure, Part, rect, words

LEFT, EDGE, TEXT = 20.0, 44.0, 58.0  # px: the numbers, the edge of the label, its text
WIDTH = 340.0
LINE = 17.0  # px from one line of a label to the next

# what stands there, its lines, whether it is set large, whether it is boxed
Row = tuple[str, tuple[str, ...], bool, bool]
ROWS: tuple[Row, ...] = (
    ("volume of this bag", ("500\u00a0mL",), False, False),
    (
        "full name, with every strength",
        ("Specimen salt 0.6\u202f%", "and specimen sugar 2\u202f%"),
        True,
        True,
    ),
    ("route", ("For intravenous infusion",), False, False),
    (
        "what was weighed in",
        ("1000\u00a0mL contains specimen salt 6\u00a0g,", "specimen sugar 20\u00a0g, water"),
        False,
        False,
    ),
    (
        "mmol: in a litre, and in this bag",
        ("specimen ion", "100\u00a0mmol in 1000\u00a0mL", "50\u00a0mmol in this 500\u00a0mL"),
        False,
        True,
    ),
    ("osmolarity and pH", ("About 310\u00a0mOsm/L. pH 4 to 7.",), False, False),
    (
        "how to use it",
        ("Single use. Only if clear and unbroken.", "Do not reconnect a part-used bag."),
        False,
        False,
    ),
    ("storage", ("Keep in its wrap until needed.",), False, False),
    ("batch and expiry", ("Batch A123. Expires 11 2029.",), False, False),
)


def reading_a_label() -> Figure:
    """The label: one numbered place a row, the name and the mmol boxed in the accent."""
    parts, y = [], 56.0
    for name, texts, large, boxed in ROWS:
        part, y = _row(name, texts, y, large=large, boxed=boxed)
        parts.append(part)
    foot = y + 46
    room = rect(TEXT - 6, y, 268, 34, 2, kind="eq-hidden")
    added = words(
        "room for the label of anything added", TEXT + 2, y + 17, anchor="start", kind="eq-second"
    )
    parts.append(
        Part("room for the label of an addition", (room, added), (LEFT, y + 17), (TEXT - 6, y + 17))
    )
    ground = (
        words("Not a real label: no such fluid exists", WIDTH / 2, 14, kind="eq-second"),
        rect(EDGE, 30, WIDTH - EDGE - 6, foot - 30, 4),
    )
    saying = "A label of an invented fluid, with the places to read in order."
    return Figure(
        "reading-a-label",
        "A label and how to read it",
        saying,
        WIDTH,
        foot + 8,
        ground,
        tuple(parts),
    )


def _row(
    name: str, texts: tuple[str, ...], y: float, *, large: bool, boxed: bool
) -> tuple[Part, float]:
    """One place of the label from a height on, and the height where the next one starts."""
    kind = "eq-strong" if large or boxed else "eq-text"
    lines = tuple(
        words(text, TEXT, y + LINE * row, anchor="start", kind=kind)
        for row, text in enumerate(texts)
    )
    deep = LINE * (len(texts) - 1)
    box = (rect(TEXT - 6, y - 12, 268, deep + 24, 2, kind=""),) if boxed else ()
    middle = y + deep / 2
    end = TEXT - 6 if boxed else TEXT - 7
    return Part(name, (*box, *lines), (LEFT, middle), (end, middle), boxed), y + deep + 30
