"""What the hospital of this copy keeps, what it calls it, and which limits it draws tighter."""

from typing import Any

from isofolio.entries.lists import Limit
from isofolio.entries.stock import Kept, Stock
from isofolio.handbook import Handbook
from isofolio.pages.citations import cited
from isofolio.pages.page import DRAFT, Page, rendered
from isofolio.wording.addresses import STOCK, entry_address
from isofolio.wording.figures import typeset


def stock_page(handbook: Handbook, stock: Stock) -> Page:
    """What the hospital keeps whose stock is laid over the catalogue."""
    limits = handbook.catalogue.limits
    context = {
        "hospital": stock.name,
        "note": stock.note or "",
        "kept": [_kept(handbook, one) for one in stock.fluids],
        "not_kept": len(handbook.fluids) - len(stock.fluids),
        "limits": [_limit(handbook, limits[one.limit]) for one in stock.limits],
        "draft": DRAFT,
        "date": handbook.date,
        "digest": handbook.digest,
    }
    return Page(
        path=STOCK,
        title=f"What {stock.name} keeps",
        description="What is kept in which sizes and where, and which limits are drawn tighter.",
        body=rendered("stock.html", STOCK, context),
    )


def _kept(handbook: Handbook, one: Kept) -> dict[str, Any]:
    fluid = handbook.catalogue.fluids[one.fluid]
    sizes = [typeset(container.volume.text) for container in fluid.containers]
    return {
        "name": typeset(fluid.name),
        "address": entry_address("fluids", fluid.id),
        "local": " · ".join(one.local_names),
        "sizes": ", ".join(dict.fromkeys(sizes)),
        "wards": ", ".join(one.wards),
        "note": one.note or "",
    }


def _limit(handbook: Handbook, limit: Limit) -> dict[str, Any]:
    """A limit as it holds here; its text tells who drew it there, and why."""
    return {
        "value": typeset(limit.value.text),
        "text": typeset(limit.text),
        "cited": cited(limit.cite, handbook.catalogue),
    }
