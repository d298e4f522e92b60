"""The same comparison as data: what a program on any Git host may rely on.

`schema` rises when a key goes or changes its meaning; new keys may come without that. The order is
fixed; there is no time and no path of a machine in it, and no rounding but that of the pages.
"""

import json
from typing import Any

from isofolio.entries.problems import Problem
from isofolio.review.announced import plain
from isofolio.review.comparison import Comparison, Finding, Unread
from isofolio.review.edits import Edit

SCHEMA = 1

Plain = dict[str, Any]


def json_report(comparison: Comparison, code: int) -> str:
    """The report as JSON. code: how the command ends."""
    return json.dumps(changes_data(comparison, code), ensure_ascii=False, indent=1) + "\n"


def changes_data(comparison: Comparison, code: int) -> Plain:
    """The report as plain dicts and lists, in the order of the report."""
    return {
        "schema": SCHEMA,
        "before": comparison.before,
        "after": comparison.after,
        "exit": code,
        "problems": [_problem(one) for one in comparison.problems],
        "unread": [_unread(one) for one in comparison.unread],
        "borrowed": list(comparison.borrowed),
        "without_figures": list(comparison.without_figures),
        "announced_and_not_happened": list(comparison.unmet),
        "findings": [_finding(comparison, one) for one in comparison.findings],
        "edits": [_edit(one) for one in comparison.edits],
        "introduced": dict(comparison.introduced),
        "addresses": {"gone": list(comparison.moves.gone), "new": list(comparison.moves.come)},
        "layout_only": list(comparison.layout),
        "not_double_checked": list(comparison.unchecked),
    }


def _problem(problem: Problem) -> Plain:
    place = {"file": problem.file, "line": problem.place.line, "column": problem.place.column}
    return {**place, "message": problem.message, "fix": problem.fix}


def _unread(one: Unread) -> Plain:
    return {"side": one.side, "lines_apart": one.lines, **_problem(one.problem)}


def _finding(comparison: Comparison, finding: Finding) -> Plain:
    """A finding: texts as the pages print them, with plain spaces; announced is null where the
    change announces nothing."""
    effect = finding.effect
    return {
        "level": effect.level,
        "kind": effect.kind,
        "loud": effect.loud,
        "entry": effect.entry,
        "name": comparison.names.get(effect.entry, effect.id),
        "what": effect.what,
        "before": plain(effect.before),
        "after": plain(effect.after),
        "size": plain(effect.size),
        "because": list(finding.causes),
        "announced": finding.announced,
    }


def _edit(edit: Edit) -> Plain:
    fields = [{"field": f.field, "before": f.before, "after": f.after} for f in edit.fields]
    told: Plain = {"entry": edit.entry, "name": edit.name, "file": edit.file}
    return {**told, "action": edit.action, "was": f"{edit.kind}/{edit.old}", "fields": fields}
