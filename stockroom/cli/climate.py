"""`stockroom climate`: how warm and damp it was where film is kept."""

import typer

from stockroom.cli import climate_feeds

app = typer.Typer(help="How warm and damp it was where film is kept.")

app.command("import")(climate_feeds.import_)
app.command()(climate_feeds.listen)
