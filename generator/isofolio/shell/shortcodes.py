"""Live figures in hand-written pages: `{glucose-5 osmolarity}` in Markdown, as in the entries.

A shortcode that names no figure stops the build, with the file and the line.
"""

import re

from isofolio.entries.problems import Place, Problem, excerpt
from isofolio.findings.consistency_comparisons import figure_fault
from isofolio.handbook import Handbook
from isofolio.pages.live import told
from isofolio.wording.figures import typeset
from isofolio.wording.placeholders import Placeholder, read_placeholder

_MARKUP = re.compile(r"[\\`*_{}\[\]<>&|#!~]")
_BRACES = re.compile(r"\{(?P<inside>[^{}\n]*)\}|[{}]")


def with_figures(
    handbook: Handbook, markdown: str, file: str, source: str
) -> tuple[str, list[Problem]]:
    """The Markdown with every figure in it, typeset; and what is wrong with it.

    file: its name in messages; source: the whole file, of which `markdown` is the end.
    """
    before = source[: len(source) - len(markdown)].count("\n") if source.endswith(markdown) else 0
    problems: list[Problem] = []

    def one(found: re.Match[str]) -> str:
        inside = found["inside"]
        placeholder = None if inside is None else read_placeholder(inside)
        fault = _fault(handbook, found[0] if inside is None else inside, placeholder)
        if placeholder is not None and fault is None:
            return as_text(told(handbook, placeholder))
        line = markdown.count("\n", 0, found.start()) + 1 + before
        place = Place(line, found.start() - markdown.rfind("\n", 0, found.start()))
        problems.append(Problem(file, place, *(fault or ("", "")), excerpt(source, place)))
        return found[0]

    return typeset(_BRACES.sub(one, markdown)), problems


def as_text(words: str) -> str:
    """Words of an entry as they stand in Markdown: none of their signs may become markup.

    >>> as_text("[a](b)")
    '&#91;a&#93;(b)'
    """
    return _MARKUP.sub(lambda sign: f"&#{ord(sign[0])};", words)


def _fault(
    handbook: Handbook, written: str, placeholder: Placeholder | None
) -> tuple[str, str] | None:
    fluids = handbook.catalogue.fluids
    return figure_fault(handbook.catalogue, fluids, handbook.measures, written, placeholder)
