"""A value of the front matter with its place: an offset in the value in, a place in the file out."""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.problems import Position, ProblemLog
from generator.read.number import AmountError

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
        for index, sign in enumerate(self.value[: offset + 1]):
            line, column = self._find(line, column, sign)
            if index < offset:
                column += 1
        return Position(self.file, self.first_line + line, column + 1)

    def _find(self, line: int, column: int, sign: str) -> tuple[int, int]:
        """Where a character stands at or soon behind a place; the place itself where it is nowhere near."""
        if sign.isspace():
            return line, column
        while line + 1 < len(self.lines) and not self.lines[line][column:].strip():
            line, column = line + 1, 0
        source = self.lines[line]
        begin = max(column, len(source) - len(source.lstrip())) if column == 0 else column
        found = source.find(sign, begin, begin + _LOOK_AHEAD)
        return (line, found) if found >= 0 else (line, column)


def note(log: ProblemLog, text: Text, error: AmountError) -> None:
    """Turn what could not be read of a value into a problem at its place."""
    log.add(error.slug, text.at(error.offset), error.message, error.hint)
