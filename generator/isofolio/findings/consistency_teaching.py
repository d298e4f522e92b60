"""Whether the glossary names each thing once, and each confusion shows a live number."""

from collections.abc import Iterator

from isofolio.entries.problems import Problem, quoted
from isofolio.entries.reading import Reading
from isofolio.entries.teaching import Term
from isofolio.entries.tree import Path
from isofolio.wording.placeholders import placeholders

Finding = Iterator[Problem]


def terms_are_single(reading: Reading) -> Finding:
    """No two terms share a name: its first use on a tutorial leads to one place."""
    owners: dict[str, str] = {}
    for term in reading.catalogue.glossary.values():
        for path, name in _names(term):
            owner = owners.setdefault(name.casefold(), term.id)
            if owner != term.id:
                message = f"the name {quoted(name)} belongs to {owner} already"
                fix = "Leave it to one of the two terms."
                yield reading.problem(f"glossary/{term.id}.yml", path, message, fix)


def _names(term: Term) -> Iterator[tuple[Path, str]]:
    yield ("name",), term.name
    for number, name in enumerate(term.also_known_as):
        yield ("also_known_as", number), name


def confusions_show_a_number(reading: Reading) -> Finding:
    """The truth of a confusion has a figure that the handbook computes."""
    for confusion in reading.catalogue.confusions.values():
        figures = (placeholder for _, placeholder in placeholders(confusion.truth))
        if not any(figure is not None and figure.quantity for figure in figures):
            message = "the truth of a confusion has no figure of the handbook"
            fix = "Name one between braces, as in {glucose-5 osmolarity}."
            file = f"confusions/{confusion.id}.yml"
            yield reading.problem(file, ("truth",), message, fix)
