"""`isolator pad` and `isolator materials`: one pad, and what is known of materials."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from isolator.cli.app import Json, Quiet, app, examples
from isolator.cli.tell import print_json, show


@app.command(
    context_settings={"ignore_unknown_options": True},
    short_help="Tell the stiffness of one pad.",
    epilog=examples(
        'isolator pad nr-50 disc 30mm 10mm --load "29 N"',
        'isolator pad "2 MPa" ring 42mm 24mm 3mm',
    ),
)
def pad(
    material: Annotated[
        str, typer.Argument(help="A card's id, a card's file, or a modulus such as \"2 MPa\".")
    ],
    shape: Annotated[str, typer.Argument(help="disc, ring, rectangle or square-with-hole.")],
    size: Annotated[list[str], typer.Argument(help="Sizes, the thickness last: 30mm 10mm.")],
    load: Annotated[str, typer.Option("--load", help="Load it carries.")] = "0 N",
    bonded: Annotated[
        bool, typer.Option("--bonded/--slipping", help="Faces glued, or free to slip.")
    ] = True,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Tell the stiffness of one pad."""
    from isolator.commands import pad_and_cards

    figures = pad_and_cards.pad(material, shape, size, load, bonded=bonded)
    if as_json:
        print_json({"pad": pad_and_cards.pad_json(figures)})
    elif not quiet:
        from isolator.report.terminal.summary import pad_table

        show(
            pad_table(
                pad_and_cards.pad_title(material, shape, size, load, bonded),
                pad_and_cards.pad_rows(figures, pad_and_cards.find_material(material)),
            )
        )


@app.command(
    short_help="List the material cards, or show one.",
    epilog=examples("isolator materials", "isolator materials sponge-2"),
)
def materials(
    ident: Annotated[
        str | None, typer.Argument(metavar="[ID]", help="One card; without, all are listed.")
    ] = None,
    cards: Annotated[Path | None, typer.Option("--cards", help="Folder of your own cards.")] = None,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """List the material cards, or show one with its sources."""
    from isolator.commands import pad_and_cards

    found = pad_and_cards.cards(ident, cards)
    if as_json:
        print_json(pad_and_cards.cards_json(found, whole=ident is not None))
    elif not quiet:
        show(pad_and_cards.cards_shown(found, whole=ident is not None))
