"""The look at a finished page. No published source: the project's own rules for its pages."""

import pytest

from isofolio.publishing.links import attributes_of
from isofolio.shell.faults import page_faults


def faults(path, html, content):
    return page_faults(path, attributes_of(html), content)


def test_escaped_text_is_not_taken_for_a_tag():
    html = '<pre><code>&lt;a href="gone.html" style="x" onclick="y()"&gt;</code></pre>'
    assert faults("a.html", html, html) == []


def test_an_external_link_is_allowed_and_an_external_picture_is_not():
    assert faults("a.html", '<a href="https://example.org">x</a>', "") == []
    assert len(faults("a.html", '<img alt="" src="//example.org/x.png">', "")) == 1


def test_inline_styles_pass_on_the_chart_page_alone():
    html = '<p style="color: red">x</p>'
    assert faults("explore.html", html, html) == []
    assert len(faults("a.html", html, html)) == 1


@pytest.mark.parametrize(
    "html",
    [
        '<a href="javascript:alert(1)">x</a>',
        '<a href=" VBScript:x">x</a>',
        '<p onclick="x()">x</p>',
        "<script>x()</script>",
    ],
)
def test_what_would_run_is_a_fault(html):
    assert len(faults("a.html", html, html)) == 1
