"""A closed site: no page asks for anything outside its folder, in any state, or keeps anything.

Every page is opened with the network cut and a recorder on; on one page of each kind every control
is used. Source of the policy's grammar: W3C, Content Security Policy Level 3 (memory).
"""

import re

import pytest

from isofolio.shell.policy import PAGES_WITH_INLINE_STYLES, inline_scripts, script_hash

POLICY = re.compile(r'<head>\s*<meta http-equiv="Content-Security-Policy" content="([^"]*)">')
# What the reader chose and may be kept on her computer: light or dark, and the keys on or off.
CHOICES = {"isofolio-theme", "isofolio-keys"}

KEPT = """async () => ({
  local: Object.keys(localStorage),
  session: Object.keys(sessionStorage),
  cookies: document.cookie,
  databases: indexedDB.databases ? (await indexedDB.databases()).map((one) => one.name) : [],
  caches: self.caches ? await caches.keys().catch(() => []) : [],
  workers: navigator.serviceWorker && location.protocol !== 'file:'
    ? (await navigator.serviceWorker.getRegistrations()).length : 0,
})"""
NOTHING = {"session": [], "cookies": "", "databases": [], "caches": [], "workers": 0}

# Use every control that a reader can see: open, press, tick, choose each option, type sense and
# nonsense, leave. Printing is left out: it would wait for a printer.
USE = """() => {
  const used = {pressed: 0, typed: 0, chosen: 0, opened: 0};
  window.print = () => {};
  const tell = (control, ...kinds) =>
    kinds.forEach((kind) => control.dispatchEvent(new Event(kind, {bubbles: true})));
  const shown = (kinds) =>
    Array.from(document.querySelectorAll(kinds)).filter((one) => one.checkVisibility());
  for (const one of document.querySelectorAll('details')) {
    one.open = true;
    used.opened += 1;
  }
  for (const control of shown('select')) {
    control.focus();
    for (let at = 0; at < control.options.length; at += 1) {
      control.selectedIndex = at;
      tell(control, 'input', 'change');
      used.chosen += 1;
    }
    control.selectedIndex = 0;
    tell(control, 'input', 'change');
  }
  for (const control of shown('input, textarea')) {
    control.focus();
    if (['checkbox', 'radio', 'button', 'submit'].includes(control.type)) {
      control.click();
      used.pressed += 1;
      continue;
    }
    for (const text of ['5', '-1', '1e9', 'potassium', '<img src=//evil.invalid>', '']) {
      control.value = text;
      tell(control, 'input', 'keyup', 'change');
      used.typed += 1;
    }
    control.blur();
  }
  for (const control of shown('button, summary, [role=button]')) {
    if (!control.disabled) {
      control.focus();
      control.click();
      used.pressed += 1;
    }
  }
  return used;
}"""


def directives(policy):
    """A policy as a mapping of its directives to their sources."""
    parts = (part.split() for part in policy.split(";"))
    return {name: set(sources) for name, *sources in parts}


@pytest.fixture(scope="module")
def walked(long_window, addresses):
    """What went wrong on each page as it was opened, and what was kept at the end."""
    trouble = {}
    for address in addresses:
        long_window.trouble.clear()
        long_window.open(address)
        if long_window.trouble:
            trouble[address] = list(long_window.trouble)
    return trouble, long_window.page.evaluate(KEPT), long_window.page.context.cookies()


def test_the_policy_stands_first_on_every_page_and_forbids_everything_else(site, addresses):
    assert len(addresses) > 300
    for address in addresses:
        html = (site / address).read_text(encoding="utf-8")
        found = POLICY.search(html)
        assert found is not None, address
        assert html.index("<head>") == found.start(), address
        told = directives(found[1])
        inline = {script_hash(text) for text in inline_scripts(html)}
        styles = {"'unsafe-inline'"} if address in PAGES_WITH_INLINE_STYLES else set()
        assert told == {
            "default-src": {"'none'"},
            "script-src": {"'self'", *inline},
            "style-src": {"'self'", *styles},
            "img-src": {"'self'", "data:"},
            "base-uri": {"'none'"},
            "form-action": {"'none'"},
        }, address


def test_no_page_names_anything_outside_to_load(site, addresses):
    """Links may lead outside (to a source); what a page loads by itself may not."""
    loads = re.compile(
        r"""<(?!a\b)[a-z]+\s[^>]*\b(?:src|href|data|poster)\s*=\s*["']?(https?:|//)"""
    )
    outside = re.compile(r"url\(\s*['\"]?(?:https?:|//)|@import")
    for address in addresses:
        html = (site / address).read_text(encoding="utf-8")
        assert not loads.search(html), address
        assert 'http-equiv="refresh"' not in html, address
    for sheet in site.rglob("*.css"):
        assert not outside.search(sheet.read_text(encoding="utf-8")), sheet.name


def test_every_page_opens_without_a_request_outside_or_a_word(walked):
    trouble, _, _ = walked
    assert trouble == {}


def test_nothing_is_kept_by_reading(walked):
    _, kept, cookies = walked
    assert kept == {"local": [], **NOTHING}
    assert cookies == []


def test_every_control_of_every_kind_of_page_stays_inside(open_window, kinds):
    window = open_window()
    trouble, used, kept = {}, {}, set()
    for address in kinds:
        window.trouble.clear()
        page = window.open(address)
        if page.locator(".chart").count():
            page.locator(".chart-ways").first.wait_for()  # the controls of a chart come with it
        for _ in range(2):  # the second time for the controls that the first brought up
            for name, count in page.evaluate(USE).items():
                used[name] = used.get(name, 0) + count
        page.mouse.move(600, 300)
        page.keyboard.press("Tab")
        page.keyboard.press("Escape")
        page.wait_for_load_state()
        left = page.evaluate(KEPT)
        kept |= set(left.pop("local"))
        assert left == NOTHING, address
        if window.trouble:
            trouble[address] = list(window.trouble)
    assert len(window.page.context.pages) == 1, "a window was opened"
    window.page.context.close()
    assert trouble == {}
    assert kept <= CHOICES
    assert "isofolio-theme" in kept  # the theme was switched, so the walk did reach the controls
    assert used["pressed"] > 500
    assert used["typed"] > 200
    assert used["chosen"] > 50


def test_the_recorder_hears_a_request_that_leaves(window):
    """Else the silence above would prove nothing. The policy stops it too, and says so."""
    page = window.open("index.html")
    page.evaluate(
        """async () => {
          const picture = new Image();
          picture.src = 'https://evil.invalid/x.png';
          document.body.append(picture);
          await fetch('https://evil.invalid/y').catch(() => 0);
        }"""
    )
    page.wait_for_timeout(100)
    assert any("evil.invalid" in line for line in window.trouble)
