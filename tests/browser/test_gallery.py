"""Drawings as files: SVG as they are, PNG made in the browser, over file:// with no network."""

import struct

import pytest

SHOWN = """() => [...document.querySelectorAll('.gallery-entry img')]
  .filter((one) => one.complete).every((one) => one.naturalWidth > 0)"""


def size_of(png):
    """Width and height of a PNG. Source: PNG specification (W3C), 11.2.2, IHDR."""
    assert png[:8] == b"\x89PNG\r\n\x1a\n"
    return struct.unpack(">II", png[16:24])


@pytest.mark.both_ways
def test_every_drawing_is_shown_and_whole(window, addresses):
    page = window.open("gallery.html")
    page.wait_for_function(SHOWN)
    fluids = [address for address in addresses if address.startswith("fluids/")]
    assert page.locator(".gallery-entry").count() >= len(fluids) + 14
    assert window.trouble == []


@pytest.mark.both_ways
def test_a_png_is_made_at_twice_the_size(window, site, tmp_path):
    page = window.open("gallery.html")
    image = page.locator("#compound-sodium-lactate img")
    image.scroll_into_view_if_needed()
    page.wait_for_function(
        "() => document.querySelector('#compound-sodium-lactate img').naturalWidth > 0"
    )
    natural = image.evaluate("(one) => [one.naturalWidth, one.naturalHeight]")
    with page.expect_download() as waiting:
        page.focus("#compound-sodium-lactate button")
        page.keyboard.press("Enter")
    assert waiting.value.suggested_filename == "isofolio-compound-sodium-lactate.png"
    waiting.value.save_as(tmp_path / "drawing.png")
    width, height = size_of((tmp_path / "drawing.png").read_bytes())
    assert abs(width - 2 * natural[0]) <= 2
    assert abs(height - 2 * natural[1]) <= 2
    assert "isofolio-compound-sodium-lactate.png" in page.text_content("#gallery-status")
    assert [line for line in window.trouble if "blob:" not in line] == []


def test_without_script_svg_is_offered_and_png_is_not(open_window):
    window = open_window(java_script_enabled=False)
    page = window.open("gallery.html")
    assert page.is_visible("#glucose-5 a[href='drawings/glucose-5.svg']")
    assert not page.is_visible("#glucose-5 button")
    page.click("#glucose-5 summary")
    assert page.is_visible("#glucose-5 table")
    page.context.close()
