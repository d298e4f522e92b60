"""What the label audit says of a printed figure, in the words that its page prints.

Labels are invented, but for figures whose source stands beside them in test_audit.py. The figures
of ours are checked against published ones elsewhere; here it is the sentence that counts.
"""

import pytest

from isofolio.entries.scalars import parse_amount

SEEN = {"source": "a-label", "at": "table 1", "seen": "read", "on": "2026-11-25"}
SALINE = [("sodium-chloride", "9 g/L")]
GLUCOSE = [("glucose", "50 g/L")]
CALCIUM = [("calcium-chloride-dihydrate", "0.200 g/L")]
NOTHING_EXPLAINS = "and no hydrate, basis, unit or recipe that we know explains it."


def plain(text):
    """A sentence with ordinary spaces, as one would write it."""
    return text.replace("\u00a0", " ").replace("\u202f", " ")


def ions(amount):
    return [("sodium", f"{amount} mmol/L"), ("chloride", f"{amount} mmol/L")]


@pytest.fixture
def sentence(lines):
    """Verdict and sentence of the last figure that one source prints."""

    def say(contents, values, **fields):
        line = lines(contents, values, **fields)[-1]
        return line.verdict, plain(line.explanation)

    return say


@pytest.mark.parametrize(
    ("contents", "values", "verdict", "words"),
    [
        (SALINE, {"sodium": "154 mmol/L"}, "exact", "The contents give 154 mmol/L."),
        (
            SALINE,
            {"sodium": "150 to 160 mmol/L"},
            "exact",
            "The contents give 154 mmol/L, inside what is printed.",
        ),
        (
            SALINE,
            {"sodium": "at most 160 mmol/L"},
            "exact",
            "The contents give 154 mmol/L, inside what is printed.",
        ),
        (SALINE, {"potassium": "0 mmol/L"}, "exact", "The contents hold none."),
        (
            ions("154"),
            {"sodium": "154 mmol/L"},
            "exact",
            "The entry is declared in ions and takes this one as 154 mmol/L.",
        ),
        (ions("154"), {"potassium": "0 mmol/L"}, "exact", "The contents hold none."),
        (ions("0"), {"sodium": "0 mmol/L"}, "exact", "The contents hold none."),
        (
            ions("154"),
            {"osmolarity": "308 mOsm/L"},
            "exact",
            "The contents give 308 mOsm/L.",
        ),
        (
            SALINE,
            {"osmolality_measured": "287 mOsm/kg"},
            "exact",
            "Our estimate is 287 mOsm/kg ± 3 %.",
        ),
        (
            SALINE,
            {"sodium": "155 mmol/L"},
            "rounded",
            "The contents give 154 mmol/L; the printed figure is rounded.",
        ),
        (
            ions("154"),
            {"sodium": "155 mmol/L"},
            "rounded",
            "The contents give 154 mmol/L; the printed figure is rounded.",
        ),
        (
            SALINE,
            {"osmolality": "286 mOsm/kg"},
            "rounded",
            "Our estimate is 287 mOsm/kg ± 3 %.",
        ),
        (
            SALINE,
            {"sodium": "150 mmol/L"},
            "nominal",
            "The contents give 154 mmol/L; the printed figure is 2.6 % below.",
        ),
        (
            SALINE,
            {"sodium": "157 mmol/L"},
            "nominal",
            "The contents give 154 mmol/L; the printed figure is 1.9 % above.",
        ),
        (
            SALINE,
            {"osmolality_measured": "295 mOsm/kg"},
            "nominal",
            "Our estimate is 287 mOsm/kg ± 3 %; the printed figure is 2.9 % above.",
        ),
        # Three per cent of a thousand: the share is told, whatever the size of the figure.
        (
            ions("1000"),
            {"sodium": "971 mmol/L"},
            "nominal",
            "The contents give 1000 mmol/L; the printed figure is 2.9 % below.",
        ),
    ],
)
def test_a_figure_that_is_near(sentence, contents, values, verdict, words):
    assert sentence(contents, values) == (verdict, words)


def test_a_share_of_less_than_one_per_cent_has_its_side(lines, chemistry):
    """Where a catalogue draws the line of rounding closer."""
    limits = dict(chemistry.limits)
    closer = {"value": parse_amount("0.001")}
    limits["audit-rounded"] = limits["audit-rounded"].model_copy(update=closer)
    for printed, words in (("201.0", "0.5 % above"), ("199.0", "0.5 % below")):
        contents = [("potassium", "200 mmol/L"), ("chloride", "200 mmol/L")]
        (line,) = lines(contents, {"potassium": f"{printed} mmol/L"}, limits=limits)
        assert (
            plain(line.explanation)
            == f"The contents give 200 mmol/L; the printed figure is {words}."
        )


@pytest.mark.parametrize(
    ("contents", "values", "words"),
    [
        (SALINE, {"sodium": "trace"}, "The source prints no figure that can be compared."),
        (SALINE, {"osmolarity": "trace"}, "The source prints no figure that can be compared."),
        (
            SALINE,
            {"ph": "4.5 to 7.0"},
            "We give no figure: the pH of a bag follows from traces of acid or base, from air and "
            "from storage, not from its contents.",
        ),
        (
            [("sodium", "130 to 160 mmol/L")],
            {"sodium": "145 mmol/L"},
            "We give no figure: declared as a range, 130–160 mmol/L.",
        ),
        (
            [("sodium", "not declared")],
            {"sodium": "145 mmol/L"},
            "We give no figure: not declared.",
        ),
    ],
)
def test_a_figure_that_nothing_is_compared_with(sentence, contents, values, words):
    assert sentence(contents, values) == ("not-computed", words)


def test_without_limits_the_figures_stand_side_by_side(lines):
    (line,) = lines(SALINE, {"sodium": "0.15 to 0.16 mmol/mL"}, limits={})
    assert (line.verdict, line.explanation) == (
        "not-computed",
        "The catalogue sets no limits for the audit.",
    )
    assert (line.quantity, line.declared) == ("sodium", "0.15 to 0.16 mmol/mL")
    assert (line.declared_low, line.declared_high) == (150.0, 160.0)
    assert line.computed == pytest.approx(154.0, abs=0.01)


@pytest.mark.parametrize(
    ("contents", "values", "words"),
    [
        (
            GLUCOSE,
            {"osmolarity": "252 mOsm/L"},
            "Fits the same grams weighed as glucose monohydrate (252 mOsm/L); the contents give "
            "278 mOsm/L.",
        ),
        (
            GLUCOSE,
            {"energy": "187 kcal/L"},
            "Fits 3.4 kcal per gram of glucose monohydrate (187 kcal/L); the contents give "
            "200 kcal/L.",
        ),
        (
            GLUCOSE,
            {"energy_us": "200 kcal/L"},
            "Fits 4.0 kcal per gram of anhydrous glucose (200 kcal/L); the contents give "
            "187 kcal/L.",
        ),
        (
            CALCIUM,
            {"calcium": "3 mmol/L"},
            "Fits milliequivalents printed as millimoles (2.7 mEq/L); the contents give "
            "1.4 mmol/L.",
        ),
        (
            [("magnesium-chloride-hexahydrate", "0.300 g/L")],
            {"magnesium": "1.5 mEq/L"},
            "Fits millimoles printed as milliequivalents (1.5 mmol/L); the contents give "
            "1.48 mmol/L.",
        ),
    ],
)
def test_a_convention_is_named_with_its_figure(sentence, contents, values, words):
    assert sentence(contents, values) == ("convention", words)


def test_a_published_recipe_is_named_with_what_else_it_holds(sentence):
    lactate = {"substance": "sodium-lactate", "amount": "2.000 g/L"}
    variant = {"name": "with lactate", "contents": [lactate], "cite": SEEN}
    assert sentence(SALINE, {"lactate": "18 mmol/L"}, variants=[variant]) == (
        "convention",
        "Fits the published recipe “with lactate”, which also holds sodium lactate "
        "(17.8 mmol/L); the contents hold none.",
    )


@pytest.mark.parametrize(
    ("contents", "values", "words"),
    [
        (
            CALCIUM,
            {"calcium": "1.5 mmol/L"},
            "It is 3 mEq/L, which labels print for 2.7, divided by 2; the contents give "
            "1.4 mmol/L.",
        ),
        (
            [("calcium-chloride-dihydrate", "0.2 g/L")],
            {"calcium": "1.64 mmol/L"},
            "The masses of the recipe are rounded too: they allow 1 mmol/L to 1.7 mmol/L.",
        ),
        (
            [("calcium-gluconate-monohydrate", "100 g/L")],
            {"osmolarity": "690 mOsm/L"},
            "The label may also count the calcium saccharate that keeps it in solution; the "
            "gluconate alone gives 669 mOsm/L.",
        ),
        (
            ions("40.0"),
            {"chloride": "40.9 mmol/L"},
            "The label may count hydrochloric acid that sets the pH; the contents give 40 mmol/L.",
        ),
        (
            ions("40.0"),
            {"sodium": "40.9 mmol/L"},
            "The label may count sodium hydroxide that sets the pH; the contents give 40 mmol/L.",
        ),
        (
            [("sodium-chloride", "1.800 g/L"), ("potassium-chloride", "3.000 g/L")],
            {"sodium": "30 mmol/L", "potassium": "40 mmol/L", "chloride": "70 mmol/L"},
            "It balances the other ions as they are printed; the contents give 71 mmol/L.",
        ),
        (
            [
                ("succinylated-gelatin", "40 g/L"),
                ("sodium-chloride", "7.01 g/L"),
                ("sodium-hydroxide", "1.36 g/L"),
            ],
            {"osmolarity": "279 mOsm/L"},
            "The ions alone make 274 mOsm/L; the label may count the colloid.",
        ),
        (
            GLUCOSE,
            {"osmolarity": "286 mOsm/L"},
            "It fits an osmolality (our estimate is 289 mOsm/kg ± 3 %), not the osmolarity, "
            "278 mOsm/L.",
        ),
        (
            SALINE,
            {"osmolality": "308 mOsm/kg"},
            "It fits the osmolarity, 308 mOsm/L, not an osmolality (our estimate is 287 mOsm/kg "
            "± 3 %).",
        ),
        (
            [
                ("sodium-chloride", "6.00 g/L"),
                ("potassium-chloride", "0.40 g/L"),
                ("calcium-chloride-dihydrate", "0.27 g/L"),
                ("sodium-lactate", "3.17 g/L"),
            ],
            {
                "sodium": "131 mmol/L",
                "potassium": "5 mmol/L",
                "calcium": "2 mmol/L",
                "chloride": "111 mmol/L",
                "lactate": "29 mmol/L",
            },
            "Rounded so that the printed ions balance, beside chloride 111 mmol/L; the contents "
            "give 28.3 mmol/L.",
        ),
    ],
)
def test_a_reason_is_told(sentence, contents, values, words):
    assert sentence(contents, values) == ("explained", words)


@pytest.mark.parametrize(
    ("contents", "values", "words"),
    [
        (
            SALINE,
            {"sodium": "140 mmol/L"},
            f"140 mmol/L is printed, but the contents give 154 mmol/L, {NOTHING_EXPLAINS}",
        ),
        (SALINE, {"potassium": "4 mmol/L"}, "4 mmol/L is printed, but the contents hold none."),
        (
            ions("1"),
            {"sodium": "3 mmol/L"},
            f"3 mmol/L is printed, but the contents give 1 mmol/L, {NOTHING_EXPLAINS}",
        ),
        (
            SALINE,
            {"osmolality_measured": "270 mOsm/kg"},
            f"270 mOsm/kg is printed, but our estimate is 287 mOsm/kg ± 3 %, {NOTHING_EXPLAINS}",
        ),
        (
            GLUCOSE,
            {"energy": "160 kcal/L"},
            "160 kcal/L is printed, but the contents give 200 kcal/L; it would take 40 g/L of "
            f"anhydrous glucose, {NOTHING_EXPLAINS}",
        ),
        (
            GLUCOSE,
            {"energy_us": "160 kcal/L"},
            f"160 kcal/L is printed, but the contents give 187 kcal/L, {NOTHING_EXPLAINS}",
        ),
        (
            SALINE,
            {"sodium": "145 mmol/L"},
            "145 mmol/L is printed, but the contents give 154 mmol/L; with two digits exchanged, "
            "154 mmol/L, it would fit.",
        ),
        # An exchange that fits exactly goes before an osmolality that would fit as well.
        (
            GLUCOSE,
            {"osmolarity": "287 mOsm/L"},
            "287 mOsm/L is printed, but the contents give 278 mOsm/L; with two digits exchanged, "
            "278 mOsm/L, it would fit.",
        ),
        (
            [("sodium-chloride", "4.5 g/L"), *GLUCOSE],
            {"glucose": "278 mmol/L", "osmolarity": "406 mOsm/L"},
            "406 mOsm/L is printed, but the contents give 432 mOsm/L; it fits the same grams "
            "weighed as glucose monohydrate (406 mOsm/L), which another figure of the same source "
            "does not: the source mixes two readings.",
        ),
    ],
)
def test_an_error_says_what_is_printed_and_what_is_given(sentence, contents, values, words):
    assert sentence(contents, values) == ("error", words)


ALBUMIN = [("human-albumin", "40 g/L"), *ions("10.0")]


@pytest.mark.parametrize(
    ("printed", "words"),
    [
        (
            "15 mOsm/L",
            "15 mOsm/L is printed, but the known ions alone make 20 mOsm/L; what else "
            "it holds is not published.",
        ),
        ("20.0 mOsm/L", ""),
        ("20.9 mOsm/L", ""),
        ("30 mOsm/L", ""),
        ("19.5 mOsm/L", ""),
        ("trace", ""),
    ],
)
def test_an_osmolarity_of_which_only_the_ions_are_known(sentence, printed, words):
    """Only what is clearly below them is an error: other things may be in it as well."""
    unknown = ("not-computed", "We give no figure: the source does not give the whole composition.")
    told = sentence(ALBUMIN, {"osmolarity": printed}, complete="no")
    assert told == (("error", words) if words else unknown)


def test_a_fluid_of_which_nothing_is_known_has_no_least_osmolarity(sentence):
    (verdict, words) = sentence([], {"osmolarity": "300 mOsm/L"}, complete="no")
    assert (verdict, words[:17]) == ("not-computed", "We give no figure")
