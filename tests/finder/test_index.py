"""What the index holds of each page."""

import json
import re
from dataclasses import replace

import pytest

from isofolio.finder.cards import Prose, cards, notes
from isofolio.finder.index import encoded, finder_data, inert, same_words
from isofolio.finder.measured import measured
from isofolio.folio import pages_of

HEAD = "window.isofolio=window.isofolio||{};window.isofolio.finderData="


def read(script):
    assert script.startswith(HEAD)
    assert script.endswith(";\n")
    return json.loads(script[len(HEAD) : -2])


@pytest.fixture(scope="module")
def index(data):
    return read(data)


def record(index, address):
    return next(found for found in index["records"] if found["at"] == address)


def fluid(index, identifier):
    return record(index, f"fluids/{identifier}.html")


def amounts(index, found):
    return {index["measures"][key]["label"]: figures for key, figures, _ in found["held"]}


def test_same_handbook_same_bytes(handbook, data):
    assert finder_data(handbook) == data


def test_every_entry_with_a_page_is_there(index, handbook):
    addresses = [found["at"] for found in index["records"]]
    assert len(set(addresses)) == len(addresses)
    wanted = {f"fluids/{one.id}.html" for one in handbook.fluids}
    wanted |= {f"substances/{one}.html" for one in handbook.catalogue.substances}
    wanted |= {f"sources.html#{one}" for one in handbook.catalogue.sources}
    for folder in ("situations", "equipment", "mixing", "comparisons"):
        wanted |= {f"{folder}/{one}.html" for one in getattr(handbook.catalogue, folder)}
    assert set(addresses) == wanted


def test_every_address_and_anchor_stands_in_the_site(index, handbook):
    made = {one.path: one.made() for one in pages_of(handbook)}
    assert [page.path for page in made.values()] == list(made)
    pages = {path: page.content for path, page in made.items()}
    found = [one["at"] for one in (*index["records"], *index["prose"])]
    for address in (*found, index["all"]["at"]):
        path, _, anchor = address.partition("#")
        assert path in pages, address
        assert not anchor or f'id="{anchor}"' in pages[path], address


def test_fluids_come_first_and_what_serves_most_before_the_rest(index):
    kinds = [found["kind"] for found in index["records"]]
    order = ["fluid", "situation", "equipment", "mixing", "comparison", "substance", "source"]
    assert kinds == sorted(kinds, key=order.index)
    assert index["records"][0]["role"] == "ready to hang"


def test_title_keeps_name_and_strength_together(index):
    title = fluid(index, "potassium-chloride-0-3-glucose-5")["title"]
    assert title == [["Potassium chloride", "0.3\u202f%"], ["in glucose", "5\u202f%"]]


# Roles and what they mean are common practice, no source.
@pytest.mark.parametrize(
    ("identifier", "role"),
    [
        ("glucose-5", "ready to hang"),
        ("potassium-chloride-15", "must be diluted"),
        ("water-for-injections", "for mixing only"),
        ("albumin-20", "colloid, ready to hang"),
        ("sodium-chloride-5", "strong solution"),
    ],
)
def test_role_in_words(index, identifier, role):
    assert fluid(index, identifier)["role"] == role


# 3 g/L of potassium chloride / 74.548 g/mol = 40.2 mmol/L; 150 g/L = 2012 (CIAAW 2021 weights).
@pytest.mark.parametrize(
    ("identifier", "text"),
    [
        ("potassium-chloride-0-3-glucose-5", "potassium 40\u00a0mmol/L"),
        ("glucose-5", "no potassium"),
        (
            "potassium-chloride-15",
            "potassium 2012\u00a0mmol/L (2\u00a0mmol in 1\u00a0mL)",
        ),
        ("albumin-4", "potassium not declared"),
    ],
)
def test_potassium_in_words(index, identifier, text):
    assert fluid(index, identifier)["potassium"] == text


def test_a_bound_is_told_as_one(index):
    assert fluid(index, "albumin-20")["potassium"].startswith("potassium at most ")


def test_unknown_is_listed_without_a_figure_and_none_is_left_out(index):
    assert amounts(index, fluid(index, "albumin-4"))["potassium"] == []
    assert "potassium" not in amounts(index, fluid(index, "sodium-chloride-0-9"))


def test_label_figures_stand_behind_ours(index):
    """Dextrose 5 % USP: 50 g/L of C6H12O6.H2O / 198.17 = 252; one label prints 253 (entry)."""
    key = "osmolarity in the bag"
    ours, label = amounts(index, fluid(index, "dextrose-5-usp"))[key]
    assert round(ours) == 252
    assert label == 253


def test_grams_are_as_weighed(index):
    """The US title weighs the monohydrate: 50 g/L of it (entry dextrose-5-usp)."""
    grams = [
        (index["measures"][key]["label"], figures)
        for key, figures, _ in fluid(index, "dextrose-5-usp")["held"]
        if index["measures"][key]["kind"] == "grams"
    ]
    assert grams == [("glucose", [50])]


def test_containers_and_look_alikes(index):
    found = fluid(index, "potassium-chloride-0-3-glucose-5")
    assert found["sizes"] == [500, 1000]
    others = [index["records"][place]["at"] for place, _ in found["alike"]]
    assert "fluids/potassium-chloride-0-15-glucose-5.html" in others
    assert all(differs for _, differs in found["alike"])


def test_ambiguous_words_keep_all_candidates(index, handbook):
    spelt = {word["said"]: word for word in index["words"]}
    assert len(spelt) == len(index["words"])
    for word in handbook.catalogue.words:
        holders = [
            found
            for found in index["words"]
            if {f"fluids/{c}.html" for c in word.candidates}
            <= {index["records"][place]["at"] for place in found["ids"]}
        ]
        assert any(found["apart"] for found in holders), word.word


def test_charges_turn_millimoles_into_milliequivalents(index):
    charges = {m["label"]: m["charge"] for m in index["measures"] if m["kind"] != "grams"}
    assert charges["calcium"] == charges["calcium chloride"] == 2
    assert charges["potassium"] == charges["potassium chloride"] == 1
    assert charges["glucose"] == 0


def test_hand_written_pages_are_found_too(handbook):
    section = Prose("about.html#reading", "About", "How to read it", "Unknown is not none.")
    index = read(finder_data(handbook, (section,)))
    assert index["prose"][-1]["at"] == "about.html#reading"
    words = {index["vocabulary"][place] for place in index["prose"][-1]["said"]}
    assert {"unknown", "none", "read"} <= words


def test_no_text_of_the_catalogue_can_end_a_script(handbook):
    found = cards(handbook)
    trap = '</script><img src=x onerror="window.hit=1">\u2028'
    bad = replace(found[0], names=((trap, "synonym"),), title=((trap, ""),), held=(), alike=())
    script = encoded((bad,), tuple(notes(handbook))[:1], (), (), {})
    assert not re.search(r"[<\u2028\u2029]", script)
    assert read(inert(script))["records"][0]["names"][0][0] == trap


def test_symbols_come_from_the_catalogue(handbook):
    same = same_words(handbook)
    assert same["na"] == "sodium"
    assert same["mgso4"] == "magnesium sulfate"
    assert same["nahco3"] == "sodium bicarbonate"


def test_keys_are_unique(handbook):
    keys = [measure.key for measure in measured(handbook)]
    assert len(set(keys)) == len(keys)
