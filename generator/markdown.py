"""Markdown in, tokens, places and HTML out: CommonMark with tables, raw HTML shown as text, few kinds of links.

This is the one place that knows the parser. Tokens are shared by all who ask for the same text: nobody changes them.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator, MutableMapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from html import unescape
from typing import Any
from urllib.parse import unquote

from markdown_it import MarkdownIt
from markdown_it.common.utils import escapeHtml
from markdown_it.renderer import RendererHTML
from markdown_it.rules_block import StateBlock, reference
from markdown_it.rules_inline import StateInline, autolink, image, link
from markdown_it.token import Token

from generator.model.slug import slugify
from generator.problems import UNSEEN

__all__ = [
    "FoundComment",
    "FoundLink",
    "FoundSign",
    "Heading",
    "Run",
    "find_comments",
    "find_headings",
    "find_links",
    "find_runs",
    "find_unseen",
    "is_allowed_address",
    "is_external",
    "parse",
    "plain_blocks",
    "render_html",
    "without_comments",
]

SCHEMES = ("http", "https", "mailto")
"All others could run something or read something of the reader's."

_NO_SPACE = re.compile(r"[^ ]")
_SCHEME = re.compile(r"([^/?#]*?):")
_COMMENT, _END = "<!--", "-->"
_HOLE = "\0"
"Stands for a comment that is cut out; no file that is read holds one."
_MARKS = re.compile(r"[\s>]*(?:(?:[-*+]|\d{1,9}[.)])\s+)*")
"What may stand before the words of a line: quotes and marks of a list."
_WRITTEN = re.compile(r"&[^;&\s]{2,40};|(?:%[0-9A-Fa-f]{2})+")
"A sign written by its name or number, or by the bytes of an address."


def is_external(address: str) -> bool:
    """True for an address that names a scheme."""
    return _SCHEME.match(address) is not None


def is_allowed_address(address: str, *, is_image: bool = False) -> bool:
    """True for http, https, mailto and relative addresses; an image must come from the book itself."""
    if address.startswith(("/", "\\")):
        return False
    scheme = _SCHEME.match(address)
    return scheme is None or (not is_image and scheme.group(1).lower() in SCHEMES)


def _with_place(rule: Callable[[StateInline, bool], bool]) -> Callable[[StateInline, bool], bool]:
    """The rule, noting at which characters of its block the link or image begins and ends."""

    def placed(state: StateInline, silent: bool) -> bool:
        start, before = state.pos, len(state.tokens)
        if not rule(state, silent):
            return False
        for token in state.tokens[before:] if not silent else ():
            if token.type in ("link_open", "image"):
                token.meta.setdefault("offset", start)
            if token.type in ("link_close", "image"):
                token.meta.setdefault("end", state.pos)
        return True

    return placed


def _comment_end(src: str, start: int, env: MutableMapping[str, Any]) -> int:
    """Where the comment that begins at `start` ends; -1 where it does not. CommonMark 0.31.2, sections 4.6 and 6.6.

    What was found is kept for the next one, so that a text of open comments is searched once.
    """
    for short in ("<!-->", "<!--->"):
        if src.startswith(short, start):
            return start + len(short)
    searched, since, found = env.get("comment", ("", 0, 0))
    begin = start + len(_COMMENT)
    if searched is not src or begin < since or -1 < found < begin:
        found = src.find(_END, begin)
        env["comment"] = (src, begin, found)
    return found + len(_END) if found >= 0 else -1


def _comment(state: StateInline, silent: bool) -> bool:
    """A comment within a paragraph; one without an end is a token too, so that it can be named where it stands."""
    if not state.src.startswith(_COMMENT, state.pos):
        return False
    end = _comment_end(state.src, state.pos, state.env)
    is_open = not 0 < end <= state.posMax
    if not silent:
        token = state.push("open_comment" if is_open else "comment", "", 0)
        token.content = _COMMENT if is_open else ""
        token.hidden = not is_open
        token.meta = {"offset": state.pos, "length": len(_COMMENT) if is_open else end - state.pos}
    state.pos = state.pos + len(_COMMENT) if is_open else end
    return True


def _comment_block(state: StateBlock, start_line: int, end_line: int, silent: bool) -> bool:
    """A comment over several lines, outside lists and quotes; words behind its end are a paragraph of their own."""
    start = state.bMarks[start_line] + state.tShift[start_line]
    if state.level or state.is_code_block(start_line) or not state.src.startswith(_COMMENT, start):
        return False
    end = _comment_end(state.src, start, state.env)
    if end < 0 or end <= state.eMarks[start_line]:
        return False
    if silent:
        return True
    last = start_line + state.src.count("\n", start, end)
    token = state.push("comment", "", 0)
    token.hidden, token.map = True, [start_line, last + 1]
    token.meta = {"ends": end - state.bMarks[last], "begins": start - state.bMarks[start_line]}
    behind = state.src[end : state.eMarks[last]].strip()
    if behind:
        _push_paragraph(state, behind, last)
    state.line = last + 1
    return True


def _reference(state: StateBlock, start_line: int, end_line: int, silent: bool) -> bool:
    """The address of a link, below the text; `[^1]: Hers.` is a note of other dialects, shown as it is written."""
    start = state.bMarks[start_line] + state.tShift[start_line]
    return not state.src.startswith("[^", start) and reference(state, start_line, end_line, silent)


def _push_paragraph(state: StateBlock, words: str, line: int) -> None:
    state.push("paragraph_open", "p", 1).map = [line, line + 1]
    inline = state.push("inline", "", 0)
    inline.content, inline.map, inline.children = words, [line, line + 1], []
    state.push("paragraph_close", "p", -1)


@lru_cache(maxsize=1)
def _parser() -> MarkdownIt:
    parser = MarkdownIt("commonmark", {"html": False, "xhtmlOut": False}).enable("table")
    for name, rule in (("link", link), ("image", image), ("autolink", autolink)):
        parser.inline.ruler.at(name, _with_place(rule))
    parser.inline.ruler.before("autolink", "comment", _comment)
    parser.block.ruler.at("reference", _reference)
    parser.block.ruler.before("html_block", "comment", _comment_block, {"alt": ["paragraph", "reference"]})
    # Links of every kind become tokens, so that a forbidden one can be named where it stands; what may be
    # written into a page is decided again by the renderer.
    parser.validateLink = lambda url: True  # type: ignore[method-assign]  # its own way to be told
    return parser


@lru_cache(maxsize=1024)
def parse(text: str) -> tuple[Token, ...]:
    """The tokens of a text. They are shared: do not change them."""
    return tuple(_parser().parse(text))


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundLink:
    """A link or an image of a text."""

    address: str
    "As written, percent signs decoded."
    text: str
    "Its words, or what stands for an image."
    is_image: bool
    line: int
    column: int
    "From 1, in the text."


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A stretch of plain words between markup; code is left out."""

    text: str
    block: int
    "Number of the paragraph, heading or cell it stands in."
    in_link: bool
    is_quoted: bool
    "In a block quote."
    line: int
    column: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A heading with the id it gets on a page."""

    level: int
    text: str
    id: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundComment:
    """A comment of a text: its first character and the place behind its last, lines and columns from 1."""

    line: int
    column: int
    end_line: int
    end_column: int
    is_open: bool
    "Without an end; then only its first signs."


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundSign:
    """A sign that nobody sees, written by its name or its number."""

    written: str
    sign: str
    line: int
    column: int


LOOK_AHEAD = 400
"Characters searched for words that the parser has changed (an entity, an escape). Source: house; markup is shorter."


class _Block:
    """One inline token: its children, and the way from an offset in its content to a place in the text."""

    def __init__(self, token: Token, lines: Sequence[str], used: dict[int, int], is_quoted: bool) -> None:
        self.children = token.children or []
        self.is_quoted = is_quoted
        self.content = token.content
        first = token.map[0] if token.map else 0
        self._rows: list[tuple[int, int, int]] = []
        "Of each line of the content: its first offset, its row in the text, and where in that row it begins."
        offset, shift = 0, used.get(first, 0)
        for number, words in enumerate(token.content.split("\n")):
            row = min(first + number, len(lines) - 1)
            start = lines[row].find(words, shift, shift + len(words) + LOOK_AHEAD)
            self._rows.append((offset, row, max(start, 0)))
            offset, shift = offset + len(words) + 1, 0
        used[first] = self.place(len(token.content))[1] - 1

    def place(self, offset: int) -> tuple[int, int]:
        """Line and column, from 1. Markup before a block (> and list marks) is not in its content."""
        index = bisect_right(self._rows, offset, key=lambda row: row[0]) - 1
        first, row, start = self._rows[index]
        return row + 1, start + offset - first + 1


def _blocks(text: str) -> Iterator[_Block]:
    lines = text.split("\n")
    used: dict[int, int] = {}
    depth = 0
    for token in parse(text):
        depth += {"blockquote_open": 1, "blockquote_close": -1}.get(token.type, 0)
        if token.type == "inline":
            yield _Block(token, lines, used, is_quoted=depth > 0)


def _words(tokens: Iterable[Token]) -> str:
    return "".join(
        token.content or _words(token.children or ()) if token.type != "softbreak" else " "
        for token in tokens
    )


def find_links(text: str) -> tuple[FoundLink, ...]:
    """Links and images in reading order."""
    return tuple(found for block in _blocks(text) for found in _links_of(block))


def _links_of(block: _Block) -> Iterator[FoundLink]:
    for index, token in enumerate(block.children):
        if token.type not in ("link_open", "image"):
            continue
        is_image = token.type == "image"
        inside = () if is_image else block.children[index + 1 : _closing(block.children, index)]
        line, column = block.place(token.meta["offset"])
        yield FoundLink(
            address=unquote(str(token.attrGet("src" if is_image else "href") or "")),
            text=token.content if is_image else _words(inside),
            is_image=is_image,
            line=line,
            column=column,
        )


def _closing(tokens: Sequence[Token], start: int) -> int:
    """The index of the link_close that belongs to a link_open; only a bare address can stand inside a link."""
    depth = 0
    for index in range(start, len(tokens)):
        depth += {"link_open": 1, "link_close": -1}.get(tokens[index].type, 0)
        if depth == 0:
            return index
    raise LookupError("a link without an end")


def find_comments(text: str) -> tuple[FoundComment, ...]:
    """The comments of a text in reading order, up to the first without an end; what stands in code is none."""
    found = [_whole_comment(token) for token in parse(text) if token.type == "comment"]
    for block in _blocks(text):
        found += _comments_of(block, block.children, 0)
        if found and found[-1].is_open:
            break
    return tuple(sorted(found, key=lambda one: (one.line, one.column)))


def _whole_comment(token: Token) -> FoundComment:
    assert token.map is not None
    begins, ends = token.meta["begins"], token.meta["ends"]
    first, last = token.map[0] + 1, token.map[1]
    return FoundComment(line=first, column=begins + 1, end_line=last, end_column=ends + 1, is_open=False)


def _comments_of(block: _Block, tokens: Sequence[Token], shift: int) -> Iterator[FoundComment]:
    """Those of a block; of the words that stand for an image too, which count from their own first letter."""
    for token in tokens:
        if token.type == "image":
            inner = block.content.find(token.content, token.meta["offset"])
            yield from _comments_of(block, token.children or (), inner)
        elif token.type in ("comment", "open_comment"):
            found = _comment_of(block, token, shift + token.meta["offset"])
            yield found
            if found.is_open:
                return


def _comment_of(block: _Block, token: Token, offset: int) -> FoundComment:
    line, column = block.place(offset)
    end_line, end_column = block.place(offset + token.meta["length"])
    is_open = token.type == "open_comment"
    return FoundComment(line=line, column=column, end_line=end_line, end_column=end_column, is_open=is_open)


def without_comments(text: str, comments: Iterable[FoundComment]) -> str:
    """The text with its comments cut out; every line stays a line."""
    starts = [0]
    for line in text.split("\n"):
        starts.append(starts[-1] + len(line) + 1)
    kept, end = [], 0
    for one in comments:
        if not one.is_open:
            kept.append(text[end : starts[one.line - 1] + one.column - 1])
            lines = one.end_line - one.line
            kept.append(_HOLE + "\n" * lines + (_HOLE if lines else ""))
            end = starts[one.end_line - 1] + one.end_column - 1
    kept.append(text[end:])
    return "\n".join(_closed(line) if _HOLE in line else line for line in "".join(kept).split("\n"))


def _closed(line: str) -> str:
    """A line without its holes; spaces at one that begins or ends it would be markup, and go with it."""
    head, _, behind = line.partition(_HOLE)
    words = behind.replace(_HOLE, "")
    words = head + (words.lstrip() if _MARKS.fullmatch(head) else words)
    return words if line.rpartition(_HOLE)[2].strip() else words.rstrip()


def find_unseen(text: str) -> tuple[FoundSign, ...]:
    """Signs that nobody sees and that a page would hold, where they are written by name, number or bytes."""
    if not any(UNSEEN.search(words) for token in parse(text) for words in _said(token)):
        return ()
    found = [
        FoundSign(written=one.group(), sign=sign.group(), line=number, column=one.start() + 1)
        for number, line in enumerate(text.split("\n"), start=1)
        for one in _WRITTEN.finditer(line)
        if (sign := UNSEEN.search(unquote(unescape(one.group()))))
    ]
    return tuple(found)


def _said(token: Token) -> Iterator[str]:
    """All that a token may put on a page: words, titles, what stands for an image, the name of a code block."""
    yield from (token.content, token.info, *(str(value) for value in token.attrs.values()))
    for child in token.children or ():
        yield from _said(child)


def plain_blocks(text: str, *, behind: Callable[[str], str]) -> Iterator[tuple[tuple[str, bool], ...]]:
    """Each paragraph, heading, item, cell and block of code as its words; True for running text outside code.

    `behind(address)` gives the words that stand behind those of a link.
    """
    for token in parse(text):
        if token.type == "inline":
            yield tuple(_plain(token.children or [], behind))
        elif token.type in ("fence", "code_block"):
            yield ((token.content, False),)


def _plain(tokens: Sequence[Token], behind: Callable[[str], str]) -> Iterator[tuple[str, bool]]:
    ends: dict[int, str] = {}
    inside = 0
    for index, token in enumerate(tokens):
        if token.type in ("text", "open_comment", "softbreak"):
            yield ("\n" if token.type == "softbreak" else token.content), True
        elif token.type in ("hardbreak", "code_inline"):
            yield token.content or "\n", False
        elif token.type == "link_open":
            if not inside:
                ends[_closing(tokens, index)] = behind(unquote(str(token.attrGet("href") or "")))
            inside += 1
        elif token.type == "link_close":
            inside -= 1
            yield ends.get(index, ""), False


def find_runs(text: str) -> tuple[Run, ...]:
    """Plain words in reading order, without code."""
    return tuple(run for number, block in enumerate(_blocks(text)) for run in _runs_of(block, number))


def _runs_of(block: _Block, number: int) -> Iterator[Run]:
    cursor, in_link = 0, False
    for token in block.children:
        if token.type in ("link_open", "link_close"):
            in_link = token.type == "link_open"
            cursor = max(cursor, token.meta.get("offset", cursor))
        if token.type == "comment":
            cursor = token.meta["offset"] + token.meta["length"]
            continue
        found = _find_words(block.content, token.content, cursor) if token.content else -1
        start = found if found >= 0 else cursor
        if token.type == "text" and token.content:
            line, column = block.place(start)
            yield Run(
                text=token.content,
                block=number,
                in_link=in_link,
                is_quoted=block.is_quoted,
                line=line,
                column=column,
            )
        elif token.type in ("softbreak", "hardbreak"):
            start = max(block.content.find("\n", cursor), cursor)
            line, column = block.place(start)
            yield Run(
                text="\n", block=number, in_link=in_link, is_quoted=block.is_quoted, line=line, column=column
            )
            start += 1
        cursor = max(cursor, start + len(token.content), token.meta.get("end", 0))


def _find_words(content: str, words: str, cursor: int) -> int:
    """Where words begin at a place of a block's content or soon behind it; -1 where the parser changed them."""
    if words.strip(" ") and content.startswith(" ", cursor) and words[0] != " ":
        found = _NO_SPACE.search(content, cursor)
        cursor = found.start() if found else cursor
    return content.find(words, cursor, cursor + len(words) + LOOK_AHEAD)


def find_headings(text: str, *, taken: Iterable[str] = ()) -> tuple[Heading, ...]:
    """The headings of a text with ids that differ from each other and from those taken."""
    tokens = parse(text)
    found: list[Heading] = []
    ids = _Ids(taken)
    for index, token in enumerate(tokens):
        if token.type == "heading_open":
            words = _words(tokens[index + 1].children or ())
            name = ids.unique(slugify(words) or "section")
            found.append(Heading(level=int(token.tag[1:]), text=words, id=name))
    return tuple(found)


class _Ids:
    """The ids of a page: a second `salt` is salt-2."""

    def __init__(self, taken: Iterable[str]) -> None:
        self._taken = set(taken)
        self._last: dict[str, int] = {}
        "The number last given behind a name, from which the next one counts on."

    def unique(self, wanted: str) -> str:
        number, name = self._last.get(wanted, 1), wanted
        while name in self._taken:
            number += 1
            name = f"{wanted}-{number}"
        self._taken.add(name)
        self._last[wanted] = number
        return name


def render_html(
    text: str,
    *,
    link: Callable[[str, str], str | None],
    text_run: Callable[[str], str],
    image: Callable[[str, str], str | None],
    heading_offset: int,
    taken_ids: Iterable[str] = (),
) -> str:
    """The HTML of a text.

    `link(address, inner_html)` and `image(address, alternative_text)` return what stands in the page, or None for
    the plain element. `text_run(words)` returns the HTML of plain words outside code, escaped by itself; words
    broken over lines come as one run. Headings move down by `heading_offset` levels and get the ids of
    `find_headings`.
    """
    parser = _parser()
    renderer = _Renderer(link, text_run, image, heading_offset, find_headings(text, taken=taken_ids))
    return str(renderer.render(parse(text), parser.options, {}))


_WORDS = ("text", "softbreak", "open_comment")


class _Renderer(RendererHTML):
    """Writes tokens as HTML without changing them: no style attribute, no address of a forbidden kind."""

    def __init__(
        self,
        link: Callable[[str, str], str | None],
        text_run: Callable[[str], str],
        image: Callable[[str, str], str | None],
        heading_offset: int,
        headings: Sequence[Heading],
    ) -> None:
        super().__init__()
        self._link, self._text_run, self._image = link, text_run, image
        self._offset = heading_offset
        self._headings = iter(headings)
        self._inside_link = False

    def renderInline(self, tokens: Sequence[Token], options: Any, env: Any) -> str:  # noqa: N802 - the parser calls it so
        """Inline tokens; runs of words over soft breaks are joined, links are written whole."""
        out: list[str] = []
        index = 0
        while index < len(tokens):
            token = tokens[index]
            end = index + 1
            if token.type in _WORDS:
                while end < len(tokens) and tokens[end].type in _WORDS:
                    end += 1
                words = "".join("\n" if t.type == "softbreak" else t.content for t in tokens[index:end])
                out.append(self._text_run(words) if words else "")
            elif token.type == "link_open":
                end = _closing(tokens, index) + 1
                out.append(self._write_link(token, tokens[index + 1 : end - 1], options, env))
            elif token.type == "image":
                out.append(self._write_image(token))
            else:
                out.append(super().renderInline([token], options, env))
            index = end
        return "".join(out)

    def _write_link(self, token: Token, inside: Sequence[Token], options: Any, env: Any) -> str:
        address = str(token.attrGet("href") or "")
        outermost, self._inside_link = not self._inside_link, True
        inner = self.renderInline(inside, options, env)
        if not outermost:
            return inner
        self._inside_link = False
        if not is_allowed_address(unquote(address)):
            return inner
        own = self._link(unquote(address), inner)
        if own is not None:
            return own
        title = token.attrGet("title")
        extra = f' title="{escapeHtml(str(title))}"' if title else ""
        return f'<a href="{escapeHtml(address)}"{extra}>{inner}</a>'

    def _write_image(self, token: Token) -> str:
        address = str(token.attrGet("src") or "")
        words = _words(token.children or ())
        if not is_allowed_address(unquote(address), is_image=True):
            return escapeHtml(words)
        own = self._image(unquote(address), words)
        if own is not None:
            return own
        return f'<img src="{escapeHtml(address)}" alt="{escapeHtml(words)}">'

    def renderToken(self, tokens: Sequence[Token], idx: int, options: Any, env: Any) -> str:  # noqa: N802 - the parser calls it so
        """One plain token; a column's alignment becomes a class, because pages carry no style attributes."""
        token = tokens[idx]
        if token.type == "heading_open":
            return f'<h{self._level(token)} id="{next(self._headings).id}">'
        if token.type == "heading_close":
            return f"</h{self._level(token)}>\n"
        style = str(token.attrGet("style") or "")
        if token.type in ("th_open", "td_open") and style.startswith("text-align:"):
            return f'<{token.tag} class="align-{style.removeprefix("text-align:")}">'
        return super().renderToken(tokens, idx, options, env)

    def _level(self, token: Token) -> int:
        return min(int(token.tag[1:]) + self._offset, 6)
