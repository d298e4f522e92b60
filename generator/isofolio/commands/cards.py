"""Cards to print."""

from pathlib import Path

import click

from isofolio.commands.places import Places, fail, open_or_end, with_places


@click.command()
@click.argument("fluids", nargs=-1, required=True, metavar="FLUID...")
@click.option("--out", type=click.Path(path_type=Path), help="A folder; without it, this one.")
@click.option("--stock", metavar="HOSPITAL", help="As the stock of one hospital has it.")
@with_places
def card(places: Places, fluids: tuple[str, ...], out: Path | None, stock: str | None) -> None:
    """Write the one-page cards of chosen fluids into one file to print."""
    from isofolio.pages.card import CARD_STYLES, cards_file

    handbook = open_or_end(places, "No card was written", stock)
    unknown = [one for one in fluids if one not in handbook.catalogue.fluids]
    if unknown:
        fail(
            f"No fluid has the id {', '.join(unknown)}. An id is the name of a file in "
            "catalogue/fluids, without .yml."
        )
    target = (out or Path.cwd()) / "cards.html"
    try:
        styles = [(places.project / one).read_text(encoding="utf-8") for one in CARD_STYLES]
        text = cards_file(handbook, tuple(dict.fromkeys(fluids)), styles)
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        fail(f"{error.filename}: {error.strerror}. Nothing was written; name a folder with --out.")
    click.echo(f"Written to {target}: open it and print.")
