"""The YAML of a file in, its values as typed and the place of every one out.

No scalar is ever turned into a number, a date or a truth value, and nothing that YAML dropped or joined is put
together again: it becomes a problem where it stands.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

import yaml

from generator.problems import Position, ProblemLog
from generator.read.keys import Holds
from generator.read.signs import without_ignored
from generator.read.text import FrontMatter, Path, Text
from generator.read.yaml_damage import (
    Report,
    TextLoader,
    check_cut,
    check_events,
    check_joined,
    check_seen,
    check_tabs,
    quoted,
)

MAX_CHARACTERS = 64 * 1024
"Source: house; the longest front matter of a real recipe has 3 kB."

_BARE_NUMBER = re.compile(r"[-+]?[0-9][0-9.,/ ]*")


def read_front_matter(
    front: str, first_line: int, file: str, log: ProblemLog, holds: Mapping[str, Holds]
) -> FrontMatter | None:
    """Values and places of a front matter or of book.yaml; None where YAML cannot be trusted with it."""
    start = Position(file, first_line, 1)
    if len(front) > MAX_CHARACTERS:
        log.add(
            "file-too-large", start, "The front matter is too long.", "Move the prose under the second ---."
        )
        return None
    lines = tuple(front.split("\n"))

    def report(slug: str, line: int, column: int, message: str, hint: str) -> None:
        log.add(slug, Position(file, first_line + line, column + 1), message, hint)

    if not check_tabs(lines, report) or not check_events(lines, report):
        return None
    loader = TextLoader(front)
    try:
        root = loader.get_single_node()
    finally:
        loader.dispose()
    found = FrontMatter(file, start)
    if root is None:
        return found
    if not isinstance(root, yaml.MappingNode):
        report(
            "yaml-not-text", 0, 0, "There are no keys here.", "Write lines such as name: Smoked elk shank."
        )
        return None
    walker = _Walker(found, holds, lines, first_line, report)
    found.data.update(walker.mapping(root, ()))
    return found if walker.clean else None


class _Walker:
    """Turns nodes into plain values, noting where each stands and what YAML did to it."""

    def __init__(
        self,
        found: FrontMatter,
        holds: Mapping[str, Holds],
        lines: tuple[str, ...],
        first_line: int,
        report: Report,
    ) -> None:
        self._found = found
        self._told = holds
        self._lines = lines
        self._first_line = first_line
        self._report = report
        self.clean = True

    def _holds(self, path: Path) -> Holds:
        return self._told.get(str(path[0]), Holds.VALUES)

    def _problem(self, slug: str, mark: yaml.Mark, message: str, hint: str) -> None:
        self._report(slug, mark.line, mark.column, message, hint)
        self.clean = False

    def mapping(self, node: yaml.MappingNode, path: Path) -> dict[str, object]:
        """A mapping; a key that stands twice is a problem."""
        values: dict[str, object] = {}
        for key, value in node.value:
            name = self._key(key) if isinstance(key, yaml.ScalarNode) else None
            if not name:
                self._problem("yaml-not-text", key.start_mark, "A key must be text.", "Write 'key: value'.")
                continue
            if name in values:
                line = self._found.keys[(*path, name)].line
                message = f"'{name}' stands twice; the first is in line {line}."
                self._problem("yaml-duplicate-key", key.start_mark, message, "Keep one of the two.")
                continue
            mark = key.start_mark
            self._found.keys[(*path, name)] = Position(
                self._found.file, self._first_line + mark.line, mark.column + 1
            )
            values[name] = self._value(value, (*path, name))
        return values

    def _key(self, node: yaml.ScalarNode) -> str:
        self.clean = check_seen(node, self._lines, self._report) and self.clean
        return without_ignored(str(node.value))

    def _value(self, node: yaml.Node, path: Path) -> object:
        if isinstance(node, yaml.MappingNode):
            return self.mapping(node, path)
        if isinstance(node, yaml.SequenceNode):
            return self._sequence(node, path)
        assert isinstance(node, yaml.ScalarNode)
        return self._scalar(node, path)

    def _sequence(self, node: yaml.SequenceNode, path: Path) -> list[object]:
        values: list[object] = []
        for item in node.value:
            if self._check_item(item, path):
                values.append(self._value(item, (*path, len(values))))
        return values

    def _check_item(self, node: yaml.Node, path: Path) -> bool:
        """True for an item that is text; a stage may also be one key with text behind it."""
        mark = node.start_mark
        line = mark.line
        if isinstance(node, yaml.ScalarNode):
            if self._holds(path) is Holds.COUNTED and not node.style and _BARE_NUMBER.fullmatch(node.value):
                message, hint = f"'{node.value}' is a bare number.", "Write what it is a number of: 3 onions."
                self._problem("yaml-not-text", mark, message, hint)
                return False
            if node.value or node.style:
                return True
            if not check_cut(node, self._lines, self._report, is_prose=True):
                self.clean = False
                return False
            column = self._lines[line].rfind("-", 0, mark.column)
            message, hint = "The item is empty.", "Write something behind the dash, or delete the line."
            self._report("yaml-not-text", line, max(column, 0), message, hint)
            self.clean = False
            return False
        elif isinstance(node, yaml.MappingNode):
            has_stages = self._holds(path) is Holds.STAGES and len(path) == 1
            if has_stages and self._is_stage(node):
                return True
            if has_stages:
                message, hint = (
                    "YAML reads two stages or a list here.",
                    "Begin every stage with a dash of its own.",
                )
            else:
                key = node.value[0][0].value if node.value else ""
                message = f"YAML takes '{key}:' for a key, because ': ' stands in the line."
                hint = quoted(self._lines[line])
        else:
            message, hint = "YAML reads a list here.", quoted(self._lines[line])
        self._problem("yaml-not-text", mark, message, hint)
        return False

    @staticmethod
    def _is_stage(node: yaml.MappingNode) -> bool:
        return len(node.value) == 1 and all(isinstance(part, yaml.ScalarNode) for part in node.value[0])

    def _scalar(self, node: yaml.ScalarNode, path: Path) -> str:
        whole = check_seen(node, self._lines, self._report)
        whole = (
            check_cut(node, self._lines, self._report, is_prose=self._holds(path) >= Holds.PROSE) and whole
        )
        if self._holds(path) >= Holds.LINES:
            whole = check_joined(node, self._lines, self._report) and whole
        self.clean = self.clean and whole
        line, column = node.start_mark.line, node.start_mark.column
        if node.style in ("|", ">"):
            line, column = line + 1, 0
        elif node.style:
            column += 1
        elif line >= len(
            self._lines
        ):  # behind a `?` in the last line nothing stands, and YAML's mark lies below it
            line, column = len(self._lines) - 1, len(self._lines[-1])
        value = without_ignored(str(node.value)).strip()
        self._found.texts[path] = Text(value, self._found.file, self._lines, self._first_line, (line, column))
        return value
