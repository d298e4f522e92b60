"""A small handbook is really built by MkDocs; what stands in the folder is looked at.

No published source: this is how the project's own tools must behave.
"""

import re
from html.parser import HTMLParser

import pytest
from mkdocs.exceptions import Abort

from isofolio.shell.frame import STYLES
from isofolio.shell.policy import inline_scripts, script_hash

POLICY = '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; '


def read(site, path):
    return (site / path).read_text(encoding="utf-8")


def html_pages(site):
    return sorted(site.rglob("*.html"))


def leftovers(project):
    return [path.name for path in project.iterdir() if path.name.startswith(".site")]


class Tags(HTMLParser):
    """Every start tag of a page with its attributes."""

    def __init__(self, html):
        super().__init__()
        self.tags = []
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))


def tags(site, path):
    return Tags(read(site, path)).tags


def test_every_page_starts_with_the_policy_then_the_character_set(build):
    site = build(strict=True)
    assert len(html_pages(site)) >= 5
    for page in html_pages(site):
        head = page.read_text(encoding="utf-8").partition("<head>\n")[2]
        assert head.startswith(POLICY), page
        assert head.splitlines()[1] == '<meta charset="utf-8">'
        assert "policy-of-this-page" not in head


def test_inline_styles_are_allowed_on_the_chart_page_alone(build):
    site = build()
    allowed = [page.name for page in html_pages(site) if "'unsafe-inline'" in page.read_text()]
    assert allowed == ["explore.html"]


def test_no_page_holds_a_running_script_but_the_one_of_the_theme(build):
    """It sets light or dark before anything is painted, and the policy names it by its hash."""
    for page in html_pages(build()):
        html = page.read_text(encoding="utf-8")
        (script,) = inline_scripts(html)
        assert "isofolio-theme" in script
        assert f"script-src 'self' {script_hash(script)}; " in html
        assert html.index("<script>") < html.index('<link rel="stylesheet"')


def test_no_page_loads_from_outside(build):
    site = build()
    for page in html_pages(site):
        for tag, attributes in Tags(page.read_text(encoding="utf-8")).tags:
            if tag != "a":
                loaded = attributes.get("src") or attributes.get("href") or ""
                assert "//" not in loaded, (page, tag, loaded)


def test_no_style_sheet_or_script_names_another_host(build):
    site = build()
    sheets = [path.read_text(encoding="utf-8") for path in site.rglob("*.css")]
    assert len(sheets) == 1
    for sheet in sheets:
        assert not re.search(r"@import|url\([\"']?(https?:)?//", sheet)


def test_no_file_of_the_theme_is_in_the_site(build):
    site = build()
    paths = {path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()}
    assert [path for path in paths if path.startswith("assets/")] == []
    assert not {"sitemap.xml", "sitemap.xml.gz", "search/search_index.json"} & paths


def test_one_style_sheet_holds_the_themes_and_ours_after_it(build):
    site = build()
    sheets = [
        attributes["href"]
        for tag, attributes in tags(site, "fluids/glucose-5.html")
        if tag == "link" and attributes["rel"] == "stylesheet"
    ]
    assert sheets == ["../styles/handbook.css"]
    text = read(site, "styles/handbook.css")
    places = [text.index(".md-grid{"), *(text.index(f"/* {style} */") for style in STYLES)]
    assert places == sorted(places)


def test_a_build_without_one_of_the_style_sheets_says_which_are_needed(build, project):
    (project / "site_src" / STYLES[0]).unlink()
    with pytest.raises(Abort, match=f"A style sheet is missing: .*{STYLES[0]}"):
        build()


def test_a_page_of_the_handbook_is_written_as_it_came(build, small_site):
    page = read(build(), "fluids/glucose-5.html")
    main = re.search(r'<main id="main" tabindex="-1">\n(.*)\n</main>', page, re.DOTALL)
    assert main.group(1) == small_site["GLUCOSE"]
    assert "md-typeset" not in page


def test_title_is_escaped_once_and_data_of_the_copy_stands_on_the_page(build):
    page = read(build(), "fluids/glucose-5.html")
    assert "<title>Glucose 5 % &amp; &#34;more&#34; &lt;b&gt; · Isofolio</title>" in page
    assert '<meta name="description" content="A bag">' in page
    opening = re.search(r"<html[^>]*>", page).group(0)
    for attribute in (
        'lang="en"',
        'data-page="fluids/glucose-5.html"',
        'data-root="../"',
        'data-catalogue="0123456789ab"',
        'data-catalogue-date="2026-11-25"',
        'data-due="2027-11-25"',
    ):
        assert attribute in opening
    assert "this copy: catalogue of 2026-11-25, digest <code>0123456789ab</code>" in page
    assert "It does not decide the treatment of a person" in page


def test_the_home_page_is_titled_with_the_name_alone(build):
    assert "<title>Isofolio</title>" in read(build(), "index.html")


def test_header_holds_skip_link_finder_navigation_and_switch(build):
    from isofolio.folio import NAVIGATION

    site = build()
    for page in html_pages(site):
        text = page.read_text(encoding="utf-8")
        found = Tags(text).tags
        assert text.index('<a class="skip-link" href="#main">Skip to the page</a>') < text.index(
            "<header"
        )
        position = next(i for i, (_, a) in enumerate(found) if a.get("id") == "finder-box")
        box, results = found[position][1], found[position + 1][1]
        assert box["role"] == "combobox"
        assert box["autocomplete"] == "off"
        assert box["aria-expanded"] == "false"
        assert box["aria-controls"] == results["id"] == "finder-results"
        assert ("label", {"for": "finder-box"}) in found
        assert [a for t, a in found if t == "button" and a.get("id") == "theme-switch"]
        for label, _ in NAVIGATION:
            assert f">{label}</a>" in text


def test_the_current_page_is_marked_in_navigation_and_crumbs(build):
    site = build()
    current = [a for t, a in tags(site, "about.html") if a.get("aria-current") == "page"]
    assert {a.get("href") for a in current} == {"about.html", None}
    crumbs = read(site, "fluids/glucose-5.html").partition('class="crumbs"')[2]
    assert '<a href="../index.html">Home</a>' in crumbs
    assert '<span aria-current="page">Glucose</span>' in crumbs


def test_scripts_are_files_and_a_page_may_ask_for_more(build):
    scripts = [a for t, a in tags(build(), "fluids/glucose-5.html") if t == "script" and "src" in a]
    assert [script["src"] for script in scripts] == [
        "../scripts/isofolio.js",
        "../scripts/finder.js",
        "../scripts/extra.js",
    ]
    assert all("defer" in script for script in scripts)


def test_a_handwritten_page_has_the_same_frame_and_links_into_the_handbook(build):
    site = build(strict=True)
    page = read(site, "about.html")
    assert '<article class="prose">' in page
    assert '<a href="fluids/glucose-5.html#holds">what glucose holds</a>' in page
    assert '<td align="right">154</td>' in page
    assert 'id="finder-box"' in page
    assert "<title>About · Isofolio</title>" in page


def test_data_is_written_byte_for_byte(build):
    site = build()
    assert (site / "scripts/finder-data.js").read_bytes() == b"window.data = [];\n"
    assert (site / "downloads/table.csv").read_bytes() == b"id,sodium\r\n"


def test_the_page_for_a_missing_address_is_ours_with_the_finder(build):
    page = read(build(), "404.html")
    assert "No page at this address" in page
    assert 'id="finder-box"' in page
    assert 'href="index.html"' in page
    assert "not found in documentation" not in page


def test_two_builds_of_the_same_input_are_the_same_bytes(build, digest):
    assert digest(build(site="one")) == digest(build(site="two"))


def test_a_good_build_replaces_the_site_and_leaves_nothing_beside(build, project):
    site = build()
    (site / "stale.html").write_text("from an older build", encoding="utf-8")
    assert build() == site == project / "site"
    assert not (site / "stale.html").exists()
    assert (site / "built-from.txt").is_file()
    assert leftovers(project) == []


def test_building_in_place_when_asked(build, project):
    site = build(build_beside=False)
    assert (site / "fluids/glucose-5.html").is_file()
    assert leftovers(project) == []


def test_a_broken_entry_stops_the_build_and_the_old_site_stays(build, project, digest):
    before = digest(build())
    (project / "catalogue" / "broken.txt").write_text("fluids/a.yml:1:1: no such role\nfluids/b")
    with pytest.raises(Abort) as stopped:
        build()
    message = str(stopped.value)
    assert "fluids/a.yml:1:1: no such role" in message
    assert "fluids/b" in message
    assert "2 problems" in message
    assert stopped.value.code == 1
    assert digest(project / "site") == before
    assert leftovers(project) == []


def test_a_failure_while_pages_are_written_leaves_the_old_site(build, project, digest, monkeypatch):
    before = digest(build())

    def fail(*arguments):
        raise RuntimeError("the disk is full")

    monkeypatch.setattr("isofolio.shell.plugin.page_faults", fail)
    with pytest.raises(RuntimeError):
        build()
    assert digest(project / "site") == before
    assert leftovers(project) == []


def test_a_failure_of_the_exchange_leaves_the_old_site(build, project, digest, monkeypatch):
    before = digest(build())

    def fail(new, live):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("isofolio.publishing.swap._exchange", fail)
    with pytest.raises(Abort) as stopped:
        build()
    assert stopped.value.code == 2
    assert "Permission denied" in str(stopped.value)
    assert digest(project / "site") == before
    assert leftovers(project) == []


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("[x](fluids/glucose-5.md#nowhere)", "fluids/glucose-5.html has no anchor 'nowhere'"),
        ("[x](nowhere.md)", "there is no nowhere.md"),
        ("[x](/fluids/glucose-5.html)", "starts with /"),
        ("<script>alert(1)</script>", "a script stands in the page"),
        ('<p style="color: red">x</p>', "style='color: red'"),
        ('<p onclick="go()">x</p>', "onclick='go()'"),
        ("![x](https://example.org/x.png)", "Nothing may be loaded from outside"),
        ("[x](javascript:go())", "runs a script"),
    ],
)
def test_a_fault_of_a_handwritten_page_stops_a_plain_build(build, project, digest, text, told):
    before = digest(build())
    (project / "site_src" / "about.md").write_text(f"# About\n\n{text}\n", encoding="utf-8")
    with pytest.raises(Abort, match=re.escape("about.html")) as stopped:
        build()
    assert told in str(stopped.value)
    assert digest(project / "site") == before
    assert leftovers(project) == []


def test_a_warning_of_mkdocs_under_strict_keeps_the_old_site(build, project, digest):
    before = digest(build())
    # Both claim index.html: MkDocs warns and leaves one out, which only strict takes seriously.
    for name in ("index.md", "README.md"):
        (project / "site_src" / "more").mkdir(exist_ok=True)
        (project / "site_src" / "more" / name).write_text("# More\n", encoding="utf-8")
    with pytest.raises(Abort, match="strict mode"):
        build(strict=True)
    assert digest(project / "site") == before
    assert leftovers(project) == []
    assert (build() / "more" / "index.html").is_file()


def test_a_handwritten_page_may_not_take_the_address_of_ours(build, project):
    path = project / "site_src" / "fluids" / "glucose-5.md"
    path.parent.mkdir()
    path.write_text("# Mine\n", encoding="utf-8")
    with pytest.raises(Abort, match=r"fluids/glucose-5\.html.*fluids/glucose-5\.md"):
        build()


def test_a_missing_catalogue_folder_is_told_in_a_sentence(build, project):
    with pytest.raises(Abort, match="There is no catalogue folder at") as stopped:
        build(catalogue=str(project / "nowhere"))
    assert stopped.value.code == 2
