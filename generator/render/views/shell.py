"""What stands around every page: its title, its styles, its address, the line for help; links are made by the template."""

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

SMALL_PAPERS = frozenset({"a5"})
"Papers that paper.css has a layout of its own for."


class View(Protocol):
    """What the shell asks of any page."""

    @property
    def title(self) -> str:
        """The page's heading."""

    @property
    def description(self) -> str:
        """One sentence for those who list pages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShellView:
    """The frame of one page."""

    page_title: str
    address: str
    "Where this page stands in the world, for its print; empty where the book has no address."
    has_icon: bool
    style: Markup
    "Of a page that stands alone: its styles, to be set into it."
    style_sum: str
    "Its SHA-256, by which the content security policy knows it."
    paper: str
    "The layout for paper that is not a whole page: a5, or empty."
    poison_help: str


def shell_view(context: Context, view: View, *, also: tuple[str, ...] = ()) -> ShellView:
    """The frame around a view on a page of the site; `also` names more style sheets of one that stands alone."""
    config = context.config
    style = _alone(context, also) if context.is_sheet else Markup("")
    return ShellView(
        page_title=config.title if context.path == paths.FRONT else f"{view.title} · {config.title}",
        address=config.address and config.address + context.path,
        has_icon=any(asset.path == "assets/icon.svg" for asset in context.theme.assets),
        style=style,
        style_sum=style_sum(style),
        paper=config.paper if config.paper in SMALL_PAPERS else "",
        poison_help=_labelled(config.poison_help),
    )


def fill_page(
    environment: Environment, template: str, context: Context, view: View, *, also: tuple[str, ...] = ()
) -> str:
    """A page whole: its view in its template, with what stands around it."""
    shell = shell_view(context, view, also=also)
    return fill_template(environment, template, page=context, shell=shell, view=view)


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
