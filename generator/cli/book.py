"""The commands about a book: site, check, preview, sheet."""

from __future__ import annotations

import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import click
from rich.console import Console

from generator.build import (
    build_site,
    check_recipes,
    compute_sheet,
    default_output,
    find_book,
    find_recipe,
    kitchen,
)
from generator.cli.amounts import (
    UNITS,
    amount_of,
    number,
    weight_g,
)
from generator.cli.output import BOOK_HAS_ERRORS, count, fail, print_json, print_problems, say
from generator.compute import NotScalable, Wish
from generator.model.book import Book
from generator.model.quantity import Dimension, Quantity
from generator.model.results import ComputedRecipe
from generator.problems import BookError, Problem, Severity
from generator.render.data import cautions_data, problem_data, sheet_data
from generator.render.text import caution_lines, sheet_text

BOOK_ARGUMENT = click.argument("book", required=False, type=click.Path(path_type=Path), default=Path("."))


@click.command()
@BOOK_ARGUMENT
@click.option(
    "--into", type=click.Path(path_type=Path), help="Folder to write to; output/ beside the book by default."
)
def site(book: Path, into: Path | None) -> None:
    """Read, check and compute a book, and write its site."""
    console = Console(stderr=True, highlight=False)
    try:
        folder = find_book(book)
        with console.status("potherb") as status:
            report = build_site(
                folder, into=into or default_output(folder), progress=lambda stage: status.update(stage)
            )
    except BookError as error:
        fail(error.problems)
        return
    print_problems(report.problems)
    say(
        f"{report.title}: {count(report.recipes, 'recipe')}, {count(report.pages, 'page')}, "
        f"{report.changed} changed, in {report.into}"
    )
    say(f"Open {report.into / 'index.html'}")


@click.command()
@BOOK_ARGUMENT
@click.option("--json", "as_json", is_flag=True, help="Print problems as JSON and nothing else.")
@click.option("--cautions", is_flag=True, help="Print the caution boxes of every recipe too.")
def check(book: Path, as_json: bool, cautions: bool) -> None:
    """Show every problem of a book at once; write nothing."""
    recipes: tuple[ComputedRecipe, ...] = ()
    try:
        problems, recipes = check_recipes(find_book(book))
    except BookError as error:
        problems = error.problems
    if as_json:
        found = [problem_data(problem) for problem in problems]
        print_json({"problems": found, "cautions": cautions_data(recipes)} if cautions else found)
    else:
        for line in caution_lines(recipes) if cautions else ():
            say(line)
        print_problems(problems)
        if not problems:
            say("No problems.")
    if any(problem.severity is Severity.ERROR for problem in problems):
        sys.exit(BOOK_HAS_ERRORS)


@click.command()
@BOOK_ARGUMENT
@click.option(
    "--port", type=click.IntRange(0, 65535), default=8000, show_default=True, help="0 takes a free one."
)
def preview(book: Path, port: int) -> None:
    """Show the site on this machine while you write, rebuilt on every save."""
    from generator.preview import preview_book

    try:
        folder = find_book(book)
    except BookError as error:
        fail(error.problems)
        return
    preview_book(folder, port=port, say=say, show_problems=print_problems)


@click.command()
@click.argument("recipe")
@click.option("--serves", help="Servings wanted.")
@click.option("--makes", help="How much to make: a weight, a volume or a count.")
@click.option("--batches", help="How many times the written amounts.")
@click.option("--meat", help="The green weight on your scale.")
@click.option("--water", help="The water of the brine in your vessel; goes with any of the others.")
@click.option("--units", type=UNITS, help="Units to show; the book's own by default.")
@click.option("--into", type=click.Path(path_type=Path), help="Write a .html or .pdf file.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON and nothing else.")
def sheet(recipe: str, as_json: bool, units: str | None, into: Path | None, **wishes: str | None) -> None:
    """One recipe, scaled, ready to print."""
    _one_at_a_time(wishes)
    try:
        folder, slug = find_recipe(recipe, Path("."))
        computed, book = compute_sheet(folder, slug, lambda found: _wish(found, slug, **wishes))
    except BookError as error:
        if as_json:
            print_json({"problems": [problem_data(problem) for problem in error.problems]})
            sys.exit(BOOK_HAS_ERRORS)
        fail(error.problems)
        return
    except NotScalable as error:
        problem = Problem(slug="not-scalable", message=str(error), hint=error.hint)
        if as_json:
            print_json({"problems": [problem_data(problem)]})
            sys.exit(BOOK_HAS_ERRORS)
        fail((problem,))
        return
    shown_in = units or book.book.config.units
    if into is not None:
        _write_sheet(into, computed, book, shown_in)
    elif as_json:
        print_json(sheet_data(computed, shown_in))
    else:
        say(sheet_text(computed, book, shown_in))
    if any(problem.is_error for problem in computed.problems):
        if not as_json:
            print_problems(computed.problems)
        sys.exit(BOOK_HAS_ERRORS)


def _write_sheet(into: Path, computed: Any, book: Any, units: str) -> None:
    from generator.render import load_theme, render_sheet
    from generator.write.pdf import PdfNotInstalled, write_pdf

    html = render_sheet(
        computed, book, tables=kitchen().tables, theme=load_theme(book.book.config.theme), units=units
    )
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


def _one_at_a_time(wishes: dict[str, str | None]) -> None:
    given = [f"--{name}" for name, value in wishes.items() if value is not None and name != "water"]
    if len(given) > 1:
        raise click.UsageError(f"{' and '.join(given)} cannot go together: scale one way at a time.")


def _made(book: Book, slug: str, text: str) -> Quantity:
    """`6 qt`, or `8 shanks` in the recipe's own word for what it makes."""
    makes = book.recipes[slug].makes
    noun = makes.noun.lower() if makes else ""
    words = text.strip().lower()
    for ending in (noun, noun.removesuffix("s")):
        if ending and words.endswith(f" {ending}"):
            text = words.removesuffix(ending)
            break
    return amount_of("--makes", text, book.config.units, book.config.language)


def _wish(
    book: Book,
    slug: str,
    *,
    serves: str | None,
    makes: str | None,
    batches: str | None,
    meat: str | None,
    water: str | None,
) -> Wish:
    """The wish that was typed, read in the units and the language of the book."""
    units = book.config.units
    return Wish(
        serves=number("--serves", serves),
        batches=number("--batches", batches),
        makes=None if makes is None else _made(book, slug, makes),
        meat_g=None if meat is None else weight_g("--meat", meat, units, book.config.language),
        water_g=None if water is None else _water_g(water, book),
    )


def _water_g(text: str, book: Book) -> Fraction:
    """Water by weight or by volume, 1 g per mL."""
    amount = amount_of("--water", text, book.config.units, book.config.language)
    for kind in (Dimension.WEIGHT, Dimension.VOLUME):
        total = amount.total(kind)
        if total is not None and not total.is_range and total.low > 0:
            return total.low
    raise click.UsageError(f"--water takes one volume or weight above 0, such as 6qt or 5L, not '{text}'.")
