"""The document: its keys, its nulls and their reasons, and nothing lost on the way."""

import pytest

from isofolio.entries.stamps import digest
from isofolio.exports.document import DOCUMENT_PARTS, FLUID_PARTS, document
from isofolio.handbook import interval_of
from isofolio.vocabulary.quantities import QUANTITY_BY_ID

CONTRACT = ["schema", "built_from", "plasma", "substances", "fluids"]
FLUID_CONTRACT = (
    *("id", "name", "role", "status", "jurisdiction", "also_known_as", "contents", "per_litre"),
    *("classes", "reasons", "containers", "vein", "cautions", "audit", "alternatives", "sources"),
    "review",
)
BUILT = set(FLUID_CONTRACT) - {"classes", "vein", "cautions", "audit", "alternatives"}


@pytest.fixture(scope="module")
def made(handbook):
    return document(handbook)


def test_keys_stand_in_the_order_of_the_contract(made):
    assert list(made) == CONTRACT
    assert made["schema"] == 1
    for fluid in made["fluids"]:
        assert set(fluid) >= BUILT
        told = [key for key in fluid if key in FLUID_CONTRACT]
        assert told == [key for key in FLUID_CONTRACT if key in fluid]


def test_every_part_is_named_once():
    for parts in (DOCUMENT_PARTS, FLUID_PARTS):
        names = [name for name, _ in parts]
        assert len(names) == len(set(names))


def test_every_fluid_with_every_quantity(handbook, made):
    assert [fluid["id"] for fluid in made["fluids"]] == list(handbook.catalogue.fluids)
    for fluid in made["fluids"]:
        assert tuple(fluid["per_litre"]) == handbook.quantities


def test_what_the_handbook_says_is_what_is_written(handbook, made):
    for fluid in made["fluids"]:
        for quantity, number in fluid["per_litre"].items():
            value = handbook.value(fluid["id"], quantity)
            assert number == value.number
            assert fluid["reasons"].get(quantity, "") == value.reason


def test_a_null_has_a_reason_and_a_number_has_none(made):
    for fluid in made["fluids"]:
        nulls = {q for q, number in fluid["per_litre"].items() if number is None}
        assert set(fluid["reasons"]) == nulls
        assert all(fluid["reasons"].values())


def test_some_are_null_and_most_are_not(made):
    nulls = sum(len(fluid["reasons"]) for fluid in made["fluids"])
    numbers = sum(len(fluid["per_litre"]) for fluid in made["fluids"])
    assert 0 < nulls < 0.2 * numbers


def test_a_content_holds_one_thing_and_a_null_has_its_reason(made):
    for fluid in made["fluids"]:
        for content in fluid["contents"]:
            key = "g_per_l" if "substance" in content else "mmol_per_l"
            assert ("substance" in content) != ("particle" in content)
            assert set(content.get("reasons", ())) == ({key} if content[key] is None else set())


def test_substances_and_particles_of_contents_are_explained(made):
    known = {substance["id"] for substance in made["substances"]}
    for fluid in made["fluids"]:
        for content in fluid["contents"]:
            assert content.get("substance", "glucose") in known
            assert content.get("particle", "sodium") in fluid["per_litre"]


def test_a_substance_has_a_molar_mass_or_says_why_not(made):
    for substance in made["substances"]:
        nulls = {key for key in ("formula", "g_per_mol") if substance[key] is None}
        assert set(substance["reasons"]) == nulls
        assert nulls in (set(), {"formula", "g_per_mol"})
        assert all(count > 0 for count in substance["releases"].values())
        assert not (nulls and substance["releases"])  # a colloid releases nothing


def test_codes_stand_where_the_entry_has_them(handbook, made):
    for fluid in made["fluids"]:
        atc = handbook.catalogue.fluids[fluid["id"]].atc
        assert fluid["codes"] == ({"atc": atc.code} if atc else {})
    for substance in made["substances"]:
        told = handbook.catalogue.substances[substance["id"]].identifiers
        for kind in ("inchikey", "unii", "cas"):
            assert substance["codes"].get(kind) == (told and getattr(told, kind))
    assert sum(bool(fluid["codes"]) for fluid in made["fluids"]) > 40


def test_both_phosphates_release_the_quantity_phosphate(made):
    releases = {substance["id"]: substance["releases"] for substance in made["substances"]}
    assert releases["potassium-dihydrogen-phosphate"] == {"potassium": 1, "phosphate": 1}
    assert releases["dipotassium-hydrogen-phosphate"] == {"potassium": 2, "phosphate": 1}


def test_containers_hold_what_the_handbook_says(handbook, made):
    for fluid in made["fluids"]:
        for container in fluid["containers"]:
            volume = container["volume_ml"]
            for quantity, amount in container["amounts"].items():
                assert QUANTITY_BY_ID[quantity].scales
                assert amount == handbook.in_container(fluid["id"], quantity, volume).number


def test_containers_hold_their_share_of_a_litre(made):
    for fluid in made["fluids"]:
        for container in fluid["containers"]:
            for quantity, amount in container["amounts"].items():
                per_litre = fluid["per_litre"][quantity]
                if per_litre is None:
                    assert amount is None
                elif QUANTITY_BY_ID[quantity].unit.endswith("/L"):
                    share = container["volume_ml"] / 1000.0
                    assert amount == pytest.approx(per_litre * share, rel=1e-12)


def test_containers_never_hold_an_osmolarity(made):
    amounts = {q for fluid in made["fluids"] for c in fluid["containers"] for q in c["amounts"]}
    assert {"sodium", "glucose_mass", "energy", "colloid_mass"} <= amounts
    assert not amounts & {"osmolarity", "osmolality", "osmolality_error", "charge_gap"}


def test_a_bag_of_500_millilitres_with_potassium(made):
    fluid = next(f for f in made["fluids"] if f["id"] == "potassium-chloride-0-3-glucose-5")
    half = next(c for c in fluid["containers"] if c["volume_ml"] == 500.0)
    assert half["kind"] == "bag"
    assert half["amounts"]["potassium"] == pytest.approx(20.12, abs=0.005)
    assert half["amounts"]["glucose_mass"] == pytest.approx(25.0)


def test_ranges_are_exported_beside_the_null(made):
    albumin = next(fluid for fluid in made["fluids"] if fluid["id"] == "albumin-5")
    assert albumin["ranges"] == {"potassium": [0.0, 2.0], "sodium": [130.0, 160.0]}
    assert albumin["per_litre"]["sodium"] is None
    assert albumin["reasons"]["sodium"] == "declared as a range"
    sodium = next(c for c in albumin["contents"] if c.get("particle") == "sodium")
    assert sodium["ranges"] == {"mmol_per_l": [130.0, 160.0]}
    chloride = next(c for c in albumin["contents"] if c.get("particle") == "chloride")
    assert chloride["reasons"] == {"mmol_per_l": "not declared"}
    assert "ranges" not in chloride


def test_a_range_stands_only_where_the_figure_is_null(made):
    for fluid in made["fluids"]:
        for quantity, (low, high) in fluid["ranges"].items():
            assert fluid["per_litre"][quantity] is None
            assert 0.0 <= low < high


def test_grams_of_a_content_in_any_unit(handbook_of_one):
    contents = [
        {"substance": "sodium-chloride", "amount": "0.9 % w/v"},
        {"substance": "potassium-chloride", "amount": "20 mmol per 500 mL"},
        {"substance": "glucose", "amount": "40 to 50 g/L"},
        {"substance": "mannitol", "amount": "trace"},
    ]
    fluid = document(handbook_of_one(contents=contents))["fluids"][0]
    salt, potash, glucose, mannitol = fluid["contents"]
    assert salt == {"substance": "sodium-chloride", "g_per_l": pytest.approx(9.0)}
    assert potash["g_per_l"] == pytest.approx(40.0 * 74.5483 / 1000.0)
    assert glucose["g_per_l"] is None
    assert glucose["ranges"] == {"g_per_l": [40.0, 50.0]}
    assert mannitol == {
        "substance": "mannitol",
        "g_per_l": None,
        "reasons": {"g_per_l": "declared as a trace"},
    }


def test_milliequivalents_of_a_content_become_millimoles(handbook_of_one):
    contents = [
        {"particle": "calcium", "amount": "3 mEq/L"},
        {"particle": "chloride", "amount": "3 mEq/L"},
    ]
    fluid = document(handbook_of_one(contents=contents))["fluids"][0]
    assert [c["mmol_per_l"] for c in fluid["contents"]] == [1.5, 3.0]


def test_names_with_their_kind_and_country(made):
    fluid = next(f for f in made["fluids"] if f["id"] == "dextrose-5-usp")
    names = {other["name"]: other for other in fluid["also_known_as"]}
    assert names["D5W"] == {"name": "D5W", "kind": "abbreviation", "where": []}
    assert all(set(other) == {"name", "kind", "where"} for other in names.values())


def test_plasma_is_what_stands_beside_the_fluids(handbook, made):
    assert list(made["plasma"]) == list(handbook.beside)
    for quantity, interval in made["plasma"].items():
        low, high = interval_of(handbook.beside[quantity])
        assert (interval["low"], interval["high"]) == (low, high)
        assert interval["population"]
        assert interval["source"] in handbook.catalogue.sources
        assert interval["seen"] in ("read", "copy", "arithmetic")


def test_sources_are_those_that_the_entry_cites(handbook, made):
    saline = next(f for f in made["fluids"] if f["id"] == "sodium-chloride-0-9")
    cited = {source["id"]: source for source in saline["sources"]}
    assert "uk-smpc-sodium-chloride-0-9" in cited
    assert set(cited) <= set(handbook.catalogue.sources)
    for fluid in made["fluids"]:
        for source in fluid["sources"]:
            assert source["title"]
            assert source.get("body") or source.get("authors")
            assert source["cited"]
            assert all(place["seen"] in ("read", "copy", "arithmetic") for place in source["cited"])
            assert None not in source.values()


def test_everything_is_a_draft_and_says_so(made):
    assert [fluid["review"] for fluid in made["fluids"]] == [{"state": "draft"}] * 68


SALT = [{"substance": "sodium-chloride", "amount": "9 g/L"}]


def test_a_stamp_that_covers_the_entry_is_told(handbook_of_one):
    covers = digest(handbook_of_one(contents=SALT).fluids[0])
    stamp = {"state": "checked", "by": "pharmacist A", "on": "2026-11-25", "due": "2027-11-25"}
    stamp |= {"covers": covers}
    assert document(handbook_of_one(contents=SALT, review=stamp))["fluids"][0]["review"] == stamp


def test_a_stamp_that_covers_something_else_is_a_draft_without_a_name(handbook_of_one):
    stamp = {"state": "checked", "by": "pharmacist A", "on": "2026-11-25", "due": "2027-11-25"}
    stamp |= {"covers": "0" * 12}
    made = document(handbook_of_one(contents=SALT, review=stamp))["fluids"][0]
    assert made["review"] == {"state": "draft"}


def test_one_fluid_more_is_one_object_more(handbook_of_one):
    water = document(handbook_of_one(contents=[]))["fluids"]
    assert [fluid["per_litre"]["osmolarity"] for fluid in water] == [0.0]
    assert water[0]["containers"] == water[0]["contents"] == []
