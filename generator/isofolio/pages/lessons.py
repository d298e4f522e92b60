"""The HTML of a lesson, furnished as our own pages are: headings to link to, tables to scroll."""

import re

from markupsafe import Markup

from isofolio.pages.page import rendered

_HEADING = re.compile(r'<h(?P<level>[23]) id="(?P<anchor>[^"]+)">(?P<text>[^<]*)</h[23]>')
_ROW = re.compile(r"(?P<start><tr>\s*)<td(?P<kind>[^>]*)>(?P<text>.*?)</td>", re.DOTALL)
_TABLE = re.compile(r"<table>(?P<inside>.*?)</table>", re.DOTALL)


def furnished(lesson: str, here: str) -> str:
    """The lesson with a control to copy the link of each heading, and with tables that scroll."""

    def heading(found: re.Match[str]) -> str:
        context = {**found.groupdict(), "text": Markup(found["text"])}
        return rendered("lesson_heading.html", here, context)

    return _TABLE.sub(_scrolling, _HEADING.sub(heading, lesson))


def _scrolling(found: re.Match[str]) -> str:
    """A table in a region of its own, whose first column names the rows.

    >>> _scrolling(_TABLE.match("<table><tr><th></th></tr><tr><td>a</td><td>1</td></tr></table>"))
    '<div class="scroller" tabindex="0" role="group" aria-label="Table"><table class="plain">\
<tr><td></td></tr><tr><th scope="row">a</th><td>1</td></tr></table></div>'
    """
    inside = _ROW.sub(r'\g<start><th scope="row"\g<kind>>\g<text></th>', found["inside"])
    inside = inside.replace("<th></th>", "<td></td>")
    region = '<div class="scroller" tabindex="0" role="group" aria-label="Table">'
    return f'{region}<table class="plain">{inside}</table></div>'
