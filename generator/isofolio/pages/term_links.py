"""The first use of a term of the glossary on a page leads to the glossary."""

import re
from collections.abc import Iterable, Mapping

from isofolio.entries.teaching import Term
from isofolio.wording.addresses import GLOSSARY, relative

# Where no link is set: links themselves, headings, code, and what is pressed to open an answer.
LEFT_ALONE = frozenset(
    {"a", "button", "code", "pre", "summary", "h1", "h2", "h3", "h4", "h5", "h6"}
)

_TAG = re.compile(r"(<[^>]*>)")
_NAME = re.compile(r"</?([a-zA-Z][a-zA-Z0-9]*)")


def with_terms_linked(html: str, here: str, terms: Iterable[Term]) -> str:
    """The page `here` with a link at the first use of each term; a longer name goes first.

    >>> from isofolio.entries.records import Review
    >>> draft = Review(state="draft")
    >>> term = Term(id="mole", name="mole", text="An amount.", cite=None, review=draft)
    >>> with_terms_linked("<h2>A mole</h2><p>Moles. A mole.</p>", "a.html", [term])
    '<h2>A mole</h2><p><a class="term" href="glossary.html#mole">Moles</a>. A mole.</p>'
    """
    owners = {
        name.casefold(): term.id for term in terms for name in (term.name, *term.also_known_as)
    }
    if not owners:
        return html
    pattern = _pattern(owners)
    linked: set[str] = set()

    def link(found: re.Match[str]) -> str:
        term = owners[found["name"].casefold()]
        if term in linked:
            return found[0]
        linked.add(term)
        return f'<a class="term" href="{relative(here, f"{GLOSSARY}#{term}")}">{found[0]}</a>'

    depth = 0
    pieces = []
    for piece in _TAG.split(html):
        depth += _step(piece)
        pieces.append(piece if depth or piece.startswith("<") else pattern.sub(link, piece))
    return "".join(pieces)


def _pattern(owners: Mapping[str, str]) -> re.Pattern[str]:
    names = "|".join(re.escape(name) for name in sorted(owners, key=lambda n: (-len(n), n)))
    return re.compile(rf"(?<![\w-])(?P<name>{names})(?:s|es)?(?![\w-])", re.IGNORECASE)


def _step(piece: str) -> int:
    """How much deeper a tag leads into what is left alone."""
    name = _NAME.match(piece)
    if name is None or name[1].lower() not in LEFT_ALONE:
        return 0
    return -1 if piece.startswith("</") else 1
