"""Markdown in, tokens, places and HTML out: CommonMark with tables, raw HTML shown as text, few kinds of links.

This is the one place that knows the parser. Tokens are shared by all who ask for the same text: nobody changes them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any
from urllib.parse import unquote

from markdown_it import MarkdownIt
from markdown_it.common.utils import escapeHtml
from markdown_it.renderer import RendererHTML
from markdown_it.rules_inline import StateInline, autolink, image, link
from markdown_it.token import Token

from generator.model.slug import slugify

__all__ = [
    "FoundLink",
    "Heading",
    "Run",
    "find_headings",
    "find_links",
    "find_runs",
    "is_allowed_address",
    "is_external",
    "parse",
    "render_html",
]

SCHEMES = ("http", "https", "mailto")
"All others could run something or read something of the reader's."

_SCHEME = re.compile(r"([^/?#]*?):")


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
    """The rule, noting at which character of its block the link or image begins."""

    def placed(state: StateInline, silent: bool) -> bool:
        start, before = state.pos, len(state.tokens)
        if not rule(state, silent):
            return False
        for token in state.tokens[before:] if not silent else ():
            if token.type in ("link_open", "image"):
                token.meta.setdefault("offset", start)
        return True

    return placed


@lru_cache(maxsize=1)
def _parser() -> MarkdownIt:
    parser = MarkdownIt("commonmark", {"html": False, "xhtmlOut": False}).enable("table")
    for name, rule in (("link", link), ("image", image), ("autolink", autolink)):
        parser.inline.ruler.at(name, _with_place(rule))
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
    line: int
    column: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A heading with the id it gets on a page."""

    level: int
    text: str
    id: str


class _Block:
    """One inline token: its children, and the way from an offset in its content to a place in the text."""

    def __init__(self, token: Token, lines: Sequence[str], used: dict[int, int]) -> None:
        self.children = token.children or []
        self.content = token.content
        self._first = token.map[0] if token.map else 0
        self._lines = lines
        self._shift = used.get(self._first, 0)
        used[self._first] = self.place(len(token.content))[1] - 1

    def place(self, offset: int) -> tuple[int, int]:
        """Line and column, from 1. Markup before a block (> and list marks) is not in its content."""
        before = self.content[:offset]
        number = before.count("\n")
        inside = offset - (before.rfind("\n") + 1)
        row = min(self._first + number, len(self._lines) - 1)
        wanted = self.content.split("\n")[number]
        start = self._lines[row].find(wanted, self._shift if number == 0 else 0)
        return row + 1, max(start, 0) + inside + 1


def _blocks(text: str) -> Iterator[_Block]:
    lines = text.split("\n")
    used: dict[int, int] = {}
    for token in parse(text):
        if token.type == "inline":
            yield _Block(token, lines, used)


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


def find_runs(text: str) -> tuple[Run, ...]:
    """Plain words in reading order, without code."""
    return tuple(run for number, block in enumerate(_blocks(text)) for run in _runs_of(block, number))


def _runs_of(block: _Block, number: int) -> Iterator[Run]:
    cursor, in_link = 0, False
    for token in block.children:
        if token.type in ("link_open", "link_close"):
            in_link = token.type == "link_open"
            cursor = max(cursor, token.meta.get("offset", cursor))
        found = block.content.find(token.content, cursor) if token.content else -1
        start = found if found >= 0 else cursor
        if token.type == "text" and token.content:
            line, column = block.place(start)
            yield Run(text=token.content, block=number, in_link=in_link, line=line, column=column)
        elif token.type in ("softbreak", "hardbreak"):
            start = max(block.content.find("\n", cursor), cursor)
            line, column = block.place(start)
            yield Run(text="\n", block=number, in_link=in_link, line=line, column=column)
            start += 1
        cursor = max(cursor, start + len(token.content))


def find_headings(text: str, *, taken: Iterable[str] = ()) -> tuple[Heading, ...]:
    """The headings of a text with ids that differ from each other and from those taken."""
    tokens = parse(text)
    found: list[Heading] = []
    ids = set(taken)
    for index, token in enumerate(tokens):
        if token.type == "heading_open":
            words = _words(tokens[index + 1].children or ())
            name = _unique(slugify(words) or "section", ids)
            found.append(Heading(level=int(token.tag[1:]), text=words, id=name))
    return tuple(found)


def _unique(name: str, ids: set[str]) -> str:
    number, wanted = 1, name
    while name in ids:
        number += 1
        name = f"{wanted}-{number}"
    ids.add(name)
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
            if token.type in ("text", "softbreak"):
                while end < len(tokens) and tokens[end].type in ("text", "softbreak"):
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
