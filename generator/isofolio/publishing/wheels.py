"""A folder of wheels, listed with their digests: an installation with no network and no trust in
the way it came. `make wheels` fills the folder and calls this.
"""

import sys
from collections import defaultdict
from pathlib import Path

from packaging.utils import InvalidWheelFilename, parse_wheel_filename

from isofolio.publishing.checksums import digest_of

LIST = "requirements.txt"


def hashed_requirements(folder: Path) -> str:
    """A line for each package in the folder, with the digest of each of its wheels.

    Form: what pip reads with --require-hashes. Raises ValueError for a folder without wheels, or
    with a package in any other form: only a wheel installs without building.
    """
    digests: dict[str, list[str]] = defaultdict(list)
    for path in sorted(folder.iterdir()):
        if path.name == LIST:
            continue
        try:
            name, version, _, _ = parse_wheel_filename(path.name)
        except InvalidWheelFilename:
            raise ValueError(f"{path} is no wheel. Leave only wheels in {folder}.") from None
        digests[f"{name}=={version}"].append(digest_of(path.read_bytes()))
    if not digests:
        raise ValueError(f"There is no wheel in {folder}.")
    return "".join(
        f"{pinned} {' '.join(f'--hash=sha256:{digest}' for digest in sorted(found))}\n"
        for pinned, found in sorted(digests.items())
    )


def main(folder: Path) -> None:
    """Write the list into the folder."""
    try:
        (folder / LIST).write_text(hashed_requirements(folder), encoding="utf-8", newline="\n")
    except (OSError, ValueError) as error:
        sys.exit(str(error))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
