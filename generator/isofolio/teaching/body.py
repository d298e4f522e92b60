"""Questions about charge, particles, and what the body makes of them."""

from isofolio.chemistry.composition import mix
from isofolio.chemistry.osmosis import theoretical_osmolarity
from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook, millilitres
from isofolio.measures.methods import anchor_of
from isofolio.physiology.tonicity import PLASMA_EFFECTIVE_OSMOLARITY
from isofolio.teaching.lots import Lots
from isofolio.teaching.question import Answer, Question, measured, question, right, told, wrong
from isofolio.teaching.stock import LITRE, bags, known_fluids, number, ready, taught_by
from isofolio.wording.addresses import METHOD

HYPOTONIC, ISOTONIC, HYPERTONIC = "hypotonic", "isotonic", "hypertonic"
ACID, BASE, LEVEL = "towards acid", "towards base", "hardly either way"
EXCESS_BEFORE, HARDLY, CLEARLY = 0.09, 0.2, 0.5
"""mmol/L: base excess of the model before the litre, a change that the pages call "hardly", and
one that a question may ask about (this project's choice)."""
POURED = {"sodium", "potassium", "chloride", "glucose"}
"""What the fluids of a mixture may hold: no question pours together what may not meet."""
BURNT = "sugar counted as if it stayed"


def equivalents(handbook: Handbook, lots: Lots) -> Question | None:
    """How many mEq are so many mmol of an ion with two charges?"""
    pool = [
        (fluid, ion)
        for fluid in known_fluids(handbook, ("concentrate", "ready"))
        for ion in ("calcium", "magnesium")
        if number(handbook, fluid, ion) > 0 and fluid.containers
    ]
    if not pool:
        return None
    fluid, ion = lots.pick(pool)
    volume = lots.pick(sorted({millilitres(container) for container in fluid.containers}))
    charge = abs(handbook.catalogue.particles[ion].charge)
    symbol = handbook.catalogue.particles[ion].symbol
    held = handbook.in_container(fluid.id, ion, volume).number or 0.0
    asked = (
        f"{told(volume)} mL of {fluid.name} hold {measured(held, 'mmol')} of {ion}, {symbol}. "
        "How many mEq is that?"
    )
    answers = (
        right(held * charge, "mEq"),
        wrong(held, "mEq", "charge left out", "mmol and mEq are equal only at one charge"),
        wrong(held / charge, "mEq", "divided by the charge", "mEq is mmol times charge"),
        wrong(held * charge**2, "mEq", "charge counted twice", f"{symbol} has {charge} charges"),
    )
    product = measured(held * charge, "mEq")
    working = f"{measured(held, 'mmol')} times {charge} charges is {product}."
    anchor = "contents" if handbook.solution(fluid.id).masses else "beside-plasma"
    return question("equivalents", asked, answers, working, taught_by(fluid, anchor, ion))


def tonicity(handbook: Handbook, lots: Lots) -> Question | None:
    """What is a fluid in the body, once its sugar is burnt?"""
    pool = ready(handbook, lambda f: bool(_plain_word(handbook, f)))
    sweet = [f for f in pool if number(handbook, f, "glucose") > 0]
    chosen = lots.pick((pool, sweet, sweet))
    if not chosen:
        return None
    fluid = lots.pick(chosen)
    word, bag = _plain_word(handbook, fluid), number(handbook, fluid, "osmolarity")
    effective = number(handbook, fluid, "effective_osmolarity")
    of_the_bag = _word_of(handbook, bag)
    because = f"the bag’s {measured(bag, 'mOsm/L')} counts the glucose too"
    others = [
        Answer(other, BURNT, because)
        if other == of_the_bag != word
        else Answer(other, "turned round", f"{_pair(effective)} speak against it")
        for other in (HYPOTONIC, ISOTONIC, HYPERTONIC)
        if other != word
    ]
    asked = f"{fluid.name}: what is it in the body, once any glucose in it is burnt?"
    working = f"What still holds water in the body is {_pair(effective)}: {word}."
    teaches = taught_by(fluid, "in-the-body", "in a standard adult")
    return question("tonicity", asked, (Answer(word), *others), working, teaches)


def which_is_hypotonic(handbook: Handbook, lots: Lots) -> Question | None:
    """Which one of some fluids is hypotonic in the body?"""
    pool = ready(handbook, lambda f: bool(_plain_word(handbook, f)))
    low = [f for f in pool if _plain_word(handbook, f) == HYPOTONIC]
    rest = [f for f in pool if _plain_word(handbook, f) != HYPOTONIC]
    if not low or not rest:
        return None
    fluid, others = lots.pick(low), lots.shuffled(rest)[:3]
    wrongs = [_not_hypotonic(handbook, other) for other in others]
    effective = number(handbook, fluid, "effective_osmolarity")
    working = f"{fluid.name} has {_pair(effective)} in the body; in the bag " + (
        f"{measured(number(handbook, fluid, 'osmolarity'), 'mOsm/L')}."
    )
    asked = "Which of these is hypotonic in the body, once any glucose in it is burnt?"
    teaches = taught_by(fluid, "in-the-body", "in a standard adult")
    return question("hypotonic", asked, (Answer(fluid.name), *wrongs), working, teaches)


def _not_hypotonic(handbook: Handbook, other: Fluid) -> Answer:
    """A fluid that holds as much water in the body as plasma does, or more."""
    turned = _plain_word(handbook, other) == HYPERTONIC
    slip = "strong taken for dilute" if turned else "isotonic taken for hypotonic"
    pair = _pair(number(handbook, other, "effective_osmolarity"))
    return Answer(other.name, slip, f"in the body it has {pair}")


def _pair(effective: float) -> str:
    return f"{told(effective)} beside plasma’s {measured(PLASMA_EFFECTIVE_OSMOLARITY, 'mOsm/L')}"


def _plain_word(handbook: Handbook, fluid: Fluid) -> str:
    """The handbook's word for a fluid in the body; "" where it is "slightly", or none of three."""
    word = handbook.judgements[fluid.id].body.word.partition(":")[0].lower()
    return word if word in {HYPOTONIC, ISOTONIC, HYPERTONIC} else ""


def _word_of(handbook: Handbook, osmolarity: float) -> str:
    """The word that an osmolarity would have if all of it stayed in the body."""
    ratio, limits = osmolarity / PLASMA_EFFECTIVE_OSMOLARITY, handbook.catalogue.limits
    low, high = limits["tonicity-hypotonic"].value.low, limits["tonicity-hypertonic"].value.low
    if low is not None and ratio < low:
        return HYPOTONIC
    return HYPERTONIC if high is not None and ratio > high else ISOTONIC


def strong_ions(handbook: Handbook, lots: Lots) -> Question | None:
    """What strong ion difference is left when the organic anions are used up?"""
    pool = ready(
        handbook,
        lambda f: (
            number(handbook, f, "sid_in_body") > 1
            and number(handbook, f, "sid_in_body") == number(handbook, f, "sid_in_body_low")
            and number(handbook, f, "sid_in_bag") < 1
        ),
    )
    if not pool:
        return None
    fluid = lots.pick(pool)
    left, sodium = number(handbook, fluid, "sid_in_body"), number(handbook, fluid, "sodium")
    asked = f"A litre of {fluid.name}: what is its strong ion difference in the body?"
    unit = "mEq/L"
    plain = sodium - number(handbook, fluid, "chloride")
    answers = (
        right(left, unit),
        wrong(0.0, unit, "organic anions counted as if they stayed", "that is the bag’s figure"),
        wrong(-left, unit, "signs turned round", "strong cations come first, then the anions"),
        wrong(left * 2, unit, "base counted twice", "once as the anion, once as bicarbonate"),
        wrong(plain, unit, "sodium and chloride alone", "other strong cations count as well"),
    )
    working = (
        f"Once its organic anions are used up, {measured(left, unit)} of strong cations are left "
        "over, and bicarbonate takes their place."
    )
    teaches = taught_by(fluid, "in-the-body", "in a standard adult")
    return question("strong-ions", asked, answers, working, teaches)


def acid_direction(handbook: Handbook, lots: Lots) -> Question | None:
    """Which way does a litre push plasma, in the model: acid, base, hardly?"""
    pool = ready(handbook, lambda f: bool(_way(handbook, f)))
    if not pool:
        return None
    fluid = lots.pick(pool)
    way, sid = _way(handbook, fluid), number(handbook, fluid, "sid_in_body")
    figure = measured(sid, "mEq/L")
    slips = {
        ACID: ("the pH of the bag taken for its effect", "the bag is hardly buffered"),
        BASE: ("any salt taken for a base", f"{figure} of strong ion difference is what counts"),
        LEVEL: (
            "physiological taken at its word",
            f"its {figure} are not level with plasma’s bicarbonate",
        ),
    }
    others = [Answer(other, *slips[other]) for other in slips if other != way]
    asked = f"A litre of {fluid.name}, in the model of this handbook: which way does it push?"
    working = (
        f"Its strong ion difference in the body is {figure}; the base excess of the model goes "
        f"to {measured(number(handbook, fluid, 'base_excess_1l'), 'mmol/L')}: {way}."
    )
    teaches = taught_by(fluid, "in-the-body", "in a standard adult")
    return question("acid-base", asked, (Answer(way), *others), working, teaches)


def _way(handbook: Handbook, fluid: Fluid) -> str:
    """The direction of a litre by the model; "" where it is unknown or small."""
    excess = handbook.value(fluid.id, "base_excess_1l").number
    if excess is None:
        return ""
    change = excess - EXCESS_BEFORE
    if abs(change) < HARDLY:
        return LEVEL
    return (BASE if change > 0 else ACID) if abs(change) > CLEARLY else ""


def mixture(handbook: Handbook, lots: Lots) -> Question | None:
    """What osmolarity has a mixture of two bags?"""
    pool = ready(handbook, lambda f: set(handbook.solution(f.id).composition.known) <= POURED)
    if not pool:
        return None
    first, second = lots.pick(pool), lots.pick(pool)
    if first == second:
        return None
    one, two = lots.pick(bags(first)), lots.pick(bags(second))
    parts = [
        (handbook.solution(f.id).composition, v / LITRE) for f, v in ((first, one), (second, two))
    ]
    mixed = theoretical_osmolarity(mix(parts).known)
    weak, strong = (number(handbook, f, "osmolarity") for f in (first, second))
    asked = (
        f"On paper only: {told(one)} mL of {first.name} ({measured(weak, 'mOsm/L')}) and "
        f"{told(two)} mL of {second.name} ({measured(strong, 'mOsm/L')}) in one vessel. "
        "What is the osmolarity of the mixture?"
    )
    unit = "mOsm/L"
    answers = (
        right(float(mixed), unit),
        wrong(weak + strong, unit, "osmolarities added", "each is spread over both volumes"),
        wrong((weak + strong) / 2, unit, "volumes left out", "the larger volume counts for more"),
        wrong(max(weak, strong), unit, "the stronger taken for both", "the other dilutes it"),
        wrong(min(weak, strong), unit, "the weaker taken for both", "the other adds to it"),
    )
    working = (
        f"{told(weak)} times {told(one / LITRE)} and {told(strong)} times {told(two / LITRE)}, "
        f"over {measured((one + two) / LITRE, 'L')}, is {measured(float(mixed), unit)}."
    )
    teaches = ("Method: mixing", f"{METHOD}#{anchor_of(mix)}")
    return question("mixture", asked, answers, working, teaches)
