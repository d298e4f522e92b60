"""What no single field can show to be wrong: charge, units, citations, names.

Runs on the sound entries whose references are sound, so that one fault is one problem.
"""

from collections.abc import Callable, Sequence

from isofolio.entries.fluids import Fluid
from isofolio.entries.problems import Problem
from isofolio.entries.reading import Reading
from isofolio.findings.consistency_catalogue import (
    Finding,
    ids_are_single,
    intervals_fit,
    lists_have_single_ids,
    names_are_single,
    nothing_from_memory,
    one_interval_beside,
)
from isofolio.findings.consistency_comparisons import figures_are_there, volumes_fit
from isofolio.findings.consistency_doses import doses_have_source_and_year, mixing_has_a_source
from isofolio.findings.consistency_fluids import charge_closes, recipes, units_fit
from isofolio.findings.consistency_limits import (
    limits_are_of_their_quantity,
    limits_are_there,
    limits_ascend,
    limits_fit,
)
from isofolio.findings.consistency_stock import (
    stock_is_stricter,
    stock_keeps_the_order,
    stock_keeps_what_is_sold,
)
from isofolio.findings.consistency_substances import (
    formulas_are_known,
    hydrates_fit,
    osmosis_can_be_computed,
    salts_are_neutral,
    sound_substances,
)
from isofolio.findings.consistency_teaching import (
    confusions_show_a_number,
    terms_are_single,
)


def problems(reading: Reading) -> tuple[Problem, ...]:
    """Every consistency problem of the sound entries, sorted by file and line."""
    sound = sound_fluids(reading)
    found = [problem for check in FLUID_CHECKS for problem in check(reading, sound)]
    found += [problem for check in CATALOGUE_CHECKS for problem in check(reading)]
    found += figures_are_there(reading, _faultless(sound, {*reading.problems, *found}))
    return tuple(sorted(found))


def sound_fluids(reading: Reading) -> tuple[Fluid, ...]:
    """The fluids whose substances and particles can be computed with."""
    substances = {None, *sound_substances(reading.catalogue)}
    particles = {None, *reading.catalogue.particles}
    return tuple(
        fluid
        for fluid in reading.catalogue.fluids.values()
        if all(
            content.substance in substances and content.particle in particles
            for _, contents in recipes(fluid)
            for content in contents
        )
    )


def _faultless(sound: tuple[Fluid, ...], found: set[Problem]) -> list[Fluid]:
    """The fluids that every figure can be computed of; none while a list file has a fault."""
    faulty = {problem.file for problem in found}
    if any("/" not in file for file in faulty):
        return []
    return [fluid for fluid in sound if f"fluids/{fluid.id}.yml" not in faulty]


FLUID_CHECKS: tuple[Callable[[Reading, Sequence[Fluid]], Finding], ...] = (units_fit, charge_closes)
CATALOGUE_CHECKS: tuple[Callable[[Reading], Finding], ...] = (
    formulas_are_known,
    hydrates_fit,
    salts_are_neutral,
    osmosis_can_be_computed,
    nothing_from_memory,
    names_are_single,
    ids_are_single,
    lists_have_single_ids,
    intervals_fit,
    one_interval_beside,
    volumes_fit,
    terms_are_single,
    confusions_show_a_number,
    limits_fit,
    limits_are_there,
    limits_are_of_their_quantity,
    limits_ascend,
    doses_have_source_and_year,
    mixing_has_a_source,
    stock_is_stricter,
    stock_keeps_the_order,
    stock_keeps_what_is_sold,
)
