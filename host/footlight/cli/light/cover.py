"""`footlight light cover`"""

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json
from footlight.light.coverage import projected


@click.command
@click.argument("sheet")
@click.argument("height")
@click.option("--carrier", metavar="SIZE", required=True, help="The opening of the carrier: '57 x 57 mm'.")
@click.option("--lens", metavar="LENGTH", required=True, help="Focal length: '80 mm'.")
@click.option(
    "--margin", metavar="LENGTH", default="10 mm", show_default=True, help="Light wanted beyond each edge."
)
@json_option
def command(sheet: str, height: str, carrier: str, lens: str, margin: str, as_json: bool) -> None:
    """Does the light cover a SHEET at a HEIGHT, with a margin for a wet sheet placed by hand?

    The head is taken as focused on the sheet.

    \b
        footlight light cover 8x10 "500 mm" --carrier "57 x 57 mm" --lens "80 mm"
    """
    found = projected(
        q.parse_sheet(carrier, "--carrier"),
        q.parse_length_mm(lens, "--lens"),
        q.parse_length_mm(height, "HEIGHT"),
        q.parse_sheet(sheet, "SHEET"),
        q.parse_length_mm(margin, "--margin"),
    )
    if as_json:
        print_json(
            {
                "covers": found.covers,
                "patch_mm": [round(found.width_mm, 1), round(found.height_mm, 1)],
                "margin_mm": round(found.margin_mm, 1),
                "least_height_mm": round(found.least_lens_to_sheet_mm, 1),
            }
        )
        return
    click.echo(found.summary)
