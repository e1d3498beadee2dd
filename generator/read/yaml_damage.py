"""What YAML would silently lose, join or misread: found here, named with its place and a line that mends it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from typing import Protocol

import yaml

from generator.problems import UNSEEN, name_of_sign

MAX_DEPTH = 8
"Source: house; the deepest recipe has four levels."


class Mark(Protocol):
    """A place as the parser gives it."""

    @property
    def line(self) -> int: ...
    @property
    def column(self) -> int: ...


Report = Callable[[str, int, int, str, str], None]
"slug, line and column from 0, sentence, hint"

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
_CONTINUED = re.compile(r"\s*(?:-\s|[0-9¼-¾⅐-⅞])")

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


def place_of(mark: Mark | None) -> tuple[int, int]:
    """Line and column of a mark, from 0."""
    return (mark.line, mark.column) if mark else (0, 0)


def check_tabs(lines: tuple[str, ...], report: Report) -> bool:
    """True where no tab indents a line."""
    found = [(number, len(line) - len(line.lstrip(" "))) for number, line in enumerate(lines)]
    tabs = [(number, column) for number, column in found if lines[number][column:].startswith("\t")]
    for number, column in tabs:
        if lines[number].strip():
            report(
                "yaml-tab",
                number,
                column,
                "A tab indents this line.",
                "Indent with spaces, two for each level.",
            )
    return not any(lines[number].strip() for number, _ in tabs)


def check_events(lines: tuple[str, ...], report: Report) -> bool:
    """True where the text is YAML without anchors, aliases, tags, second documents or deep nesting."""
    depth, documents, clean = 0, 0, True
    sections = _sections(lines)
    try:
        for event in yaml.parse("\n".join(lines), Loader=TextLoader):
            line, column = place_of(event.start_mark)
            if isinstance(event, yaml.CollectionStartEvent):
                depth += 1
            elif isinstance(event, yaml.CollectionEndEvent):
                depth -= 1
            elif isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    message = "A second document begins here."
                    report("yaml-syntax", line, column, message, "Remove the line of dashes.")
                    return False
            if depth > MAX_DEPTH:
                report("yaml-too-deep", line, column, f"More than {MAX_DEPTH} levels.", "Write it flat.")
                return False
            clean = _check_event(event, lines, sections, report) and clean
    except yaml.YAMLError as error:
        report_syntax(error, lines, report)
        return False
    return clean


def _check_event(event: yaml.Event, lines: tuple[str, ...], sections: Sequence[str], report: Report) -> bool:
    line, column = place_of(event.start_mark)
    if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
        sign = "*" if isinstance(event, yaml.AliasEvent) else "&"
        message = f"YAML takes the '{sign}' for an {'alias' if sign == '*' else 'anchor'} and drops the word behind it."
        report("yaml-alias", line, column, message, quoted(lines[line], sections[line]))
        return False
    if getattr(event, "tag", None):
        message = "YAML takes the '!' for a tag and drops the word behind it."
        report("yaml-tag", line, column, message, quoted(lines[line], sections[line]))
        return False
    return True


def report_syntax(error: yaml.YAMLError, lines: tuple[str, ...], report: Report) -> None:
    """One problem for an error of the parser, at the place where the fault begins."""
    if not isinstance(error, yaml.MarkedYAMLError):
        line, column = _unreadable_character(error, lines)
        report("yaml-syntax", line, column, "YAML cannot read this character.", "Type the line again.")
        return
    context, problem = error.context or "", error.problem or ""
    mark = error.problem_mark
    if error.context_mark and any(name in context for name in _WHOLE_CONTEXT):
        mark = error.context_mark
    line, column = (mark.line, mark.column) if mark else (0, 0)
    if line >= len(lines) and len(lines) > 0:
        line, column = len(lines) - 1, 0
    sign = lines[line][column : column + 1]
    hint = quoted(lines[line], _sections(lines)[line])
    if "nesting depth" in problem:
        report("yaml-too-deep", line, column, f"More than {MAX_DEPTH} levels.", "Write it flat.")
        return
    if "cannot start any token" in problem:
        if sign == "\t":
            report("yaml-tab", line, column, "A tab stands where YAML wants spaces.", "Write spaces.")
            return
        report("yaml-syntax", line, column, f"A value cannot begin with '{sign}'.", hint)
        return
    if "Unicode character escape code" in problem and error.problem_mark:
        _report_no_character(error.problem_mark, lines, report)
        return
    message = next((own for theirs, own in _SYNTAX if theirs in problem), "")
    value = _ITEM.match(lines[line].lstrip(" "))
    begin = len(lines[line]) - len(value.group("value")) if value else column
    if lines[line][begin : begin + 1] in ("[", "{", "'", '"') and "expected" in problem:
        column = min(begin, column)
    report("yaml-syntax", line, column, message or f"YAML cannot read this: {problem}.", hint)


def _report_no_character(mark: Mark, lines: tuple[str, ...], report: Report) -> None:
    """An escape of half a character, or of a number above the last one; the parser points behind its letter."""
    begin = mark.column - len("\\u")
    found = _ESCAPE.match(lines[mark.line], begin)
    written = found.group() if found else ""
    message = f"'{written}' is no character (U+{written[2:].lstrip('0').upper() or '0'})."
    report("invisible-character", mark.line, begin, message, "Type the character itself, or delete it.")


def check_seen(node: yaml.ScalarNode, lines: tuple[str, ...], report: Report) -> bool:
    """True where no escape of a text in double quotes brings in a sign that nobody sees."""
    if not UNSEEN.search(node.value):
        return True
    for line, column, written, sign in _unseen(node, lines):
        message = f"'{written}' brings in an invisible character ({name_of_sign(sign)})."
        report("invisible-character", line, column, message, f"Delete {written}.")
    return False


def _unseen(node: yaml.ScalarNode, lines: tuple[str, ...]) -> Iterator[tuple[int, int, str, str]]:
    """Line and column from 0 of each such escape, how it is written and the sign it stands for."""
    begin, end = node.start_mark, node.end_mark
    for number in range(begin.line, min(end.line + 1, len(lines))):
        last = end.column if number == end.line else len(lines[number])
        for found in _SIGN.finditer(lines[number], begin.column if number == begin.line else 0, last):
            sign = _meant(found.group())
            if UNSEEN.search(sign):
                yield number, found.start(), found.group(), sign


def _meant(written: str) -> str:
    if len(written) < 2:
        return written
    return _NAMED.get(written[1:], written[1]) if len(written) == 2 else chr(int(written[2:], 16))


def _unreadable_character(error: yaml.YAMLError, lines: tuple[str, ...]) -> tuple[int, int]:
    """Line and column of a character outside YAML; the parser counts bytes."""
    read = "\n".join(lines).encode()[: getattr(error, "position", 0)].decode(errors="ignore")
    return read.count("\n"), len(read) - (read.rfind("\n") + 1)


LONGEST_SHOWN = 200
"Characters of a line that a hint writes out. Source: house; a line can have a problem in each of its words."


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


def _sections(lines: tuple[str, ...]) -> list[str]:
    """For each line, the key at the left edge that it stands under."""
    sections, section = [], ""
    for line in lines:
        found = _SECTION.match(line)
        section = found.group(1) if found else section
        sections.append(section)
    return sections


def check_cut(node: yaml.ScalarNode, lines: tuple[str, ...], report: Report, *, is_prose: bool) -> bool:
    """True where YAML dropped nothing behind a text: a comment stands clear of it, or behind a measured value."""
    if node.style:
        return True
    line, column = node.end_mark.line, node.end_mark.column
    cut = _CUT.match(lines[line], column) if line < len(lines) else None
    if cut is None:
        return True
    glued = cut.group("after").strip() != ""
    lone = len(cut.group("space")) < 2
    if not glued and not (lone and is_prose) and (node.value or not is_prose):
        return True
    dropped = lines[line][cut.end("space") :].strip()
    report(
        "yaml-comment",
        line,
        column,
        f"YAML drops '{dropped}' as a comment.",
        quoted(lines[line]),
    )
    return False


def check_joined(node: yaml.ScalarNode, lines: tuple[str, ...], report: Report) -> bool:
    """True where no line that looks like an item of its own was joined to the item above it."""
    if node.style:
        return True
    for number in range(node.start_mark.line + 1, node.end_mark.line + 1):
        if _CONTINUED.match(lines[number]):
            column = len(lines[number]) - len(lines[number].lstrip())
            message = "YAML joins this line to the item above it."
            report(
                "yaml-not-text", number, column, message, "Begin it with '- ', indented as the other items."
            )
            return False
    return True
