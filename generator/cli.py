"""Words typed at a prompt in, text and an exit code out. What is worked out is worked out elsewhere."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import click
from rich.console import Console

from generator import __version__
from generator.build import (
    build_site,
    check_book,
    compute_sheet,
    default_output,
    find_book,
    find_recipe,
    kitchen,
)
from generator.compute import NotScalable, Wish
from generator.compute.cure import CureInput, work_out_cure
from generator.compute.cure.amounts import Scales, water_g
from generator.model.book import Book
from generator.model.published import CuringSalt
from generator.model.quantity import Dimension, Quantity
from generator.model.recipe import CureLine
from generator.problems import BookError, Position, Problem, ProblemLog, Severity
from generator.read import AmountError, parse_amount, parse_cure_value, parse_water
from generator.render.data import cure_data, problem_data, sheet_data
from generator.render.text import cure_text, sheet_text

OK, BOOK_HAS_ERRORS, WRONG_COMMAND = 0, 1, 2
"Exit codes; click gives 2 by itself for words it does not know."

UNITS = click.Choice(["us", "metric", "imperial"])

BOOK_ARGUMENT = click.argument("book", required=False, type=click.Path(path_type=Path), default=Path("."))


def _say(text: str = "") -> None:
    click.echo(text)


def _print_json(data: object) -> None:
    click.echo(json.dumps(data, indent=2, ensure_ascii=False))


def _print_problems(problems: tuple[Problem, ...]) -> None:
    """Problems on stderr: place, severity, sentence, slug, and what to do; colour where a person looks on."""
    console = Console(stderr=True, highlight=False, soft_wrap=True)
    for problem in problems:
        style = "bold red" if problem.is_error else "bold yellow"
        console.print(_place(problem.position), end="", markup=False)
        console.print(problem.severity.value, style=style, end="", markup=False)
        console.print(f": {problem.message} [{problem.slug}]", markup=False)
        if problem.hint:
            console.print(f"    {problem.hint}", markup=False)
    errors = sum(problem.is_error for problem in problems)
    if problems:
        warnings = len(problems) - errors
        console.print(f"{_count(errors, 'error')}, {_count(warnings, 'warning')}", markup=False)


def _place(position: Position | None) -> str:
    return f"{position.file}:{position.line}:{position.column}: " if position else ""


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def _fail(problems: tuple[Problem, ...]) -> None:
    _print_problems(problems)
    sys.exit(BOOK_HAS_ERRORS)


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="potherb")
def main() -> None:
    """Turn a folder of Markdown recipes into a family's wild-food book."""


@main.command()
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
        _fail(error.problems)
        return
    _print_problems(report.problems)
    _say(
        f"{report.title}: {_count(report.recipes, 'recipe')}, {_count(report.pages, 'page')}, "
        f"{report.changed} changed, in {report.into}"
    )
    _say(f"Open {report.into / 'index.html'}")


@main.command()
@BOOK_ARGUMENT
@click.option("--json", "as_json", is_flag=True, help="Print problems as JSON and nothing else.")
def check(book: Path, as_json: bool) -> None:
    """Show every problem of a book at once; write nothing."""
    try:
        problems = check_book(find_book(book))
    except BookError as error:
        problems = error.problems
    if as_json:
        _print_json([problem_data(problem) for problem in problems])
    elif problems:
        _print_problems(problems)
    else:
        _say("No problems.")
    if any(problem.severity is Severity.ERROR for problem in problems):
        sys.exit(BOOK_HAS_ERRORS)


@main.command()
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
        _fail(error.problems)
        return
    preview_book(folder, port=port, say=_say, show_problems=_print_problems)


@main.command()
@click.argument("recipe")
@click.option("--serves", help="Servings wanted.")
@click.option("--makes", help="How much to make: a weight, a volume or a count.")
@click.option("--batches", help="How many times the written amounts.")
@click.option("--meat", help="The green weight on your scale.")
@click.option("--units", type=UNITS, help="Units to show; the book's own by default.")
@click.option("--into", type=click.Path(path_type=Path), help="Write a .html or .pdf file.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON and nothing else.")
def sheet(recipe: str, as_json: bool, units: str | None, into: Path | None, **wishes: str | None) -> None:
    """One recipe, scaled, ready to print."""
    _one_at_a_time(wishes)
    try:
        folder, slug = find_recipe(recipe, Path("."))
        computed, book = compute_sheet(folder, slug, lambda found: _wish(found, **wishes))
    except BookError as error:
        if as_json:
            _print_json({"problems": [problem_data(problem) for problem in error.problems]})
            sys.exit(BOOK_HAS_ERRORS)
        _fail(error.problems)
        return
    except NotScalable as error:
        problem = Problem(slug="not-scalable", message=str(error), hint=error.hint)
        if as_json:
            _print_json({"problems": [problem_data(problem)]})
            sys.exit(BOOK_HAS_ERRORS)
        _fail((problem,))
        return
    shown_in = units or book.book.config.units
    if into is not None:
        _write_sheet(into, computed, book, shown_in)
    elif as_json:
        _print_json(sheet_data(computed, shown_in))
    else:
        _say(sheet_text(computed, book, shown_in))
    if any(problem.is_error for problem in computed.problems):
        if not as_json:
            _print_problems(computed.problems)
        sys.exit(BOOK_HAS_ERRORS)


def _write_sheet(into: Path, computed: Any, book: Any, units: str) -> None:
    from generator.render import load_theme, render_sheet
    from generator.write.pdf import PdfNotInstalled, write_pdf

    html = render_sheet(
        computed, book, tables=kitchen().tables, theme=load_theme(book.book.config.theme), units=units
    )
    if into.suffix == ".html":
        into.write_text(html, encoding="utf-8")
    elif into.suffix == ".pdf":
        try:
            write_pdf(html, into)
        except PdfNotInstalled as error:
            raise click.UsageError(str(error)) from error
    else:
        raise click.UsageError(f"--into takes a .html or a .pdf file, not '{into.name}'.")
    _say(f"Wrote {into}")


def _one_at_a_time(wishes: dict[str, str | None]) -> None:
    given = [f"--{name}" for name, value in wishes.items() if value is not None]
    if len(given) > 1:
        raise click.UsageError(f"{' and '.join(given)} cannot go together: scale one way at a time.")


def _wish(
    book: Book, *, serves: str | None, makes: str | None, batches: str | None, meat: str | None
) -> Wish:
    """The one wish that was typed, read in the units and the language of the book."""
    units = book.config.units
    return Wish(
        serves=_number("--serves", serves),
        batches=_number("--batches", batches),
        makes=None if makes is None else _amount("--makes", makes, units, book.config.language),
        meat_g=None if meat is None else _weight("--meat", meat, units, book.config.language),
    )


def _number(option: str, text: str | None) -> Fraction | None:
    if text is None:
        return None
    quantity = _amount(option, text, "us", "en")
    total = quantity.total(Dimension.COUNT)
    if total is None or total.is_range or total.low <= 0:
        raise click.UsageError(f"{option} takes one number above 0, not '{text}'.")
    return total.low


def _amount(option: str, text: str, units: str, language: str = "en") -> Quantity:
    try:
        return parse_amount(text, system=units, language=language, tables=kitchen().tables)
    except AmountError as error:
        raise click.UsageError(f"{option} '{text}': {error.message} {error.hint}".strip()) from error


def _weight(option: str, text: str, units: str, language: str = "en") -> Fraction:
    weight = _amount(option, text, units, language).total(Dimension.WEIGHT)
    if weight is None or weight.is_range or weight.low <= 0:
        raise click.UsageError(f"{option} takes one weight above 0, such as 2.4kg or 5lb, not '{text}'.")
    return weight.low


@main.group()
def cure() -> None:
    """Work out a cure at the table, without a book."""


CURE_OPTIONS: tuple[Callable[[Any], Any], ...] = (
    click.option("--meat", help="Green weight: 2.4kg, 5lb."),
    click.option("--salt", help="3%, or an amount: 500g."),
    click.option("--sugar", help="1.5%, or an amount."),
    click.option("--curing-salt", help="150ppm, or an amount: 22g."),
    click.option(
        "--cut", type=click.Choice(["whole", "ground", "belly"]), default="whole", show_default=True
    ),
    click.option("--kind", help="Curing salt by its number or name.  [default: no. 1]"),
    click.option("--nitrite", help="Or by its share of sodium nitrite: 6.25%."),
    click.option(
        "--units", type=UNITS, default="us", show_default=True, help="Whose cups, pints and gallons."
    ),
    click.option("--json", "as_json", is_flag=True, help="Print JSON and nothing else."),
)


def _cure_options(command: Callable[..., None]) -> Callable[..., None]:
    for option in reversed(CURE_OPTIONS):
        command = option(command)
    return command


@cure.command()
@_cure_options
@click.option("--water", help="All the water: 4L, '1qt hot + 2qt cold + 1lb ice'.")
@click.option("--pump", help="Brine to inject, of the green weight: 8%.")
def brine(**options: Any) -> None:
    """Meat left in a brine until salt and nitrite are even."""
    _cure("brine", **options)


@cure.command()
@_cure_options
def dry(**options: Any) -> None:
    """Meat rubbed with weighed salt."""
    _cure("dry", water=None, pump=None, **options)


def _cure(
    method: str,
    *,
    meat: str | None,
    water: str | None,
    salt: str | None,
    sugar: str | None,
    curing_salt: str | None,
    cut: str,
    kind: str | None,
    nitrite: str | None,
    pump: str | None,
    units: str,
    as_json: bool,
) -> None:
    log = ProblemLog()
    poured = None if water is None else _water(water, units)
    given = CureInput(
        method=method,
        cut=cut,
        kind=_kind(kind, nitrite),
        salt=_cure_line("salt", salt, method, units),
        sugar=_cure_line("sugar", sugar, method, units),
        curing_salt=_cure_line("curing salt", curing_salt, method, units),
        meat_g=None if meat is None else _weight("--meat", meat, units),
        water_g=None if poured is None else water_g(poured, log),
        pump_percent=None if pump is None else _percent("--pump", pump),
    )
    result = work_out_cure(given, Scales(tables=kitchen().tables), kitchen().shower)
    if as_json:
        _print_json(cure_data(result))
    else:
        _say(cure_text(result, kitchen().tables))
        _print_problems(result.problems)
    if any(problem.is_error for problem in (*log, *result.problems)):
        sys.exit(BOOK_HAS_ERRORS)


def _water(text: str, units: str) -> Quantity:
    try:
        return parse_water(text, system=units, language="en", tables=kitchen().tables)
    except AmountError as error:
        raise click.UsageError(f"--water '{text}': {error.message} {error.hint}".strip()) from error


def _cure_line(which: str, text: str | None, method: str, units: str) -> CureLine | None:
    if text is None:
        return None
    try:
        return parse_cure_value(
            text, which, method=method, system=units, language="en", tables=kitchen().tables
        )
    except AmountError as error:
        option = f"--{which.replace(' ', '-')}"
        raise click.UsageError(f"{option} '{text}': {error.message} {error.hint}".strip()) from error


def _kind(kind: str | None, nitrite: str | None) -> CuringSalt:
    """A curing salt of the table, or one made up of a stated share of nitrite and the rest salt."""
    tables = kitchen().tables
    if kind is not None and nitrite is not None:
        raise click.UsageError("--kind and --nitrite cannot go together: name the salt or its nitrite.")
    if nitrite is None:
        found = tables.curing_salt(kind or "no. 1")
        if found is None:
            known = ", ".join(salt.key for salt in tables.curing_salts)
            raise click.UsageError(
                f"--kind '{kind}' is not a curing salt that Potherb knows. Known: {known}."
            )
        return found
    share = _percent("--nitrite", nitrite) / 100
    if not 0 < share <= 1:
        raise click.UsageError(f"--nitrite takes a share above 0 % and up to 100 %, not '{nitrite}'.")
    return CuringSalt(
        key=f"{nitrite} nitrite",
        names=(),
        title=f"curing salt with {nitrite.replace('%', '').strip()} % sodium nitrite",
        nitrite=share,
        nitrate=Fraction(0),
        salt=1 - share,
        source="own-composition",
        locator="--nitrite",
    )


def _percent(option: str, text: str) -> Fraction:
    if not text.strip().endswith("%"):
        raise click.UsageError(f"{option} takes a share in per cent, such as 8%, not '{text}'.")
    number = _number(option, text.strip().removesuffix("%").strip())
    assert number is not None
    return number
