"""A stock page of the same content: the Markdown of one of our pages, in the theme's defaults."""

import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path

# The theme's own web font is left out: it comes from the network, which would count against it.
SETTINGS = "site_name: Stock\nuse_directory_urls: false\ntheme:\n  name: material\n  font: false\n"
BLOCKS = {"h1": "# ", "h2": "## ", "h3": "### ", "p": "", "li": "- ", "dt": "", "dd": "  ",
          "caption": "", "figcaption": ""}  # fmt: skip
LEFT_OUT = {"button", "script", "style"}


class Markdown(HTMLParser):
    """The text, links, headings, lists, tables and drawings of a page as Markdown."""

    def __init__(self) -> None:
        super().__init__()
        self.blocks: list[str] = []
        self.text = ""
        self.cells: list[str] = []
        self.is_head = False  # the next row of a table is its first
        self.left_out = 0
        self.drawing = 0
        self.address = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "svg" or self.drawing:
            self.drawing += 1
            self.text += self.get_starttag_text() or ""
        elif tag in LEFT_OUT or self.left_out:
            self.left_out += 1
        elif tag in BLOCKS or tag in {"td", "th"}:
            self.flush("")
        elif tag == "table":
            self.is_head = True
        elif tag == "a":
            self.address = dict(attrs).get("href") or ""
            self.text += "["
        elif tag == "b":
            self.text += "**"

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:  # noqa: ARG002
        if self.drawing:
            self.text += self.get_starttag_text() or ""

    def handle_endtag(self, tag: str) -> None:
        if self.drawing:
            self.drawing -= 1
            self.text += f"</{tag}>"
            if not self.drawing:
                self.blocks.append(self.text)
                self.text = ""
        elif self.left_out:
            self.left_out -= 1
        elif tag in {"td", "th"}:
            self.cells.append(self.taken())
        elif tag == "tr":
            self.row()
        elif tag in BLOCKS:
            self.flush(BLOCKS[tag])
        elif tag == "a":
            self.text += f"]({self.address})"
        elif tag == "b":
            self.text += "**"

    def handle_data(self, data: str) -> None:
        if not self.left_out:
            self.text += data

    def taken(self) -> str:
        """The text so far, in one line."""
        line = re.sub(r"[ \n]+", " ", self.text).strip()
        self.text = ""
        return line

    def flush(self, mark: str) -> None:
        """End a block of text."""
        line = self.taken()
        if line:
            self.blocks.append(mark + line)

    def row(self) -> None:
        """End a row of a table."""
        line = f"| {' | '.join(self.cells)} |"
        if self.is_head:
            self.blocks.append(f"{line}\n|{'---|' * len(self.cells)}")
        else:
            self.blocks[-1] += f"\n{line}"
        self.is_head, self.cells = False, []


def markdown_of(html: str) -> str:
    """The main part of one of our pages as Markdown."""
    parser = Markdown()
    parser.feed(html[html.index('<main id="main"') : html.index("</main>")])
    parser.close()
    return "\n\n".join([*parser.blocks, parser.taken()]) + "\n"


def stock_page(html: str, folder: Path) -> Path:
    """Build the stock site with a page of the same content; returns that page."""
    (folder / "docs").mkdir(parents=True)
    (folder / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    (folder / "docs" / "index.md").write_text("# Home\n", encoding="utf-8")
    (folder / "docs" / "fluid.md").write_text(markdown_of(html), encoding="utf-8")
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet"]
    subprocess.run(command, cwd=folder, check=True, capture_output=True)
    return folder / "site" / "fluid.html"
