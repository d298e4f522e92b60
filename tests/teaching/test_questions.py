"""Questions and papers: right by the handbook, wrong by a named slip, the same for everyone.

The examples beside `EXAMPLES` are those of the evidence on teaching (arithmetic, no source); labels
print rounded figures, so that 20 mmol stands for our 20.1.
"""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.teaching.meeting import WAYS
from isofolio.teaching.question import APART, Answer, distinct, told
from isofolio.teaching.questions import ASKERS, KINDS, asked, paper

CATALOGUE = Path(__file__).parents[2] / "catalogue"
SEEDS = [f"seed {number}" for number in range(60)]


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


def slip(question, name):
    """The figure that a slip leads to."""
    return next(answer.number for answer in question.answers if answer.slip == name)


def plain(text):
    """A text with ordinary spaces."""
    return text.replace("\u00a0", " ").replace("\u202f", " ")


def found(handbook, kind, words):
    """The first question of a kind that holds some words, over many seeds."""
    for number in range(900):
        made = asked(handbook, kind, f"look {number}")
        if made is not None and all(word in plain(made.ask) for word in words):
            return made
    pytest.fail(f"no {kind} question says {words}")


def right_number(question):
    return question.answers[question.right].number


def test_there_are_at_least_twelve_kinds():
    assert len(KINDS) >= 12
    assert len(ASKERS) == len(KINDS)


@pytest.mark.parametrize("kind", ASKERS)
def test_no_answer_is_there_twice_and_each_wrong_one_names_its_slip(handbook, kind):
    """The property of every question: one right answer, two or three others, all far apart."""
    made = [one for seed in SEEDS if (one := asked(handbook, kind, seed)) is not None]
    assert len(made) == len(SEEDS)
    for one in made:
        texts = [answer.text for answer in one.answers]
        assert len(texts) == len(set(texts)), one.ask
        assert 3 <= len(texts) <= 4
        assert [bool(answer.slip) for answer in one.answers].count(False) == 1
        assert all(bool(answer.because) == bool(answer.slip) for answer in one.answers)
        figures = [answer.number for answer in one.answers if answer.number is not None]
        for place, first in enumerate(figures):
            for second in figures[place + 1 :]:
                assert abs(first - second) > APART * max(abs(first), abs(second)), one.ask
        assert one.working.endswith(".")
        assert one.teaches[0]
        assert one.teaches[1]


@pytest.mark.parametrize("kind", ASKERS)
def test_the_right_answer_stands_at_every_place(handbook, kind):
    places = {one.right for seed in SEEDS if (one := asked(handbook, kind, seed)) is not None}
    assert {0, 1, 2} <= places


EXAMPLES = [
    (
        "strength",
        ("Potassium chloride 0.3 % in glucose 5 %", "500 mL"),
        20,
        {
            "per litre read as per bag": 40,
            "grams read as mmol": 1.5,
            "grams a litre read as mmol": 3,
        },
    ),
    (
        "percent",
        ("Glucose 10 %", "1000 mL"),
        100,
        {
            "per cent read as grams": 10,
            "multiplied by ten twice": 1000,
            "hydrate water taken off": 91,
        },
    ),
    (
        "equivalents",
        ("10 mL of Calcium gluconate 10 %",),
        4.4,
        {"charge left out": 2.2, "divided by the charge": 1.1, "charge counted twice": 8.8},
    ),
    ("salt-ion", ("1 g of calcium gluconate monohydrate",), 2.23, {}),
    ("salt-ion", ("1 g of calcium chloride dihydrate",), 6.8, {}),
    (
        "drops",
        ("1000 mL in 8 h", "20 drops a mL"),
        42,
        {"the other set": 125, "per hour": 2500},
    ),
    (
        "sodium-load",
        ("2 bags of 1000 mL of Sodium chloride 0.9 %.",),
        308,
        {"per litre read as the whole": 154, "grams read as mmol": 18, "both ions counted": 616},
    ),
    (
        "potassium-rate",
        ("Potassium chloride 0.3 % in sodium chloride 0.9 % (", "250 mL/h"),
        10,
        {"strength read as rate": 40, "a litre taken for 100 mL": 100},
    ),
]


@pytest.mark.parametrize(("kind", "words", "right", "slips"), EXAMPLES)
def test_the_examples_of_the_evidence_come_out(handbook, kind, words, right, slips):
    made = found(handbook, kind, words)
    assert right_number(made) == pytest.approx(right, rel=0.02)
    shown = {answer.slip: answer.number for answer in made.answers if answer.slip}
    assert shown
    for name, figure in shown.items():
        if name in slips:
            assert figure == pytest.approx(slips[name], rel=0.02)
    assert not slips or set(shown) & set(slips)


def test_a_published_need_per_kilogram(handbook):
    """NICE CG174 as a journal quotes it: 25 to 30 mL/kg/day; at 70 kg 1750 to 2100 mL."""
    made = found(handbook, "per-kg", ("70 kg",))
    assert made.answers[made.right].text == "1750 to 2100\u00a0mL"
    others = {answer.text for answer in made.answers if answer.slip}
    assert others == {"72.9 to 87.5\u00a0mL", "2100 to 2800\u00a0mL", "3000\u00a0mL"}
    assert "local policy" in made.working


def test_glucose_is_isotonic_in_the_bag_alone(handbook):
    made = found(handbook, "tonicity", ("Sodium chloride 0.45 % and glucose 5 %",))
    assert made.answers[made.right].text == "hypotonic"
    slips = {answer.text: answer.slip for answer in made.answers}
    assert slips["hypertonic"] == "sugar counted as if it stayed"


def test_one_hypotonic_fluid_among_others(handbook):
    """The words of the handbook decide; none that is slightly hypotonic confuses the question."""
    words = {f.name: handbook.judgements[f.id].body.word for f in handbook.fluids}
    for seed in SEEDS:
        made = asked(handbook, "hypotonic", seed)
        said = [words[plain(answer.text)] for answer in made.answers]
        assert [word.startswith("Hypotonic") for word in said].count(True) == 1
        assert said[made.right].startswith("Hypotonic")
        assert not any(word.startswith("Slightly") for word in said)


def test_no_two_ampoules_of_a_label_question_hold_the_same(handbook):
    """Potassium chloride 7.45 % and dihydrogen phosphate 13.6 % both hold 1 mmol/mL."""
    fluids = {fluid.name: fluid.id for fluid in handbook.fluids}
    together = set()
    for seed in SEEDS:
        made = asked(handbook, "label", seed)
        ion = made.ask.split("“")[1].split(" ")[0]
        names = [plain(answer.text) for answer in made.answers if "any" not in answer.text]
        held = [handbook.value(fluids[name], ion).number for name in names]
        right = handbook.value(fluids[plain(made.answers[made.right].text)], ion).number
        assert [abs(one - right) <= APART * right for one in held].count(True) == 1
        together |= set(names)
    assert len(together) >= 6


def test_a_mixture_lies_between_its_parts(handbook):
    for seed in SEEDS:
        made = asked(handbook, "mixture", seed)
        parts = [float(part.split("\u00a0")[0]) for part in made.ask.split("(")[1:]]
        assert min(parts) <= right_number(made) * 1.01
        assert right_number(made) <= max(parts) * 1.01
        assert "icarbonate" not in made.ask


def test_saline_pushes_towards_acid(handbook):
    made = found(handbook, "acid-base", ("A litre of Sodium chloride 0.9 %,",))
    assert made.answers[made.right].text == "towards acid"


def test_lactate_leaves_its_sodium(handbook):
    """Morgan 2005: compound sodium lactate, strong ion difference in the body about 27 to 29."""
    made = found(handbook, "strong-ions", ("Compound sodium lactate",))
    assert right_number(made) == pytest.approx(28, abs=1)
    assert slip(made, "organic anions counted as if they stayed") == 0


def test_a_litre_of_lactated_ringers_is_short_of_potassium(handbook):
    """Harris and others, Lancet 2012, table 1: cholera stool of an adult, potassium 20 mmol/L.

    Lactated Ringer's of the United States label holds 4: 16 mmol short in a litre (arithmetic).
    """
    made = found(handbook, "losses", ("“Cholera, adult” has 20 mmol/L of potassium", "USP"))
    assert "Harris and others, 2012" in made.ask
    litres = 3 if "3 L of it are lost" in plain(made.ask) else 2
    assert right_number(made) == pytest.approx(16 * litres, rel=0.01)
    assert slip(made, "per litre read as the whole") == pytest.approx(16, rel=0.01)
    assert slip(made, "what was given left out") == 20 * litres
    assert made.teaches[1] == "situations/diarrhoea.html#published-figures"


def test_what_is_lost_is_more_than_what_is_given(handbook):
    """No question of a gain, of nothing, of plasma, or of a figure that is told as a span."""
    for seed in SEEDS:
        made = asked(handbook, "losses", seed)
        assert right_number(made) > 0
        assert not re.search("“plasma|given”| to | about ", plain(made.ask).partition("(")[0])


def test_the_clock_of_a_burn_runs_from_the_burn(handbook):
    """Royal College of Emergency Medicine: 2 to 4 mL/kg for each 1 %, half in the first 8 hours.

    70 kg, 30 %, 3 mL: 6300 mL; seen at 2 hours, 3150 over 6 is 525 mL/h; over 8 it would be 394,
    by 4 mL 700, a day's even rate 263 (arithmetic).
    """
    made = found(handbook, "burns", ("70 kg", "30 % burnt", "2 hours after"))
    assert right_number(made) == pytest.approx(525)
    slips = {
        "the clock begun at the door": 393.75,
        "spread over the day": 262.5,
        "half forgotten": 1050,
        "another coefficient": 700,
    }
    for answer in made.answers:
        if answer.slip:
            assert answer.number == pytest.approx(slips[answer.slip]), answer.slip
    assert "undated" in made.ask
    assert "no order" in made.working
    assert "local policy" in made.working


@pytest.mark.parametrize(
    ("container", "inlet", "page"),
    [
        ("in a glass bottle", "open", "equipment/glass-bottle.html"),
        ("in a bag", "shut", "equipment/soft-bag.html"),
        ("in a bottle", "as the label of the bottle says", "equipment/semi-rigid-bottle.html"),
    ],
)
def test_a_container_that_cannot_fall_in_wants_air(handbook, container, inlet, page):
    """James, Anaesthesia 1979: nothing replaces the fluid of a rigid container, the flow stops.

    Which containers want an open inlet: a French teaching unit on infusion by gravity (OMEDIT).
    """
    made = found(handbook, "vents", (container,))
    assert made.answers[made.right].text == inlet
    assert made.teaches[1] == page
    pressed = [answer for answer in made.answers if "pressure" in answer.text]
    assert all(answer.slip == "pressure on what holds air" for answer in pressed)


@pytest.mark.parametrize(
    ("words", "right"),
    [
        (("Ceftriaxone and fluids with calcium, newborn",), "it does not mix"),
        (("Red cells and sodium chloride 0.9 %",), "it mixes"),
        (("Adrenaline and sodium bicarbonate",), "it loses activity"),
    ],
)
def test_what_was_found_when_two_met(handbook, words, right):
    """Bradley, Pediatrics 2009 (ceftriaxone); the New Zealand transfusion handbook (red cells)."""
    made = found(handbook, "compatibility", words)
    assert made.answers[made.right].text.startswith(right)
    assert "Another way of meeting is another question." in made.working
    assert made.teaches[1].startswith("mixing/")


def test_a_pair_is_asked_about_as_its_entry_has_it(handbook):
    """The right answer is the entry's finding; an entry that says "depends" is never asked."""
    pairs = {f"mixing/{one.id}.html": one for one in handbook.catalogue.mixing.values()}
    told_of = set()
    for seed in SEEDS:
        made = asked(handbook, "compatibility", seed)
        entry = pairs[made.teaches[1]]
        assert made.answers[made.right].text.startswith(f"it {entry.finding}")
        assert WAYS[entry.mode] in plain(made.ask)
        told_of.add(entry.finding)
    assert told_of == {"does not mix", "loses activity", "mixes"}


def test_a_paper_has_each_kind_once_before_any_comes_again(handbook):
    twelve = paper(handbook, "paper 3", 12)
    assert len({one.kind for one in twelve.questions}) == 12
    twenty = paper(handbook, "paper 3", 20)
    assert twenty.questions[:12] == twelve.questions
    assert len(twenty.questions) == 20


def test_one_seed_is_one_paper_and_another_is_another(handbook):
    assert paper(handbook, "paper 3", 12) == paper(handbook, "paper 3", 12)
    assert paper(handbook, "paper 3", 12) != paper(handbook, "paper 4", 12)


PRINT = """
from pathlib import Path
from isofolio.handbook import open_handbook
from isofolio.teaching.questions import paper
print(ascii(paper(open_handbook(Path({folder!r})).handbook, "paper 7", 12)))
"""


def test_another_process_with_another_hash_seed_draws_the_same(handbook):
    code = PRINT.format(folder=str(CATALOGUE))
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={"PYTHONHASHSEED": "12345", "PYTHONPATH": ":".join(sys.path)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == ascii(paper(handbook, "paper 7", 12))


def test_a_paper_of_none_is_refused(handbook):
    with pytest.raises(ValueError, match="ask for 1 or more"):
        paper(handbook, "paper 1", 0)


def test_answers_that_say_the_same_are_left_out():
    """Four and a half is no other answer than 4.46; the earlier one stays."""
    answers = (Answer("4.46 mEq", number=4.46), Answer("4.5 mEq", "slip", "why", 4.5))
    assert distinct(answers) == answers[:1]
    assert told(4.4604) == "4.46"
