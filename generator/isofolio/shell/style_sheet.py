"""The one style sheet of the site: what our pages can match of the theme's, then all of ours."""

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import Any

import tinycss2

from isofolio.shell.theme_names import CLASSES, PREFIX

# Of the theme's, rules of one kind inside others, and what stands outside of rules.
NESTED = ("media", "supports")
KEPT = ("page",)
FOREIGN = re.compile(rf"(?:\.|\[data-){PREFIX}[\w-]*")


def style_sheet(theme: str, ours: Iterable[str]) -> str:
    """The text of the sheet. theme: the theme's; ours: in the order of the cascade."""
    return "\n".join((_of_theme(theme), *ours))


@lru_cache(maxsize=1)
def _of_theme(theme: str) -> str:
    """What is taken of the theme's sheet, which stays the same while `serve` runs."""
    return "".join(_matching(_rules(theme)))


def _rules(css: Any) -> list[Any]:
    return list(tinycss2.parse_rule_list(css, skip_comments=True, skip_whitespace=True))


def _matching(rules: Iterable[Any]) -> Iterator[str]:
    """Those rules that an element of our pages can match, as text.

    >>> rules = _rules(".md-grid,.md-nav b{margin:0}.md-nav{top:0}b{left:0}")
    >>> list(_matching(rules))
    ['.md-grid{margin:0}', 'b{left:0}']
    """
    for rule in rules:
        if rule.type == "qualified-rule":
            selectors = [one for one in _selectors(rule) if _is_ours(one)]
            if selectors:
                yield f"{','.join(selectors)}{{{tinycss2.serialize(rule.content)}}}"
        elif rule.type == "at-rule" and rule.lower_at_keyword in NESTED:
            inside = "".join(_matching(_rules(rule.content)))
            if inside:
                condition = tinycss2.serialize(rule.prelude)
                yield f"@{rule.lower_at_keyword}{condition}{{{inside}}}"
        elif rule.type == "at-rule" and rule.lower_at_keyword in KEPT:
            yield rule.serialize()


def _selectors(rule: Any) -> list[str]:
    """The selectors of a rule; a comma inside brackets divides nothing."""
    parts: list[list[Any]] = [[]]
    for token in rule.prelude:
        if token.type == "literal" and token.value == ",":
            parts.append([])
        else:
            parts[-1].append(token)
    return [tinycss2.serialize(part).strip() for part in parts]


def _is_ours(selector: str) -> bool:
    """Whether every name of the theme in a selector is one that our templates use."""
    return {name.removeprefix(".") for name in FOREIGN.findall(selector)} <= set(CLASSES)
