"""The command about one recipe: its sheet, its smoker's sheet, labels for its bags; and about one gathering: its plan."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

import click

from generator.build import compute_gathering, compute_sheet, find_gathering, find_recipe, kitchen
from generator.cli.amounts import UNITS, amount_of, plain_number, water_weight_g, weight_g
from generator.cli.output import BOOK_HAS_ERRORS, fail, print_json, print_problems, say, write_page
from generator.compute import LineWish, NotScalable, Wish
from generator.compute.clock import is_timed, times_from, times_until, uncounted
from generator.model.book import Book
from generator.model.moment import Moment, StageTime
from generator.model.plan import Plan
from generator.model.quantity import Quantity
from generator.model.recipe import Recipe
from generator.model.results import ComputedBook, ComputedRecipe
from generator.problems import BookError, Problem
from generator.read import AmountError, certain, parse_moment
from generator.render import (
    PAPERS,
    LabelError,
    label_grid,
    load_theme,
    make_context,
    render_gathering,
    render_labels,
    render_sheet,
    render_smoker,
)
from generator.render.context import Context
from generator.render.course import clock_lines, times_data
from generator.render.data import problem_data, sheet_data
from generator.render.label_grid import Pair
from generator.render.plans import gathering_data, gathering_text
from generator.render.text import sheet_text

SHEET_OPTIONS: tuple[Callable[[Any], Any], ...] = (
    click.option("--serves", help="Servings wanted."),
    click.option("--makes", help="How much to make: a weight, a volume or a count."),
    click.option("--batches", help="How many times the written amounts."),
    click.option("--meat", help="The green weight on your scale."),
    click.option(
        "--line", help="So much of one line, such as cabbage=8lb; or of a whole that lines are shares of."
    ),
    click.option("--water", help="The water of the brine in your vessel; goes with any of the others."),
    click.option("--units", type=UNITS, help="Units to show; the book's own by default."),
    click.option(
        "--start", help="Clock times from then on: '2026-12-05 08:00', a zone behind it if you like."
    ),
    click.option("--ready", help="Clock times up to then."),
    click.option("--smoker", is_flag=True, help="The smoker's sheet of a cured recipe; with --into."),
    click.option("--labels", type=int, help="So many labels for bags; with --into."),
    click.option("--label-size", help="Width and height of a label in mm.  [default: 63.5x38.1]"),
    click.option("--label-gap", help="Space between labels in mm, across and down.  [default: 0,0]"),
    click.option("--label-offset", help="Move all labels right and down by so many mm.  [default: 0,0]"),
    click.option(
        "--label-paper",
        type=click.Choice(sorted(PAPERS)),
        help="The book's own by default; a4 where that is a5.",
    ),
    click.option("--into", type=click.Path(path_type=Path), help="Write a .html or .pdf file."),
    click.option("--json", "as_json", is_flag=True, help="Print JSON and nothing else."),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the words typed ask for, besides the recipe and its scale."""

    units: str | None
    start: str | None
    ready: str | None
    smoker: bool
    labels: int | None
    label_size: str | None
    label_gap: str | None
    label_offset: str | None
    label_paper: str | None
    into: Path | None
    as_json: bool


def _sheet_options(command: Callable[..., None]) -> Callable[..., None]:
    for option in reversed(SHEET_OPTIONS):
        command = option(command)
    return command


@click.command()
@click.argument("recipe")
@_sheet_options
def sheet(recipe: str, water: str | None, **words: Any) -> None:
    """One recipe, scaled, ready to print; or a gathering with its plan."""
    wishes = {name: words.pop(name) for name in ("serves", "makes", "batches", "meat", "line")}
    asked = Asked(**words)
    _check(asked, wishes)
    wishes["water"] = water
    start, ready = _moment("--start", asked.start), _moment("--ready", asked.ready)
    try:
        gathering = find_gathering(recipe, Path("."))
        if gathering is not None:
            _refuse_scaling(asked, wishes)
            give_gathering(*gathering, units=asked.units, into=asked.into, as_json=asked.as_json)
            return
        folder, slug = find_recipe(recipe, Path("."))
        computed, book = compute_sheet(folder, slug, lambda found: _wish(found, slug, **wishes))
    except BookError as error:
        _fail(error.problems, asked)
        return
    except NotScalable as error:
        _fail((Problem(slug="not-scalable", message=str(error), hint=error.hint),), asked)
        return
    _give(asked, computed, book, _times(computed.recipe, start, ready))
    if any(problem.is_error for problem in computed.problems):
        if not asked.as_json:
            print_problems(computed.problems)
        sys.exit(BOOK_HAS_ERRORS)


def _refuse_scaling(asked: Asked, wishes: dict[str, str | None]) -> None:
    """A gathering is scaled by its guests and timed by its date."""
    of_recipes = {**wishes, "start": asked.start, "ready": asked.ready, "labels": asked.labels}
    given = [f"--{name}" for name, value in of_recipes.items() if value is not None]
    given += ["--smoker"] if asked.smoker else []
    if given:
        raise click.UsageError(
            f"{given[0]} is for a recipe: a gathering takes its scale and its times from its file."
        )


def _fail(problems: tuple[Problem, ...], asked: Asked) -> None:
    if asked.as_json:
        print_json({"problems": [problem_data(problem) for problem in problems]})
        sys.exit(BOOK_HAS_ERRORS)
    fail(problems)


def _check(asked: Asked, wishes: dict[str, str | None]) -> None:
    """Refuse options that say two things at once, or that would do nothing."""
    _one_at_a_time(wishes, "scale one way at a time")
    _one_at_a_time({"start": asked.start, "ready": asked.ready}, "count from one end")
    printed = {"smoker": asked.smoker or None, "labels": asked.labels}
    _one_at_a_time({**printed, "json": asked.as_json or None}, "one kind of output at a time")
    for name, value in printed.items():
        if value is not None and asked.into is None:
            raise click.UsageError(f"--{name} needs --into FILE.html or FILE.pdf.")
    if asked.labels is None:
        for name in ("label_size", "label_gap", "label_offset", "label_paper"):
            if getattr(asked, name) is not None:
                raise click.UsageError(f"--{name.replace('_', '-')} needs --labels.")
    if asked.into is not None and not asked.smoker and (asked.start or asked.ready):
        raise click.UsageError(
            "Clock times stand on the terminal, in --json and on the smoker's sheet: add --smoker."
        )


def _one_at_a_time(options: dict[str, Any], how: str) -> None:
    given = [f"--{name}" for name, value in options.items() if value is not None]
    if len(given) > 1:
        raise click.UsageError(f"{' and '.join(given)} cannot go together: {how}.")


def _moment(option: str, text: str | None) -> Moment | None:
    try:
        return None if text is None else parse_moment(text)
    except AmountError as error:
        raise click.UsageError(f"{option} '{text}': {error.message} {error.hint}") from error


def _times(recipe: Recipe, start: Moment | None, ready: Moment | None) -> tuple[StageTime, ...]:
    """The course by the clock; empty where no time was asked for."""
    if start is None and ready is None:
        return ()
    if not is_timed(recipe):
        raise click.UsageError(f"{recipe.name} has no `course`: clock times need the lengths of its stages.")
    try:
        if start is not None:
            return times_from(recipe.stages, start)
        assert ready is not None
        return times_until(recipe.stages, ready)
    except OverflowError as error:
        raise click.UsageError(f"The course of {recipe.name} is longer than the calendar.") from error


def _give(asked: Asked, computed: ComputedRecipe, book: ComputedBook, times: tuple[StageTime, ...]) -> None:
    units = asked.units or book.book.config.units
    if asked.into is not None:
        write_page(asked.into, _page(asked, computed, book, units, times))
        if asked.labels is not None:
            say("Print it at 100 %, not fitted to the page.")
    elif asked.as_json:
        print_json(sheet_data(computed, units) | ({"times": times_data(times)} if times else {}))
    else:
        say(sheet_text(computed, book, units, kitchen().shower))
        if times:
            say("\n" + "\n".join(clock_lines(times, uncounted(computed.recipe.stages))))


def _page(
    asked: Asked, computed: ComputedRecipe, book: ComputedBook, units: str, times: tuple[StageTime, ...]
) -> str:
    context = _context(book, units)
    if asked.labels is not None:
        return _labels(asked, asked.labels, computed, context)
    if not asked.smoker:
        return render_sheet(context, computed)
    page = render_smoker(context, computed, times)
    if page is None:
        raise click.UsageError(
            f"{computed.recipe.name} has no `cure`: a smoker's sheet is for a cured recipe."
        )
    return page


def _context(book: ComputedBook, units: str, *plans: Plan) -> Context:
    """Of pages that stand alone."""
    theme = load_theme(book.book.config.theme)
    return make_context(book, tables=kitchen().tables, theme=theme, plans=plans, sheet_units=units)


def _labels(asked: Asked, count: int, computed: ComputedRecipe, context: Context) -> str:
    """Nothing is labelled that is refused."""
    errors = tuple(problem for problem in computed.problems if problem.is_error)
    if errors:
        fail(errors)
    try:
        grid = label_grid(
            size=_pair("--label-size", asked.label_size or "63.5x38.1", "x", "63.5x38.1"),
            gap=_pair("--label-gap", asked.label_gap or "0,0", ",", "2.5,0"),
            offset=_pair("--label-offset", asked.label_offset or "0,0", ",", "1.5,-0.5"),
            paper=asked.label_paper or _label_paper(context.config.paper),
        )
        return render_labels(context, computed, grid, count)
    except LabelError as error:
        raise click.UsageError(str(error)) from error


def _label_paper(paper: str) -> str:
    """Sheets of labels are sold as whole pages: a book on half a page has its labels on the whole one."""
    return paper if paper in PAPERS else "a4"


def _pair(option: str, text: str, between: str, example: str) -> Pair:
    """Two lengths in mm."""
    one = r" *([+-]?\d{1,3}(?:\.\d{1,3})?) *"
    match = re.fullmatch(rf"{one}{between}{one}(?:mm)? *", text)
    if match is None:
        raise click.UsageError(f"{option} takes two lengths in mm, such as {example}, not '{text}'.")
    across, down = Fraction(match[1]), Fraction(match[2])
    if option != "--label-offset" and (across < 0 or down < 0):
        raise click.UsageError(f"{option} takes no length below 0, not '{text}'.")
    if option == "--label-size" and not (across and down):
        raise click.UsageError(f"{option} takes two lengths above 0, not '{text}'.")
    return across, down


def _amount_made(book: Book, slug: str, text: str) -> Quantity:
    """`6 qt`, or `8 shanks` in the recipe's own word for what it makes."""
    makes = book.recipes[slug].makes
    noun = makes.noun.lower() if makes else ""
    words = text.strip().lower()
    for ending in (noun, noun.removesuffix("s")):
        if ending and words.endswith(f" {ending}"):
            text = words.removesuffix(ending)
            break
    return amount_of("--makes", text, book.config.units, certain(book.config.language))


def _line(text: str, units: str, language: str) -> LineWish:
    """`cabbage=8 lb`: a line and so much of it."""
    name, sign, amount = text.partition("=")
    if not sign or not name.strip():
        raise click.UsageError(f"--line takes a line and so much of it, such as cabbage=8lb, not '{text}'.")
    return LineWish(name=name.strip(), amount=amount_of("--line", amount.strip(), units, language))


def _wish(book: Book, slug: str, **words: str | None) -> Wish:
    """The wish that was typed, read in the units and the language of the book; a comma that could be either is refused."""
    meat, water, makes = words["meat"], words["water"], words["makes"]
    units, language = book.config.units, certain(book.config.language)
    return Wish(
        serves=plain_number("--serves", words["serves"]),
        batches=plain_number("--batches", words["batches"]),
        makes=None if makes is None else _amount_made(book, slug, makes),
        meat_g=None if meat is None else weight_g("--meat", meat, units, language),
        line=None if words["line"] is None else _line(words["line"], units, language),
        water_g=None
        if water is None
        else water_weight_g(
            "--water", water, units, language, takes="one volume or weight above 0, such as 6qt or 5L"
        ),
    )


def give_gathering(folder: Path, slug: str, *, units: str | None, into: Path | None, as_json: bool) -> None:
    """Plan it and print it; exit code 1 where it cannot be met. Raises BookError for errors of its files."""
    plan, book = compute_gathering(folder, slug)
    units = units or book.book.config.units
    if into is not None:
        write_page(into, render_gathering(_context(book, units, plan), plan))
    elif as_json:
        print_json(gathering_data(plan, book, units))
    else:
        say(gathering_text(plan, book, units, kitchen().tables))
    if any(problem.is_error for problem in plan.problems):
        if into is not None or not as_json:
            print_problems(plan.problems)
        sys.exit(BOOK_HAS_ERRORS)
