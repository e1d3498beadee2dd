"""A book's folder in; its Markdown files and photos in order out, and a problem for whatever lies there and is not read.

Nothing is opened that is not a file or a folder of its own: a pipe would be waited for without end, and a link leads out
of the book. What the system refuses is a problem with its place, never a traceback and never silence.
"""

from __future__ import annotations

import difflib
import fnmatch
import stat
from collections.abc import Iterator
from enum import Enum
from pathlib import Path

from generator.model.slug import fold
from generator.problems import UNSEEN, Position, Problem, ProblemLog, name_of_sign

ENDING = ".md"
PHOTO_ENDINGS = (".jpg", ".jpeg", ".png", ".webp", ".gif", ".tif", ".tiff", ".heic", ".avif")
FOLDERS = ("recipes", "gatherings", "pages", "photos")
_ALIKE = 0.8
"Share of letters by which a folder's name is taken for a slip. Source: house; Recipes, recipe and recepies are in."


class Kind(Enum):
    """What lies at a path."""

    NOTHING = "nothing"
    FILE = "a file"
    FOLDER = "a folder"
    LINK = "a link to another place"
    OTHER = "a pipe or a device"


DROPPINGS = ("*~", "#*#", "*.tmp", "*.bak", "*.orig", "*.swp", "4913", "Thumbs.db", "desktop.ini")
"What editors and desktops leave beside the files of a book. Names with a leading dot are ignored anyway."


def kind_of(path: Path) -> Kind:
    """What lies at a path, links not followed. OSError where the system does not say."""
    try:
        mode = path.lstat().st_mode
    except (FileNotFoundError, NotADirectoryError, ValueError):  # ValueError: no path at all
        return Kind.NOTHING
    if stat.S_ISREG(mode):
        return Kind.FILE
    if stat.S_ISDIR(mode):
        return Kind.FOLDER
    return Kind.LINK if stat.S_ISLNK(mode) else Kind.OTHER


def unopened(file: str, error: OSError) -> Problem:
    """The problem of a file or folder that the system does not let us open."""
    reason = error.strerror or "the system refuses it"
    return Problem(
        slug="unreadable-file",
        position=Position(file),
        message=f"{file} cannot be opened: {reason}.",
        hint="Look at its rights, and at those of the folder it lies in.",
    )


def note_unopened(file: str, error: OSError, log: ProblemLog) -> None:
    """Note what the system does not let us open."""
    log.extend((unopened(file, error),))


def list_folder(folder: Path, file: str, log: ProblemLog) -> tuple[tuple[Path, Kind], ...]:
    """What lies in a folder, by name; nothing where there is no such folder. `file` is how problems name it."""
    try:
        kind = kind_of(folder)
        if kind is Kind.NOTHING:
            return ()
        if kind is not Kind.FOLDER:
            _refuse(kind, file, log)
            return ()
        paths = sorted(folder.iterdir(), key=lambda path: path.name)
    except OSError as error:
        note_unopened(file, error, log)
        return ()
    return tuple(_told(paths, file, log))


def _refuse(kind: Kind, file: str, log: ProblemLog) -> None:
    hint = (
        "Make it a folder."
        if kind is Kind.LINK
        else "Rename it or delete it, and make a folder of that name."
    )
    ending = "" if kind is Kind.LINK else ", not a folder"
    log.add("unreadable-file", Position(file), f"{file} is {kind.value}{ending}.", hint)


def _told(paths: list[Path], file: str, log: ProblemLog) -> Iterator[tuple[Path, Kind]]:
    for path in paths:
        try:
            yield path, kind_of(path)
        except OSError as error:
            note_unopened(f"{file}/{path.name}", error, log)


def walk(folder: Path, file: str, log: ProblemLog) -> Iterator[tuple[str, Kind]]:
    """Everything below a folder as `file/inner/name`, hidden names passed over; folders too, before what they hold."""
    waiting = [(folder, file)]
    while waiting:
        above, name = waiting.pop()
        for path, kind in list_folder(above, name, log):
            if path.name.startswith("."):
                continue
            yield f"{name}/{path.name}", kind
            if kind is Kind.FOLDER:
                waiting.append((path, f"{name}/{path.name}"))


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
