"""What the author of a change announced, held beside what it does."""

from collections.abc import Iterator, Sequence

from isofolio.entries.expected import Announced, Expected
from isofolio.review.effects import Effect
from isofolio.review.sides import Side


def announcements(before: Side, after: Side) -> tuple[Expected, ...]:
    """The announcements of this change: those that it brings or edits, not those of older ones."""
    old, new = before.records["expected"], after.records["expected"]
    return tuple(one for name, one in new.items() if old.get(name) != one)


def is_announced(effect: Effect, announced: Sequence[Expected]) -> bool:
    """Whether any announcement speaks of an effect."""
    return any(fits(one, effect) for said in announced for one in said.effects)


def fits(announced: Announced, effect: Effect) -> bool:
    """Whether an announcement speaks of an effect: what it leaves out may be anything."""
    return (
        announced.kind == effect.kind
        and (not announced.of or effect.id in announced.of)
        and announced.what in (None, effect.what)
        and announced.to in (None, plain(effect.after))
    )


def plain(text: str) -> str:
    """A text as an editor types it: plain spaces, a plain minus.

    >>> plain("−9.1\\u202f%"), plain("40\\xa0mmol/L")
    ('-9.1 %', '40 mmol/L')
    """
    return text.replace("\u00a0", " ").replace("\u202f", " ").replace("−", "-").strip()


def unmet(announced: Sequence[Expected], effects: Sequence[Effect]) -> Iterator[str]:
    """What was announced and did not happen, in words."""
    for said in announced:
        for one in said.effects:
            happened = {effect.id for effect in effects if fits(one, effect)}
            missing = [name for name in one.of if name not in happened]
            if missing or not happened:
                yield _in_words(one, missing)


def _in_words(announced: Announced, missing: Sequence[str]) -> str:
    words = [announced.kind]
    words += [announced.what] if announced.what else []
    words += [f"to {announced.to}"] if announced.to else []
    return " ".join(words) + (f": {', '.join(missing)}" if missing else "")
