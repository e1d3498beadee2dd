"""What stands around every page: title, way back, the list of ways into the book."""

from __future__ import annotations

import base64
import hashlib
from dataclasses import dataclass
from typing import Protocol

from jinja2 import Environment
from markupsafe import Markup

from generator.render import paths
from generator.render.context import Context
from generator.render.theme import Theme, ThemeError, fill_template

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


def shell_view(context: Context, view: View, *, also: tuple[str, ...] = ()) -> ShellView:
    """The frame around a view on a page of the site; `also` names more style sheets of one that stands alone."""
    config = context.config
    ways = () if context.is_sheet else WAYS
    style = _alone(context, also) if context.is_sheet else Markup("")
    title = config.title if context.path == paths.FRONT else f"{view.title} · {config.title}"
    return ShellView(
        language=config.language,
        book=config.title,
        family=config.family,
        page_title=title,
        description=view.description,
        address=config.address and config.address + context.path,
        home=context.href(paths.FRONT),
        assets=context.href("assets") + "/",
        has_icon=any(asset.path == "assets/icon.svg" for asset in context.theme.assets),
        style=style,
        style_sum=style_sum(style),
        paper=config.paper if config.paper in SMALL_PAPERS else "",
        ways=tuple(_way(context, text, path) for text, path in ways),
        poison_help=_labelled(config.poison_help),
        rules=None if context.is_sheet else _way(context, RULES_TEXT, paths.RULES),
    )


def fill_page(
    environment: Environment, template: str, context: Context, view: View, *, also: tuple[str, ...] = ()
) -> str:
    """A page whole: its view in its template, with what stands around it."""
    shell = shell_view(context, view, also=also)
    return fill_template(environment, template, page=context, shell=shell, view=view)


def _way(context: Context, text: str, path: str) -> WayView:
    return WayView(text=text, href=context.href(path), is_here=path == context.path)


def _alone(context: Context, also: tuple[str, ...]) -> Markup:
    """The paper, which pages of the site leave to the printer, and the sheets that those link, each for its medium."""
    sheets = (("screen", "screen.css"), ("print", "paper.css"), ("print", "print.css"))
    both = (f"@media {medium} {{\n{context.theme.style(name)}}}" for medium, name in sheets)
    return set_in(context.theme, "\n".join((f"@page {{ size: {context.config.paper}; }}", *both)), also)


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
