"""A gathering's name in; its plan on the terminal, as JSON or as one document to print out."""

from __future__ import annotations

import sys
from pathlib import Path

from generator.build import compute_gathering, kitchen
from generator.cli.output import BOOK_HAS_ERRORS, print_json, print_problems, say, write_page
from generator.render import load_theme, render_gathering
from generator.render.gathering_data import gathering_data
from generator.render.gathering_text import gathering_text


def give_gathering(folder: Path, slug: str, *, units: str | None, into: Path | None, as_json: bool) -> None:
    """Plan it and print it; exit code 1 where it cannot be met. Raises BookError for errors of its files."""
    plan, book = compute_gathering(folder, slug)
    units = units or book.book.config.units
    if into is not None:
        theme = load_theme(book.book.config.theme)
        write_page(into, render_gathering(plan, book, tables=kitchen().tables, theme=theme, units=units))
    elif as_json:
        print_json(gathering_data(plan, units))
    else:
        say(gathering_text(plan, book, units, kitchen().tables))
    if any(problem.is_error for problem in plan.problems):
        if into is not None or not as_json:
            print_problems(plan.problems)
        sys.exit(BOOK_HAS_ERRORS)
