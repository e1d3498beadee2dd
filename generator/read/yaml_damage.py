"""What YAML would silently lose, join or misread: found here, named with its place and a line that mends it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import yaml

from generator.problems import UNSEEN, Position, ProblemLog, name_of_sign

MAX_DEPTH = 8
"Source: house; the deepest recipe has four levels."


_ESCAPE = re.compile(r"\\(?:x[0-9A-Fa-f]{2}|u[0-9A-Fa-f]{4}|U[0-9A-Fa-f]{8}|.)")
_SIGN = re.compile(f"{_ESCAPE.pattern}|{UNSEEN.pattern}")
_NAMED = {
    "0": "\0", "a": "\a", "b": "\b", "v": "\v", "f": "\f", "r": "\r", "e": "\x1b",
    "N": "\x85", "L": "\u2028", "P": "\u2029",
}  # fmt: skip
"Escapes of one letter that stand for a sign which no text holds. Source: YAML 1.2.2, section 5.7."
_CUT = re.compile(r"(?P<space>[ \t]+)#(?P<after>.?)")
_ITEM = re.compile(r"(?P<dashes>(?:- +)*)(?P<key>[^'\"#\[\]{}:]+: +)?(?P<value>.*)")
_SECTION = re.compile(r"([^\s:#-][^:]*):")
LONGEST_SHOWN = 200
"Characters of a line that a hint writes out. Source: house; a line can have a problem in each of its words."
_CONTINUED = re.compile(r"\s*(?:-\s|-[0-9¼-¾⅐-⅞]|[*•–—·] |[0-9¼-¾⅐-⅞])")
_BULLET = re.compile(r"(?P<sign>[-*+•–—·]) *(?P<item>[^ ].*)")
"The beginning of an item as one types it elsewhere."

_SYNTAX = (
    ("mapping values are not allowed", "A second ': ' stands in this line, and YAML takes it for a key."),
    ("could not find expected ':'", "This line is neither 'key: value' nor an item of a list."),
    ("found unexpected end of stream", "A quotation mark is never closed."),
    ("expected ',' or", "A bracket is never closed, or text follows it."),
    ("expected '-' indicator", "This line does not fit the list above it."),
    ("expected node content", "A bracket or comma stands where a value is wanted."),
    (
        "expected key",
        "This line does not fit the lines above it, or text follows a quotation mark or bracket.",
    ),
    ("unknown escape character", "A backslash in double quotes has a meaning of its own."),
    ("<document start>", "The front matter ends before this line."),
)
_WHOLE_CONTEXT = ("scanning a quoted scalar", "simple key", "flow sequence", "flow mapping")
"For these the fault begins where the context begins, not where the reader gave up."


class TextLoader(yaml.CSafeLoader):
    """Reads every scalar as the text that was typed: no numbers, dates or truth values."""

    yaml_implicit_resolvers: dict[str, list[tuple[str, str]]] = {}  # noqa: RUF012 - the base class has it so


@dataclass
class Damage:
    """The lines of a front matter, and what was found wrong with them; lines and columns count from 0."""

    file: str
    lines: tuple[str, ...]
    first_line: int
    "Of the front matter, in the file."
    log: ProblemLog
    keys: tuple[str, ...] = ()
    "Those that may stand at the left edge."
    is_found: bool = False

    def place(self, line: int, column: int) -> Position:
        """A place in the file."""
        return Position(self.file, self.first_line + line, column + 1)

    def report(self, slug: str, line: int, column: int, message: str, hint: str) -> None:
        """Note one damage: from here on the values are not to be trusted."""
        self.is_found = True
        self.log.add(slug, self.place(line, column), message, hint)

    def check_tabs(self) -> None:
        """No tab indents a line."""
        for number, line in enumerate(self.lines):
            column = len(line) - len(line.lstrip(" "))
            if line[column:].startswith("\t") and line.strip():
                hint = "Indent with spaces, two for each level."
                self.report("yaml-tab", number, column, "A tab indents this line.", hint)

    def check_events(self) -> None:
        """The text is YAML without anchors, aliases, tags, second documents or deep nesting."""
        depth, documents = 0, 0
        try:
            for event in yaml.parse("\n".join(self.lines), Loader=TextLoader):
                assert event.start_mark is not None, "the parser marks every event"
                line, column = event.start_mark.line, event.start_mark.column
                if isinstance(event, yaml.CollectionStartEvent):
                    depth += 1
                elif isinstance(event, yaml.CollectionEndEvent):
                    depth -= 1
                elif isinstance(event, yaml.DocumentStartEvent):
                    documents += 1
                    if documents > 1:
                        message = "A second document begins here."
                        self.report("yaml-syntax", line, column, message, "Remove the line of dashes.")
                        return
                if depth > MAX_DEPTH:
                    self._too_deep(line, column)
                    return
                self._check_event(event, line, column)
        except yaml.YAMLError as error:
            self.report_syntax(error)

    def _too_deep(self, line: int, column: int) -> None:
        self.report("yaml-too-deep", line, column, f"More than {MAX_DEPTH} levels.", "Write it flat.")

    def _check_event(self, event: yaml.Event, line: int, column: int) -> None:
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            sign, name = ("*", "alias") if isinstance(event, yaml.AliasEvent) else ("&", "anchor")
            message = f"YAML takes the '{sign}' for an {name} and drops the word behind it."
            self.report("yaml-alias", line, column, message, self._quoted(line))
        elif getattr(event, "tag", None):
            message = "YAML takes the '!' for a tag and drops the word behind it."
            self.report("yaml-tag", line, column, message, self._quoted(line))

    def report_syntax(self, error: yaml.YAMLError) -> None:
        """One problem for an error of the parser, at the place where the fault begins."""
        if not isinstance(error, yaml.MarkedYAMLError):
            line, column = self._unreadable_character(error)
            message = "YAML cannot read this character."
            self.report("yaml-syntax", line, column, message, "Type the line again.")
            return
        problem = error.problem or ""
        line, column = self._begin_of(error)
        if self._tell_slip(line):
            return
        sign = self.lines[line][column : column + 1]
        if "nesting depth" in problem:
            self._too_deep(line, column)
        elif "cannot start any token" in problem and sign == "\t":
            message = "A tab stands where YAML wants spaces."
            self.report("yaml-tab", line, column, message, "Write spaces.")
        elif "cannot start any token" in problem:
            message = f"A value cannot begin with '{sign}'."
            self.report("yaml-syntax", line, column, message, self._quoted(line))
        elif "Unicode character escape code" in problem and error.problem_mark:
            self._report_no_character(error.problem_mark.line, error.problem_mark.column)
        else:
            message = next((own for theirs, own in _SYNTAX if theirs in problem), "")
            value = _ITEM.match(self.lines[line].lstrip(" "))
            begin = len(self.lines[line]) - len(value.group("value")) if value else column
            if self.lines[line][begin : begin + 1] in ("[", "{", "'", '"') and "expected" in problem:
                column = min(begin, column)
            message = message or f"YAML cannot read this: {problem}."
            self.report("yaml-syntax", line, column, message, self._quoted(line))

    def _tell_slip(self, line: int) -> bool:
        """True for a line in which a lone colon, dash or space is what is wrong, and says so."""
        written = self.lines[line]
        text = written.strip()
        key = max(
            (key for key in self.keys if re.match(rf"{re.escape(key)}(?![\w-])", text)), key=len, default=""
        )
        rest = text[len(key) :].lstrip(" :")
        is_key = text[len(key) :].lstrip(" ").startswith(": ") or text.endswith(":")
        bullet = None if text.startswith("- ") else _BULLET.fullmatch(text)
        if key and written[0] == " " and is_key and self._stands_at_edge(line):
            message, hint = f"Spaces stand before '{key}'.", f"Begin the line at the left edge: {text}"
        elif key and not is_key and written[0] != " " and not text.startswith("-"):
            sign = "A space is" if text[len(key) :].startswith(":") else "A colon and a space are"
            message = f"{sign} missing behind '{key}'."
            if not rest:
                message = f"A colon is missing behind '{key}'."
            hint = f"Write {key}: {rest}".rstrip()
        elif text.endswith(":") and self._sections[line] == "ingredients" and written[0] == " ":
            message = "A title stands below lines that have none."
            hint = "Put a title above those lines too, such as 'For the dish:', and no dash before a title."
        elif bullet is not None and self._sections[line] != "":
            message = f"'{bullet['sign']}' begins no item of a list."
            hint = f"Begin the line with a dash: - {bullet['item']}"
        else:
            return False
        self.report("yaml-syntax", line, len(written) - len(written.lstrip()), message, hint)
        return True

    def _stands_at_edge(self, line: int) -> bool:
        """True where a line with spaces before it belongs at the left edge: the one above it takes nothing under it."""
        above = next((one for one in reversed(self.lines[:line]) if one.strip()), "")
        return not above.rstrip().endswith(":") and not above.startswith(" ")

    def _begin_of(self, error: yaml.MarkedYAMLError) -> tuple[int, int]:
        """Line and column at which the fault begins; of one behind the last line, that line."""
        mark = error.problem_mark
        if error.context_mark and any(name in (error.context or "") for name in _WHOLE_CONTEXT):
            mark = error.context_mark
        if mark is None:
            return 0, 0
        return (mark.line, mark.column) if mark.line < len(self.lines) else (len(self.lines) - 1, 0)

    def _report_no_character(self, line: int, column: int) -> None:
        """An escape of half a character, or of a number above the last one; the parser points behind its letter."""
        begin = column - len("\\u")
        found = _ESCAPE.match(self.lines[line], begin)
        written = found.group() if found else ""
        message = f"'{written}' is no character (U+{written[2:].lstrip('0').upper() or '0'})."
        self.report("invisible-character", line, begin, message, "Type the character itself, or delete it.")

    def check_seen(self, node: yaml.ScalarNode) -> None:
        """No escape of a text in double quotes brings in a sign that nobody sees."""
        for line, column, written, sign in self._unseen(node) if UNSEEN.search(node.value) else ():
            message = f"'{written}' brings in an invisible character ({name_of_sign(sign)})."
            self.report("invisible-character", line, column, message, f"Delete {written}.")

    def _unseen(self, node: yaml.ScalarNode) -> Iterator[tuple[int, int, str, str]]:
        """Line and column of each such escape, how it is written and the sign it stands for."""
        begin, end = node.start_mark, node.end_mark
        for number in range(begin.line, min(end.line + 1, len(self.lines))):
            line = self.lines[number]
            last = end.column if number == end.line else len(line)
            for found in _SIGN.finditer(line, begin.column if number == begin.line else 0, last):
                sign = _meant(found.group())
                if UNSEEN.search(sign):
                    yield number, found.start(), found.group(), sign

    def _unreadable_character(self, error: yaml.YAMLError) -> tuple[int, int]:
        """Line and column of a character outside YAML; the parser counts bytes."""
        text = "\n".join(self.lines).encode()
        read = text[: getattr(error, "position", 0)].decode(errors="ignore")
        return read.count("\n"), len(read) - (read.rfind("\n") + 1)

    def check_cut(self, node: yaml.ScalarNode, *, is_prose: bool) -> bool:
        """YAML dropped nothing behind a text: a comment stands clear of it, or behind a measured value."""
        line, column = node.end_mark.line, node.end_mark.column
        cut = _CUT.match(self.lines[line], column) if not node.style and line < len(self.lines) else None
        if cut is None:
            return True
        glued = cut.group("after").strip() != ""
        lone = len(cut.group("space")) < 2
        if not glued and not (lone and is_prose) and (node.value or not is_prose):
            return True
        message = f"YAML drops '{self.lines[line][cut.end('space') :].strip()}' as a comment."
        self.report("yaml-comment", line, column, message, quoted(self.lines[line]))
        return False

    def check_joined(self, node: yaml.ScalarNode) -> None:
        """No line that looks like an item of its own was joined to the item above it."""
        if node.style:
            return
        for number in range(node.start_mark.line + 1, node.end_mark.line + 1):
            line = self.lines[number]
            if _CONTINUED.match(line):
                if line.lstrip().startswith("- ") and not self._is_item(node.start_mark.line):
                    return  # what stands above is no item, and is told as such
                column = len(line) - len(line.lstrip())
                message = "YAML joins this line to the item above it."
                begun = _BULLET.fullmatch(line.strip())
                item = f"- {begun['item'] if begun else line.strip()[:LONGEST_SHOWN]}"
                hint = f"Begin it with '- ', indented as the other items: {item}"
                self.report("yaml-not-text", number, column, message, hint)
                return

    def _is_item(self, line: int) -> bool:
        return self.lines[line].lstrip().startswith("-")

    def _quoted(self, line: int) -> str:
        return quoted(self.lines[line], self._sections[line])

    @cached_property
    def _sections(self) -> list[str]:
        """For each line, the key at the left edge that it stands under."""
        sections, section = [], ""
        for line in self.lines:
            found = _SECTION.match(line)
            section = found.group(1) if found else section
            sections.append(section)
        return sections


def _meant(written: str) -> str:
    if len(written) < 2:
        return written
    return _NAMED.get(written[1:], written[1]) if len(written) == 2 else chr(int(written[2:], 16))


def quoted(line: str, section: str = "") -> str:
    """The hint that puts the text of a line in single quotes: of a whole item, or of a stage behind its key."""
    if len(line) > LONGEST_SHOWN:
        return "Put the text of the line in single quotes, with every ' in it doubled."
    found = _ITEM.fullmatch(line.strip())
    assert found is not None
    dashes, key, value = found.group("dashes"), found.group("key") or "", found.group("value")
    if dashes and key and section != "course":
        key, value = "", key + value
    if not value:
        return "Indent it as the lines around it, and write 'key: value'."
    for mark in "'\"":
        if len(value) > 1 and value[0] == value[-1] == mark:
            value = value[1:-1]
    doubled = value.replace("''", "'").replace("'", "''")
    return f"Put the text in single quotes: {dashes}{key}'{doubled}'"
