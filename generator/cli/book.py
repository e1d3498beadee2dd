"""The commands about a book: start, site, check, preview."""

from __future__ import annotations

import shlex
import shutil
import sys
from pathlib import Path

import click
from rich.console import Console

from generator.build import (
    Checked,
    build_site,
    check_recipes,
    default_output,
    find_book,
    find_recipe,
    kitchen,
    read_recipe_of,
    start_recipe,
)
from generator.cli.output import BOOK_HAS_ERRORS, count, fail, print_json, print_problems, say
from generator.problems import BookError, Severity
from generator.render.cautions import caution_lines, judged_lines
from generator.render.course import course_lines
from generator.render.data import cautions_data, problem_data
from generator.render.plans import unmet_lines
from generator.write.files import NotANewFolder, start_book

BOOK_ARGUMENT = click.argument("book", required=False, type=click.Path(path_type=Path), default=Path("."))


@click.command()
@click.argument("folder", metavar="[DIR]", required=False, type=click.Path(path_type=Path))
@click.option(
    "--recipe", metavar="NAME", help="Write one new recipe into a book instead; DIR is the book then."
)
@click.option(
    "--from",
    "card",
    metavar="CARD.txt",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    help="Make the recipe of an old card, typed off as plain text.",
)
def start(folder: Path | None, recipe: str | None, card: Path | None) -> None:
    """Write a new book that builds at once, or one new recipe: a draft, with a line '# ?' for each question."""
    if recipe is not None:
        _start_recipe(folder or Path("."), recipe, card)
    elif card is not None:
        raise click.UsageError("--from makes a recipe: name it with --recipe NAME.")
    elif folder is None:
        raise click.UsageError("Name the folder of a new book, or a new recipe with --recipe NAME.")
    else:
        _start_book(folder)


def _start_book(folder: Path) -> None:
    try:
        book = start_book(folder)
    except NotANewFolder as error:
        raise click.UsageError(f"{error} Name a folder that is not there yet.") from error
    except OSError as error:
        raise click.UsageError(f"'{folder}' cannot be written: {error.strerror}.") from error
    say(f"Your book is in {book}. Write in it, and see what becomes of it:")
    say(f"{_as_called()} preview {shlex.quote(str(folder))}")


def _start_recipe(book: Path, name: str, card: Path | None) -> None:
    try:
        started = start_recipe(book, name, card)
    except BookError as error:
        fail(error.problems)
        return
    except OSError as error:
        raise click.UsageError(f"The recipe cannot be written: {error.strerror}.") from error
    asked = len(started.questions)
    waits = (
        f", a draft until {count(asked, 'question')} in it {'is' if asked == 1 else 'are'} answered:"
        if asked
        else "."
    )
    say(f"Wrote {started.path}{waits}")
    if card is not None and not asked:
        say("All of it was understood. Read it against the card.")
    for question in started.questions:
        say(f"  ? {question}")
    print_problems(started.problems)


def _as_called() -> str:
    """`potherb` where the shell finds it, else the path by which it was called now."""
    called = sys.argv[0]
    is_found = shutil.which("potherb") is not None or Path(called).name != "potherb"
    return "potherb" if is_found else shlex.quote(called)


@click.command()
@BOOK_ARGUMENT
@click.option(
    "--into", type=click.Path(path_type=Path), help="Folder to write to; output/ beside the book by default."
)
def site(book: Path, into: Path | None) -> None:
    """Read, check and compute a book, and write its site."""
    console = Console(stderr=True, highlight=False, emoji=False)
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
    for name in report.unmet:
        say(f"The gathering '{name}' cannot be met as it is written; its page says why.")
    say(f"Open {report.into / 'index.html'}")


@click.command()
@BOOK_ARGUMENT
@click.option("--json", "as_json", is_flag=True, help="Print problems as JSON and nothing else.")
@click.option("--cautions", is_flag=True, help="Print the caution boxes of every recipe and gathering too.")
@click.option(
    "--course",
    metavar="RECIPE",
    help="Print what is read from the method of a recipe without a course, as lines to paste, and nothing else.",
)
def check(book: Path, as_json: bool, cautions: bool, course: str | None) -> None:
    """Show every problem of a book at once; write nothing."""
    if course is not None:
        if as_json or cautions:
            raise click.UsageError("--course prints the lines of one recipe; it goes alone.")
        _say_course(course, book)
        return
    try:
        checked = check_recipes(find_book(book))
    except BookError as error:
        checked = Checked(problems=error.problems)
    problems, judged = checked.problems, checked.judged
    if as_json:
        found = [problem_data(problem) for problem in problems]
        print_json({"problems": found, "cautions": cautions_data(judged)} if cautions else found)
    else:
        for line in caution_lines(judged) if cautions else ():
            say(line)
        print_problems(problems)
        for line in unmet_lines(checked.plans):
            say(line)
        if not problems:
            say("No problems.")
        if not checked.is_read:
            say("Its sentences are not read for what is dangerous: the book is not in English.")
        for line in (
            judged_lines(
                checked.recipes, checked.texts, kitchen().tables, is_read=checked.is_read, listed=cautions
            )
            if judged
            else ()
        ):
            say(line)
    if any(problem.severity is Severity.ERROR for problem in problems):
        sys.exit(BOOK_HAS_ERRORS)


def _say_course(name: str, book: Path) -> None:
    """Lines for `course:` of one recipe."""
    try:
        recipe = read_recipe_of(*find_recipe(name, book))
    except BookError as error:
        fail(error.problems)
        return
    for line in course_lines(recipe):
        say(line)


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
