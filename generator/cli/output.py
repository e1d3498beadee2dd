"""Results and problems in, what a person reads at a prompt out."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click
from rich.console import Console

from generator.problems import Problem, visible

BOOK_HAS_ERRORS = 1
"Exit code; click gives 2 by itself for words it does not know."


def say(text: str = "") -> None:
    """A text on stdout; the name of a file may hold bytes that no terminal takes."""
    click.echo(visible(text))


def print_json(data: object) -> None:
    """Data on stdout, readable in every language."""
    click.echo(visible(json.dumps(data, indent=2, ensure_ascii=False)))


def print_problems(problems: tuple[Problem, ...]) -> None:
    """Problems on stderr: place, severity, sentence, slug, and what to do; colour where a person looks on."""
    console = Console(stderr=True, highlight=False, soft_wrap=True, emoji=False)
    for problem in problems:
        style = "bold red" if problem.is_error else "bold yellow"
        if problem.position is not None:
            console.print(f"{problem.position}: ", end="", markup=False)
        console.print(problem.severity.value, style=style, end="", markup=False)
        console.print(f": {problem.message} [{problem.slug}]", markup=False)
        if problem.hint:
            console.print(f"    {problem.hint}", markup=False)
    errors = sum(problem.is_error for problem in problems)
    if problems:
        warnings = len(problems) - errors
        console.print(f"{count(errors, 'error')}, {count(warnings, 'warning')}", markup=False)


def count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def fail(problems: tuple[Problem, ...]) -> None:
    print_problems(problems)
    sys.exit(BOOK_HAS_ERRORS)


def write_page(into: Path, html: str) -> None:
    """One document to a .html or a .pdf file."""
    from generator.write.files import PdfNotInstalled, write_pdf

    if into.suffix not in (".html", ".pdf"):
        raise click.UsageError(f"--into takes a .html or a .pdf file, not '{into.name}'.")
    try:
        if into.suffix == ".html":
            into.write_text(html, encoding="utf-8")
        else:
            write_pdf(html, into)
    except PdfNotInstalled as error:
        raise click.UsageError(str(error)) from error
    except OSError as error:
        raise click.UsageError(f"--into '{into}' cannot be written: {error.strerror or error}.") from error
    say(f"Wrote {into}")
