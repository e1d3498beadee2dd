"""Where a view, a page kind and a colour stand, as given values, so that a part can be left out; a sentence for each that is missing."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from bs4 import BeautifulSoup

from generator.model.page import Page


@dataclass(frozen=True, slots=True, kw_only=True)
class ViewPlaces:
    """What views hold, and what is taken from them."""

    fields: Mapping[str, Collection[str]]
    "Of each record whose name ends in View."
    shown: Collection[str]
    "Names that a template takes from something. What code takes does not count: a record has fields of those names."
    by_the_view: Collection[str] = ()
    "Those that no template needs to take."


def view_gaps(of: ViewPlaces) -> list[str]:
    """A sentence for each field that no template takes.

    By its name, which another view may have too: so this sees most of them, not all.
    """
    return [
        f"{view}.{field} is shown by no template"
        for view, fields in of.fields.items()
        for field in fields
        if field not in of.shown and f"{view}.{field}" not in of.by_the_view
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class KindPlaces:
    """All places of which a page kind needs several."""

    kinds: Mapping[str, str]
    "Each entry of PAGE_KINDS, and its template."
    templates: Collection[str]
    "Files of templates/ in themes/base, by their names, but for the frame around all."
    views: Mapping[str, Collection[str]]
    "Each file of render/views/, and its functions that make the view of a page."
    used: Collection[str]
    "Names and words that the modules use which fill templates: site.py and sheets.py."
    paths: Mapping[str, Collection[str]]
    "The pages of each kind in a book that has all kinds."
    pages: Collection[Page]
    "Of that book."
    looked_at: Collection[str]
    "Those that a browser opens in tests/pages."


def kind_gaps(of: KindPlaces) -> list[str]:
    """A sentence for each part of a page kind that stands in one place and is missing in another."""
    return [*_templates(of), *_unmade(of), *_unlinked(of)]


def _templates(of: KindPlaces) -> Iterator[str]:
    for kind, template in of.kinds.items():
        if template not in of.templates:
            yield f"the page kind '{kind}' has no template templates/{template}.html"
    for template in sorted(of.templates):
        if template not in {*of.kinds.values(), *of.used}:
            yield f"templates/{template}.html is the template of nothing in PAGE_KINDS of render/site.py"


def _unmade(of: KindPlaces) -> Iterator[str]:
    for file, names in of.views.items():
        for name in names:
            if name not in of.used:
                yield f"render/views/{file}: {name} is of nothing in PAGE_KINDS of render/site.py"
    for kind in of.kinds:
        if not of.paths[kind]:
            yield f"no page of the kind '{kind}' is made of the book that has all"
        elif not set(of.paths[kind]) & set(of.looked_at):
            yield f"tests/pages/kinds.py names no page of the kind '{kind}', so no browser looks at one"


def _unlinked(of: KindPlaces) -> Iterator[str]:
    linked = set().union(*map(_linked_from, of.pages))
    for kind, paths in of.paths.items():
        for path in sorted(set(paths) - linked):
            yield f"no other page links to {path}, of the kind '{kind}'"


def _linked_from(page: Page) -> set[str]:
    """The pages that a page links to, but for itself."""
    links = [str(tag["href"]) for tag in BeautifulSoup(page.html, "html.parser").find_all("a", href=True)]
    folder = posixpath.dirname(page.path)
    targets = {posixpath.normpath(posixpath.join(folder, link.partition("#")[0])) for link in links}
    return targets - {page.path}


@dataclass(frozen=True, slots=True, kw_only=True)
class ColourPlaces:
    """Where the colours of a theme may stand on the screen."""

    base: str
    "The screen.css of base."
    own: str
    "That of the theme."
    icon: str


COLOUR = re.compile(r"#[0-9a-f]{3,8}\b|\b(?:rgb|hsl|hwb|lab|lch|oklab|oklch)a?\(")
SET = re.compile(r"(--[a-z][a-z0-9-]*): ([^;]+);")
USED = re.compile(r"var\((--[a-z][a-z0-9-]*)")
DARK = re.compile(r"^@media \(prefers-color-scheme: dark\) \{(.*?)^\}", re.DOTALL | re.MULTILINE)


def colour_gaps(of: ColourPlaces) -> list[str]:
    """A sentence for each name of a theme that is used or set in vain, and for each colour without one."""
    names, used = {name for name, _ in SET.findall(of.own)}, {*USED.findall(of.base + of.own + of.icon)}
    rules = SET.sub("", of.own) + of.base + of.icon
    light, dark = _coloured(DARK.sub("", of.own)), _coloured("".join(DARK.findall(of.own)))
    return [
        *(f"{name} is used, and screen.css sets no value of it" for name in sorted(used - names)),
        *(f"{name} has a value in screen.css, and nothing uses it" for name in sorted(names - used)),
        *(f"{name} has a colour in the light and none in the dark" for name in sorted(light - dark)),
        *(f"{name} has a colour in the dark and none in the light" for name in sorted(dark - light)),
        *(f"the colour {colour} stands where only names do" for colour in COLOUR.findall(rules)),
    ]


def _coloured(sheet: str) -> set[str]:
    return {name for name, value in SET.findall(sheet) if COLOUR.match(value)}
