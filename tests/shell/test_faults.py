"""The look at a finished page. No published source: the project's own rules for its pages."""

from isofolio.shell.faults import dead_links, page_facts

PATHS = {"index.html", "fluids/a.html", "fluids/b c.html", "data/table.csv"}


def dead(path, html, paths=PATHS):
    other = page_facts("fluids/a.html", '<h2 id="working"></h2><h2 id="α"></h2>', "")
    return dead_links({"fluids/a.html": other, path: page_facts(path, html, "")}, paths)


def test_living_links():
    html = (
        '<a href="../index.html">i</a><a href="a.html#working">w</a><a href="#here" id="here">h</a>'
        '<a href="a.html#%CE%B1">alpha</a><a href="b%20c.html">b</a><a href="#">top</a>'
        '<a href="../data/table.csv">t</a><a href="https://example.org/x">e</a>'
        '<a href="mailto:x@example.org">m</a><use href="#here"></use>'
    )
    assert dead("fluids/x.html", html, PATHS | {"fluids/x.html"}) == []


def test_dead_links_are_named_once_each():
    html = '<a href="gone.html">1</a><a href="gone.html">2</a><a href="a.html#gone">3</a>'
    assert dead("fluids/x.html", html) == [
        "fluids/x.html: the link 'gone.html' leads nowhere: there is no fluids/gone.html.",
        "fluids/x.html: the link 'a.html#gone' leads nowhere: fluids/a.html has no anchor 'gone'.",
    ]


def test_a_folder_is_no_page():
    assert len(dead("index.html", '<a href="fluids/">f</a><a href=".">h</a>')) == 2


def test_a_link_above_the_site_is_dead():
    assert len(dead("index.html", '<a href="../index.html">up</a>')) == 1


def test_escaped_text_is_not_taken_for_a_tag():
    html = '<pre><code>&lt;a href="gone.html" style="x" onclick="y()"&gt;</code></pre>'
    facts = page_facts("a.html", html, html)
    assert (facts.links, facts.faults) == ((), ())


def test_characters_written_as_entities_are_read_as_characters():
    facts = page_facts("a.html", '<a href="b.html?x=1&amp;y=2">b</a>', "")
    assert facts.links == ("b.html?x=1&y=2",)


def test_an_external_link_is_allowed_and_an_external_picture_is_not():
    link = page_facts("a.html", '<a href="https://example.org">x</a>', "")
    picture = page_facts("a.html", '<img alt="" src="//example.org/x.png">', "")
    assert link.faults == ()
    assert len(picture.faults) == 1


def test_inline_styles_pass_on_the_chart_page_alone():
    html = '<p style="color: red">x</p>'
    assert page_facts("explore.html", html, html).faults == ()
    assert len(page_facts("a.html", html, html).faults) == 1
