"""What several page tests ask of a parsed page."""

from __future__ import annotations

from bs4 import BeautifulSoup, Tag

from generator.model.page import Site

SHANK = "recipes/smoked-elk-shank/index.html"
BEANS = "recipes/beans/index.html"


def parse(site: Site, path: str) -> BeautifulSoup:
    return BeautifulSoup(next(page.html for page in site.pages if page.path == path), "html.parser")


def words(tag: Tag | BeautifulSoup | None) -> str:
    """The words of a part of a page, single spaces between them."""
    assert tag is not None
    return " ".join(tag.get_text().split())


def one(tree: Tag | BeautifulSoup, selector: str) -> Tag:
    found = tree.select(selector)
    assert len(found) == 1, f"{selector}: {len(found)} found"
    return found[0]
