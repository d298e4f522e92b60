"""The ranking of alternatives: a judgement of this project, not validated; it has no source.

What is tested is therefore what limits.yml and not-instead.yml say, not that they are right.
Figures of the golden checks are worked out by hand beside them, from the recipes of the catalogue.
"""

import re
import tracemalloc
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.entries.lists import NotInstead
from isofolio.entries.scalars import parse_amount
from isofolio.findings import alternatives
from isofolio.findings.alternatives import (
    KEPT,
    PAIRS,
    STOPPED_LISTED,
    Alternative,
    alternatives_of,
    why_not_ranked,
)
from isofolio.findings.differences import (
    LARGE,
    SMALL,
    WEIGHT,
    WIDTH,
)

NAN = float("nan")
BANNED = re.compile(r"\b(close|equivalent|substitutes?|safe|interchangeable)\b", re.IGNORECASE)


@pytest.fixture
def ranking(real):
    return alternatives_of(*real)


def alternative(ranking, missing, other):
    return next(one for one in ranking[missing] if one.id == other)


def first(ranking):
    return ranking["fluid-0000"][0]


def scored(ranking, missing):
    return [one for one in ranking[missing] if one.score is not None]


# Numbers -----------------------------------------------------------------------------------------


def test_a_score_is_the_same_in_both_directions(ranking):
    scores = {(f, one.id): one.score for f in ranking for one in scored(ranking, f)}
    assert len(scores) > 60
    assert all(scores[there, here] == found for (here, there), found in scores.items())


def test_two_titles_of_the_same_figures_have_no_score_and_no_difference(make):
    saline = {"sodium": 154.0, "chloride": 154.0}
    found = first(alternatives_of(*make(saline, saline)))
    assert (found.score, found.word, found.reasons) == (0.0, SMALL, ())


def test_the_scored_ones_alone_are_the_first_of_the_list(ranking):
    for fluid in ranking:
        assert list(ranking.scored(fluid)) == scored(ranking, fluid)
    assert len(ranking.scored("sodium-chloride-0-9", 3)) == 3


def test_no_fluid_is_its_own_alternative(ranking):
    assert all(fluid not in {one.id for one in ranking[fluid]} for fluid in ranking)


def test_the_order_is_score_then_id_and_the_stopped_come_last_by_id(ranking):
    for fluid in ranking:
        keys = [(one.score is None, one.score or 0.0, one.id) for one in ranking[fluid]]
        assert keys == sorted(keys)


def test_a_null_score_is_explained_by_its_stops_and_only_then(ranking):
    every = [one for fluid in ranking for one in ranking[fluid]]
    assert every
    assert all((one.score is None) == bool(one.stops) for one in every)
    assert all(one.word == "" and one.reasons == () for one in every if one.stops)


def test_fluids_of_one_score_stand_by_id_in_whatever_order_they_were_read(make):
    catalogue, table = make({}, {"sodium": 10.0}, {"sodium": 10.0}, {"sodium": 10.0})
    backwards = replace(catalogue, fluids=dict(reversed(catalogue.fluids.items())))
    found = alternatives_of(backwards, table)["fluid-0000"]
    assert [one.id for one in found] == ["fluid-0001", "fluid-0002", "fluid-0003"]


FIGURES = st.fixed_dictionaries(
    {
        "sodium": st.floats(0, 160),
        "potassium": st.sampled_from([0.0, 4.0, 5.0, 5.4, 20.0]),
        "chloride": st.floats(0, 160),
        "sid_in_body": st.floats(-5, 60),
        "effective_osmolarity": st.floats(0, 400),
        "calcium": st.sampled_from([0.0, 1.0, 1.8, 2.5, float("nan")]),
        "magnesium": st.floats(0, 3),
        "glucose_mass": st.sampled_from([0.0, 0.0, 40.0, 50.0, 100.0]),
        "osmolarity": st.floats(0, 620),
        "mannitol": st.sampled_from([0.0, 0.0, 0.0, 549.0]),
        "bicarbonate_yield": st.sampled_from([0.0, 28.0, 150.0]),
        "role": st.sampled_from(["ready", "ready", "ready", "colloid", "concentrate", "diluent"]),
    }
)


@given(fluids=st.lists(FIGURES, min_size=2, max_size=9), pairs=st.integers(1, 30))
def test_blocks_of_any_size_give_what_one_block_gives(make, fluids, pairs):
    catalogue, table = make(*fluids)
    whole, pieces = alternatives_of(catalogue, table), alternatives_of(catalogue, table, pairs)
    assert dict(whole) == dict(pieces)
    assert [whole.counted(one) for one in whole] == [pieces.counted(one) for one in whole]


@given(fluids=st.lists(FIGURES, min_size=2, max_size=6))
def test_a_score_is_the_capped_sum_written_out(make, limits, fluids):
    """The same sum pair by pair in plain arithmetic, from limits.yml."""
    ranking = alternatives_of(*make(*fluids))
    cap = limits["substitute-cap"].value.low
    for missing in ranking:
        for one in scored(ranking, missing):
            here, there = fluids[int(missing[-4:])], fluids[int(one.id[-4:])]
            total = 0.0
            for name in (n for n in limits if n.startswith(WIDTH)):
                quantity, width = limits[name].quantity, limits[name].value.low
                weight = limits[name.replace(WIDTH, WEIGHT)].value.low
                total += weight * min(abs(here[quantity] - there[quantity]) / width, cap)
            assert one.score == pytest.approx(total, abs=2e-9)


# Who is ranked -----------------------------------------------------------------------------------


def test_nothing_is_ranked_beside_what_pharmacy_must_be_asked_about(real, ranking):
    catalogue, table = real
    for fluid in catalogue.fluids.values():
        number = {q: table.value(fluid.id, q).number for q in ("mannitol", "bicarbonate_yield")}
        asked = (
            fluid.role != "ready"
            or fluid.status != "current"
            or bool(number["mannitol"])
            or (number["bicarbonate_yield"] or 0.0) > 100.0
        )
        assert (fluid.id in ranking.why_not) == asked, fluid.id
        if asked:
            assert ranking[fluid.id] == ()
            assert ranking.counted(fluid.id) == 0
            assert ranking.why_not[fluid.id].startswith("it ")


def test_none_of_them_is_ranked_beside_another_fluid(ranking):
    offered = {one.id for fluid in ranking for one in scored(ranking, fluid)}
    assert offered
    assert not offered & set(ranking.why_not)


@pytest.mark.parametrize(
    ("given", "why"),
    [
        ({}, ""),
        ({"status": "retired"}, "it is retired"),
        ({"status": "not-for-use"}, "it is not for use"),
        ({"role": "concentrate"}, "it is a concentrate, diluted before use"),
        ({"role": "diluent"}, "it is for mixing only"),
        ({"role": "colloid"}, "it is a colloid"),
        ({"role": "blood-product"}, "it is a colloid"),
        ({"colloid_mass": 40.0}, "it is a colloid"),
        ({"colloid_mass": NAN}, "it is a colloid"),
        ({"mannitol": 0.1}, "it holds mannitol, which is given to draw water"),
        ({"bicarbonate_yield": 100.4}, ""),
        ({"bicarbonate_yield": 100.5}, "it is given to raise bicarbonate"),
        ({"potassium": NAN}, "not every figure that would be compared is known"),
        ({"tonicity_ratio": NAN}, "not every figure that would be compared is known"),
    ],
)
def test_why_nothing_is_ranked_beside_a_fluid(make, made_subject, given, why):
    assert why_not_ranked(made_subject(**given)) == why
    found = alternatives_of(*make(given, {"sodium": 1.0}))
    assert found.why_not.get("fluid-0000", "") == why
    assert bool(found["fluid-0000"]) == (why == "")
    assert found.scored("fluid-0000") == (found["fluid-0000"] if why == "" else ())
    assert found.left_out("fluid-0000") == 0


@pytest.mark.parametrize("status", ["retired", "not-for-use"])
def test_what_is_not_in_use_is_not_listed(make, status):
    found = alternatives_of(*make({}, {"status": status}))
    assert found["fluid-0000"] == ()
    assert set(found) == {"fluid-0000", "fluid-0001"}


def test_every_fluid_of_the_catalogue_has_its_place(real, ranking):
    assert set(ranking) == set(real[0].fluids)
    assert len(ranking) == len(real[0].fluids)
    with pytest.raises(KeyError):
        ranking["no-such-fluid"]


@pytest.mark.parametrize(
    "name",
    ["substitute-cap", "substitute-stop-base", "substitute-weight-sodium", "class-osmolarity-low"],
)
def test_a_missing_limit_is_named_and_nothing_is_ranked(make, limits, name):
    rest = {key: limit for key, limit in limits.items() if key != name}
    found = alternatives_of(*make({}, {}, limits=rest))
    assert found["fluid-0000"] == ()
    assert found.why_not["fluid-0000"] == f"limits.yml does not hold {name}: add it"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"quantity": "colour"}, "colour is not computed"),
        ({"value": parse_amount("0 mmol/L")}, "a step of nothing"),
    ],
)
def test_a_step_that_cannot_be_counted_is_named(make, limits, change, words):
    spoilt = limits["substitute-width-sodium"].model_copy(update=change)
    found = alternatives_of(*make({}, {}, limits={**limits, "substitute-width-sodium": spoilt}))
    assert words in found.why_not["fluid-0001"]


# Golden checks -----------------------------------------------------------------------------------


def test_compound_sodium_lactate_beside_saline(ranking):
    """By hand, from 6.00 g NaCl, 0.40 g KCl, 0.27 g CaCl2(H2O)2 and 3.17 g sodium lactate a litre
    (58.440, 74.548, 147.008, 112.060 g/mol) beside 9 g NaCl:
    SID 28.29/4 = 7.07, capped 5; Cl (154.00-111.71)/8 = 5.29, capped 5; K 5.366/1.5 = 3.577;
    Na 23.05/10 = 2.305; Ca 1.8366/0.4/2 = 2.296; osmolarity (308.01-278.16)/20 = 1.492.
    Together 19.67: a large difference. SID before chloride, because it has more steps uncapped."""
    found = alternative(ranking, "sodium-chloride-0-9", "compound-sodium-lactate")
    assert found.score == pytest.approx(5 + 5 + 3.577 + 2.305 + 2.296 + 1.492, abs=0.01)
    assert found.word == LARGE
    assert found.reasons == (
        "strong ion difference in the body 28 beside 0 mEq/L, 28 higher",
        "chloride 112 beside 154 mmol/L, 42 lower",
        "potassium 5.4 mmol/L beside none",
        "sodium 131 beside 154 mmol/L, 23 lower",
        "calcium 1.8 mmol/L beside none",
        "effective osmolarity in the body 278 beside 308 mOsm/L, 30 lower",
        "a base, lactate 28 mmol/L, beside none",
    )


def test_the_other_way_round_calcium_is_gone_and_nothing_warns(ranking):
    found = alternative(ranking, "compound-sodium-lactate", "sodium-chloride-0-9")
    assert "no calcium beside 1.8 mmol/L" in found.reasons
    assert found.reasons[-1] == "no base beside lactate 28 mmol/L"
    assert found.warnings == ()


def test_two_lactated_fluids_lie_a_small_difference_apart(ranking):
    """By hand: K 1.342/1.5 = 0.895; Ca 0.476/0.4/2 = 0.595 (1.8366 less 1.360, 0.20 g a litre);
    Cl 2.30/8 = 0.287; osmolarity 5.36/20 = 0.268; SID 0.63/4 = 0.156; Na 0.63/10 = 0.063."""
    found = alternative(ranking, "compound-sodium-lactate", "ringer-lactate-usp")
    assert found.score == pytest.approx(0.895 + 0.595 + 0.287 + 0.268 + 0.156 + 0.063, abs=0.01)
    assert found.word == SMALL
    assert found.reasons[0] == "potassium 4 beside 5.4 mmol/L, 1.4 lower"


def test_glucose_of_two_pharmacopoeias_differs_by_its_hydrate_alone(ranking):
    """50 g anhydrous beside 50 g monohydrate, 45.45 g anhydrous: 4.55/10/2 = 0.227 steps."""
    first_of_all = ranking["glucose-5"][0]
    assert first_of_all.id == "dextrose-5-usp"
    assert first_of_all.score == pytest.approx(0.2273, abs=1e-4)
    assert first_of_all.reasons == ("glucose 45.5 beside 50 g/L, 4.5 lower",)


def test_a_difference_too_small_to_print_is_left_out(make):
    found = first(alternatives_of(*make({"sodium": 154.0}, {"sodium": 154.04})))
    assert found.score == pytest.approx(0.004)
    assert found.reasons == ()


# Warnings, and what it is not for ----------------------------------------------------------------


def test_added_calcium_is_a_loud_warning_and_no_stop(ranking):
    found = alternative(ranking, "multiple-electrolytes-type-1", "compound-sodium-lactate")
    assert found.score is not None
    assert [text.startswith("Calcium is added") for text in found.warnings] == [True, True]


def test_what_only_the_missing_fluid_may_do_is_said(ranking):
    """Only saline has a source that lets it share a line with blood (NZ handbook, 3.17)."""
    found = alternative(ranking, "sodium-chloride-0-9", "multiple-electrolytes-type-1")
    assert "a line that carries blood" in found.not_instead_for
    assert any(text.startswith("brain injury") for text in found.not_instead_for)
    assert any(text.startswith("high potassium") for text in found.not_instead_for)
    assert any(text.startswith("diluting drugs") for text in found.not_instead_for)
    assert not any(text.startswith("raised") for text in found.not_instead_for)  # 0.95 of plasma


def test_sentences_come_from_the_catalogue(make):
    entry = {"id": "x", "case": "diluting-drugs", "text": "anything", "cite": "common practice"}
    loud = NotInstead.model_validate(entry | {"loud": "yes"})
    quiet = NotInstead.model_validate(entry)
    catalogue, table = make({}, {})
    found = first(alternatives_of(replace(catalogue, not_instead=(loud, quiet)), table))
    assert (found.warnings, found.not_instead_for) == (("anything",), ("anything",))


def test_no_text_promises_what_a_figure_cannot(ranking, real):
    texts = [entry.text for entry in real[0].not_instead]
    texts += [limit.text for name, limit in real[0].limits.items() if "subst" in name]
    texts += ranking.why_not.values()
    for fluid in ranking:
        for one in ranking[fluid]:
            texts += [one.word, *one.stops, *one.reasons, *one.warnings, *one.not_instead_for]
    assert len(texts) > 1000
    assert [text for text in texts if BANNED.search(text)] == []
    assert [text for text in texts if re.search(r"\bnan\b", text, re.IGNORECASE)] == []


# Many fluids -------------------------------------------------------------------------------------


def many(count):
    """Fluids around saline, a fixed pseudo-random crowd; nearly all can be compared."""
    random = np.random.default_rng(7)
    draws = random.uniform(0.0, 1.0, (count, 4))
    return [
        {"sodium": 130 + 24 * a, "chloride": 98 + 56 * b, "potassium": 5 * c, "sid_in_body": 50 * d}
        for a, b, c, d in draws.tolist()
    ]


def test_the_memory_of_a_large_catalogue_stays_far_below_a_table_of_all_pairs(make):
    """2,000 fluids: one array of all pairs takes 32 MB; a block of pairs takes 2 MB."""
    catalogue, table = make(*many(2000))
    tracemalloc.start()
    try:
        ranking = alternatives_of(catalogue, table)
        assert len(dict(ranking.nearest)) == 2000
        kept, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    all_pairs = 2000 * 2000 * 8
    assert peak < all_pairs * 0.75  # a dozen arrays of a block at once, whatever the count
    assert kept < 3_000_000
    assert peak - kept <= PAIRS * 8 * 12
    assert len(ranking) == 2000


def test_of_a_large_catalogue_the_nearest_are_listed_and_the_rest_is_counted(make):
    ranking = alternatives_of(*make(*many(300)))
    listed = ranking["fluid-0000"]
    assert len(listed) == KEPT
    assert ranking.counted("fluid-0000") == 299
    assert ranking.left_out("fluid-0000") == 299 - KEPT
    assert all(one.score is not None for one in listed)


def test_the_nearest_of_many_are_the_first_of_the_whole_order(make):
    fluids = many(300)
    ranking = alternatives_of(*make(*fluids))
    alone = [first(alternatives_of(*make(fluids[0], other))).score for other in fluids[1:]]
    whole = sorted((score, f"fluid-{number:04}") for number, score in enumerate(alone, start=1))
    assert [(one.score, one.id) for one in ranking["fluid-0000"]] == whole[:KEPT]


@pytest.mark.parametrize("count", [KEPT, KEPT + 1, KEPT + 2, 40])
def test_of_many_at_one_distance_the_first_by_id_are_kept(make, count):
    """Ties at the edge of what is kept: none is lost and none stands twice."""
    ranking = alternatives_of(*make({}, *[{"sodium": 10.0}] * count))
    listed = [one.id for one in ranking["fluid-0000"]]
    assert listed == [f"fluid-{number:04}" for number in range(1, KEPT + 1)]
    assert ranking.counted("fluid-0000") == count
    assert ranking.left_out("fluid-0000") == count - KEPT


def test_a_shelf_of_one_fluid_has_no_alternative(make):
    ranking = alternatives_of(*make({}))
    assert ranking["fluid-0000"] == ()
    assert ranking.counted("fluid-0000") == 0


def test_the_stopped_are_named_with_what_stops_them(make):
    found = alternatives_of(*make({}, {"sodium": 10.0}, {"glucose_mass": 50.0, "potassium": 20.0}))
    assert [one.id for one in found["fluid-0000"]] == ["fluid-0001", "fluid-0002"]
    assert found["fluid-0000"][1] == Alternative(
        "fluid-0002",
        None,
        (
            "potassium 20 beside 0 mmol/L: more than 6 mmol/L apart",
            "glucose in one of the two only",
        ),
    )
    assert found.counted("fluid-0000") == 1


def test_a_fluid_that_is_stopped_from_all_is_not_listed_beside_itself(make):
    found = alternatives_of(*make({"osmolarity": 1027.0}, {}))
    assert [one.id for one in found["fluid-0000"]] == ["fluid-0001"]
    assert found.counted("fluid-0000") == 0


@pytest.mark.parametrize(("count", "listed"), [(STOPPED_LISTED, 1), (STOPPED_LISTED + 1, 0)])
def test_beyond_a_size_the_stopped_are_only_counted(make, count, listed):
    ranking = alternatives_of(*make({"potassium": 20.0}, *[{}] * (count - 1)))
    stopped = [one for one in ranking["fluid-0001"] if one.score is None]
    assert [one.id for one in stopped] == ["fluid-0000"] * listed
    assert ranking.left_out("fluid-0001") == count - 1 - KEPT - listed


def test_pairs_are_compared_in_blocks_of_the_asked_size(make, monkeypatch):
    """Ten fluids and 25 pairs at once: two rows a block; fewer pairs than fluids: one row."""
    rows = []
    scored_of = alternatives._scores
    monkeypatch.setattr(
        alternatives, "_scores", lambda r, *rest: rows.append(len(r)) or scored_of(r, *rest)
    )
    for count, pairs in ((10, 25), (3, 2)):
        assert len(dict(alternatives_of(*make(*many(count)), pairs=pairs))) == count
    assert rows == [2, 2, 2, 2, 2, 1, 1, 1]


def test_the_noise_of_the_machine_decides_no_order(make):
    """0.1 + 0.2 is not 0.3 in binary: both are one score, and the id decides."""
    found = alternatives_of(
        *make({}, {"sodium": 1.0, "chloride": 1.6}, {"sodium": 3.0}, {"sodium": 3.0 - 1e-10})
    )
    assert [(one.id, one.score) for one in found["fluid-0000"]] == [
        ("fluid-0001", 0.3),
        ("fluid-0002", 0.3),
        ("fluid-0003", 0.3),
    ]
