"""A page of thousands of entries is cut into parts: a browser opens each, and a build holds one."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import TypeVar

from isofolio.pages.page import Page

Item = TypeVar("Item")

# Fluids of one part. A hospital's own catalogue has fewer, and its pages stay whole.
FLUIDS = 250


def in_parts(items: Sequence[Item], most: int) -> list[Sequence[Item]]:
    """The items in their order, so many to a part; at least one part.

    >>> in_parts("abcde", 2), in_parts("", 2)
    (['ab', 'cd', 'e'], [''])
    """
    return [items[start : start + most] for start in range(0, len(items), most)] or [items]


def part_address(address: str, number: int) -> str:
    """The address of a part of the page at `address`; the first has the page's own.

    >>> part_address("audit.html", 1), part_address("audit.html", 2)
    ('audit.html', 'audit-2.html')
    """
    return address if number == 1 else f"{address.removesuffix('.html')}-{number}.html"


def part_title(title: str, number: int, count: int) -> str:
    """The title of a part.

    >>> part_title("Drawings", 1, 1), part_title("Drawings", 2, 3)
    ('Drawings', 'Drawings, part 2 of 3')
    """
    return title if count == 1 else f"{title}, part {number} of {count}"


def part_links(address: str, firsts: Sequence[str]) -> list[tuple[str, str]]:
    """What each part begins with, and its address; nothing where there is one part only.

    >>> part_links("audit.html", ["Glucose", "Saline"])
    [('from Glucose', 'audit.html'), ('from Saline', 'audit-2.html')]
    """
    if len(firsts) == 1:
        return []
    return [
        (f"from {first}", part_address(address, number)) for number, first in enumerate(firsts, 1)
    ]


def pages_in_parts(
    address: str,
    title: str,
    entries: Sequence[Item],
    named: Callable[[Item], str],
    make: Callable[[str, str, Sequence[Item], list[tuple[str, str]]], Page],
) -> Iterator[tuple[str, Callable[[], Page]]]:
    """Address and maker of a page of fluids or their drawings, or of each part of it.

    named: how an entry is called; make: makes one part from its address, its title, its entries
    and the links to all parts.
    """
    parts = in_parts(entries, FLUIDS)
    links = part_links(address, [named(entry) for part in parts for entry in part[:1]])
    for number, part in enumerate(parts, 1):
        here, called = part_address(address, number), part_title(title, number, len(parts))
        yield here, partial(make, here, called, part, links)
