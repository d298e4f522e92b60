"""The style sheet: contrast of words on fills, the same colours in files that stand alone.

Contrast ratio: W3C, Web Content Accessibility Guidelines 2.2, definitions of "contrast ratio" and
"relative luminance"; criterion 1.4.3 asks 4.5 for text, 1.4.11 asks 3 for graphical objects.
"""

import re
from pathlib import Path

import pytest

from isofolio.drawings.patterns import FILLS, INK, INK_ON_FILL, SECOND_INK, light_rules
from isofolio.drawings.stacks import FAMILIES

SHEET = Path(__file__).parents[2] / "site_src" / "styles" / "drawings.css"
DARK_PAPER, DARK_RAISED = "#14181c", "#1c2228"
LIGHT_PAPER, LIGHT_RAISED = "#ffffff", "#f4f6f6"


def _tokens(block: str) -> dict[str, str]:
    return dict(re.findall(r"--ion-([a-z-]+):\s*([^;]+);", block))


def _blocks() -> dict[str, dict[str, str]]:
    sheet = SHEET.read_text(encoding="utf-8")
    light = re.search(r"^:root \{(.*?)\}", sheet, re.S | re.M)
    dark = re.search(r'^:root\[data-theme="dark"\] \{(.*?)\}', sheet, re.S | re.M)
    system = re.search(r"prefers-color-scheme: dark\) \{(.*?)\}", sheet, re.S)
    forced = re.search(r"forced-colors: active\) \{(.*?)\}", sheet, re.S)
    paper = re.search(r"@media print \{(.*?)\}", sheet, re.S)
    found = {"light": light, "dark": dark, "system": system, "forced": forced, "print": paper}
    return {name: _tokens(match[1]) for name, match in found.items() if match}


def _luminance(colour: str) -> float:
    parts = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _contrast(one: str, two: str) -> float:
    low, high = sorted((_luminance(one), _luminance(two)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_formula_on_known_pairs() -> None:
    # Black on white is 21 to 1 by definition (WCAG 2.2).
    assert _contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert _contrast("#777777", "#777777") == 1.0


@pytest.mark.parametrize("theme", ["light", "dark", "print"])
def test_words_read_on_every_fill(theme: str) -> None:
    tokens = {**_blocks()["light"], **_blocks()[theme]}
    for family in FAMILIES:
        assert _contrast(tokens["on-fill"], tokens[family]) >= 4.5, family


@pytest.mark.parametrize(
    ("theme", "papers"),
    [
        ("light", (LIGHT_PAPER, LIGHT_RAISED)),
        ("dark", (DARK_PAPER, DARK_RAISED)),
        ("print", (LIGHT_PAPER,)),
    ],
)
def test_ink_and_second_ink_read_on_the_page(theme: str, papers: tuple[str, ...]) -> None:
    tokens = _blocks()[theme]
    for paper in papers:
        assert _contrast(tokens["ink"], paper) >= 4.5
        assert _contrast(tokens["second"], paper) >= 4.5


@pytest.mark.parametrize("theme", ["light", "dark", "print"])
def test_the_outline_stands_out_from_fill_or_paper(theme: str) -> None:
    tokens = _blocks()[theme]
    paper = DARK_PAPER if theme == "dark" else LIGHT_PAPER
    for family in FAMILIES:
        edge = max(_contrast(tokens["ink"], tokens[family]), _contrast(tokens[family], paper))
        assert edge >= 3.0, family


def test_dark_by_attribute_and_dark_by_system_are_the_same() -> None:
    blocks = _blocks()
    assert blocks["dark"] == blocks["system"]
    assert set(FAMILIES) < set(blocks["dark"])


def test_every_theme_that_must_outshout_the_dark_one_sets_every_token() -> None:
    blocks = _blocks()
    assert set(blocks["print"]) == set(blocks["forced"]) == set(blocks["light"])


def test_paper_has_fills_half_way_to_white() -> None:
    for family, fill in FILLS.items():
        half = [(int(fill[start : start + 2], 16) + 256) // 2 for start in (1, 3, 5)]
        assert _blocks()["print"][family] == "#" + "".join(f"{part:02x}" for part in half)


def test_a_file_that_stands_alone_has_the_light_colours() -> None:
    light = _blocks()["light"]
    assert {family: light[family] for family in FAMILIES} == FILLS
    assert (light["ink"], light["second"], light["on-fill"]) == (INK, SECOND_INK, INK_ON_FILL)
    assert light["mark"] == INK_ON_FILL
    assert f"stroke-opacity:{light['mark-opacity']}" in light_rules()


def test_the_sheet_draws_every_class_of_a_file_that_stands_alone() -> None:
    sheet = SHEET.read_text(encoding="utf-8")
    names = set(re.findall(r"\.(ion-[a-z-]+)\{", light_rules())) - {"ion-paper"}
    assert [name for name in sorted(names) if f".{name} {{" not in sheet] == []
