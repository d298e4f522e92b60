"""The content security policy.

Source of the grammar and of the hash: W3C, Content Security Policy Level 3 (from memory).
"""

import base64
import hashlib

from isofolio.shell.policy import (
    FIRST_SCREEN_ENDS,
    PAUSE,
    PLACEHOLDER,
    inline_scripts,
    policy,
    script_hash,
    with_policy,
)


def test_everything_is_forbidden_that_is_not_named():
    assert policy("about.html") == (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
        "base-uri 'none'; form-action 'none'"
    )


def test_a_hash_is_that_of_the_bytes_between_the_tags():
    expected = base64.b64encode(hashlib.sha256("a('é')\n".encode()).digest()).decode()
    assert script_hash("a('é')\n") == f"'sha256-{expected}'"
    assert script_hash("a") != script_hash("b")


def test_only_scripts_that_run_and_stand_in_the_page_count():
    html = (
        "<script>one()</script>"
        "<SCRIPT type='module' defer>two()\n</SCRIPT >"
        '<script src="x.js">ignored()</script>'
        '<script type="application/json">{"a": 1}</script>'
    )
    assert inline_scripts(html) == ["one()", "two()\n"]


def test_a_script_of_the_shell_is_allowed_and_one_of_the_content_is_not():
    content = "<p>text</p><script>content()</script>"
    page = with_policy(f"{PLACEHOLDER}<script>shell()</script>{content}", content, "a.html")
    assert script_hash("shell()") in page
    assert script_hash("content()") not in page
    assert PLACEHOLDER not in page


def test_the_same_script_in_shell_and_content_is_hashed_once():
    page = with_policy(f"{PLACEHOLDER}<script>a()</script><script>a()</script>", "", "a.html")
    assert page.count(script_hash("a()")) == 1


def test_where_a_first_screen_ends_stands_a_script_that_the_policy_allows():
    content = f"<p>first</p>{FIRST_SCREEN_ENDS}<p>rest</p><script>content()</script>"
    page = with_policy(f"{PLACEHOLDER}{content}", content, "a.html")
    assert f"<p>first</p><script>{PAUSE}</script><p>rest</p>" in page
    assert script_hash(PAUSE) in page
    assert script_hash("content()") not in page


def test_without_such_an_end_the_pause_is_not_allowed():
    page = with_policy(f"{PLACEHOLDER}<p>all</p>", "<p>all</p>", "a.html")
    assert script_hash(PAUSE) not in page
