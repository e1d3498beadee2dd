"""A finished site in; every link of its pages and styles that leads nowhere, or leaves the site, out.

Links an author wrote were checked against the book before a page was made of them. So a broken link here is
a bug of ours and raises, with all of them listed. Absolute links of the open schemes are let through where a
reader follows them; what a browser fetches by itself (image, style, script) comes from the site.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from html.parser import HTMLParser
from posixpath import dirname, join, normpath
from urllib.parse import SplitResult, unquote, urlsplit

from generator.model.page import Site

_FOLLOWED = frozenset({"http", "https", "mailto"})
"Schemes a reader may follow out of the site (design, section 7)."
_ADDRESSES = frozenset({"href", "src", "poster", "action", "formaction", "data", "xlink:href"})
_LISTS_OF_ADDRESSES = frozenset({"srcset", "imagesrcset"})
_NOT_FETCHED = frozenset({"canonical", "alternate", "author", "license", "me"})
"Kinds of `link` that name an address without having it fetched."
_CSS_URL = re.compile(r"""(?:url\(\s*["']?|@import\s+["'])([^"')\s]*)""")
_CSS_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class BadLink:
    """One link that leads nowhere or leaves the site."""

    path: str
    "The page or style it stands in."
    line: int
    target: str
    reason: str

    def __str__(self) -> str:
        return f"{self.path}:{self.line}: {self.target!r} {self.reason}"


class BrokenLinkError(Exception):
    """The site has links that lead nowhere; carries all of them."""

    def __init__(self, links: tuple[BadLink, ...]) -> None:
        super().__init__("\n".join(str(link) for link in links))
        self.links = links


@dataclass(frozen=True, slots=True, kw_only=True)
class _Address:
    """A link as it stands in a page."""

    target: str
    line: int
    fetched: bool
    "A browser fetches it without being asked."


class _PageReader(HTMLParser):
    """Gathers the addresses and the ids of one page."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.addresses: list[_Address] = []
        self.ids: set[str] = set()
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = {name: value or "" for name, value in attrs}
        names = ("id", "name") if tag == "a" else ("id",)
        self.ids.update(values[name] for name in names if name in values)
        fetched = _is_fetched(tag, values.get("rel", ""))
        for name, value in values.items():
            if name in _ADDRESSES and (name != "data" or tag == "object"):
                self._note(value.strip(), fetched)
            elif name in _LISTS_OF_ADDRESSES:
                for candidate in re.split(r",\s+|,$", value.strip()):
                    self._note(candidate.split(maxsplit=1)[0] if candidate.strip() else "", fetched)

    def _note(self, target: str, fetched: bool) -> None:
        self.addresses.append(_Address(target=target, line=self.getpos()[0], fetched=fetched))


def _is_fetched(tag: str, rel: str) -> bool:
    """True for all but what a reader follows and what only names an address."""
    if tag == "link":
        kinds = frozenset(rel.lower().split())
        return not kinds or not kinds <= _NOT_FETCHED
    return tag not in ("a", "area")


def check_links(site: Site) -> None:
    """Raise BrokenLinkError, with all of them, where a link of the site leads nowhere or leaves it."""
    bad = find_bad_links(site)
    if bad:
        raise BrokenLinkError(bad)


def find_bad_links(site: Site) -> tuple[BadLink, ...]:
    """Every bad link of every page and style, in the order they stand there."""
    readers = {page.path: _PageReader(page.html) for page in site.pages}
    ids: dict[str, set[str] | None] = {path: reader.ids for path, reader in readers.items()}
    ids |= {asset.path: None for asset in site.assets} | {photo.path: None for photo in site.photos}
    ids |= {calendar.path: None for calendar in site.calendars}
    found = []
    of_pages = ((path, reader.addresses) for path, reader in readers.items())
    for path, addresses in (*of_pages, *_styles(site)):
        for address in addresses:
            reason = _judge(path, address, ids)
            if reason:
                found.append(BadLink(path=path, line=address.line, target=address.target, reason=reason))
    return tuple(found)


def _styles(site: Site) -> Iterator[tuple[str, list[_Address]]]:
    """The addresses in the site's style sheets: fonts and pictures, which a browser fetches."""
    for asset in site.assets:
        if asset.path.endswith(".css"):
            yield asset.path, list(_addresses_of_style(asset.content.decode()))


def _addresses_of_style(css: str) -> Iterator[_Address]:
    """Comments count as lines and nothing else; a bare fragment is a mark inside the page's own drawing."""
    text = _CSS_COMMENT.sub(lambda comment: "\n" * comment[0].count("\n"), css)
    for match in _CSS_URL.finditer(text):
        if not match[1].startswith("#"):
            yield _Address(target=match[1], line=text.count("\n", 0, match.start()) + 1, fetched=True)


def _judge(path: str, address: _Address, ids: Mapping[str, set[str] | None]) -> str:
    """What is wrong with one address, or the empty string."""
    try:
        parts = urlsplit(address.target)
    except ValueError:
        return "is not an address"
    if parts.scheme:
        return _judge_scheme(parts, address)
    if parts.netloc or parts.path.startswith("/") or "\\" in parts.path:
        return "is not relative"
    if address.fetched and not parts.path:
        return "" if parts.fragment in (ids.get(path) or ()) else "names nothing to fetch"
    target = normpath(join(dirname(path), unquote(parts.path))) if parts.path else path
    if target not in ids or parts.path.endswith("/"):
        return "leads to no file of the site"
    known = ids[target]
    if parts.fragment and known is not None and unquote(parts.fragment) not in known:
        return "names no id of that page"
    return ""


def _judge_scheme(parts: SplitResult, address: _Address) -> str:
    if parts.scheme not in _FOLLOWED:
        return "is of a scheme that is not allowed"
    return "would be fetched from elsewhere" if address.fetched else ""
