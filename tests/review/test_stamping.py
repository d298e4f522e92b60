"""Stamps: written by a person's word alone, on a copy; every other byte of the entry stays.

No stamp stands in our own catalogue: these tests write theirs into the small one, in a temporary
folder.
"""

import csv
import io
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from isofolio.cli import main
from isofolio.entries.reading import read_catalogue
from isofolio.entries.stamps import digest, state
from isofolio.review.reviews import COLUMNS, reviewed, stamped_kinds, summary

PROJECT = Path(__file__).parents[2]
BASE = PROJECT / "tests" / "bad" / "base"
FLUID = "catalogue/fluids/glucose-5.yml"
FIRST = ("--by", "ward pharmacist", "--on", "2026-11-25", "--due", "2027-11-25")
CHECKED = ("--state", "checked", *FIRST)
TWICE = ("--state", "double-checked", "--second", "B. C.", *FIRST)


@pytest.fixture
def project(tmp_path):
    shutil.copytree(BASE, tmp_path / "catalogue")
    shutil.copy(PROJECT / "mkdocs.yml", tmp_path)
    return tmp_path


def asked(project, *arguments):
    result = CliRunner().invoke(main, ["--project", str(project), *arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def fluid(project, identifier="glucose-5"):
    reading = read_catalogue(project / "catalogue")
    assert reading.problems == ()
    return reading.catalogue.fluids[identifier]


def rows_of(table):
    return [" ".join(line.split()) for line in table.splitlines()]


def rewrite(project, old, new):
    path = project / FLUID
    raw = path.read_bytes()
    assert raw.count(old) == 1
    path.write_bytes(raw.replace(old, new))
    return path.read_bytes()


def test_nothing_in_our_own_catalogue_is_signed():
    found = reviewed(read_catalogue(PROJECT / "catalogue").catalogue)
    assert {one.stamp.state for one in found} == {"draft"}
    assert len(found) > 300


def test_a_stamp_says_what_was_told_and_what_it_covers(project):
    before = (project / FLUID).read_bytes()
    covers = digest(fluid(project))
    done = asked(project, "review", "glucose-5", *TWICE)
    assert done.exit_code == 0
    assert "fluids/glucose-5.yml is double-checked." in done.output
    stamp = (
        'review: {state: double-checked, by: "ward pharmacist", second: "B. C.", '
        f'on: 2026-11-25, due: 2027-11-25, covers: "{covers}"}}'
    )
    assert (project / FLUID).read_bytes() == before.replace(
        b"review: {state: draft}", stamp.encode()
    )
    assert state(fluid(project)) == "double-checked"


def test_one_person_checks_and_a_draft_takes_it_back(project):
    before = (project / FLUID).read_bytes()
    assert asked(project, "review", "fluids/glucose-5", *CHECKED).exit_code == 0
    assert state(fluid(project)) == "checked"
    assert asked(project, "review", "glucose-5", "--state", "draft").exit_code == 0
    assert (project / FLUID).read_bytes() == before


@pytest.mark.parametrize(
    "stamp",
    [
        b"review: { state: draft }   # nobody yet",
        b"review:\n  state: draft\n# the end",
        b"review:\n    state: draft  # nobody yet\n",
        b'"review": {"state": "draft"}',
    ],
)
@pytest.mark.parametrize("line_end", [b"\n", b"\r\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_every_other_byte_stays(project, stamp, line_end, mark):
    raw = mark + "# µ é 🧪\n".encode() + rewrite(project, b"review: {state: draft}", stamp)
    raw = raw.replace(b"\n", line_end)
    (project / FLUID).write_bytes(raw)
    assert asked(project, "review", "glucose-5", *CHECKED).exit_code == 0
    after = (project / FLUID).read_bytes()
    begin = raw.index(b"{", raw.index(b"review")) if b"{" in stamp else raw.index(b"state: draft")
    shown = b"{ state: draft }" if b"{ " in stamp else b'{"state": "draft"}'
    old = shown if b"{" in stamp else b"state: draft"
    assert after.startswith(raw[:begin])
    assert after.endswith(raw[begin + len(old) :])
    assert state(fluid(project)) == "checked"


def test_a_situation_that_has_no_stamp_yet_gains_one(project):
    path = project / "catalogue" / "situations" / "low-glucose.yml"
    before = path.read_bytes()
    assert b"review" not in before
    assert asked(project, "review", "low-glucose", *CHECKED).exit_code == 0
    assert path.read_bytes().startswith(before.rstrip() + b"\nreview: {state: checked, by: ")


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("glucose-6", *CHECKED), 2, 'No entry that is reviewed has the id "glucose-6".'),
        (("substances/glucose", *CHECKED), 2, "No entry that is reviewed"),
        (("glucose-5", "--state", "checked", "--by", "A"), 2, "a checked stamp without on, due"),
        (("glucose-5", "--state", "double-checked", *FIRST), 2, "stamp without second"),
        (("glucose-5", *TWICE, "--second", "Ward  Pharmacist."), 2, "second reviewer is the first"),
        (("glucose-5", *CHECKED, "--due", "2026-11-25"), 2, "due before it was checked"),
        (("glucose-5", *CHECKED, "--on", "25.11.2026"), 2, '"25.11.2026" is not a date'),
        (("glucose-5", *CHECKED, "--by", " "), 2, "the value is empty"),
        (("glucose-5", *CHECKED, "--by", "a\u202eb"), 2, "U+202E"),
        (("glucose-5", "--state", "draft", "--by", "A"), 2, "A draft names nobody"),
        (("glucose-5", "--state", "approved", *FIRST), 2, "'approved' is not one of"),
        (("glucose-5", *FIRST), 2, "--state"),
    ],
)
def test_what_is_no_whole_stamp_is_refused_and_nothing_written(project, arguments, code, said):
    before = (project / FLUID).read_bytes()
    done = asked(project, "review", *arguments)
    assert done.exit_code == code
    assert said in done.output
    assert (project / FLUID).read_bytes() == before


def test_nobody_signs_for_an_entry_with_a_problem(project):
    raw = rewrite(project, b"role: ready", b"role: readi")
    done = asked(project, "review", "glucose-5", *CHECKED)
    assert done.exit_code == 1
    assert "fluids/glucose-5.yml:3:7" in done.output
    assert "Mend the catalogue first." in done.output
    assert (project / FLUID).read_bytes() == raw


def test_the_list_tells_what_is_overdue_and_what_changed(project):
    asked(project, "review", "glucose-5", *TWICE)
    asked(project, "review", "sodium-chloride-0-9", *CHECKED)
    path = project / "catalogue" / "fluids" / "sodium-chloride-0-9.yml"
    path.write_bytes(
        path.read_bytes().replace(b"status: current", b"status: current\ncomplete: no", 1)
    )
    early = asked(project, "reviews", "--as-of", "2027-11-24")
    late = asked(project, "reviews", "--as-of", "2027-11-25")
    assert early.exit_code == late.exit_code == 0
    row = "fluids/glucose-5 double-checked ward pharmacist B. C. 2026-11-25 2027-11-25"
    early_rows, late_rows = rows_of(early.output), rows_of(late.output)
    assert row in early_rows
    assert f"{row} overdue" in late_rows
    assert "counts as a draft" in early.output
    last = "As of 2027-11-25: 7 entries: 1 double-checked, 0 checked, 6 drafts; "
    assert last + "1 changed since they were checked; 1 overdue." in late.output
    due = asked(project, "check", "--as-of", "2027-11-25").output
    assert "due: fluids/glucose-5.yml was to be reviewed by 2027-11-25" in due


def test_the_list_as_csv_runs_in_no_spreadsheet(project):
    asked(project, "review", "glucose-5", *CHECKED, "--by", "=1+1")
    done = asked(project, "reviews", "--as-of", "2026-11-25", "--form", "csv")
    rows = list(csv.DictReader(io.StringIO(done.output)))
    assert tuple(rows[0]) == COLUMNS
    signed = {row["entry"]: row for row in rows}["fluids/glucose-5"]
    assert (signed["state"], signed["by"], signed["due"]) == ("checked", "'=1+1", "2027-11-25")


@pytest.mark.parametrize("arguments", [(), ("--as-of", "today")])
def test_the_day_is_always_told(project, arguments):
    done = asked(project, "reviews", *arguments)
    assert done.exit_code == 2
    assert "--as-of" in done.output or "is not a date" in done.output


def test_every_kind_that_has_a_stamp_is_listed():
    assert set(stamped_kinds()) == {
        "fluids", "situations", "cautions", "comparisons", "mixing", "equipment", "stock",
        "glossary", "confusions",
    }  # fmt: skip
    assert summary([]) == "0 entries: 0 double-checked, 0 checked, 0 drafts."
