"""Write the golden tables anew: `make golden`. Read the diff before you commit."""

from pathlib import Path

from isofolio.handbook import open_handbook
from isofolio.review.golden import golden_tables

HERE = Path(__file__).parent
CATALOGUE = HERE.parents[1] / "catalogue"


def main() -> None:
    """Write every table, and say how many lines each has."""
    opened = open_handbook(CATALOGUE)
    if opened.handbook is None:
        raise SystemExit("The catalogue has problems: run isofolio check first.")
    for name, text in golden_tables(opened.handbook).items():
        (HERE / name).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
