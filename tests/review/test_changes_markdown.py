"""Text of entries in the report: shown as it is, and doing nothing on any Git host.

What is active follows the GitHub Flavored Markdown Spec 0.29: raw HTML (6.10), code spans (6.3),
links and images (6.6, 6.7), autolinks with and without <> (6.8, 6.9), tables (4.10). Mentions and
references to issues are common practice of the hosts, no standard.
"""

import re
from html import unescape

import markdown
import pytest

from isofolio.review.markdown import JOINER, code, escaped, table
from isofolio.review.report import report

HOSTILE = (
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "</td></table><h1>Approved</h1>",
    "a | b | c",
    "`code` ``more``",
    "**bold** __bold__ *it* _it_ ~~gone~~",
    "[link](https://evil.example/)",
    "![picture](https://evil.example/a.png)",
    "<https://evil.example/>",
    "[ref]: https://evil.example/",
    "&lt;b&gt; &#60;b&#62; &amp;",
    "\\*escaped\\* \\<b\\>",
    "line\n\n# heading\n\n- list",
    "$`math`$ $$x$$",
)


def html_of(lines):
    return markdown.markdown("\n".join(lines), extensions=["tables", "fenced_code"])


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_stays_one_cell_of_plain_text(text):
    html = html_of(table(["a", "b"], [[escaped(text), "end"]]))
    assert set(re.findall(r"</?([a-z0-9]+)", html)) == {"table", "thead", "tbody", "tr", "th", "td"}
    assert html.count("<td>") == 2


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_reads_as_it_was_written(text):
    """All but spaces and what has no width."""
    html = html_of([escaped(text)])
    shown = re.sub(r"<[^>]*>", "", html)
    assert unescape(shown).replace(JOINER, "") == " ".join(text.split())


@pytest.mark.parametrize(
    "active",
    ["@nurse", "#12", "!12", "$7", "%3", "~label", "&12", "https://", "www.", "a@b", ":smile:"],
)
def test_what_a_host_makes_active_is_broken(active):
    shown = escaped(f"see {active}x evil.example")
    assert active not in unescape(shown)
    assert unescape(shown).replace(JOINER, "") == f"see {active}x evil.example"


def test_a_long_text_is_cut_and_invisible_signs_are_gone():
    assert escaped("x" * 500, 10) == "x" * 9 + "…"
    assert escaped("a\u202eb\u200bc\x07") == "abc"
    assert escaped("40\u00a0mmol/L  and\n0.9\u202f%") == "40\u00a0mmol/L and 0.9\u202f%"


def test_only_a_plain_text_is_set_as_code():
    assert code("fluids/glucose-5.html#working") == "`fluids/glucose-5.html#working`"
    assert code("a`b") == "a&#96;b"
    assert code("@nurse") == f"@{JOINER}nurse"


def test_a_report_of_a_hostile_entry_holds_no_tag_and_no_link(compared, draft):
    file = "fluids/glucose-5.yml"
    giving = "Do not use as the only fluid for a whole day."
    text = "'<script>x</script> | ![p](https://evil.example/a.png) @nurse `x`'"
    draft.replace(file, giving, text)
    draft.replace(file, "name: Glucose 5 %", "name: 'Glucose 5 % | `x` **@nurse** [a](b)'")
    draft.replace(
        file, "{substance: glucose, amount: 50 g/L}", "{substance: glucose, amount: 500 g/L}"
    )
    html = html_of(report(compared()).splitlines())
    assert not re.search(r"<(script|img|a)\b", html)
    assert "@nurse" not in html
    assert html.count("Approved") == 0
