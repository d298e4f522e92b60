"""The rules of the search, one by one. What fluids hold is in the catalogue, with its sources."""

import pytest

from isofolio.finder.cards import Card, Prose
from isofolio.finder.index import encoded


def fluid(name, *names, **more):
    """A card of an invented fluid."""
    identifier = "".join(letter if letter.isalnum() else "-" for letter in name.lower())
    return Card(
        id=identifier,
        address=f"fluids/{identifier}.html",
        kind="fluid",
        title=((name, ""),),
        names=tuple((other, "synonym") for other in names),
        **more,
    )


def index(*found, prose=()):
    return encoded(found, prose, (), (), {})


def fitting(found):
    return [hit["id"] for hit in found["hits"] if not hit["missing"] and not hit["loose"]]


# Numbers


@pytest.mark.parametrize("typed", ["glucose 7%", "saline 0.8", "nacl 0.99%", "KCl 0.31%", "8.5%"])
def test_a_number_never_fits_nearly(search, typed):
    fluids = [hit for hit in search(typed)["hits"] if hit["kind"] == "fluid"]
    assert all(hit["missing"] for hit in fluids)


def test_a_number_is_never_begun(searching):
    found = searching(index(fluid("Alpha 0.18 %"), fluid("Alpha 10 %", "a10")))
    assert fitting(found("alpha 0.1")) == []
    assert fitting(found("alpha 1")) == []
    assert fitting(found("a1")) == []
    assert fitting(found("alpha 10")) == ["alpha-10--"]


def test_a_percentage_is_no_amount(searching):
    found = searching(index(fluid("Beta 20 mmol"), fluid("Beta 20 %")))
    assert fitting(found("beta 20%")) == ["beta-20--"]
    assert fitting(found("beta 20 mmol")) == ["beta-20-mmol"]
    assert set(fitting(found("beta 20"))) == {"beta-20--", "beta-20-mmol"}


def test_a_strength_stays_with_its_substance(search):
    """Sodium chloride 0.45 % and glucose 5 % is no glucose 0.45 %."""
    for typed in ("glucose 0.45% sodium chloride 5%", "glucose 0.9%"):
        for hit in search(typed)["hits"]:
            assert hit["id"] != "sodium-chloride-0-45-glucose-5" or hit["missing"]
            assert hit["id"] != "sodium-chloride-0-9-glucose-5" or hit["missing"]


def test_a_volume_is_no_strength(search):
    """Every bag of glucose has 500 mL; none has 500 %."""
    assert search.ids("glucose 10 500ml")[0] == "glucose-10"
    assert search.ids("glucose 500 ml 20")[0] == "glucose-20"


# Slips


@pytest.fixture
def words(searching):
    return searching(index(fluid("Gamma delta"), fluid("Epsilon"), fluid("Zeta", "zt9")))


@pytest.mark.parametrize(
    "typed", ["gmama", "gama", "gammaa", "gamna", "epslion", "epilon", "epsilom"]
)
def test_one_slip_is_a_close_match(words, typed):
    found = words(typed)
    assert [hit["loose"] for hit in found["hits"]] == [True]
    assert not found["sure"]


@pytest.mark.parametrize("typed", ["agmam", "gxx", "zat9", "zt8", "9zt", "zet", "epsixxn"])
def test_what_is_no_slip(words, typed):
    assert all(not hit["loose"] for hit in words(typed)["hits"])


def test_short_words_are_never_loose(words):
    assert words("gma")["hits"] == []


def test_two_slips_in_a_long_word(searching):
    found = searching(index(fluid("Bicarbonate")))
    assert [hit["loose"] for hit in found("bicrabonatte")["hits"]] == [True]
    assert found("bicrabonnatte")["hits"] == []


# Order


def test_all_words_before_some(searching):
    found = searching(index(fluid("Alpha beta"), fluid("Alpha"), fluid("Beta gamma")))
    assert found.ids("alpha beta") == ["alpha-beta"]
    some = found("alpha omega")["hits"]
    assert {hit["id"] for hit in some} == {"alpha-beta", "alpha"}
    assert all(hit["missing"] == ["omega"] for hit in some)


def test_whole_name_before_part_of_one(searching):
    found = searching(index(fluid("Alpha beta gamma"), fluid("Other", "alpha beta")))
    assert found.ids("alpha beta") == ["other", "alpha-beta-gamma"]
    assert found("alpha beta")["sure"]


def test_fluids_before_prose(searching):
    note = Prose("fluids/beta.html#how", "Beta", "How", "Alpha is given with beta.")
    other = Card(id="s", address="sources.html#s", kind="source", title=(("Alpha paper", ""),))
    found = searching(index(fluid("Gamma", about=("alpha",)), fluid("Beta"), other, prose=(note,)))
    assert found.ids("alpha") == ["gamma", "fluids/beta.html#how", "s"]


def test_a_section_needs_every_word(searching):
    note = Prose("fluids/beta.html#how", "Beta", "How", "Never with blood.")
    found = searching(index(fluid("Beta"), prose=(note,)))
    assert found.ids("beta blood") == ["fluids/beta.html#how", "beta"]
    assert found("beta blood")["hits"][1]["missing"] == ["blood"]
    assert found.ids("blood milk") == []
    assert found.ids("beta") == ["beta"]


def test_a_retired_fluid_is_never_first(searching):
    found = searching(index(fluid("Alpha", status="retired"), fluid("Alpha two")))
    assert found.ids("alpha") == ["alpha-two", "alpha"]


def test_a_name_of_a_container_alone_finds_nothing_by_half(search):
    assert search("zzyzx 500 ml bag")["hits"] == []


def test_nothing_typed_finds_nothing(search):
    for typed in ("", "   ", "+++", "⁺⁺", "/"):
        assert search(typed)["hits"] == []


def test_a_book_pasted_is_cut_short(search):
    assert search("glucose " * 100_000)["hits"]


# What may be meant


def test_an_exact_name_is_sure(search):
    assert search("hartmanns")["sure"]
    assert search("Glucose 5 %")["sure"]


@pytest.mark.parametrize("typed", ["saline", "dextrose", "kcl", "k+", "soda bic", "20 k"])
def test_an_ambiguous_word_tells_what_tells_apart(search, typed):
    found = search(typed)
    assert found["asks"]
    assert not found["sure"]


def test_the_rest_of_a_question_narrows_an_ambiguous_word(search):
    found = search("potassium saline")
    assert found["asks"]
    ids = [hit["id"] for hit in found["hits"]]
    assert ids[0].startswith("potassium-chloride-0-")
    assert "potassium-chloride-15" not in ids[:3]
    assert search("glucose 20%")["asks"] == ""


def test_a_misspelt_ambiguous_word_is_a_close_match(search):
    found = search("potasium")
    assert found["asks"]
    assert all(hit["loose"] for hit in found["hits"][:3])


def test_a_fluid_found_by_its_role_alone_is_not_sure(search):
    assert not search("glucose 0.45%")["sure"]


# What a bag holds


def test_absence_lists_none_that_hold_it(search, handbook):
    found = search("fluid without potassium")
    listed = {hit["id"] for hit in found["hits"]}
    none = {one.id for one in handbook.fluids if handbook.value(one.id, "potassium").number == 0}
    assert listed == none
    assert all("no potassium" in hit["why"] for hit in found["hits"])


def test_unknown_is_left_out_and_counted(search, handbook):
    unknown = [f for f in handbook.fluids if handbook.value(f.id, "potassium").number is None]
    found = search("no potassium")
    assert found["silent"] == len(unknown) > 0
    assert not {one.id for one in unknown} & {hit["id"] for hit in found["hits"]}


@pytest.mark.parametrize("typed", ["calcium free", "no calcium", "without Ca²⁺", "non calcium"])
def test_ways_to_ask_for_absence(search, typed):
    assert set(search.ids(typed)) == set(search.ids("without calcium"))
    assert "compound-sodium-lactate" not in search.ids(typed)


def test_two_absences(search, handbook):
    both = set(search.ids("without potassium or calcium"))
    assert both == set(search.ids("no potassium and no calcium"))
    for one in both:
        assert handbook.value(one, "potassium").number == 0
        assert handbook.value(one, "calcium").number == 0


@pytest.mark.parametrize("typed", ["with lactate", "lactate containing", "containing lactate"])
def test_ways_to_ask_for_presence(search, handbook, typed):
    holding = {f.id for f in handbook.fluids if (handbook.value(f.id, "lactate").number or 0) > 0}
    assert set(search.ids(typed)) == holding


@pytest.mark.parametrize(
    ("typed", "low", "high"),
    [
        ("k < 5", 0, 4.5),
        ("potassium under 5", 0, 4.5),
        ("k <= 5", 0, 5.5),
        ("less than 5 mmol/l potassium", 0, 4.5),
        ("k over 30", 30.5, 9e9),
        ("potassium at least 40", 39.5, 9e9),
        ("sodium more than 150", 150.5, 9e9),
    ],
)
def test_comparisons(search, handbook, typed, low, high):
    quantity = "sodium" if "sodium" in typed else "potassium"
    values = {f.id: handbook.value(f.id, quantity).number for f in handbook.fluids}
    wanted = {one for one, number in values.items() if number is not None and low <= number < high}
    assert set(search.ids(typed)) == wanted


# 0.3 % w/v is 3 g/L: / 74.548 g/mol = 40.2 mmol/L, 20.1 in 500 mL (CIAAW 2021 weights).
@pytest.mark.parametrize(
    "typed",
    [
        "20 k in 500",
        "20k in 500",
        "20 mmol potassium in 500 ml",
        "20 mEq K+ per 500 mL",
        "20mmol KCl/500ml",
        "500 ml with 20 k",
        "k 20 mmol in 500",
        "20 of potassium in half a litre",
        "40 k per litre",
        "k 40 mmol/l",
        "40 mmol of KCl in 1 L",
    ],
)
def test_amounts_in_a_container(search, typed):
    ids = search.ids(typed)
    assert len(ids) == 5
    assert all("potassium-chloride-0-3-" in one for one in ids)


def test_an_amount_needs_a_container_that_is_sold(search):
    """20 mmol in 250 mL would be 80 mmol/L, and no such bag is listed."""
    assert not [hit for hit in search("20 k in 250")["hits"] if hit["why"]]


# 84 g/L / 84.006 g/mol = 1 mmol/mL. 500 g/L of MgSO4.7H2O / 246.47 = 2029 mmol/L.
@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("50 mmol bicarbonate in 50 ml", ["sodium-bicarbonate-8-4"]),
        ("1 mmol/ml bicarbonate", ["sodium-bicarbonate-8-4"]),
        ("5 g magnesium sulfate in 10 ml", ["magnesium-sulfate-50"]),
        ("100 g mannitol in 500", ["mannitol-20"]),
    ],
)
def test_grams_and_millimoles(search, typed, wanted):
    found = search(typed)
    assert [hit["id"] for hit in found["hits"]] == wanted
    assert found["sure"]


def test_milliequivalents_go_by_charge(search):
    """Compound sodium lactate holds calcium 2 mmol/L: 4 mEq/L (uk-smpc-compound-sodium-lactate)."""
    assert "compound-sodium-lactate" in search.ids("calcium 4 meq/l")
    assert "compound-sodium-lactate" not in search.ids("calcium 4 mmol/l")
    assert "compound-sodium-lactate" in search.ids("calcium 2 mmol/l")


def test_what_labels_print_counts_after_what_we_compute(search, handbook):
    """Dextrose 5 % USP computes to 252 mOsm/L; one of its labels prints 253."""
    assert "dextrose-5-usp" in search.ids("osm 252")
    hit = next(one for one in search("osm 253")["hits"] if one["id"] == "dextrose-5-usp")
    assert "as a label prints it" in hit["why"][0]


def test_the_words_left_over_choose_among_them(search):
    ids = search.ids("20 k in 500 glucose")
    assert ids[0] == "potassium-chloride-0-3-glucose-5"
    assert all("glucose" in one for one in ids)
    found = search("20 k in 500 omega")["hits"]
    assert len(found) == 5
    assert all(hit["missing"] == ["omega"] for hit in found)


def test_no_fluid_holds_it(search):
    assert not [hit for hit in search("with gold")["hits"] if hit["kind"] == "fluid"]
    assert search("k > 9000")["hits"] == []
