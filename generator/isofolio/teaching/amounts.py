"""Questions about what a bag holds: strengths, containers, hydrates, labels."""

from isofolio.chemistry.formula import molar_mass
from isofolio.entries.fluids import Fluid
from isofolio.entries.substances import Substance
from isofolio.handbook import Handbook, millilitres
from isofolio.teaching.lots import Lots
from isofolio.teaching.question import Answer, Question, measured, question, right, told, wrong
from isofolio.teaching.stock import (
    LITRE,
    bags,
    grams,
    known_fluids,
    number,
    parts_of_a_litre,
    ready,
    taught_by,
)

SALT = "potassium-chloride"
WHOLE_LITRES = (2, 3)


def strength_to_amount(handbook: Handbook, lots: Lots) -> Question | None:
    """How much potassium is in this bag, from the per cent on it?"""
    pool = ready(
        handbook,
        lambda f: "%" in f.name and grams(handbook, f, SALT) > 0 and bool(parts_of_a_litre(f)),
    )
    if not pool:
        return None
    fluid = lots.pick(pool)
    volume = lots.pick(parts_of_a_litre(fluid))
    litre, share = number(handbook, fluid, "potassium"), volume / LITRE
    mass = grams(handbook, fluid, SALT)
    held = handbook.in_container(fluid.id, "potassium", volume).number or 0.0
    asked = f"{fluid.name}, a bag of {told(volume)} mL. How much potassium does the bag hold?"
    answers = (
        right(held, "mmol"),
        wrong(litre, "mmol", "per litre read as per bag", "it is what 1000 mL would hold"),
        wrong(mass * share, "mmol", "grams read as mmol", "it is the salt of this bag in grams"),
        wrong(mass, "mmol", "grams a litre read as mmol", "it is the salt of a litre in grams"),
    )
    working = (
        f"{told(mass)} g of potassium chloride a litre is {measured(litre, 'mmol/L')}; "
        f"{told(volume)} mL hold {measured(held, 'mmol')}."
    )
    return question("strength", asked, answers, working, taught_by(fluid, "contents", "contents"))


def bag_and_litre(handbook: Handbook, lots: Lots) -> Question | None:
    """How strong is a bag, from what it holds?"""
    pool = ready(
        handbook,
        lambda f: number(handbook, f, "potassium") >= 1 and bool(parts_of_a_litre(f)),
    )
    if not pool:
        return None
    fluid = lots.pick(pool)
    volume = lots.pick(parts_of_a_litre(fluid))
    litre, share = number(handbook, fluid, "potassium"), volume / LITRE
    held = handbook.in_container(fluid.id, "potassium", volume).number or 0.0
    asked = (
        f"A bag of {told(volume)} mL of {fluid.name} holds {measured(held, 'mmol')} of potassium. "
        "How strong is it in potassium?"
    )
    answers = (
        right(litre, "mmol/L"),
        wrong(held, "mmol/L", "per bag read as per litre", "it is what this bag holds"),
        wrong(held * share, "mmol/L", "multiplied by the volume", "the amount was not divided"),
        wrong(held * 10, "mmol/L", "litre taken as ten bags", "the decimal point went astray"),
    )
    working = (
        f"{measured(held, 'mmol')} over {told(share)} L is {measured(litre, 'mmol/L')}: "
        "read both figures, in the bag and in a litre."
    )
    return question(
        "bag-litre", asked, answers, working, taught_by(fluid, "holds", "what it holds")
    )


def percent_to_grams(handbook: Handbook, lots: Lots) -> Question | None:
    """How much glucose is in this bag, from the per cent on it?"""
    pool = ready(handbook, lambda f: list(handbook.solution(f.id).masses) == ["glucose"])
    if not pool:
        return None
    fluid = lots.pick(pool)
    volume = lots.pick(bags(fluid))
    share, mass = volume / LITRE, grams(handbook, fluid, "glucose")
    held = handbook.in_container(fluid.id, "glucose_mass", volume).number or 0.0
    hydrate = mass / number(handbook, fluid, "glucose_mass_monohydrate")
    asked = (
        f"{fluid.name}, {told(volume)} mL, its per cent counted as anhydrous glucose. How much "
        "glucose does the bag hold?"
    )
    answers = (
        right(held, "g"),
        wrong(mass / 10, "g", "per cent read as grams", "per cent is grams in 100 mL"),
        wrong(held * 10, "g", "multiplied by ten twice", "100 mL fit into a litre ten times"),
        wrong(held * hydrate, "g", "hydrate water taken off", "this label counts none of it"),
        wrong(held / 10, "g", "per cent read as g/L", "per cent is grams in 100 mL"),
    )
    working = (
        f"{told(mass / 10)} g in 100 mL is {measured(mass, 'g/L')}; times {told(share)} L is "
        f"{measured(held, 'g')}."
    )
    return question("percent", asked, answers, working, taught_by(fluid, "contents", "contents"))


def hydrate(handbook: Handbook, lots: Lots) -> Question | None:
    """How much anhydrous glucose does a bag bring whose label counts the monohydrate?"""
    pool = ready(handbook, lambda f: bool(grams(handbook, f, "glucose-monohydrate")))
    if not pool:
        return None
    fluid = lots.pick(pool)
    volume = lots.pick(bags(fluid))
    weighed = grams(handbook, fluid, "glucose-monohydrate") * volume / LITRE
    held = handbook.in_container(fluid.id, "glucose_mass", volume).number or 0.0
    asked = (
        f"{fluid.name}, {told(volume)} mL, holds {measured(weighed, 'g')} of glucose monohydrate. "
        "How much is that as anhydrous glucose?"
    )
    answers = (
        right(held, "g"),
        wrong(weighed, "g", "hydrate water left in", "the monohydrate carries its own water"),
        wrong(weighed**2 / held, "g", "hydrate water added", "it must be taken off, not put on"),
        wrong(weighed / 10, "g", "divided by ten", "the hydrate is a tenth heavier, not ten times"),
    )
    working = (
        f"{measured(weighed, 'g')} times the ratio of the molar masses, {told(held / weighed)}, is "
        f"{measured(held, 'g')}."
    )
    return question("hydrate", asked, answers, working, taught_by(fluid, "contents", "contents"))


def sodium_load(handbook: Handbook, lots: Lots) -> Question | None:
    """How much sodium do several litres bring?"""
    pool = ready(handbook, lambda f: number(handbook, f, "sodium") >= 1 and LITRE in bags(f))
    if not pool:
        return None
    fluid, litres = lots.pick(pool), lots.pick(WHOLE_LITRES)
    one, chloride = number(handbook, fluid, "sodium"), number(handbook, fluid, "chloride")
    load = one * litres
    asked = f"{litres} bags of 1000 mL of {fluid.name}. How much sodium do they bring?"
    salt = grams(handbook, fluid, "sodium-chloride") * litres
    answers = [
        right(load, "mmol"),
        wrong(one, "mmol", "per litre read as the whole", f"there are {litres} litres"),
        wrong((one + chloride) * litres, "mmol", "both ions counted", "chloride is no sodium"),
    ]
    if salt:
        answers.append(wrong(salt, "mmol", "grams read as mmol", "it is the salt in grams"))
    working = f"{measured(one, 'mmol/L')} times {litres} L is {measured(load, 'mmol')}."
    teaches = taught_by(fluid, "beside-plasma", "a litre beside plasma")
    return question("sodium-load", asked, answers, working, teaches)


def label_reading(handbook: Handbook, lots: Lots) -> Question | None:
    """Which ampoule is it, when a note names the ion and not the salt?"""
    family = lots.pick(("calcium", "magnesium", "potassium"))
    pool = [
        fluid
        for fluid in known_fluids(handbook, ("concentrate",))
        if number(handbook, fluid, family) > 0 and fluid.containers
    ]
    if len(pool) < len(("one", "another")):
        return None
    fluid = lots.pick(pool)
    volume = min(millilitres(container) for container in fluid.containers)
    held = number(handbook, fluid, family) * volume / LITRE
    asked = (
        f"A note reads “{family} {measured(held, 'mmol')} in {told(volume)} mL” and names no "
        "salt. Which ampoule holds that?"
    )
    others = [_other_ampoule(handbook, other, family, volume) for other in pool if other != fluid]
    careless = Answer(
        f"any ampoule of {family}", "the ion read as the name", "the ion alone names no ampoule"
    )
    answers = (Answer(fluid.name, number=held), *others, careless)
    mass = f"{measured(number(handbook, fluid, family), 'mmol/L')}"
    working = f"{fluid.name} holds {mass}: find the salt and its strength first, then the ion."
    return question("label", asked, answers, working, taught_by(fluid, "contents", "contents"))


def _other_ampoule(handbook: Handbook, other: Fluid, family: str, volume: float) -> Answer:
    """Another ampoule of the same ion, and what the same volume of it would hold.

    With that figure as its number, one that holds as much as the right one is left out.
    """
    held = number(handbook, other, family) * volume / LITRE
    because = f"{told(volume)} mL of it hold {measured(held, 'mmol')}"
    return Answer(other.name, "another salt or strength of the same ion", because, held)


def _released(salt: Substance) -> dict[str, int]:
    """How many of each particle a formula unit of a salt releases."""
    return {str(particle): times for particle, times in salt.releases.items()}


# The ions that are one atom of an element: what a gram of the ion alone would be.
ELEMENTS = {"calcium": "Ca", "magnesium": "Mg", "potassium": "K", "sodium": "Na"}


def salt_and_ion(handbook: Handbook, lots: Lots) -> Question | None:
    """How much of an ion comes with a gram of a salt?"""
    pool = [
        (salt, ion)
        for salt in handbook.catalogue.substances.values()
        for ion in ELEMENTS
        if salt.formula and ion in _released(salt)
    ]
    if not pool:
        return None
    salt, ion = lots.pick(pool)
    charge = abs(handbook.catalogue.particles[ion].charge)
    mass, element = molar_mass(str(salt.formula)), molar_mass(ELEMENTS[ion])
    times = _released(salt)[ion]
    held = LITRE / mass * times
    asked = f"1 g of {salt.name.lower()} is weighed. How much {ion} comes with it?"
    answers = (
        right(held, "mmol"),
        wrong(LITRE / element, "mmol", "the salt taken for the ion", f"it is 1 g of pure {ion}"),
        wrong(1.0, "mmol", "grams read as mmol", "a gram is no millimole"),
        wrong(held * 2, "mmol", "counted twice", "the same ions were counted once more")
        if charge == 1
        else wrong(held * charge, "mmol", "charge counted", "it is the figure in mEq"),
    )
    working = (
        f"1000 mg over {measured(mass, 'mg')} a mmol, times {times}, is {measured(held, 'mmol')}."
    )
    address = f"substances/{salt.id}.html"
    return question("salt-ion", asked, answers, working, (salt.name, address))
