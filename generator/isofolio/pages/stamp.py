"""What a page says of its review stamp: who checked it, and until when; else that nobody has."""

from isofolio.entries.records import Entry
from isofolio.entries.stamps import stamp_of, state
from isofolio.pages.page import DRAFT

CHANGED = "Draft: changed since it was checked; not yet checked again by a pharmacist or doctor."


def stamp_line(record: Entry) -> str:
    """The line near the top of an entry, and at its foot."""
    stamp = stamp_of(record)
    if stamp.state == "draft":
        return DRAFT
    if state(record) == "draft":
        return CHANGED
    who = f"{stamp.by} and {stamp.second}" if stamp.second else stamp.by
    return f"Checked by {who} on {stamp.on}; to be checked again by {stamp.due}."
