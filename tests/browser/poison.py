"""A handbook in which every text that a catalogue may hold tries to become something else.

The records are walked by their own types: a text field that is added later is poisoned too.
"""

from dataclasses import replace
from itertools import cycle
from types import MappingProxyType, NoneType

from pydantic import BaseModel, TypeAdapter

from isofolio.entries.files import FOLDERS
from isofolio.entries.scalars import Text, Title

# What a name may hold: no angle brackets, one line.
IN_TITLES = (
    '=HYPERLINK("https://evil.invalid","x")',
    '" onmouseover="alert(1)" x="',
    "' autofocus onfocus='alert(1)",
    "javascript:alert(1)",
    "{{7*7}}${7*7}",
    "&lt;img src=x onerror=alert(1)&gt;",
    "[x](javascript:alert(1))",
    "+1+cmd|' /C calc'!A0",
    "-1+1",
    "@SUM(1)",
    "\\u003cimg src=x onerror=alert(1)\\u003e",
)
# What any other text may hold besides.
IN_TEXTS = (
    *IN_TITLES,
    '"><img src=x onerror=alert(1)>',
    "</title><script>alert(1)</script>",
    "</script><script>alert(1)</script>",
    "</style></svg><svg onload=alert(1)>",
    "<!--",
    "]]><![CDATA[",
    "<a href=javascript:alert(1)>x</a>",
    "<iframe srcdoc='<script>alert(1)</script>'></iframe>",
    "\t=1+1",
)
BRACES = ("{", "}")
# Prose in which braces are placeholders of figures: the check of the catalogue refuses others.
WITH_FIGURES = {"Comparison", "Confusion", "Term"}
# Texts that the check of the catalogue allows one value for, or that are looked up.
CLOSED = {("Limit", "quantity"), ("Change", "pages")}
SHORT = {("Caution", "imperative"), ("Caution", "short")}


def text_kind(annotation, metadata=()):
    """What a field holds, by itself or in a list: "title", "text", or "" for anything else."""
    for mark in metadata:
        name = getattr(getattr(mark, "func", None), "__name__", "")
        if name in {"_title", "_text"}:
            return name.removeprefix("_")
    inner = getattr(annotation, "__args__", ())
    found = [text_kind(part, getattr(part, "__metadata__", ())) for part in inner]
    return next((kind for kind in found if kind), "")


class Poisoner:
    """Puts one payload after another before each text, and where a text was left out.

    met: the fields that were poisoned, as (record type, field).
    """

    def __init__(self):
        self.texts = cycle(IN_TEXTS)
        self.titles = cycle(IN_TITLES)
        self.met = set()

    def record(self, record):
        kind = type(record)
        changed = {}
        for name, field in kind.model_fields.items():
            what = text_kind(field.annotation, field.metadata)
            changed[name] = self.value(getattr(record, name), what, (kind.__name__, name))
        return record.model_copy(update=changed)

    def value(self, value, what, where):
        if isinstance(value, BaseModel):
            return self.record(value)
        if isinstance(value, list):
            return [self.value(item, what, where) for item in value]
        if not what or type(value) not in {str, NoneType} or where in CLOSED:
            return value
        self.met.add(where)
        payload = self.payload(what, where[0] in WITH_FIGURES)
        return payload if value is None or where in SHORT else f"{payload} {value}"

    def payload(self, what, with_figures):
        payloads = self.titles if what == "title" else self.texts
        found = next(payloads)
        while with_figures and any(brace in found for brace in BRACES):
            found = next(payloads)
        return found


def poisoned(reading):
    """The reading with every text poisoned, and the fields that were met."""
    poisoner = Poisoner()
    catalogue, changed = reading.catalogue, {}
    for name in (*FOLDERS, "particles", "limits"):
        records = getattr(catalogue, name).items()
        changed[name] = MappingProxyType({key: poisoner.record(one) for key, one in records})
    for name in ("intervals", "words", "not_instead", "changes"):
        changed[name] = tuple(poisoner.record(one) for one in getattr(catalogue, name))
    return replace(reading, catalogue=replace(catalogue, **changed)), poisoner.met


def text_fields(kind, found=None):
    """Every text field of a record type and of the types inside it: (type, field)."""
    found = set() if found is None else found
    for name, field in kind.model_fields.items():
        if text_kind(field.annotation, field.metadata):
            found.add((kind.__name__, name))
        for inner in models_in(field.annotation):
            text_fields(inner, found)
    return found


def models_in(annotation):
    """The record types that an annotation names."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for part in getattr(annotation, "__args__", ()) for model in models_in(part)]


def are_accepted():
    """Whether the types of the catalogue let every payload through: else nothing is tried."""
    for kind, payloads in ((Title, IN_TITLES), (Text, IN_TEXTS)):
        adapter = TypeAdapter(kind)
        for payload in payloads:
            assert adapter.validate_python(f"{payload} x") == f"{payload} x".strip()
    return True
