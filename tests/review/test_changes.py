"""What a comparison finds, on the small catalogue: unread files, stamps, announcements, causes."""

import json
import shutil
from pathlib import Path

import pytest

from isofolio.commands.changing import exit_code
from isofolio.entries.reading import read_catalogue
from isofolio.entries.stamps import digest
from isofolio.review.comparison import compare
from isofolio.review.data import SCHEMA, json_report
from isofolio.review.effects import LOUD
from isofolio.review.report import report
from isofolio.review.sides import side_of
from isofolio.vocabulary.terms import CHANGE_KINDS

SMALL = Path(__file__).parents[1] / "bad" / "base"
GLUCOSE = "fluids/glucose-5.yml"
SALINE = "fluids/sodium-chloride-0-9.yml"
CAUTION = """\
id: {id}
name: A caution
signal: {signal}
imperative: Look twice.
text: It matters.
applies:
  - {{when: at-least, quantity: osmolarity, limit: {limit}}}
cite: common practice
raised_by: potassium-chloride-15
not_by: glucose-5
review: {{state: draft}}
"""


def caution(identifier="strong", signal="danger", limit="vein-central-preferred"):
    return CAUTION.format(id=identifier, signal=signal, limit=limit)


def kinds(comparison, **wanted):
    """The kinds of the findings whose effect has the wanted values."""
    effects = [one.effect for one in comparison.findings]
    return [e.kind for e in effects if all(getattr(e, k) == v for k, v in wanted.items())]


def effects(comparison, kind):
    return [one.effect for one in comparison.findings if one.effect.kind == kind]


# nothing, and next to nothing


def test_no_change_is_one_line(compared):
    comparison = compared()
    assert report(comparison) == (
        "No change between before and after: every entry, figure and finding is the same.\n"
    )
    assert exit_code(comparison) == 0


def test_a_comment_is_no_change_and_is_told(compared, draft):
    draft.write(SALINE, "# a comment\n" + draft.read(SALINE))
    comparison = compared()
    assert comparison.layout == (SALINE,)
    assert report(comparison).count("\n") == 1
    assert "Comments or layout differ in 1 file." in report(comparison)


def test_a_new_ward_word_flips_nothing_and_ends_well(compared, draft):
    draft.replace(GLUCOSE, "{name: G5, kind", "{name: G50, kind")
    comparison = compared()
    assert not comparison.loud
    assert exit_code(comparison) == 0
    assert "`also_known_as`: G5 abbreviation → G50 abbreviation" in report(comparison)


# entries: added, renamed, retired, removed


def test_an_entry_that_comes_is_added(compared, draft):
    text = draft.read(SALINE).replace("0.9", "1.8").replace("0-9", "1-8")
    draft.write("fluids/sodium-chloride-1-8.yml", text)
    comparison = compared()
    (edit,) = comparison.edits
    assert (edit.entry, edit.action) == ("fluids/sodium-chloride-1-8", "added")
    said = comparison.introduced[edit.entry]
    assert said == "Vein: Large vein; watch the site. In the body: Hypertonic: 2.0 times plasma"
    assert "| Vein: Large vein; watch the site. In the body: Hypertonic" in report(comparison)


def test_an_entry_that_is_retired_keeps_its_address(compared, draft):
    note = "status_note: {text: No longer made., cite: common practice}"
    draft.replace(SALINE, "status: current", f"status: retired\n{note}")
    comparison = compared()
    assert [edit.action for edit in comparison.edits] == ["retired"]
    assert kinds(comparison, entry="fluids/sodium-chloride-0-9")[:1] == ["status"]
    assert effects(comparison, "address") == []


def test_an_entry_that_is_deleted_leaves_no_address(compared, draft):
    draft.remove("fluids/declared-ions.yml")
    comparison = compared()
    assert [(e.action, e.entry) for e in comparison.edits] == [("removed", "fluids/declared-ions")]
    (gone,) = effects(comparison, "address")
    assert (gone.before, gone.after, gone.loud) == ("fluids/declared-ions.html", "", True)


def test_a_renamed_entry_is_the_same_fluid_under_another_address(compared, draft):
    draft.rename("fluids", "declared-ions", "ions-of-a-label")
    comparison = compared()
    edit = comparison.edits[0]
    assert (edit.action, edit.old, edit.id) == ("renamed", "declared-ions", "ions-of-a-label")
    assert [e.file for e in comparison.edits[1:]] == ["words.yml"]
    assert [one.effect.kind for one in comparison.findings] == ["address"]


# limits, recipes, figures


@pytest.mark.parametrize(
    ("limit", "old", "new", "loud"),
    [
        ("vein-watch-site", "600 mOsm/L", "700 mOsm/L", True),
        ("vein-watch-site", "600 mOsm/L", "500 mOsm/L", False),
        ("potassium-rate", "10 mmol/h", "10 mmol/h", None),
    ],
)
def test_a_limit_is_loud_where_it_lets_more_through(compared, draft, limit, old, new, loud):
    text = draft.read("limits.yml")
    at = text.index(old, text.index(f"id: {limit}"))
    draft.write("limits.yml", text[:at] + new + text[at + len(old) :])
    found = effects(compared(), "limit")
    assert [effect.loud for effect in found] == ([] if loud is None else [loud])


def test_a_limit_that_is_turned_round_is_loud(compared, draft):
    text = draft.read("limits.yml")
    draft.write("limits.yml", text.replace("stricter: lower", "stricter: higher", 1))
    assert [e.what for e in effects(compared(), "limit") if e.loud] == ["stricter"]


def test_an_unneeded_limit_that_goes_is_loud(compared, draft):
    text = draft.read("limits.yml")
    start = text.index("  - id: potassium-rate")
    draft.write("limits.yml", text[:start] + text[text.index("  - {id: vein-watch-site") :])
    (gone,) = effects(compared(), "limit")
    assert (gone.before, gone.after, gone.loud) == ("10 mmol/h", "no limit", True)


def test_a_tenfold_concentrate_is_loud_in_its_recipe_and_its_figures(compared, draft):
    draft.replace("fluids/potassium-chloride-15.yml", "150 mg/mL", "1500 mg/mL")
    comparison = compared()
    (recipe,) = effects(comparison, "recipe")
    assert (recipe.size, recipe.loud) == ("10 times", True)
    first = effects(comparison, "figure")[0]
    assert (first.what, first.size, first.loud) == ("potassium", "10 times", True)


@pytest.mark.parametrize(("amount", "loud"), [("55 g/L", True), ("54 g/L", False)])
def test_ten_per_cent_is_a_jump(compared, draft, amount, loud):
    draft.replace(
        GLUCOSE, "{substance: glucose, amount: 50 g/L}", f"{{substance: glucose, amount: {amount}}}"
    )
    glucose = next(e for e in effects(compared(), "figure") if e.what == "glucose")
    assert glucose.loud is loud


def test_a_figure_that_is_lost_is_loud_with_its_reason(compared, draft):
    draft.replace(
        GLUCOSE,
        "{substance: glucose, amount: 50 g/L}",
        "{substance: glucose, amount: 45 to 55 g/L}",
    )
    lost = next(e for e in effects(compared(), "figure") if e.what == "glucose")
    assert (lost.size, lost.loud, lost.after) == ("no longer known", True, "declared as a range")


def test_a_role_that_flips_is_loud(compared, draft):
    draft.replace("fluids/potassium-chloride-15.yml", "role: concentrate", "role: ready")
    comparison = compared()
    assert [(e.before, e.after) for e in effects(comparison, "role")] == [("concentrate", "ready")]
    assert [e.after for e in effects(comparison, "vein")] == ["Central line preferred"]


# cautions


def test_danger_lost_and_gained(compared, draft, tmp_path):
    draft.write("cautions/strong.yml", caution())
    before = shutil.copytree(draft.folder, tmp_path / "with")
    gained = effects(compared(), "danger gained")
    assert [(e.entry, e.loud) for e in gained] == [("fluids/potassium-chloride-15", True)]
    draft.remove("cautions/strong.yml")
    lost = effects(compared(before), "danger lost")
    assert {e.entry for e in lost} == {"fluids/potassium-chloride-15", "cautions/strong"}


def test_a_weaker_signal_word_and_another_line_are_loud(compared, draft, tmp_path):
    draft.write("cautions/strong.yml", caution())
    before = shutil.copytree(draft.folder, tmp_path / "with")
    draft.write("cautions/strong.yml", caution(signal="notice").replace("Look twice", "Go on"))
    comparison = compared(before)
    (word,) = effects(comparison, "signal word")
    (line,) = effects(comparison, "imperative")
    assert (word.before, word.after, word.loud) == ("DANGER", "NOTICE", True)
    assert (line.before, line.after, line.loud) == ("Look twice.", "Go on.", True)


def test_a_caution_is_lost_by_the_limit_that_it_reads(compared, draft, tmp_path):
    draft.write("cautions/strong.yml", caution(limit="strong-solution"))
    before = shutil.copytree(draft.folder, tmp_path / "with")
    old = "id: strong-solution, quantity: osmolarity, value: 900 mOsm/L"
    draft.replace("limits.yml", old, old.replace("900", "9000"))
    comparison = compared(before)
    (lost,) = [one for one in comparison.findings if one.effect.kind == "danger lost"]
    assert lost.causes == ("limits/strong-solution",)


def test_a_sentence_about_giving_that_goes_is_loud_and_one_reworded_is_not(compared, draft):
    text = "Do not use as the only fluid for a whole day."
    draft.replace(GLUCOSE, text, "Not as the only fluid of a day.")
    assert not compared().loud
    written = draft.read(GLUCOSE)
    start, end = written.index("giving:"), written.index("atc:")
    draft.write(GLUCOSE, written[:start] + written[end:])
    (lost,) = effects(compared(), "note lost")
    assert (lost.before, lost.loud) == (text, True)
    assert f"lost **{text}**" in report(compared()).splitlines()[4]


NOT_INSTEAD = """\
cases:
  - {id: blood, case: calcium-added, loud: yes, text: It may clot., cite: common practice}
"""


@pytest.mark.parametrize(("new", "kind"), [("cases: []", "caution lost"), ("no", "signal word")])
def test_a_warning_about_an_alternative_that_falls_silent_is_loud(
    compared, draft, tmp_path, new, kind
):
    draft.write("not-instead.yml", NOT_INSTEAD)
    before = kept_before(draft, tmp_path)
    quiet = NOT_INSTEAD.replace("loud: yes", "loud: no")
    draft.write("not-instead.yml", quiet if new == "no" else new)
    (found,) = effects(compared(before), kind)
    assert (found.entry, found.loud) == ("not-instead/blood", True)


# citations and stamps


def test_a_declared_figure_needs_a_new_citation(compared, draft):
    draft.replace(GLUCOSE, "osmolarity: 278 mOsm/L", "osmolarity: 287 mOsm/L")
    (declared,) = effects(compared(), "declared")
    assert (declared.before, declared.after) == ("278 mOsm/L", "287 mOsm/L")


def test_a_declared_figure_with_a_new_citation_is_none_of_these(compared, draft):
    text = draft.read(GLUCOSE).replace("osmolarity: 278 mOsm/L", "osmolarity: 287 mOsm/L")
    old = "seen: read\n    on: 2026-11-25"
    draft.write(GLUCOSE, text.replace(old, old.replace("25", "26")))
    assert effects(compared(), "declared") == []


def stamped(draft, file, on="2026-11-25"):
    """Put a double check on a fluid as it stands. Stamps like this live in tests only."""
    fluid = read_catalogue(draft.folder).catalogue.fluids[file[7:-4]]
    stamp = f"state: double-checked, by: A, second: B, on: {on}, due: 2027-11-25"
    draft.replace(file, "{state: draft}", f"{{{stamp}, covers: {digest(fluid)}}}")


def test_a_double_check_renewed_with_the_change_ends_well(compared, draft):
    draft.replace(SALINE, "0.9 % w/v", "1.8 % w/v")
    assert exit_code(compared()) == 3
    stamped(draft, SALINE)
    comparison = compared()
    assert comparison.loud
    assert comparison.unchecked == ()
    assert exit_code(comparison) == 0


def test_a_stamp_that_covers_another_text_is_lost_and_checks_nothing(compared, draft, tmp_path):
    stamped(draft, SALINE)
    before = shutil.copytree(draft.folder, tmp_path / "with")
    draft.replace(SALINE, "0.9 % w/v", "1.8 % w/v")
    comparison = compared(before)
    (stamp,) = effects(comparison, "stamp")
    assert (stamp.before, stamp.after) == ("double-checked", "draft")
    assert comparison.unchecked == ("fluids/sodium-chloride-0-9",)
    assert exit_code(comparison) == 3


def test_an_old_double_check_says_nothing_of_a_limit_that_is_loosened(compared, draft, tmp_path):
    """The stamp still covers the entry; it was given before the limit changed."""
    draft.replace(SALINE, "0.9 % w/v", "2.7 % w/v")
    stamped(draft, SALINE)
    before = shutil.copytree(draft.folder, tmp_path / "with")
    text = draft.read("limits.yml").replace("value: 900 mOsm/L\n", "value: 950 mOsm/L\n")
    draft.write("limits.yml", text)
    assert compared(before).unchecked == ("fluids/sodium-chloride-0-9",)
    draft.replace(SALINE, "on: 2026-11-25, due", "on: 2026-11-26, due")
    assert compared(before).unchecked == ()


# announcements


def announce(draft, effects, name="this-change"):
    lines = "\n".join(f"  - {{{effect}}}" for effect in effects)
    draft.write(f"expected/{name}.yml", f"id: {name}\nwhy: A test.\neffects:\n{lines}\n")


def test_what_was_announced_is_told_apart_from_what_was_not(compared, draft):
    draft.replace("fluids/potassium-chloride-15.yml", "150 mg/mL", "1500 mg/mL")
    announce(draft, ["kind: recipe, of: [potassium-chloride-15]", "kind: figure, what: potassium"])
    comparison = compared()
    told = {(f.effect.kind, f.effect.what): f.announced for f in comparison.findings}
    assert told["recipe", "potassium-chloride"] is True
    assert told["figure", "potassium"] is True
    assert told["figure", "chloride"] is False
    lines = report(comparison).splitlines()
    assert lines[4] == "## Not announced"
    assert "chloride" in lines[6]
    assert "10 times" in lines[lines.index("## Announced, and to look at twice") + 2]


def test_what_was_announced_and_did_not_happen_is_named(compared, draft):
    draft.replace(GLUCOSE, "{name: G5, kind", "{name: G50, kind")
    announce(draft, ["kind: vein, of: [glucose-5, starch-6], to: Central line preferred"])
    assert compared().unmet == ("vein to Central line preferred: glucose-5, starch-6",)
    assert "* vein to Central line preferred: glucose-5, starch-6" in report(compared())


def test_what_is_not_announced_matters_however_small(compared, draft):
    """54 for 50 g/L is no jump: with an announcement beside it that is silent on it, it matters."""
    draft.replace(
        GLUCOSE, "{substance: glucose, amount: 50 g/L}", "{substance: glucose, amount: 51 g/L}"
    )
    announce(draft, ["kind: recipe, of: [glucose-5]"])
    comparison = compared()
    assert any(f.announced is False and not f.effect.loud for f in comparison.findings)
    assert exit_code(comparison) == 3


def test_an_announcement_of_an_older_change_says_nothing_of_this_one(compared, draft, tmp_path):
    announce(draft, ["kind: vein, of: [glucose-5]"])
    before = shutil.copytree(draft.folder, tmp_path / "with")
    draft.replace(SALINE, "0.9 % w/v", "1.8 % w/v")
    comparison = compared(before)
    assert comparison.unmet == ()
    assert {f.announced for f in comparison.findings} == {None}


@pytest.mark.parametrize(
    ("effect", "message"),
    [
        ("kind: vien, of: [glucose-5]", '"vien" is not in the list'),
        ("kind: vein", "every vein there may be is announced"),
        ("kind: vein, of: [Glucose 5]", '"Glucose 5" is not an id'),
        ("kind: vein, off: [glucose-5]", '"off" is not a key here'),
    ],
)
def test_an_announcement_is_read_strictly(draft, effect, message):
    announce(draft, [effect])
    problems = read_catalogue(draft.folder).problems
    assert message in problems[0].message
    assert problems[0].file == "expected/this-change.yml"
    assert problems[0].place.line == 4


def test_the_guide_of_editors_names_every_kind_and_its_example_is_sound(draft):
    guide = (SMALL.parents[2] / "catalogue" / "README.md").read_text(encoding="utf-8")
    section = guide.partition("## Say what your change should do")[2]
    assert [kind for kind in CHANGE_KINDS if f"`{kind}`" not in section] == []
    draft.write("expected/stricter-vein-limit.yml", section.split("```")[1].removeprefix("yaml"))
    assert read_catalogue(draft.folder).problems == ()


# what no longer loads


def test_an_entry_of_an_older_shape_is_named_first_and_compared_as_text(compared, draft, tmp_path):
    old = kept_before(draft, tmp_path)
    text = (old / SALINE).read_text(encoding="utf-8")
    (old / SALINE).write_text(text.replace("role: ready", "kind: crystalloid"), encoding="utf-8")
    draft.replace(GLUCOSE, "{name: G5, kind", "{name: G50, kind")
    comparison = compared(old)
    (unread,) = comparison.unread
    assert (unread.file, unread.side, unread.lines) == (SALINE, "before", 2)
    assert comparison.problems == ()
    lines = report(comparison).splitlines()
    assert lines[4].startswith(f"* **`{SALINE}` does not load** in before (line 1: ")
    assert "Compared as text: 2 lines apart." in lines[4]
    assert [edit.entry for edit in comparison.edits] == ["fluids/glucose-5"]
    assert exit_code(comparison) == 3


def kept_before(draft, tmp_path):
    """The catalogue before what comes next."""
    return shutil.copytree(draft.folder, tmp_path / "with")


def test_limits_of_an_older_shape_are_lent_by_the_other_side(compared, draft, tmp_path):
    old = kept_before(draft, tmp_path)
    text = (old / "limits.yml").read_text(encoding="utf-8")
    (old / "limits.yml").write_text(text.replace("stricter: lower", "side: low", 1))
    draft.replace(SALINE, "0.9 % w/v", "1.8 % w/v")
    comparison = compared(old)
    assert comparison.borrowed == ("limits",)
    assert effects(comparison, "figure") != []
    assert "`limits.yml` does not load on one side" in report(comparison)


def test_without_limits_on_either_side_entries_are_compared_all_the_same(compared, draft, tmp_path):
    draft.replace("limits.yml", "limits:", "limit:")
    old = kept_before(draft, tmp_path)
    draft.replace(SALINE, "0.9 % w/v", "9 % w/v")
    comparison = compared(old)
    assert len(set(comparison.without_figures)) == 6
    assert [e.size for e in effects(comparison, "recipe")] == ["10 times"]
    assert "Figures and findings not compared" in report(comparison)
    assert exit_code(comparison) == 1


def test_a_new_catalogue_with_problems_is_reported_with_them(compared, draft):
    """The charge no longer closes: its figures are not compared, its recipe is."""
    draft.replace(
        "fluids/declared-ions.yml", "potassium, amount: 5 mmol", "potassium, amount: 50 mmol"
    )
    comparison = compared()
    assert exit_code(comparison) == 1
    text = report(comparison)
    assert "**The new catalogue has 1 problem; run `isofolio check`.**" in text
    assert "First: `fluids/declared-ions.yml:6:3`: the charge does not close" in text
    assert "for problems of the catalogue: Ions as a label declares them." in text
    assert "potassium 5 mmol/L → potassium 50 mmol/L (10 times)" in text.replace("\u00a0", " ")


def test_a_file_cut_short_is_told_and_nothing_breaks(compared, draft):
    draft.write("substances/glucose.yml", "id: glucose\nname: [")
    comparison = compared()
    assert [one.file for one in comparison.unread] == ["substances/glucose.yml"]
    assert exit_code(comparison) == 1
    assert "`substances/glucose.yml` does not load** in after" in report(comparison)


@pytest.mark.parametrize(
    "fault",
    [
        "broken-particles",
        "dangling-particle-of-a-substance",
        "duplicate-id-in-limits",
        "formula-with-an-unknown-element",
        "interval-with-one-end",
        "limit-in-another-unit",
        "limit-missing",
        "limit-of-two-figures",
        "osmosis-like-one-without",
        "osmosis-of-a-salt-for-a-sugar",
        "particle-in-grams",
    ],
)
def test_a_faulty_catalogue_is_compared_on_either_side(draft, fault):
    """Figures that cannot be computed are left out; the report is there, and names the problem."""
    shutil.copytree(SMALL.parent / fault, draft.folder, dirs_exist_ok=True)
    sound, faulty = side_of(SMALL, "sound"), side_of(draft.folder, "faulty")
    for sides in ((sound, faulty), (faulty, sound)):
        comparison = compare(*sides)
        assert (exit_code(comparison) == 1) is (sides[1] is faulty)
        assert report(comparison).startswith("# Changes: ")


# data


def test_the_json_holds_every_finding_in_the_order_of_the_report(compared, draft):
    draft.replace("fluids/potassium-chloride-15.yml", "150 mg/mL", "1500 mg/mL")
    comparison = compared()
    data = json.loads(json_report(comparison, exit_code(comparison)))
    assert (data["schema"], data["exit"]) == (SCHEMA, 3)
    assert len(data["findings"]) == len(comparison.findings)
    assert [one["level"] for one in data["findings"]] == sorted(
        one["level"] for one in data["findings"]
    )
    first = data["findings"][0]
    assert first == {
        "level": LOUD,
        "kind": "recipe",
        "loud": True,
        "entry": "fluids/potassium-chloride-15",
        "name": "Potassium chloride 15 %",
        "what": "potassium-chloride",
        "before": "potassium chloride 150 mg/mL",
        "after": "potassium chloride 1500 mg/mL",
        "size": "10 times",
        "because": ["fluids/potassium-chloride-15"],
        "announced": None,
    }
    assert data["edits"][0]["fields"] == [
        {
            "field": "contents",
            "before": "potassium-chloride 150 mg/mL",
            "after": "potassium-chloride 1500 mg/mL",
        }
    ]


def test_every_kind_that_is_found_can_be_announced(compared, draft):
    draft.rename("fluids", "declared-ions", "ions-of-a-label")
    draft.replace("fluids/potassium-chloride-15.yml", "150 mg/mL", "1500 mg/mL")
    assert set(kinds(compared())) <= set(CHANGE_KINDS)


def test_two_runs_say_the_same(draft):
    draft.replace(SALINE, "0.9 % w/v", "1.8 % w/v")
    draft.remove("fluids/declared-ions.yml")
    texts = set()
    for _ in range(2):
        comparison = compare(
            side_of(draft.folder, "a"), side_of(draft.folder.parent / "after", "b")
        )
        texts.add(report(comparison) + json_report(comparison, 0))
    assert len(texts) == 1
