"""Words typed at a prompt in, text and an exit code out. What is worked out is worked out elsewhere."""

from __future__ import annotations

import io
import sys

import click

from generator import __version__
from generator.cli.book import check, preview, site, start
from generator.cli.cure import cure
from generator.cli.sheet import sheet

COMMANDS = (start, site, check, preview, sheet, cure)
"In the order of the README."


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="potherb")
def main() -> None:
    """Turn a folder of Markdown recipes into a family's wild-food book."""
    if isinstance(sys.stdout, io.TextIOWrapper):  # a dash must not end the program where stdout lacks it
        sys.stdout.reconfigure(errors="backslashreplace")


for command in COMMANDS:
    main.add_command(command)

__all__ = ["main"]
