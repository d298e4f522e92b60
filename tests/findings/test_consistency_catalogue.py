"""What the whole catalogue shows to be wrong: names, ids, intervals, remembered figures."""

import pytest

from isofolio.entries.reading import read_catalogue
from isofolio.findings.consistency_catalogue import (
    ids_are_single,
    intervals_fit,
    lists_have_single_ids,
    names_are_single,
    nothing_from_memory,
    one_interval_beside,
)

GELATIN = "fluids/gelatin-4.yml"
GLUCOSE = "fluids/glucose-5.yml"
IONS = "fluids/declared-ions.yml"
SALINE = "fluids/sodium-chloride-0-9.yml"
STARCH = "fluids/starch-6.yml"

FROM_MEMORY = "a figure from memory would be printed as if it had a source"
READ_ONE = "Read a source for it, write  cite: common practice, or leave the figure out."
LONGER = "Make it longer, or declare the word in words.yml with both candidates."
CHECKS = (
    nothing_from_memory,
    names_are_single,
    ids_are_single,
    lists_have_single_ids,
    intervals_fit,
    one_interval_beside,
)


@pytest.fixture
def judged(told):
    """What the six checks say of a folder."""
    return lambda folder: told(folder, *CHECKS)


def test_the_sound_catalogue_is_consistent(catalogue, judged):
    assert judged(catalogue) == []


# Figures that somebody remembers.


def test_a_figure_from_memory_is_found_wherever_it_stands(spoil, judged):
    spoil(GLUCOSE, "at: section 4.3, seen: read", "at: section 4.3, seen: memory")
    spoil(GLUCOSE, "at: the heading, seen: read", "at: the heading, seen: memory")
    spoil(STARCH, "at: abstract, seen: read", "at: abstract, seen: memory")
    remembered = "cite: {at: a, seen: memory, on: 2026-11-25}"
    folder = spoil("substances/glucose.yml", "cite: common practice", remembered)
    assert judged(folder) == [
        f"{place}: {FROM_MEMORY} | {READ_ONE}"
        for place in (
            f"{GLUCOSE}:32:52",
            f"{GLUCOSE}:33:69",
            f"{STARCH}:5:87",
            "substances/glucose.yml:6:45",
        )
    ]


def test_a_figure_from_memory_is_found_however_the_word_is_spelled(spoil, judged):
    """YAML 1.2, 5.7: a sign in double quotes may be written by its number."""
    folder = spoil(GLUCOSE, "at: section 4.3, seen: read", r'at: section 4.3, seen: "\x6demory"')
    assert judged(folder) == [f"{GLUCOSE}:32:52: {FROM_MEMORY} | {READ_ONE}"]


def test_the_word_memory_elsewhere_is_none(spoil, judged):
    assert judged(spoil("sources/a-journal.yml", "An invented paper for tests", "memory")) == []


# Names.


@pytest.mark.parametrize(
    "name", ["Glucose 5 %", "GLUCOSE  5 %", "Glucose\u00a05\u202f%", "dextrose 5%", "g5"]
)
def test_names_are_compared_as_people_read_them(spoil, judged, name):
    shown = name.replace("\u00a0", " ").replace("\u202f", " ")
    (line,) = judged(spoil(SALINE, "name: Sodium chloride 0.9 %", f"name: {name}"))
    line = line.replace("\u00b7", " ")
    assert line == (f'{SALINE}:2:7: the title "{shown}" belongs to glucose-5 already | {LONGER}')


def test_every_other_name_is_compared_by_its_kind(spoil, judged):
    others = "[{name: Own, kind: ward word}, {name: Dextrose 5%, kind: synonym}]"
    assert judged(
        spoil(SALINE, "status: current", f"status: current\nalso_known_as: {others}")
    ) == [f'{SALINE}:5:54: the synonym "Dextrose 5%" belongs to glucose-5 already | {LONGER}']


def test_a_word_declared_ambiguous_may_be_shared(spoil, judged):
    names = "status: current\nalso_known_as: [{name: Saline, kind: ward word}]"
    spoil(SALINE, "status: current", names)
    folder = spoil(IONS, "status: current", names)
    assert judged(folder) == []
    assert judged(spoil("words.yml", "word: saline", "word: salt water")) == [
        f'{SALINE}:5:24: the ward word "Saline" belongs to declared-ions already | {LONGER}'
    ]


def test_a_name_of_one_fluid_may_have_two_kinds(spoil, judged):
    names = "[{name: NS, kind: ward word}, {name: ns, kind: abbreviation}]"
    assert (
        judged(spoil(SALINE, "status: current", f"status: current\nalso_known_as: {names}")) == []
    )


# Ids.


@pytest.mark.parametrize(
    ("source", "target", "owner"),
    [
        ("substances/glucose.yml", "substances/glucose-5.yml", GLUCOSE),
        ("situations/low-glucose.yml", "situations/glucose-5.yml", GLUCOSE),
        ("situations/low-glucose.yml", "situations/glucose.yml", "substances/glucose.yml"),
    ],
)
def test_an_id_belongs_to_one_page(catalogue, judged, source, target, owner):
    old, new = (path.rpartition("/")[2].removesuffix(".yml") for path in (source, target))
    text = (catalogue / source).read_text(encoding="utf-8").replace(f"id: {old}", f"id: {new}", 1)
    (catalogue / target).write_text(text, encoding="utf-8")
    assert judged(catalogue) == [
        f'{target}:1:5: the id "{new}" belongs to {owner} already | Give one of the two another id.'
    ]


COMPARISON = """\
id: {id}
name: Two fluids
fluids: [glucose-5, sodium-chloride-0-9]
plasma: yes
quantities: [sodium]
text: A text.
points: []
review: {{state: draft}}
"""


@pytest.mark.parametrize(("name", "wrong"), [("glucose-5", True), ("two-fluids", False)])
def test_a_comparison_has_an_id_of_its_own(catalogue, judged, name, wrong):
    (catalogue / "comparisons").mkdir()
    file = f"comparisons/{name}.yml"
    (catalogue / file).write_text(COMPARISON.format(id=name), encoding="utf-8")
    told = f'{file}:1:5: the id "glucose-5" belongs to {GLUCOSE} already'
    assert judged(catalogue) == ([f"{told} | Give one of the two another id."] if wrong else [])


@pytest.mark.parametrize(
    ("file", "old", "new", "line"),
    [
        (
            "particles.yml",
            "{id: calcium,",
            "{id: chloride, name: c, symbol: C, charge: -1, strong: yes, fate: stays, "
            "pattern: plain, colour: rest}\n  - {id: calcium,",
            '6:10: the id "chloride" stands twice | Keep one of the two.',
        ),
        (
            "limits.yml",
            "  - id: potassium-rate\n    quantity: potassium_rate\n    value: 10 mmol/h\n",
            "  - id: vein-glucose\n    quantity: glucose_mass\n    value: 100 g/L\n",
            '15:10: the id "vein-glucose" stands twice | Keep one of the two.',
        ),
        (
            "words.yml",
            "words:\n",
            "words:\n  - {word: SALINE, candidates: [glucose-5], tells_apart: A.}\n",
            '3:11: the word "saline" stands twice | Keep one of the two.',
        ),
    ],
)
def test_what_a_list_holds_stands_there_once(spoil, judged, file, old, new, line):
    assert judged(spoil(file, old, new)) == [f"{file}:{line}"]


def test_every_second_copy_is_told(catalogue, judged):
    """One that stands three times is told twice, and the list after it is read as well."""
    for file, copy in (("words.yml", 2), ("particles.yml", 1)):
        path = catalogue / file
        head, _, items = path.read_text(encoding="utf-8").partition("\n")
        path.write_text(f"{head}\n{items}{items * copy}", encoding="utf-8")
    places = [line.partition(": ")[0] for line in judged(catalogue)]
    assert places == [
        *(f"particles.yml:{line}:10" for line in range(8, 14)),
        "words.yml:5:11",
        "words.yml:8:11",
    ]


@pytest.mark.parametrize("item", ["[a]", "{a: b}", "''"])
def test_an_id_that_is_no_text_raises_nothing(spoil, item):
    """The list of ids is read before the records are known to be sound; what follows is read on."""
    again = ", name: c}\n  - {id: sodium, name: c}\n  - {id: none,"
    reading = read_catalogue(spoil("particles.yml", "{id: calcium,", f"{{id: {item}{again}"))
    assert reading.problems
    assert [p.message for p in lists_have_single_ids(reading)] == ['the id "sodium" stands twice']


@pytest.mark.parametrize(
    "text", ["- a\n", "nothing: here\n", "words: one\n", "words: [one]\n", "a"]
)
def test_a_list_file_of_another_shape_raises_nothing(catalogue, text):
    (catalogue / "words.yml").write_text(text, encoding="utf-8")
    assert list(lists_have_single_ids(read_catalogue(catalogue))) == []


def test_list_files_that_are_not_there_raise_nothing(catalogue):
    for file in ("particles.yml", "limits.yml", "words.yml"):
        (catalogue / file).unlink()
    assert list(lists_have_single_ids(read_catalogue(catalogue))) == []


# Intervals of plasma.


@pytest.mark.parametrize(
    "interval",
    ["trace", "140 mmol/L", "at most 145 mmol/L", "135 to 145", "65 to 75 mmol per 500 mL"],
)
def test_an_interval_has_two_ends_and_its_unit(spoil, judged, interval):
    assert judged(spoil("plasma.yml", "135 to 145 mmol/L", interval)) == [
        f'plasma.yml:3:15: "{interval}" is not an interval of sodium '
        "| Write both ends and the unit, as in 3 to 4 mmol/L."
    ]


@pytest.mark.parametrize("interval", ["7.40", "7.35 to 7.45 mmol/L"])
def test_an_interval_of_a_ph_has_no_unit(spoil, judged, interval):
    assert judged(spoil("plasma.yml", "7.35 to 7.45", interval)) == [
        f'plasma.yml:8:15: "{interval}" is not an interval of ph '
        "| Write both ends without a unit, as in 3 to 4."
    ]


def interval(quantity, beside):
    mark = "    beside: yes\n" if beside else ""
    return (
        f"  - quantity: {quantity}\n    interval: 130 to 150 mmol/L\n    population: all\n{mark}"
        "    cite: {source: a-journal, at: table 3, seen: read, on: 2026-11-25}\n"
    )


@pytest.mark.parametrize(
    ("marks", "lines"),
    [([], []), ([False], []), ([False, True, True], [19, 24]), ([True], [15])],
)
def test_one_interval_of_a_quantity_stands_beside_the_fluids(catalogue, judged, marks, lines):
    """Sodium has one that is marked: each further mark is told at its own line."""
    path = catalogue / "plasma.yml"
    more = "".join(interval("sodium", mark) for mark in marks)
    path.write_text(path.read_text(encoding="utf-8") + more, encoding="utf-8")
    assert judged(catalogue) == [
        f"plasma.yml:{line}:13: two intervals of sodium are marked beside: yes "
        "| Keep the mark on one of them."
        for line in lines
    ]


def test_a_later_interval_may_be_the_marked_one(catalogue, judged):
    path = catalogue / "plasma.yml"
    more = interval("potassium", False) + interval("potassium", True)
    path.write_text(path.read_text(encoding="utf-8") + more, encoding="utf-8")
    assert judged(catalogue) == []
