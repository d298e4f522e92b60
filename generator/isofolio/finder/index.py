"""The finder's index: one classic script that sets one object, read on the first focus of the box.

Words are numbered: a name is a list of places in `vocabulary`, so that the script need not spell
five thousand fluids anew on every page.
"""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from sys import intern
from typing import Any

from isofolio.entries.lists import Word
from isofolio.finder.cards import Card, Prose, cards, notes
from isofolio.finder.measured import Held, Measured, measured, without_hydrate
from isofolio.finder.spelling import tables, tokens, words_of
from isofolio.finder.words import (
    AFTER_VOLUME,
    AND,
    BEFORE_VOLUME,
    FREE,
    HOLDING,
    LINKS,
    SIGNS,
    WITH,
    WITHOUT,
)
from isofolio.handbook import Handbook
from isofolio.vocabulary.terms import CONTAINER_KINDS, NAME_KINDS
from isofolio.wording.addresses import ALL_FLUIDS

MISSPELLING = "misspelling"
FIGURES = 6  # significant digits sent

# Everything that the script counts by. loose: letters of a word -> edits that it may be away.
LIMITS = {
    "hits": 20,
    "others": 4,
    "prose": 4,
    "alike": 2,
    "loose": [[4, 1], [8, 2]],
    "words": 20,
    "weighed": 200,
    "letters": 200,
    "cut": 3,
}

# How well a word fits; the whole of a name that fits; what tells hits of one rank apart.
WEIGHTS = {
    "begun": 0.5,
    "bare": 0.9,
    "loose": 0.3,
    "misspelt": 0.9,
    "strength": 0.2,
    "order": 0.1,
    "literal": 0.1,
    "about": 0.5,
}

QUESTIONS = {
    "without": WITHOUT,
    "with": WITH,
    "free": FREE,
    "holding": HOLDING,
    "and": AND,
    "signs": SIGNS,
    "links": LINKS,
    "beforeVolume": BEFORE_VOLUME,
    "afterVolume": AFTER_VOLUME,
    "containers": sorted({word for kind in CONTAINER_KINDS for word in kind.split()}),
}


def finder_data(handbook: Handbook, prose: Sequence[Prose] = ()) -> str:
    """The script scripts/finder-data.js. The same handbook gives the same bytes.

    prose: sections of hand-written pages, found after those of the entries.
    """
    return "".join(finder_pieces(handbook, prose))


def finder_pieces(handbook: Handbook, prose: Sequence[Prose] = ()) -> Iterator[str]:
    """The same text in pieces, so that the index of thousands is never held whole."""
    return _pieces(
        cards(handbook),
        (*notes(handbook), *prose),
        measured(handbook),
        handbook.catalogue.words,
        same_words(handbook),
    )


def same_words(handbook: Handbook) -> dict[str, str]:
    """Symbols and formulas of the catalogue, each with the name that stands for it."""
    catalogue = handbook.catalogue
    named = {particle.symbol: particle.name for particle in catalogue.particles.values()}
    for substance in catalogue.substances.values():
        if substance.formula is not None:
            formula = substance.formula.partition("(H2O)")[0]
            named.setdefault(formula, without_hydrate(substance))
    return words_of(named)


def encoded(
    found: Sequence[Card],
    prose: Sequence[Prose],
    asked: Sequence[Measured],
    ambiguous: Sequence[Word],
    same: Mapping[str, str],
) -> str:
    """The script for given pages, sections, figures and ambiguous words."""
    return "".join(_pieces(found, prose, asked, ambiguous, same))


def _pieces(
    found: Sequence[Card],
    prose: Sequence[Prose],
    asked: Sequence[Measured],
    ambiguous: Sequence[Word],
    same: Mapping[str, str],
) -> Iterator[str]:
    lexicon = _Lexicon(same, found, prose)
    places = {card.id: place for place, card in enumerate(found)}
    keys = {measure.key: number for number, measure in enumerate(asked)}
    data = {
        "all": {"label": "All fluids", "at": ALL_FLUIDS},
        "limits": LIMITS,
        "weights": WEIGHTS,
        "spelling": tables(same),
        "questions": QUESTIONS,
        "nameKinds": NAME_KINDS,
        "vocabulary": lexicon.words,
        "misspelt": lexicon.only_misspelt(found),
        "measures": [_measure(measure, same) for measure in asked],
        "words": _words(ambiguous, places, same),
    }
    started = _text(data).removesuffix("}")
    yield f"window.isofolio=window.isofolio||{{}};window.isofolio.finderData={started}"
    yield from _list("records", (_record(card, lexicon, places, keys) for card in found))
    yield from _list("prose", (_section(section, lexicon) for section in prose))
    yield "};\n"


def _list(key: str, items: Iterable[dict[str, Any]]) -> Iterator[str]:
    """A further key of an object, whose value is a list: one item after the other."""
    yield f',"{key}":['
    for place, item in enumerate(items):
        yield ("," if place else "") + _text(item)
    yield "]"


def _text(made: dict[str, Any]) -> str:
    return inert(json.dumps(made, ensure_ascii=False, allow_nan=False, separators=(",", ":")))


def inert(text: str) -> str:
    """JSON that no parser of HTML or JavaScript takes for anything else.

    >>> inert('["</script>"]')
    '["\\\\u003c/script>"]'
    """
    for sign in "<\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return text


class _Lexicon:
    """Every token of every name, numbered in alphabetical order."""

    def __init__(
        self, same: Mapping[str, str], found: Sequence[Card], prose: Sequence[Prose]
    ) -> None:
        texts = {text for card in found for text in _texts(card)}
        texts |= {text for section in prose for text in _section_texts(section)}
        # Many names share few words: one text serves them all.
        self._tokens = {text: tuple(map(intern, tokens(text, same))) for text in texts}
        self.words = sorted({token for made in self._tokens.values() for token in made})
        self._places = {token: place for place, token in enumerate(self.words)}

    def numbers(self, text: str) -> list[int]:
        """The tokens of a text, in their order, as places in the vocabulary."""
        return [self._places[token] for token in self._tokens[text]]

    def set_of(self, texts: Iterable[str]) -> list[int]:
        """All tokens of some texts, each once."""
        return sorted({number for text in texts for number in self.numbers(text)})

    def only_misspelt(self, found: Sequence[Card]) -> list[int]:
        """Tokens that stand in misspelt names alone: what they mean is asked of other words."""
        well, ill = set[int](), set[int]()
        for card in found:
            well.update(self.set_of((card_title(card), *card.about)))
            for name, kind in card.names:
                (ill if kind == MISSPELLING else well).update(self.numbers(name))
        return sorted(number for number in ill - well if self.words[number].isalpha())


def card_title(card: Card) -> str:
    """The title of a page in one line."""
    return " ".join(part for pair in card.title for part in pair if part)


def _texts(card: Card) -> Iterator[str]:
    yield card_title(card)
    yield from (name for name, _ in card.names)
    yield from card.about


def _section_texts(section: Prose) -> tuple[str, ...]:
    return section.title, section.heading, section.text


def _record(
    card: Card, lexicon: _Lexicon, places: Mapping[str, int], keys: Mapping[str, int]
) -> dict[str, Any]:
    names = [[name, NAME_KINDS.index(kind), lexicon.numbers(name)] for name, kind in card.names]
    return {
        "at": card.address,
        "kind": card.kind,
        "title": card.title,
        "said": lexicon.numbers(card_title(card)),
        "names": names,
        "about": lexicon.set_of(card.about),
        "role": card.role,
        "status": card.status,
        "potassium": card.potassium,
        "held": [_held(held, keys) for held in card.held],
        "sizes": [_short(size) for size in card.sizes],
        "alike": [[places[identifier], differs] for identifier, differs in card.alike],
    }


def _held(held: Held, keys: Mapping[str, int]) -> list[Any]:
    return [keys[held.key], [_short(figure) for figure in held.figures], held.shown]


def _short(figure: float) -> float | int:
    """A figure to six digits, whole numbers without a point."""
    rounded = float(f"{figure:.{FIGURES}g}")
    return int(rounded) if rounded.is_integer() else rounded


def _measure(measure: Measured, same: Mapping[str, str]) -> dict[str, Any]:
    return {
        "kind": measure.kind,
        "label": measure.label,
        "unit": measure.unit,
        "charge": measure.charge,
        "words": sorted({" ".join(tokens(word, same)) for word in measure.words}),
    }


def _words(
    ambiguous: Sequence[Word], places: Mapping[str, int], same: Mapping[str, str]
) -> list[dict[str, Any]]:
    """Ambiguous words by their spelling; those that come out alike share their candidates."""
    found: dict[str, dict[str, Any]] = {}
    for word in ambiguous:
        spelt = " ".join(tokens(word.word, same))
        entry = found.setdefault(spelt, {"said": spelt, "apart": word.tells_apart, "ids": []})
        candidates = [places[candidate] for candidate in word.candidates]
        entry["ids"] += [place for place in candidates if place not in entry["ids"]]
    return list(found.values())


def _section(section: Prose, lexicon: _Lexicon) -> dict[str, Any]:
    return {
        "at": section.address,
        "title": section.title,
        "heading": section.heading,
        "text": section.text,
        "page": lexicon.set_of((section.title,)),
        "said": lexicon.set_of((section.heading, section.text)),
    }
