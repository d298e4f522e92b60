"""Of the theme's style sheet only what a page of ours can match goes into the site."""

from pathlib import Path

import material
import pytest

from isofolio.shell.style_sheet import style_sheet
from isofolio.shell.theme_names import CLASSES, STYLESHEET

THEME = Path(material.__file__).parent / "templates"


@pytest.mark.parametrize(
    ("theme", "kept"),
    [
        ("b{left:0}", "b{left:0}"),
        (".md-nav{left:0}", ""),
        (".md-nav,.md-grid{left:0}", ".md-grid{left:0}"),
        (".md-grid .md-nav{left:0}", ""),
        ("[data-md-color-scheme=slate]{left:0}", ""),
        ("b:is(.md-nav,i),i{left:0}", "i{left:0}"),
        ("@media print{.md-nav{left:0}b{top:0}}", "@media print{b{top:0}}"),
        ("@media print{.md-nav{left:0}}", ""),
        ("@keyframes a{to{top:0}}@page{margin:0}", "@page{margin:0}"),
    ],
)
def test_what_is_kept(theme, kept):
    assert style_sheet(theme, []) == kept


def test_ours_follow_unchanged_in_their_order():
    assert style_sheet("", ["/* a */ b{}", "/* c */"]) == "\n/* a */ b{}\n/* c */"


def test_of_the_real_sheet_the_classes_we_use_are_kept_and_most_is_gone():
    (file,) = THEME.glob(STYLESHEET)
    theme = file.read_text(encoding="utf-8")
    kept = style_sheet(theme, [])
    for name in CLASSES:
        assert f".{name}" in kept
    assert ".md-typeset" not in kept
    assert len(kept) < len(theme) / 4
