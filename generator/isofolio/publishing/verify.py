"""Whether a copy of the site is what was built: no file changed, missing or extra, no dead link."""

from collections import Counter
from pathlib import Path

from isofolio.publishing.checksums import CHECKSUMS, digest_of
from isofolio.publishing.copies import Copy, open_copy
from isofolio.publishing.links import Links, dead_links, links_of_file
from isofolio.publishing.lock import LOCK
from isofolio.publishing.state import STATE, Publish, kept_files, parse_state


def faults_of_copy(place: Path) -> list[str]:
    """What is wrong with a copy, one sentence each. Raises CopyError where there is none."""
    with open_copy(place) as copy:
        listed = copy.checksums()
        faults, publishes = _faults_of_state(copy)
        kept = {
            path: digest for path, digest in kept_files(publishes).items() if path not in listed
        }
        present = set(copy.names)
        links: dict[str, Links] = {}
        for path, digest in {**listed, **kept}.items():
            content = copy.read(path) if path in present else None
            if content is None:
                faults += [] if path in kept else [f"{path}: missing."]
            elif digest_of(content) != digest:
                faults.append(f"{path}: changed, it is not what was built.")
            elif path in listed and (found := links_of_file(path, content)):
                links[path] = found
        known = {*listed, *kept, CHECKSUMS, STATE, LOCK}
        faults += [f"{name}: extra, it is not part of the copy." for name in _extra(copy, known)]
        return sorted(faults) + dead_links(links, known & present)


def _extra(copy: Copy, known: set[str]) -> list[str]:
    """Names that the copy should not hold, or that a zip file holds twice."""
    counted = Counter(copy.names).items()
    return [name for name, count in counted if name not in known or count > 1]


def _faults_of_state(copy: Copy) -> tuple[list[str], tuple[Publish, ...]]:
    """What the state file of a published copy says; nothing for a plain site or a bundle."""
    faults = [f"{LOCK}: somebody is publishing, or was cut short."] if LOCK in copy.names else []
    if STATE not in copy.names:
        return faults, ()
    try:
        publishes = parse_state(copy.read(STATE) or b"")
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        return [*faults, f"{STATE}: damaged ({error})."], ()
    if publishes and not publishes[0].finished:
        faults.append(f"{STATE}: the last publish was cut short. Publish again.")
    return faults, publishes
