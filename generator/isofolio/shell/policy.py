"""The content security policy of each page, and what it forbids.

A page may load scripts, styles and pictures of its own folder and nothing else. Inline scripts
of the shell are named by their hash; inline scripts of the content are never allowed, so that a
slip in escaping a text of the catalogue cannot run.
"""

import base64
import hashlib
import re
from collections.abc import Iterable

# The one page on which the chart library runs: it writes styles into the page.
PAGES_WITH_INLINE_STYLES = frozenset({"explore.html"})

# Stands in the template where the policy goes; the hashes are known only after rendering.
PLACEHOLDER = "policy-of-this-page"

# Stands in a content where its first screen ends. A script there, the least there can be, makes the
# browser's parser wait for the style sheet and rest after it: the first screen is laid out and
# painted before what stands below it is read.
FIRST_SCREEN_ENDS = "<!-- the first screen ends here -->"
PAUSE = "0"

SCRIPT = re.compile(r"<script\b([^>]*)>(.*?)</script\s*>", re.DOTALL | re.IGNORECASE)
TYPE = re.compile(r"""\btype\s*=\s*["']?([^\s"'>]+)""", re.IGNORECASE)
SOURCE = re.compile(r"\bsrc\s*=", re.IGNORECASE)
RUNNING_TYPES = frozenset({"", "module", "text/javascript", "application/javascript"})


def inline_scripts(html: str) -> list[str]:
    """The text of each script that stands in the page and would run (data blocks do not).

    >>> inline_scripts('<script>a()</script><script src="b.js"></script>')
    ['a()']
    >>> inline_scripts('<script type="application/json">{}</script>')
    []
    """
    return [
        text
        for attributes, text in SCRIPT.findall(html)
        if not SOURCE.search(attributes) and _type(attributes) in RUNNING_TYPES
    ]


def _type(attributes: str) -> str:
    found = TYPE.search(attributes)
    return found.group(1).lower() if found else ""


def script_hash(text: str) -> str:
    """The source expression that allows exactly this inline script.

    Source: W3C Content Security Policy Level 3, 2.3.1, hash-source.

    >>> script_hash("")
    "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='"
    """
    digest = hashlib.sha256(text.encode("utf-8")).digest()
    return f"'sha256-{base64.b64encode(digest).decode('ascii')}'"


def policy(path: str, shell_scripts: Iterable[str] = ()) -> str:
    """The policy of the page at `path`, with a hash for each inline script of the shell.

    >>> policy("about.html").split("; ")[:3]
    ["default-src 'none'", "script-src 'self'", "style-src 'self'"]
    """
    scripts = ["'self'", *sorted({script_hash(text) for text in shell_scripts})]
    styles = ["'self'", "'unsafe-inline'"] if path in PAGES_WITH_INLINE_STYLES else ["'self'"]
    return "; ".join(
        (
            "default-src 'none'",
            f"script-src {' '.join(scripts)}",
            f"style-src {' '.join(styles)}",
            "img-src 'self' data:",
            "base-uri 'none'",
            "form-action 'none'",
        )
    )


def with_policy(output: str, content: str, path: str) -> str:
    """The rendered page `output` with its policy; only what surrounds `content` is hashed.

    Of the content, only a pause after its first screen is a script that the policy allows.
    """
    shell = output.replace(content, "", 1) if content else output
    allowed = inline_scripts(shell) + [PAUSE] * (FIRST_SCREEN_ENDS in content)
    page = output.replace(PLACEHOLDER, policy(path, allowed), 1)
    return page.replace(FIRST_SCREEN_ENDS, f"<script>{PAUSE}</script>", 1)
