"""Faults put into true labels: the audit sees them, and accuses no true label.

Every source of the catalogue whose figures are all judged exact or rounded takes eight kinds of
fault in turn, one fault at a time, everywhere it can go. A fault is caught where the audit says
error, or gives a convention or explanation that names the fault. Nominal is not caught. A fault
that leaves every printed and computed figure as it was is no fault and is not counted.
"""

from collections import Counter
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import pairwise
from pathlib import Path

import pytest

from isofolio.entries.reading import read_catalogue
from isofolio.entries.scalars import parse_amount
from isofolio.findings.audit import audit_catalogue
from isofolio.findings.families import ingredients
from isofolio.measures.table import MEASURES, table_of

CATALOGUE = Path(__file__).parents[2] / "catalogue"
AT_LEAST = 0.95

GLUCOSE, MONOHYDRATE = 180.156, 198.171  # g/mol, numbers of the standard atomic weights
DIVALENT = ("calcium", "magnesium", "sulfate", "glycerophosphate", "citrate")
ENERGIES = ("energy", "energy_us", "energy_organic")

# Slips in published texts and tables, each with what is wrong with it. They are no accusation of
# a label: see the page of the audit. Read or copied: the grades stand in the entries.
PUBLISHED_SLIPS = {
    # A sepsis review prints 250 beside ions that alone make 274.
    ("albumin-4", "jicm-2018-sepsis-fluids", "osmolarity"),
    # A product text calls 300 mOsm/kg approximate; freezing-point figures are 280 to 290.
    ("glucose-5", "uk-smpc-glucose-5-march-2022", "osmolality"),
    # The leaflet prints the energy of glucose 5 %; the product text of the same bag prints 160.
    ("sodium-chloride-0-18-glucose-4", "uk-leaflet-sodium-chloride-0-18-glucose-4", "energy"),
    # The table rounds sodium to 30, and its 300 does not follow from its own contents.
    ("sodium-chloride-0-18-glucose-4", "adc-2004-pouring-salt-table", "osmolarity"),
    # Glucose 278 is anhydrous, 406 counts the monohydrate.
    ("sodium-chloride-0-45-glucose-5", "pmc6237920-common-solutions", "osmolarity"),
}


@pytest.fixture(scope="module")
def catalogue():
    reading = read_catalogue(CATALOGUE)
    assert not reading.problems
    return reading.catalogue


@dataclass(frozen=True)
class TrueLabel:
    """A fluid with one source; ours: our figure for each printed one that the audit judges."""

    fluid: object
    ours: dict

    def figures(self):
        """The printed figures that can take a fault: one number and a unit."""
        for quantity, amount in self.fluid.declared[0].values.items():
            if amount.state == "exact" and quantity in self.ours:
                number, _, unit = amount.text.partition(" ")
                yield quantity, number, unit

    def with_figure(self, quantity, text):
        group = self.fluid.declared[0]
        values = {**group.values, quantity: parse_amount(text)}
        changed = group.model_copy(update={"values": values})
        return self.fluid.model_copy(update={"declared": [changed]})

    def with_contents(self, contents):
        return self.fluid.model_copy(update={"contents": contents})


@pytest.fixture(scope="module")
def true_labels(catalogue):
    """One for each source whose figures are all judged exact or rounded."""
    single = {
        f"{fluid.id} {number}": fluid.model_copy(
            update={"id": f"{fluid.id} {number}", "declared": [group]}
        )
        for fluid in catalogue.fluids.values()
        for number, group in enumerate(fluid.declared)
    }
    audit = audited(catalogue, single.values())
    labels = []
    for name, fluid in single.items():
        judged = [line for line in audit[name] if line.verdict != "not-computed"]
        if judged and all(line.verdict in {"exact", "rounded"} for line in judged):
            labels.append(TrueLabel(fluid, {line.quantity: line.computed for line in judged}))
    return labels


def audited(catalogue, fluids):
    whole = replace(catalogue, fluids={fluid.id: fluid for fluid in fluids})
    return audit_catalogue(whole, table_of(whole))


# Faults: each yields (fluid with the fault, quantity of the changed figure or "", what names it).


def digit_swaps(label, catalogue):
    for quantity, number, unit in label.figures():
        places = [i for i, sign in enumerate(number) if sign.isdigit()]
        for one, two in pairwise(places):
            signs = list(number)
            signs[one], signs[two] = signs[two], signs[one]
            swapped = "".join(signs)
            # A figure that begins with a nought is no slip that gets printed.
            leads = swapped.startswith("0") and not swapped.startswith("0.")
            if not leads and Decimal(swapped) != Decimal(number):
                yield label.with_figure(quantity, f"{swapped} {unit}"), quantity, ()


def unit_swaps(label, catalogue):
    for quantity, number, unit in label.figures():
        if quantity in DIVALENT:
            other = unit.replace("mmol", "mEq") if "mmol" in unit else unit.replace("mEq", "mmol")
            named = ("millimoles printed as", "milliequivalents printed as")
            yield label.with_figure(quantity, f"{number} {other}"), quantity, named


def hydrate_swaps(label, catalogue):
    for number, content in enumerate(label.fluid.contents):
        for other in other_hydrates(content.substance, catalogue):
            contents = list(label.fluid.contents)
            contents[number] = content.model_copy(update={"substance": other})
            yield (
                label.with_contents(contents),
                "",
                (f"weighed as {name_of(content.substance, catalogue)}",),
            )


def name_of(substance, catalogue):
    """How a sentence of the audit calls a form."""
    entry = catalogue.substances[substance]
    if entry.hydrate != "anhydrous":
        return entry.name.lower()
    return f"anhydrous {entry.name.lower().removesuffix(', anhydrous')}"


def other_hydrates(substance, catalogue):
    """Ids of other forms of what is weighed; `with_dry_forms` has added those without water."""
    if substance is None or catalogue.substances[substance].formula is None:
        return []
    dry = catalogue.substances[substance].formula.partition("(H2O)")[0]
    return [
        entry.id
        for entry in catalogue.substances.values()
        if entry.formula and entry.formula.partition("(H2O)")[0] == dry and entry.id != substance
    ]


def with_dry_forms(catalogue):
    """A catalogue that also holds every hydrate without its water, for faults to name."""
    substances = dict(catalogue.substances)
    known = {entry.formula for entry in substances.values()}
    for entry in catalogue.substances.values():
        dry = (entry.formula or "").partition("(H2O)")[0]
        if "(H2O)" in (entry.formula or "") and dry not in known:
            update = {"id": f"{entry.id}-dried", "formula": dry, "hydrate": "anhydrous"}
            substances[update["id"]] = entry.model_copy(update=update)
            known.add(dry)
    return replace(catalogue, substances=substances)


def glucose_basis(label, catalogue):
    """One figure counted from the other form of the same grams of glucose."""
    grams = {c.substance: c.amount.low for c in label.fluid.contents if c.substance}
    anhydrous = grams.get("glucose", 0.0)
    monohydrate = grams.get("glucose-monohydrate", 0.0)
    change = (anhydrous - monohydrate) * 1000 * (1 / MONOHYDRATE - 1 / GLUCOSE)
    for quantity, number, unit in label.figures():
        if change and quantity in {"osmolarity", "glucose"} and unit.endswith("/L"):
            text = f"{float(number) + change:.0f} {unit}"
            yield label.with_figure(quantity, text), quantity, ("weighed as",)


def missing_ions(label, catalogue):
    for number, content in enumerate(label.fluid.contents):
        if releases_ions(content, catalogue):
            named = ("hold none", "also holds")
            yield label.with_contents(without(label.fluid, number)), "", named


def without(fluid, number):
    return [content for n, content in enumerate(fluid.contents) if n != number]


def releases_ions(content, catalogue):
    if content.particle is not None:
        return catalogue.particles[content.particle].charge != 0
    releases = catalogue.substances[content.substance].releases
    return any(catalogue.particles[particle].charge for particle in releases)


def decimal_shifts(label, catalogue):
    for quantity, number, unit in label.figures():
        for factor in (Decimal(10), Decimal("0.1")):
            shifted = f"{(Decimal(number) * factor).normalize():f}"
            if Decimal(shifted) != Decimal(number):
                yield label.with_figure(quantity, f"{shifted} {unit}"), quantity, ()


def wrong_osmolarity(label, catalogue):
    """Half a litre's, one solute left out, or that of the same ingredients in another strength."""
    if "osmolarity" not in label.ours:
        return
    fluid, ours = label.fluid, label.ours["osmolarity"]
    others = [label.with_contents(without(fluid, n)) for n in range(len(fluid.contents))]
    others += [
        other
        for other in catalogue.fluids.values()
        if ingredients(other) == ingredients(fluid) and not fluid.id.startswith(f"{other.id} ")
    ]
    unit = fluid.declared[0].values["osmolarity"].text.partition(" ")[2]
    for figure in [ours / 2, *(osmolarity(other, catalogue) for other in others)]:
        # Nought is printed by nobody, and what rounds to our own figure is not wrong.
        if round(figure) not in {0, round(ours)}:
            per = Decimal("0.001") if unit == "mOsm/mL" else Decimal(1)
            text = f"{round(figure) * per:f} {unit}"
            yield label.with_figure("osmolarity", text), "osmolarity", NAMES_OSMOLARITY


NAMES_OSMOLARITY = ("not the osmolarity", "weighed as")
OSMOLARITY = [measure for measure in MEASURES if "osmolarity" in measure.quantities]


def osmolarity(fluid, catalogue):
    alone = replace(catalogue, fluids={fluid.id: fluid})
    return table_of(alone, OSMOLARITY).value(fluid.id, "osmolarity").number or 0.0


def wrong_calories(label, catalogue):
    """Kilojoules printed as kilocalories, half a litre's, or the grams by another factor."""
    for quantity, number, unit in label.figures():
        if quantity not in ENERGIES:
            continue
        wrong = [float(number) * 4.184, float(number) / 2]
        wrong += {
            "energy": [float(number) / 4.0 * 3.4, float(number) / 4.0 * 3.75],
            "energy_us": [float(number) / 3.4 * 4.0, float(number) / 3.4 * 3.75],
        }.get(quantity, [])
        for figure in wrong:
            named = ("kcal per gram", "weighed as")
            yield label.with_figure(quantity, f"{figure:.0f} {unit}"), quantity, named


KINDS = {
    "digit swap": digit_swaps,
    "mmol for mEq": unit_swaps,
    "hydrate weighed": hydrate_swaps,
    "glucose basis": glucose_basis,
    "missing ion": missing_ions,
    "decimal shift": decimal_shifts,
    "wrong osmolarity": wrong_osmolarity,
    "wrong calories": wrong_calories,
}


def seeded(true_labels, catalogue):
    """Every fault of every kind in every true label, with ids of their own."""
    found = []
    for kind, faults in KINDS.items():
        for label in true_labels:
            for changed, quantity, named in faults(label, catalogue):
                unique = changed.model_copy(update={"id": f"{label.fluid.id} fault {len(found)}"})
                found.append((kind, label.fluid, unique, quantity, named))
    return found


def is_caught(lines, quantity, named):
    return any(
        line.verdict == "error"
        or (
            line.verdict in {"convention", "explained"}
            and any(n in line.explanation for n in named)
        )
        for line in lines
        if quantity in {"", line.quantity}
    )


def changes_something(before, after):
    def told(lines):
        return [(line.declared_low, line.computed) for line in lines]

    return told(before) != told(after)


@pytest.fixture(scope="module")
def outcome(true_labels, catalogue):
    """Per kind how many were put in and caught; and what escaped."""
    whole = with_dry_forms(catalogue)
    faults = seeded(true_labels, whole)
    before = audited(catalogue, [label.fluid for label in true_labels])
    after = audited(whole, [changed for _, _, changed, _, _ in faults])
    put_in, caught, escaped = Counter(), Counter(), []
    for kind, fluid, changed, quantity, named in faults:
        lines = after[changed.id]
        if not changes_something(before[fluid.id], lines):
            continue
        put_in[kind] += 1
        if is_caught(lines, quantity, named):
            caught[kind] += 1
        else:
            told = [
                f"{line.quantity} {line.declared}, {line.verdict}: {line.explanation}"
                for line in lines
                if quantity in {"", line.quantity} and line.verdict != "not-computed"
            ]
            escaped.append(f"{kind}, {fluid.id}: {'; '.join(told)}")
    return put_in, caught, escaped


def table(outcome):
    put_in, caught, escaped = outcome
    rows = [f"{kind}: {caught[kind]} of {put_in[kind]}" for kind in KINDS]
    return "\n".join([*rows, f"all: {caught.total()} of {put_in.total()}", "escaped:", *escaped])


def test_there_are_true_labels_enough(true_labels):
    assert len(true_labels) > 100


def test_faults_are_caught(outcome):
    put_in, caught, _ = outcome
    assert set(put_in) == set(KINDS), table(outcome)
    assert caught.total() >= AT_LEAST * put_in.total(), table(outcome)
    # The average over the kinds too: many easy faults of one kind carry no other.
    shares = [caught[kind] / put_in[kind] for kind in KINDS]
    assert sum(shares) >= AT_LEAST * len(KINDS), table(outcome)


def test_no_true_label_is_accused(catalogue):
    accused = {
        (line.fluid, line.source, line.quantity)
        for lines in audit_catalogue(catalogue, table_of(catalogue)).values()
        for line in lines
        if line.verdict == "error"
    }
    assert accused == PUBLISHED_SLIPS
