"""The types of single values in an entry: text, numbers, dates, amounts, references.

Pydantic's own number types read `1e3`, `Infinity`, `1_000` and `y`; these read what a label prints.
"""

import re
import unicodedata
from dataclasses import dataclass
from datetime import date
from functools import cached_property, lru_cache
from sys import intern
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from isofolio.entries.problems import did_you_mean, quoted
from isofolio.entries.tree import Plain
from isofolio.vocabulary.units import DENOMINATORS, NUMERATORS, UNITS


def fault(message: str, fix: str, at: str = "") -> PydanticCustomError:
    """An error that carries its own message and fix to the problem list; `at` names a key."""
    context = {"message": message, "fix": fix, "at": at}
    return PydanticCustomError("isofolio", "{message}", context)


# What a YAML reader of another kind would take for a number, a time, a truth value or nothing.
_MISREAD = re.compile(
    r"""[-+]?(0x[0-9a-fA-F_]+|0o?[0-7_]+|[0-9][0-9_]*(:[0-5]?[0-9])+(\.[0-9]*)?
    |(\.[0-9]+|[0-9][0-9_]*(\.[0-9_]*)?)([eE][-+]?[0-9]+)?|\.(inf|nan))
    |y|n|yes|no|on|off|true|false|null|~|=|[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}([T\ \t].*)?""",
    re.IGNORECASE | re.VERBOSE,
)
# Nine digits before the point and twelve after it: more is no figure of a label.
_FIGURE = r"-?(?:0|[1-9][0-9]{0,8})(?:\.[0-9]{1,12})?"
_WHOLE = r"-?(?:0|[1-9][0-9]{0,8})"
# A longer list is not repeated where there is a guess at what was meant.
LONG_LIST = 20
# The title of a long report still fits; a name stands in headings, drawings and the finder.
LONGEST_NAME = 300
_IDENTIFIER = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_ADDRESS = r"https://[a-z0-9.-]+(/[A-Za-z0-9._~/%?=&,;:@+()-]*)?"


def _scalar(value: Any) -> str:
    if not isinstance(value, str):
        kind = "a list" if isinstance(value, list) else "a mapping"
        raise fault(f"{kind} stands where one value is expected", "Write one value.")
    if not value.strip():
        raise fault(
            "the value is empty", "Write the value, or delete the key if it may be left out."
        )
    return value


def _text(value: Any) -> str:
    text = _scalar(value)
    if isinstance(text, Plain) and _MISREAD.fullmatch(text):
        message = f"other programs read {text[:40]} without quotes as something else than text"
        raise fault(message, f'Write it in quotes: "{text[:40]}".')
    return intern(str(text).strip())  # ids, dates and kinds stand in many entries


def _title(value: Any) -> str:
    text = _text(value)
    for sign in "<>":
        if sign in text:
            raise fault(f'"{sign}" is not allowed in a name', "Write the name without it.")
    if "\n" in text:
        raise fault("a name of more than one line", "Write it on one line.")
    if len(text) > LONGEST_NAME:
        fix = f"Keep it to {LONGEST_NAME}; what explains it goes into a note."
        raise fault(f"a name of {len(text)} characters", fix)
    return text


def _identifier(value: Any) -> str:
    text = _text(value)
    if _IDENTIFIER.fullmatch(text):
        return text
    odd = re.search(r"[^a-z0-9-]", text)
    why = f": it holds {_named(odd[0])}" if odd else ""
    fix = "Use small letters a to z, digits, and single hyphens between them."
    raise fault(f"{quoted(text)} is not an id{why}", fix)


def _named(character: str) -> str:
    """A character by its sign, number and name, because some look like others."""
    name = unicodedata.name(character, "a character without a name").lower()
    return f"{quoted(character)} (U+{ord(character):04X}, {name})"


def _number(value: Any) -> float:
    text = _scalar(value)
    if not re.fullmatch(_FIGURE, text):
        raise fault(f"{quoted(text)} is not a plain number", "Write it as in 12 or 0.45.")
    return float(text)


def _count(value: Any) -> int:
    text = _scalar(value)
    if not re.fullmatch(_WHOLE, text):
        raise fault(f"{quoted(text)} is not a whole number", "Write digits only, as in 2 or -1.")
    return int(text)


def _times(value: Any) -> int:
    count = _count(value)
    if count < 1:
        raise fault(f'"{count}" is not a number of times', "Write 1 or more.")
    return count


def _yes_no(value: Any) -> bool:
    text = _scalar(value)
    if text not in {"yes", "no"}:
        raise fault(f"{quoted(text)} is neither yes nor no", "Write yes or no.")
    return text == "yes"


def _date(value: Any) -> str:
    text = _scalar(value)
    try:
        if date.fromisoformat(text).isoformat() == text:
            return intern(str(text))
    except ValueError:
        pass
    raise fault(f"{quoted(text)} is not a date", "Write it as in 2026-11-25.")


def _address(value: Any) -> str:
    text = _text(value)
    if not re.fullmatch(_ADDRESS, text):
        raise fault(f"{quoted(text)} is not an address we link to", "Write it as https://…")
    return text


def one_of(words: tuple[str, ...], kind: str = "in the list") -> PlainValidator:
    """A text out of a closed list, called `kind` where it is not."""

    def check(value: Any) -> str:
        text = _scalar(value)
        if text in words:
            return intern(str(text))
        guess = did_you_mean(text, words)
        listed = "" if guess and len(words) > LONG_LIST else f"Write one of: {', '.join(words)}."
        raise fault(f"{quoted(text)} is not {kind}", f"{guess} {listed}".strip())

    allowed: Any = Literal
    return PlainValidator(check, json_schema_input_type=allowed[words])


def patterned(pattern: str, kind: str, fix: str) -> PlainValidator:
    """A text of a fixed form, called `kind` where it is wrong."""

    def check(value: Any) -> str:
        text = _scalar(value)
        if re.fullmatch(pattern, text):
            return intern(str(text))
        raise fault(f"{quoted(text)} is not {kind}", fix)

    written = Annotated[str, Field(pattern=f"^{pattern}$")]
    return PlainValidator(check, json_schema_input_type=written)


class Reference(str):
    """The id of another entry, and the kind of entry it names."""

    __slots__ = ("kind",)
    kind: str

    def __new__(cls, text: str, kind: str) -> "Reference":
        made = super().__new__(cls, text)
        made.kind = kind
        return made


# Kinds whose entries stand in one file, and not in a folder.
_LISTED = ("particles", "limits")


# The same entry is named in thousands of places.
_named_once = lru_cache(maxsize=4096)(Reference)


def _reference(kind: str) -> PlainValidator:
    def check(value: Any) -> Reference:
        return _named_once(_identifier(value), kind)

    described = f"An id of {kind}.yml." if kind in _LISTED else f"An id of {kind}/."
    written = Annotated[str, Field(pattern=f"^{_IDENTIFIER.pattern}$", description=described)]
    return PlainValidator(check, json_schema_input_type=written)


def _shape(pattern: str, *examples: str, kinds: tuple[str, ...] = ("string",), **more: Any) -> Any:
    """What completion is told of a value: its form as text, and a number where YAML sees one."""
    shown: dict[str, Any] = {"examples": list(examples)} if examples else {}
    kind = kinds[0] if len(kinds) == 1 else list(kinds)
    return WithJsonSchema({"type": kind, "pattern": f"^{pattern}$", **shown, **more})


Text = Annotated[str, BeforeValidator(_text), WithJsonSchema({"type": "string", "minLength": 1})]
Title = Annotated[str, BeforeValidator(_title), _shape(r"[^<>\n]+")]
Identifier = Annotated[str, BeforeValidator(_identifier), _shape(_IDENTIFIER.pattern)]
Number = Annotated[float, PlainValidator(_number), _shape(_FIGURE, kinds=("number", "string"))]
Count = Annotated[int, PlainValidator(_count), _shape(_WHOLE, kinds=("integer", "string"))]
Times = Annotated[
    int, PlainValidator(_times), _shape("[1-9][0-9]{0,8}", kinds=("integer", "string"), minimum=1)
]
YesNo = Annotated[bool, PlainValidator(_yes_no), WithJsonSchema({"enum": ["yes", "no"]})]
Date = Annotated[
    str, BeforeValidator(_date), _shape("[0-9]{4}-[0-9]{2}-[0-9]{2}", "2026-11-25", format="date")
]
Address = Annotated[str, BeforeValidator(_address), _shape(_ADDRESS)]
FluidId = Annotated[Reference, _reference("fluids")]
SubstanceId = Annotated[Reference, _reference("substances")]
ParticleId = Annotated[Reference, _reference("particles")]
SourceId = Annotated[Reference, _reference("sources")]
LimitId = Annotated[Reference, _reference("limits")]
EquipmentId = Annotated[Reference, _reference("equipment")]
SituationId = Annotated[Reference, _reference("situations")]
TermId = Annotated[Reference, _reference("glossary")]

State = Literal["exact", "range", "bound", "trace", "not declared"]

# Why an amount that is not one number gives no figure.
REASONS: dict[State, str] = {
    "range": "declared as a range",
    "bound": "declared as a bound",
    "trace": "declared as a trace",
    "not declared": "not declared",
}


@dataclass(frozen=True)
class Amount:
    """An amount as a label writes it.

    low, high: the figures; equal for one figure; None where there is none.
    unit: a text of the unit table, or "%" (grams in 100 mL).
    per_millilitres: 500 for "20 mmol per 500 mL", else None.
    text: as written ("0.90" and "0.9" differ on a label).
    """

    state: State
    text: str
    low: float | None = None
    high: float | None = None
    unit: str = ""
    per_millilitres: float | None = None

    @cached_property
    def decimals(self) -> int:
        """Digits after the decimal mark of the first figure, as written."""
        found = re.search(r"\d+(?:\.(\d+))?", self.text)
        return len(found[1]) if found and found[1] else 0


_AMOUNT = re.compile(
    rf"(?P<bound>at most )?(?P<low>{_FIGURE})(?: to (?P<high>{_FIGURE}))?(?: (?P<unit>\S.*))?"
)
_HOW = (
    'Write a number and a unit, as in "50 g/L", "4.5 to 7.0", "at most 2 mmol/L", '
    '"20 mmol per 500 mL", "0.9 % w/v", "trace" or "not declared".'
)

_LISTED_UNITS = (
    f"Write one of {', '.join(NUMERATORS)}, alone or with one of "
    f"{', '.join(f'/{below}' for below in DENOMINATORS[1:])}; "
    'or "% w/v"; or as in "20 mmol per 500 mL".'
)


def parse_amount(value: Any) -> Amount:
    """Read an amount.

    >>> parse_amount("20 mmol per 500 mL").per_millilitres
    500.0
    >>> parse_amount("4.5 to 7.0").high
    7.0
    """
    return _parsed(str(_scalar(value)).strip())


@lru_cache(maxsize=4096)  # the same few hundred amounts stand in every catalogue
def _parsed(text: str) -> Amount:
    if text in {"trace", "not declared"}:
        return Amount("trace" if text == "trace" else "not declared", text)
    found = _AMOUNT.fullmatch(text)
    if (
        found is None or (found["bound"] and found["high"]) or re.search("[–—]", text)
    ):  # a dash is no "to"
        raise fault(f"{quoted(text)} is not an amount", _hint(text))
    unit, per = _unit(found["unit"] or "1")
    low = float(found["low"])
    high = float(found["high"] or found["low"])
    if high < low:
        raise fault(f"{quoted(text)} runs downwards", "Write the lower figure first.")
    if found["bound"]:
        return Amount("bound", text, None, high, unit, per)
    return Amount("range" if found["high"] else "exact", text, low, high, unit, per)


# The commonest slips -> how to mend them.
_SLIPS = (
    (r".*[0-9],[0-9].*", "Write the decimal mark as a point, and no mark between thousands."),
    (r"-?[0-9.]+ ?[-–—] ?[0-9].*", 'Write a range with "to", as in "4.5 to 7.0".'),
    (r"-?[0-9.]+[eE][-+]?[0-9].*", "Write the number out, without an exponent."),
    (r"-?[0-9.]{10,}.*", "At most nine digits before the point and twelve after it."),
    (rf"-?[0-9.]+({'|'.join(NUMERATORS[:-1])}|%).*", "Leave a space between number and unit."),
)


def _hint(text: str) -> str:
    return next((how for slip, how in _SLIPS if re.fullmatch(slip, text)), _HOW)


def _unit(text: str) -> tuple[str, float | None]:
    if text == "% w/v":
        return "%", None
    container = re.fullmatch(r"(\S+) per ([1-9][0-9]{0,5}(?:\.[0-9]+)?) mL", text)
    if container and container[1] in NUMERATORS:
        return intern(container[1]), float(container[2])
    if text in UNITS:
        return intern(text), None
    # Only capitals are guessed at: "µmol/L" is not a misspelt "mmol/L".
    guess = next((f'Did you mean "{u}"? ' for u in UNITS if u.casefold() == text.casefold()), "")
    raise fault(f"the unit {quoted(text)} is not in the list", guess + _LISTED_UNITS)


def _not_negative(value: Any) -> Amount:
    amount = parse_amount(value)
    lowest = amount.high if amount.low is None else amount.low
    if lowest is not None and lowest < 0:
        raise fault(f"{quoted(amount.text)} is less than nothing", "Write it without the minus.")
    return amount


def _amount_pattern(figure: str) -> str:
    """The form of an amount in one pattern, for completion; `parse_amount` is what reads it."""
    above, below = "|".join(NUMERATORS), "|".join(DENOMINATORS[1:])
    container = r"per [1-9][0-9]{0,5}(\.[0-9]+)? mL"
    unit = rf"( (({above})(/({below})| {container})?|% w/v))?"
    return rf"(trace|not declared|(at most )?{figure}{unit}|{figure} to {figure}{unit})"


def _amount_shape(figure: str, **more: Any) -> Any:
    examples = ("50 g/L", "4.5 to 7.0", "at most 2 mmol/L", "20 mmol per 500 mL", "0.9 % w/v")
    kinds = ("string", "number")
    pattern = _amount_pattern(figure)
    return _shape(
        pattern, *examples, "trace", "not declared", kinds=kinds, description=_HOW, **more
    )


AmountField = Annotated[Amount, PlainValidator(parse_amount), _amount_shape(_FIGURE)]
AmountPresent = Annotated[
    Amount, PlainValidator(_not_negative), _amount_shape(_FIGURE.removeprefix("-?"), minimum=0)
]
