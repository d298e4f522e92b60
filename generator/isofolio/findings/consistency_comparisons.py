"""Whether the prose of entries names figures that the handbook has."""

from collections.abc import Collection, Iterator, Sequence

from isofolio.entries.comparisons import Comparison
from isofolio.entries.fluids import Fluid
from isofolio.entries.problems import Problem, did_you_mean, quoted
from isofolio.entries.reading import Catalogue, Reading
from isofolio.entries.tree import Path
from isofolio.findings.consistency_fluids import is_volume
from isofolio.measures.columns import columns_from
from isofolio.measures.solutions import solution_of
from isofolio.measures.table import MEASURES, Table, table_from
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.placeholders import PLASMA, Placeholder, placeholders

Finding = Iterator[Problem]
Fault = tuple[str, str]

HOW = "Write it as in {glucose-5 osmolarity}, {glucose-5 glucose in 500 mL} or {glucose-5}."


def volumes_fit(reading: Reading) -> Finding:
    """The table of a comparison is told for volumes."""
    for comparison in reading.catalogue.comparisons.values():
        for number, volume in enumerate(comparison.volumes):
            if not is_volume(volume):
                message = f'"{volume.text}" is not a volume'
                yield reading.problem(
                    _file(comparison), ("volumes", number), message, "Write it as in 500 mL."
                )


def figures_are_there(reading: Reading, sound: Sequence[Fluid]) -> Finding:
    """Every placeholder names a fluid, a quantity, and a figure that is known.

    sound: the fluids without a problem of their own; of others nothing more is said.
    """
    said = [
        (file, path, *each)
        for file, path, text in _prose(reading.catalogue)
        for each in placeholders(text)
    ]
    table = _table(reading.catalogue, sound, [each for *_, each in said if each is not None])
    files = [file for file in reading.trees if file.startswith("fluids/")]
    fluids = [file.removeprefix("fluids/").removesuffix(".yml") for file in files]
    for file, path, written, placeholder in said:
        fault = figure_fault(reading.catalogue, fluids, table, written, placeholder)
        if fault:
            yield reading.problem(file, path, *fault)


def _prose(catalogue: Catalogue) -> Iterator[tuple[str, Path, str]]:
    """Every text that may name a figure, with its file and path."""
    for comparison in catalogue.comparisons.values():
        yield _file(comparison), ("text",), comparison.text
        for number, point in enumerate(comparison.points):
            yield _file(comparison), ("points", number), point
    for term in catalogue.glossary.values():
        yield f"glossary/{term.id}.yml", ("text",), term.text
    for confusion in catalogue.confusions.values():
        for key in ("said", "truth", "why"):
            yield f"confusions/{confusion.id}.yml", (key,), getattr(confusion, key)


def _table(catalogue: Catalogue, sound: Sequence[Fluid], named: Sequence[Placeholder]) -> Table:
    """The figures that are named, of the fluids that are named."""
    subjects = {placeholder.subject for placeholder in named}
    quantities = {placeholder.quantity for placeholder in named}
    fluids = [fluid for fluid in sound if fluid.id in subjects]
    solutions = [solution_of(fluid, catalogue) for fluid in fluids]
    columns = columns_from([fluid.id for fluid in fluids], solutions, catalogue)
    measures = [measure for measure in MEASURES if quantities & set(measure.quantities)]
    return table_from(columns, catalogue, measures)


def figure_fault(
    catalogue: Catalogue,
    fluids: Collection[str],
    table: Table,
    written: str,
    placeholder: Placeholder | None,
) -> Fault | None:
    """What is wrong with one placeholder, and how to mend it; None where nothing is.

    fluids: the ids that exist; table: the figures, of those fluids of which some are known.
    """
    if placeholder is None:
        return f"{quoted(written)} between braces names no figure", HOW
    quantity = placeholder.quantity
    if quantity and quantity not in QUANTITY_BY_ID:
        guess = did_you_mean(quantity, list(QUANTITY_BY_ID))
        return f"{quoted(quantity)} is not a quantity", guess or HOW
    if placeholder.subject == PLASMA:
        return _fault_of_plasma(catalogue, placeholder)
    if placeholder.subject not in fluids:
        guess = did_you_mean(placeholder.subject, sorted(fluids))
        return f"there is no {quoted(placeholder.subject)} in fluids/", guess or HOW
    return _fault_of_fluid(table, written, placeholder)


def _fault_of_fluid(table: Table, written: str, placeholder: Placeholder) -> Fault | None:
    quantity = placeholder.quantity
    if placeholder.millilitres is not None and not QUANTITY_BY_ID[quantity].scales:
        return f"a container holds no share of {quantity}", "Leave out the volume."
    if not quantity or placeholder.subject not in table.rows:
        return None
    reason = table.value(placeholder.subject, quantity).reason
    return (f"{written} is no figure: {reason}", "Say it in words.") if reason else None


def _fault_of_plasma(catalogue: Catalogue, placeholder: Placeholder) -> Fault | None:
    there = any(i.beside and i.quantity == placeholder.quantity for i in catalogue.intervals)
    if there and placeholder.millilitres is None:
        return None
    message = "of plasma only the intervals of plasma.yml can be told, without a volume"
    return message, "Name a quantity that has beside: yes there, as in {plasma sodium}."


def _file(comparison: Comparison) -> str:
    return f"comparisons/{comparison.id}.yml"
