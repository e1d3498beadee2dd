"""The values of a file, or of a command, as written, with their places: an offset in a value in, a place out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.model.recipe import Question
from generator.problems import Position, ProblemLog
from generator.read.number import AmountError

Path = tuple[str | int, ...]
"Keys from the top down, and places in lists."
_LOOK_AHEAD = 8
"Characters skipped at most between two of a value: quotes that are doubled, an escape."


@dataclass(frozen=True, slots=True)
class Text:
    """A value as YAML gives it, and where it stands, down to each of its characters."""

    value: str
    file: str
    lines: tuple[str, ...] = field(repr=False)
    "The front matter, line by line."
    first_line: int
    start: tuple[int, int]
    "Line and column of the value, from 0, in the front matter."

    @property
    def position(self) -> Position:
        """Where the value begins."""
        return self.at(0)

    def at(self, offset: int) -> Position:
        """The place of a character of the value, found by walking value and source side by side."""
        line, column = self.start
        end = self._end(line)
        column = column or self._indent(line)
        for index, sign in enumerate(self.value[: offset + 1]):
            while not sign.isspace() and column >= end and line + 1 < len(self.lines):
                line += 1
                end, column = self._end(line), self._indent(line)
            if not sign.isspace():
                found = self.lines[line].find(sign, column, column + _LOOK_AHEAD)
                column = found if found >= 0 else column
            if index < offset:
                column += 1
        return Position(self.file, self.first_line + line, column + 1)

    def _end(self, line: int) -> int:
        """Where the last word of a line of the source ends."""
        return len(self.lines[line].rstrip()) if line < len(self.lines) else 0

    def _indent(self, line: int) -> int:
        """Where the first word of a line of the source begins."""
        return len(self.lines[line]) - len(self.lines[line].lstrip()) if line < len(self.lines) else 0


def note(log: ProblemLog, text: Text, error: AmountError) -> None:
    """Turn what could not be read of a value into a problem at its place."""
    log.add(error.slug, text.at(error.offset), error.message, error.hint)


@dataclass(frozen=True, slots=True)
class FrontMatter:
    """The values of a file's front matter, with the text and the key behind each path."""

    file: str
    start: Position
    data: dict[str, object] = field(default_factory=dict)
    texts: dict[Path, Text] = field(default_factory=dict)
    keys: dict[Path, Position] = field(default_factory=dict)
    questions: list[Question] = field(default_factory=list)

    def asks(self, key: str) -> bool:
        """True where a question is about a key: it may be missing until that is answered."""
        return any(question.words.lower().startswith(f"{key}:") for question in self.questions)

    def text(self, *path: str | int) -> Text | None:
        """The text at a path, or None where no text stands."""
        return self.texts.get(path)

    def place(self, *path: str | int) -> Position:
        """The value of a path, else its key, else what is nearest above it."""
        for length in range(len(path), 0, -1):
            part = path[:length]
            if part in self.texts:
                return self.texts[part].position
            if part in self.keys:
                return self.keys[part]
        return self.start

    def key(self, *path: str | int) -> Position:
        """The key of a path, else what is nearest to it."""
        return self.keys[path] if path in self.keys else self.place(*path)


def typed(values: Mapping[Path, tuple[str, str]]) -> FrontMatter:
    """What was typed at a prompt, as a file would have it: by path, the option, where its problems stand, and its text."""
    texts = {
        path: Text(value.strip(), f"{option} '{value}'", (value.strip(),), 1, (0, 0))
        for path, (option, value) in values.items()
    }
    keys = {
        path[:length]: text.position for path, text in texts.items() for length in range(1, len(path) + 1)
    }
    return FrontMatter("", Position(""), texts=texts, keys=keys)
