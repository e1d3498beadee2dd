"""What stands around every page: title, way back, the list of ways into the book."""

from __future__ import annotations

import base64
import hashlib
from dataclasses import dataclass
from typing import Protocol

from markupsafe import Markup

from generator.render import paths
from generator.render.context import Context
from generator.render.theme import Theme, ThemeError

WAYS = (
    ("Contents", paths.FRONT),
    ("By animal", paths.BY_ANIMAL),
    ("By ingredient", paths.BY_INGREDIENT),
    ("By tag", paths.BY_TAG),
    ("Sources", paths.SOURCES),
)
"The ways into the book, on every page."

SMALL_PAPERS = frozenset({"a5"})
"Papers that paper.css has a layout of its own for."

RULES_TEXT = "Rules and where they come from"


class View(Protocol):
    """What the shell asks of any page."""

    @property
    def title(self) -> str:
        """The page's heading."""

    @property
    def description(self) -> str:
        """One sentence for those who list pages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WayView:
    """A link of the navigation."""

    text: str
    href: str
    is_here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ShellView:
    """The frame of one page."""

    language: str
    book: str
    family: str
    page_title: str
    description: str
    address: str
    "Where this page stands in the world, for its print; empty where the book has no address."
    home: str
    "Link to the front page."
    assets: str
    "Prefix of the theme's files, ending in a slash."
    has_icon: bool
    style: Markup
    "Of a page that stands alone: its styles, to be set into it."
    style_sum: str
    "Its SHA-256, by which the content security policy knows it."
    paper: str
    "The layout for paper that is not a whole page: a5, or empty."
    ways: tuple[WayView, ...]
    poison_help: str
    rules: WayView | None
    "The page of rules, at the foot; none where a page stands alone."


def shell_view(context: Context, page: str, view: View, *, also: tuple[str, ...] = ()) -> ShellView:
    """The frame around a view on a page of the site; `also` names more style sheets of one that stands alone."""
    config = context.config
    ways = () if context.is_sheet else WAYS
    alone = f"{_page_size(config.paper)}\n{_both(context.theme)}"
    style = set_in(context.theme, alone, also) if context.is_sheet else Markup("")
    title = config.title if page == paths.FRONT else f"{view.title} · {config.title}"
    return ShellView(
        language=config.language,
        book=config.title,
        family=config.family,
        page_title=title,
        description=view.description,
        address=config.address and config.address + page,
        home=context.href(page, paths.FRONT),
        assets=paths.relative(page, "assets") + "/",
        has_icon=any(asset.path == "assets/icon.svg" for asset in context.theme.assets),
        style=style,
        style_sum=style_sum(style),
        paper=config.paper if config.paper in SMALL_PAPERS else "",
        ways=tuple(
            WayView(text=text, href=paths.relative(page, path), is_here=path == page) for text, path in ways
        ),
        poison_help=_labelled(config.poison_help),
        rules=None if context.is_sheet else _rules_way(page),
    )


def _rules_way(page: str) -> WayView:
    return WayView(text=RULES_TEXT, href=paths.relative(page, paths.RULES), is_here=page == paths.RULES)


def _page_size(paper: str) -> str:
    """The paper of a page that stands alone; those of the site leave it to the printer."""
    return f"@page {{ size: {paper}; }}"


def _both(theme: Theme) -> str:
    """The style sheets that a page links, as one, each for its medium."""
    sheets = (("screen", "screen.css"), ("print", "paper.css"), ("print", "print.css"))
    return "\n".join(f"@media {medium} {{\n{theme.style(name)}}}" for medium, name in sheets)


def set_in(theme: Theme, css: str, also: tuple[str, ...]) -> Markup:
    """Styles for the inside of a page: some, and whole style sheets of the theme behind them."""
    whole = "\n".join((css, *(theme.style(name) for name in also)))
    if "</" in whole:
        raise ThemeError("a style sheet holds '</' and could end its element early")
    return Markup(whole)


def style_sum(style: str) -> str:
    """The SHA-256 by which a content security policy knows a style; nothing for none."""
    return base64.b64encode(hashlib.sha256(style.encode()).digest()).decode() if style else ""


def _labelled(line: str) -> str:
    """A bare number at the foot of a page says nothing: it gets its label, unless the author wrote one."""
    return f"Poison help: {line}" if line and "poison" not in line.lower() else line
