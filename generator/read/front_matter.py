"""The YAML of a file in, its values as typed and the place of every one out.

No scalar is ever turned into a number, a date or a truth value, and nothing that YAML dropped or joined is put
together again: it becomes a problem where it stands.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import yaml

from generator.model.recipe import Question
from generator.problems import ProblemLog
from generator.read.keys import Holds
from generator.read.signs import CURLY, without_ignored
from generator.read.text import FrontMatter, Path, Text
from generator.read.yaml_damage import Damage, TextLoader, quoted

MAX_CHARACTERS = 64 * 1024
"Source: house; the longest front matter of a real recipe has 3 kB."

_QUESTION = re.compile(r"[ ]*(?P<sign>#) *\?")
_CURLY_TEXT = re.compile(r"[“„‘‚](?:[^“”‘’]{0,200}[”’“‘]$|[0-9][^“”‘’]{0,40}[”’“‘])")
"A text that stands in curly quotation marks as a whole, or begins with an amount in them."
_TITLED = re.compile(r"- +(?P<title>[Ff]or [^:'\"]{1,60}): +(?P<item>[0-9¼-¾⅐-⅞][^:'\"#]*)")
"`- For the sauce: 1 onion`."
_BARE_NUMBER = re.compile(r"[-+]?[0-9][0-9.,/ ]*")


def read_front_matter(
    front: str,
    first_line: int,
    file: str,
    log: ProblemLog,
    holds: Mapping[str, Holds],
    *,
    keeps: bool = False,
) -> FrontMatter | None:
    """Values and places of a front matter or of book.yaml; None where YAML cannot be trusted with it.

    `keeps` gives also one in which YAML loses or misreads a value alone: each such place is a problem.
    """
    damage = Damage(file, tuple(front.split("\n")), first_line, log, tuple(holds))
    found = FrontMatter(file, damage.place(0, 0))
    found.questions.extend(_questions(damage))
    if len(front) > MAX_CHARACTERS:
        message, hint = "The front matter is too long.", "Move the prose under the second ---."
        log.add("file-too-large", found.start, message, hint)
        return None
    # Tabs first: the parser stops at the first of them and says less of it.
    for check in (damage.check_tabs, damage.check_events):
        check()
        if damage.is_found:
            return None
    loader = TextLoader(front)
    try:
        root = loader.get_single_node()
    finally:
        loader.dispose()
    if isinstance(root, yaml.MappingNode):
        found.data.update(_Walker(found, holds, damage).mapping(root, ()))
    elif root is not None:
        hint = "Write lines such as name: Smoked elk shank."
        damage.report("yaml-not-text", 0, 0, "There are no keys here.", hint)
        return None
    _tell_curly(found, log)
    return None if damage.is_found and not keeps else found


def _group_of(node: yaml.Node) -> str | None:
    """The first line under a title that was written as an item; None where it is none, empty where no line is indented."""
    if not isinstance(node, yaml.MappingNode) or len(node.value) != 1:
        return None
    below = node.value[0][1]
    if isinstance(below, yaml.SequenceNode):
        first = below.value[0] if below.value else None
        return first.value if isinstance(first, yaml.ScalarNode) else ""
    return "" if isinstance(below, yaml.ScalarNode) and not below.value else None


def _without_dash(title: str, first: str, beside: yaml.SequenceNode) -> str:
    """The two lines to write, and a title for the lines beside it that have none."""
    below = f"- {first}" if first else "the lines of the list, each with its dash"
    hint = f"Take the dash away: '{title}:', and under it, further in, {below}"
    if first and any(isinstance(one, yaml.ScalarNode) for one in beside.value):
        return f"{hint}, and put a title above the lines that have none too, such as 'For the dish:'."
    return hint


def _lower(words: str) -> str:
    return words[:1].lower() + words[1:]


def _tell_curly(found: FrontMatter, log: ProblemLog) -> None:
    """`name: “Elk stew”`: YAML keeps curly quotation marks. A summary may be somebody's words."""
    for path, text in found.texts.items():
        quoted_text = _CURLY_TEXT.match(text.value)
        if quoted_text is not None and path[-1] != "summary":
            message = f"The curly quotation marks in '{quoted_text[0]}' are kept as part of it."
            log.add(
                "curly-quotes", text.at(0), message, f"Write it without them: {quoted_text[0].strip(CURLY)}"
            )


def _questions(damage: Damage) -> Iterator[Question]:
    """The lines `# ? ...`, which YAML passes over."""
    for number, line in enumerate(damage.lines):
        asked = _QUESTION.match(line)
        if asked:
            words = " ".join(line[asked.end() :].split())
            yield Question(words=words, position=damage.place(number, asked.start("sign")))


@dataclass
class _Walker:
    """Turns nodes into plain values, noting where each stands and what YAML did to it."""

    found: FrontMatter
    told: Mapping[str, Holds]
    damage: Damage

    def _holds(self, path: Path) -> Holds:
        return self.told.get(str(path[0]), Holds.VALUES)

    def _problem(self, mark: yaml.Mark, message: str, hint: str, slug: str = "yaml-not-text") -> None:
        self.damage.report(slug, mark.line, mark.column, message, hint)

    def mapping(self, node: yaml.MappingNode, path: Path) -> dict[str, object]:
        """A mapping; a key that stands twice is a problem."""
        values: dict[str, object] = {}
        for key, value in node.value:
            mark = key.start_mark
            name = self._key(key) if isinstance(key, yaml.ScalarNode) else None
            if not name:
                self._problem(mark, "A key must be text.", "Write 'key: value'.")
                continue
            if name in values:
                line = self.found.keys[(*path, name)].line
                message = f"'{name}' stands twice; the first is in line {line}."
                self._problem(mark, message, "Keep one of the two.", "yaml-duplicate-key")
                continue
            self.found.keys[(*path, name)] = self.damage.place(mark.line, mark.column)
            values[name] = self._value(value, (*path, name))
        return values

    def _key(self, node: yaml.ScalarNode) -> str:
        self.damage.check_seen(node)
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
            if self._check_item(item, path, node):
                values.append(self._value(item, (*path, len(values))))
        return values

    def _check_item(self, node: yaml.Node, path: Path, beside: yaml.SequenceNode) -> bool:
        """True for an item that is text; a stage may also be one key with text behind it."""
        mark = node.start_mark
        if isinstance(node, yaml.ScalarNode):
            return self._check_text(node, path)
        hint = quoted(self.damage.lines[mark.line])
        if not isinstance(node, yaml.MappingNode):
            message = "YAML reads a list here."
        elif self._holds(path) is Holds.STAGES and len(path) == 1:
            if self._is_stage(node):
                return True
            message, hint = (
                "YAML reads two stages or a list here.",
                "Begin every stage with a dash of its own.",
            )
        elif self._holds(path) is Holds.PIECES and len(path) == 1 and self._is_piece(node):
            return True
        else:
            key = node.value[0][0].value if node.value else ""
            message = f"YAML takes '{key}:' for a key, because ': ' stands in the line."
            titled = _TITLED.fullmatch(self.damage.lines[mark.line].strip())
            group = _group_of(node) if self._holds(path) is Holds.COUNTED and len(path) == 1 else None
            if group is not None:
                message = f"A dash stands before the title '{key}:'."
                hint = _without_dash(key, group, beside)
            elif self._holds(path) is Holds.COUNTED and titled is not None:
                message = f"'{titled['title']}:' is a title, and stands in the line of an item."
                hint = f"Put its words behind a comma: - {titled['item']}, {_lower(titled['title'])}"
        self._problem(mark, message, hint)
        return False

    def _check_text(self, node: yaml.ScalarNode, path: Path) -> bool:
        """True for an item that is neither empty nor, where things are counted, a number alone."""
        mark = node.start_mark
        if self._holds(path) is Holds.COUNTED and not node.style and _BARE_NUMBER.fullmatch(node.value):
            message = f"'{node.value}' is a bare number."
            self._problem(mark, message, "Write what it is a number of: 3 onions.")
            return False
        if node.value or node.style:
            return True
        if self.damage.check_cut(node, is_prose=True):
            column = max(self.damage.lines[mark.line].rfind("-", 0, mark.column), 0)
            message, hint = "The item is empty.", "Write something behind the dash, or delete the line."
            self.damage.report("yaml-not-text", mark.line, column, message, hint)
        return False

    @staticmethod
    def _is_stage(node: yaml.MappingNode) -> bool:
        return len(node.value) == 1 and all(isinstance(part, yaml.ScalarNode) for part in node.value[0])

    @staticmethod
    def _is_piece(node: yaml.MappingNode) -> bool:
        """Keys, and no line with a colon in it: `4 lb deer: trim` begins with its amount."""
        first = node.value[0][0].value if node.value else ""
        return isinstance(first, str) and not first[:1].isdigit()

    def _scalar(self, node: yaml.ScalarNode, path: Path) -> str:
        damage, holds = self.damage, self._holds(path)
        if holds is Holds.PIECES and (len(path) == 1 or isinstance(path[-1], int)):
            holds = Holds.LINES  # a piece that is text is a line like any other
        damage.check_seen(node)
        damage.check_cut(node, is_prose=holds >= Holds.PROSE)
        if holds >= Holds.LINES:
            damage.check_joined(node)
        line, column = node.start_mark.line, node.start_mark.column
        if node.style in ("|", ">"):
            line, column = line + 1, 0
        elif node.style:
            column += 1
        if line >= len(damage.lines):
            # Behind a `?` or a `|` in the last line nothing stands, and the mark lies below it.
            line, column = len(damage.lines) - 1, len(damage.lines[-1])
        value = without_ignored(str(node.value)).strip()
        self.found.texts[path] = Text(value, damage.file, damage.lines, damage.first_line, (line, column))
        return value
