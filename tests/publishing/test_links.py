"""Links and anchors of finished files. No published source: the project's own rules."""

from isofolio.publishing.links import dead_links, links_of_file, links_of_page

PATHS = {"index.html", "fluids/a.html", "fluids/b c.html", "data/table.csv"}


def dead(path, html, paths=PATHS):
    other = links_of_page('<h2 id="working"></h2><h2 id="α"></h2>')
    return dead_links({"fluids/a.html": other, path: links_of_page(html)}, paths)


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
    assert links_of_page(html).links == ()


def test_characters_written_as_entities_are_read_as_characters():
    assert links_of_page('<a href="b.html?x=1&amp;y=2">b</a>').links == ("b.html?x=1&y=2",)


def test_only_the_page_for_a_missing_address_may_start_at_the_root():
    assert dead("404.html", '<a href="/index.html">h</a>') == []
    assert len(dead("fluids/x.html", '<a href="/index.html">h</a>')) == 1


def test_a_style_sheet_leads_to_what_it_loads():
    css = b'a { background: url("../drawings/a.svg") } b { mask: url(data:image/png;base64,AA) }'
    found = {"styles/a.css": links_of_file("styles/a.css", css)}
    assert dead_links(found, {"styles/a.css", "drawings/a.svg"}) == []
    assert len(dead_links(found, {"styles/a.css"})) == 1


def test_a_data_file_leads_nowhere():
    assert links_of_file("downloads/table.csv", b'<a href="gone.html">') is None
