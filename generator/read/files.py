"""A book's folder in; its Markdown files and photos in order out, and a problem for whatever lies there and is not read."""

from __future__ import annotations

import difflib
import fnmatch
from collections.abc import Iterator
from pathlib import Path

from generator.model.slug import fold
from generator.problems import UNSEEN, Position, ProblemLog, name_of_sign
from generator.read.folder import DROPPINGS, Kind, kind_of, list_folder, walk

ENDING = ".md"
PHOTO_ENDINGS = (".jpg", ".jpeg", ".png", ".webp", ".gif", ".tif", ".tiff", ".heic", ".avif")
FOLDERS = ("recipes", "gatherings", "pages", "photos")
_ALIKE = 0.8
"Share of letters by which a folder's name is taken for a slip. Source: house; Recipes, recipe and recepies are in."


def text_files(book: Path, kind: str, log: ProblemLog) -> Iterator[Path]:
    """The Markdown files of a folder by name; hidden files and what editors drop beside them are passed over."""
    for path, what in list_folder(book / kind, kind, log):
        if _is_passed_over(path.name):
            continue
        if what is Kind.FOLDER:
            _refuse_inner(path, kind, log)
        elif path.suffix.lower() == ENDING:
            yield path
        else:
            _tell_other_file(path, kind, what, log)


def find_file(book: Path, kind: str, slug: str) -> Path | None:
    """The Markdown file that has a slug; None where there is none, or the folder cannot be read."""
    for path, what in list_folder(book / kind, kind, ProblemLog()):
        is_text = what is not Kind.FOLDER and path.suffix.lower() == ENDING
        if is_text and fold(path.stem) == fold(slug):
            return path
    return None


def _is_passed_over(name: str) -> bool:
    return name.startswith((".", "#", "~")) or any(fnmatch.fnmatchcase(name, one) for one in DROPPINGS)


def _refuse_inner(folder: Path, kind: str, log: ProblemLog) -> None:
    """Files in a folder inside recipes/, gatherings/ or pages/ would be lost without a word."""
    name = f"{kind}/{folder.name}"
    held = list(walk(folder, name, log))
    files = [file for file, what in held if file.lower().endswith(ENDING) and what is not Kind.FOLDER]
    for file in files:
        message = f"{file} lies in a folder inside {kind}/ and is not read."
        log.add("bad-slug", Position(file), message, f"Move it to {kind}/{file.rpartition('/')[2]}.")
    if not files and (held or name.lower().endswith(ENDING)):
        message = f"{name} is a folder, and nothing in it is read."
        log.add("not-read", Position(name), message, _away(kind, ""))


def _tell_other_file(path: Path, kind: str, what: Kind, log: ProblemLog) -> None:
    file = f"{kind}/{path.name}"
    if what is not Kind.FILE:
        log.add("not-read", Position(file), f"{file} is {what.value}, and is not read.", _away(kind, ""))
        return
    better = "photos/" if path.suffix.lower() in PHOTO_ENDINGS else f"{kind}/{path.stem}{ENDING}"
    first = f"Move it to {better}, move" if better == "photos/" else f"Rename it to {better}, move"
    message = f"{file} is not read: only files that end in {ENDING} are."
    log.add("not-read", Position(file), message, _away(kind, first))


def _away(kind: str, first: str) -> str:
    return f"{first or 'Move'} it out of {kind}/, or begin its name with a dot to keep it there."


def photo_files(book: Path, log: ProblemLog) -> tuple[str, ...]:
    """Paths of the photos, relative to the book, sorted; no links, nothing hidden."""
    found = []
    for file, what in walk(book / "photos", "photos", log):
        if not file.lower().endswith(PHOTO_ENDINGS) or what is Kind.FOLDER:
            if what is Kind.LINK:
                _tell_photo(file, f"is {what.value}, and nothing behind it is read.", log)
            continue
        unseen = UNSEEN.search(file)
        if what is not Kind.FILE:
            _tell_photo(file, f"is {what.value}, and is not read.", log)
        elif unseen:
            log.add(
                "not-read",
                Position(file),
                f"{file} is not read: its name holds {name_of_sign(unseen[0])}.",
                "Rename it with letters and digits.",
            )
        else:
            found.append(file)
    return tuple(sorted(found))


def _tell_photo(file: str, words: str, log: ProblemLog) -> None:
    log.add("not-read", Position(file), f"{file} {words}", "Delete it, or put the photo itself there.")


def tell_misnamed(book: Path, name: str, log: ProblemLog) -> None:
    """A folder whose name is nearly that of one of a book, where the book lacks that one: all of it would be lost."""
    for path, what in list_folder(book, name, log):
        near = difflib.get_close_matches(path.name.lower(), FOLDERS, n=1, cutoff=_ALIKE)
        if what is not Kind.FOLDER or path.name in FOLDERS or not near:
            continue
        if kind_of(book / near[0]) is Kind.NOTHING:
            message = f"The folder '{path.name}' is not read: the book's own is called {near[0]}."
            log.add("not-read", Position(path.name), message, f"Rename it to {near[0]}.")
