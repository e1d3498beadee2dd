"""A folder in, everything written in it out, before links are followed; every problem in it noted at once."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from generator.model.book import BookConfig, Manuscript
from generator.model.gathering import Gathering
from generator.model.recipe import PlainPage, Recipe
from generator.problems import Position, ProblemLog, nearest
from generator.read.config import read_config
from generator.read.folder import Kind, kind_of, note_unopened, photo_files, tell_misnamed, text_files
from generator.read.gathering import read_gathering
from generator.read.recipe import read_page, read_recipe
from generator.read.record import Reading
from generator.read.source import SourceFile, read_text, slug_of, split_front_matter
from generator.tables import Tables

Record = TypeVar("Record", Recipe, PlainPage, Gathering)
Read = Callable[[SourceFile, str, Reading, ProblemLog], Record | None]

BOOK_FILE = "book.yaml"


def read_book(folder: Path, tables: Tables, log: ProblemLog) -> Manuscript | None:
    """A book; None where there is no book.yaml. Files that give no record are named in `unread`."""
    of_book = ProblemLog()
    config = read_book_file(folder, tables, of_book)
    log.extend(of_book)
    if config is None:
        return None
    context = Reading(config=config, tables=tables)
    tell_misnamed(folder, folder.name or str(folder), log)
    recipes, bad_recipes = _read_folder(folder, "recipes", read_recipe, context, log)
    gatherings, bad_gatherings = _read_folder(folder, "gatherings", read_gathering, context, log)
    pages, bad_pages = _read_folder(folder, "pages", read_page, context, log)
    if not of_book.has_errors:  # else its chapters may not have been read at all
        for recipe in recipes:
            _check_chapter(recipe, config, log)
    return Manuscript(
        config=config,
        recipes=tuple(recipes),
        pages=tuple(pages),
        gatherings=tuple(gatherings),
        photos=photo_files(folder, log),
        unread=(*bad_recipes, *bad_gatherings, *bad_pages),
    )


def read_book_file(folder: Path, tables: Tables, log: ProblemLog) -> BookConfig | None:
    """The settings of the book in a folder; None where there is no book.yaml that can be opened."""
    path = folder / BOOK_FILE
    try:
        is_there = kind_of(path) is not Kind.NOTHING
    except OSError as error:
        note_unopened(BOOK_FILE, error, log)
        return None
    if not is_there:
        message = f"There is no {BOOK_FILE} in {folder.name or folder}."
        log.add("no-book", None, message, "Make one with a line such as title: The larder book.")
        return None
    text = read_text(path, BOOK_FILE, log)
    return None if text is None else read_config(text, BOOK_FILE, tables, log)


def _read_folder(
    folder: Path, kind: str, read: Read[Record], context: Reading, log: ProblemLog
) -> tuple[list[Record], list[str]]:
    """The records of a folder by slug, and the files that could not be read."""
    records: dict[str, Record] = {}
    files: dict[str, str] = {}
    unread: list[str] = []
    for path in text_files(folder, kind, log):
        file = path.relative_to(folder).as_posix()
        slug, record = _read_file(path, file, read, context, log)
        if slug is None or record is None:
            unread.append(file)
        if slug is None:
            continue
        if slug in files:
            message = f"'{slug}' is the address of {files[slug]} already."
            log.add("same-slug", Position(file), message, "Rename one of the two files.")
            continue
        files[slug] = file
        if record is not None:
            records[slug] = record
    return [records[slug] for slug in sorted(records)], unread


def _read_file(
    path: Path, file: str, read: Read[Record], context: Reading, log: ProblemLog
) -> tuple[str | None, Record | None]:
    slug = slug_of(path.stem, file, log)
    text = read_text(path, file, log)
    source = split_front_matter(text, file, log) if text is not None else None
    if slug is None or source is None:
        return slug, None
    return slug, read(source, slug, context, log)


def _check_chapter(recipe: Recipe, config: BookConfig, log: ProblemLog) -> None:
    if not recipe.chapter or recipe.chapter in config.chapters:
        return
    hint = nearest(recipe.chapter, [name.lower() for name in config.chapters])
    known = next((name for name in config.chapters if f"'{name.lower()}'" in hint), "")
    listed = f"Known are {', '.join(config.chapters)}; add" if config.chapters else "Add"
    hint = f"Did you mean '{known}'?" if known else f"{listed} it to 'chapters' in {config.file}."
    message = f"The chapter '{recipe.chapter}' is not in {config.file}."
    log.add("unknown-chapter", recipe.chapter_position, message, hint)
