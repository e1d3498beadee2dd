"""A file in, its text, its slug and its two halves out: UTF-8, one kind of line end, no surprises in its name."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from generator.model.slug import fold, is_slug_character, slugify
from generator.problems import UNSEEN, Position, ProblemLog, name_of_sign
from generator.read.folder import Kind, kind_of, note_unopened
from generator.read.signs import without_ignored

MAX_BYTES = 256 * 1024
"Source: house; a long recipe is 10 kB."

DEVICE_NAMES = frozenset(
    ["con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10))]
)
"File names that one family of systems keeps for devices, with any ending."

_FENCE = re.compile(r"---[ ]*")
_OTHER_KINDS = {
    Kind.LINK: ("a link to another place.", "Put the file itself here."),
    Kind.FOLDER: ("a folder, not a file.", "Rename the folder, and put a file of text there."),
    Kind.OTHER: ("a pipe or a device, not a file.", "Delete it, or put a file of text in its place."),
}
"What stands where a file is wanted, and is not opened: a pipe would be waited for without end."


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceFile:
    """One text file, split at its front matter. Line numbers count from 1 in the whole file."""

    file: str
    text: str
    "The whole file."
    front: str
    front_line: int
    "Line of the first line of the front matter."
    body: str
    body_line: int

    @property
    def start(self) -> Position:
        """The first line of the file."""
        return Position(self.file, 1, 1)

    def in_body(self, line: int, column: int) -> Position:
        """The place of a line and a column of the body, in the file."""
        return Position(self.file, self.body_line + line - 1, column)


def read_text(path: Path, file: str, log: ProblemLog) -> str | None:
    """The text of a file with \\n line ends and no byte-order mark, or None with a problem."""
    at = Position(file, 1, 1)
    try:
        kind = kind_of(path)
        if kind in _OTHER_KINDS:
            what, hint = _OTHER_KINDS[kind]
            log.add("unreadable-file", at, f"{file} is {what}", hint)
            return None
        size = path.stat().st_size
        data = path.read_bytes() if size <= MAX_BYTES else b""
    except OSError as error:
        note_unopened(file, error, log)
        return None
    if size > MAX_BYTES:
        message = f"{file} has {size // 1024} KiB; more than {MAX_BYTES // 1024} KiB is not read."
        log.add("file-too-large", at, message, "Split it, and keep photos in photos/.")
        return None
    return _decode(data, file, log)


def _decode(data: bytes, file: str, log: ProblemLog) -> str | None:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8-sig")
        log.add(
            "not-utf8",
            _place(file, before.replace("\r\n", "\n").replace("\r", "\n"), None),
            f"{file} is not UTF-8 text.",
            "Save it in your editor with the encoding UTF-8.",
        )
        return None
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    unseen = UNSEEN.search(text)
    if unseen:
        message = f"An invisible character ({name_of_sign(unseen[0])}) stands here."
        place = _place(file, text, unseen.start())
        log.add("invisible-character", place, message, "Delete it and type the line again.")
        return None
    return without_ignored(text)


def _place(file: str, text: str, offset: int | None) -> Position:
    before = text if offset is None else text[:offset]
    return Position(file, before.count("\n") + 1, len(before) - before.rfind("\n"))


def split_front_matter(text: str, file: str, log: ProblemLog) -> SourceFile | None:
    """Front matter and body of a file that begins with ---, or None with a problem."""
    lines = text.split("\n")
    if not _FENCE.fullmatch(lines[0]):
        log.add(
            "no-front-matter",
            Position(file, 1, 1),
            "The file does not begin with front matter.",
            "Begin the file with a line ---, then name: and the rest, then another line ---.",
        )
        return None
    for number, line in enumerate(lines[1:], start=2):
        if _FENCE.fullmatch(line):
            return SourceFile(
                file=file,
                text=text,
                front="\n".join(lines[1 : number - 1]),
                front_line=2,
                body="\n".join(lines[number:]),
                body_line=number + 1,
            )
    log.add(
        "no-front-matter",
        Position(file, 1, 1),
        "The front matter has no end.",
        "Close it with a line that holds nothing but ---.",
    )
    return None


def slug_of(stem: str, file: str, log: ProblemLog) -> str | None:
    """The slug of a file's name without its ending, or None with a problem."""
    slug = fold(stem)
    at = Position(file, 1, 1)
    if slug in DEVICE_NAMES:
        message = f"'{stem}' is a name that some systems keep for themselves."
        log.add("bad-slug", at, message, f"Rename the file, for example to {slug}-recipe.md.")
        return None
    wrong = next((sign for sign in slug if sign != "-" and not is_slug_character(sign)), None)
    if wrong is None and slug.strip("-") == slug:
        return slug
    message = f"'{stem}' cannot become an address"
    message += (
        f": '{wrong}' is neither a letter, a digit nor a hyphen."
        if wrong
        else ": a hyphen stands at its end."
    )
    better = slugify(stem)
    log.add("bad-slug", at, message, f"Rename the file to {better}.md." if better else "Rename the file.")
    return None
