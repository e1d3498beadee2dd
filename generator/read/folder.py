"""A place on the disk in, what it is and what lies in it out. All that a book's folder may hold is looked at here.

Nothing is opened that is not a file or a folder of its own: a pipe would be waited for without end, and a link leads out
of the book. What the system refuses is a problem with its place, never a traceback and never silence.
"""

from __future__ import annotations

import stat
from collections.abc import Iterator
from enum import Enum
from pathlib import Path

from generator.problems import Position, Problem, ProblemLog


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
