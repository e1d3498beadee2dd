"""Every kind of page is linked from another page: what nobody can get to is not there for a reader."""

from __future__ import annotations

import posixpath
from dataclasses import replace

import pytest
from bs4 import BeautifulSoup

from generator.model.page import Page, Site
from generator.render import PAGE_KINDS, load_theme, render_book
from generator.render.context import make_context
from generator.tables import load_tables
from tests.render.plan_sample import sample_book, sample_plan


@pytest.fixture(scope="module")
def site() -> Site:
    """The demo book with a gathering: it has pages of every kind."""
    return render_book(sample_book(), (sample_plan(),), tables=load_tables(), theme=load_theme("larder"))


@pytest.fixture(scope="module")
def pages_by_kind() -> dict[str, set[str]]:
    context = make_context(
        sample_book(), tables=load_tables(), theme=load_theme("larder"), plans=(sample_plan(),)
    )
    return {kind.name: {at.path for at, _ in kind.views(context)} for kind in PAGE_KINDS}


def linked_from(page: Page) -> set[str]:
    """The pages that a page links to, but for itself."""
    links = [str(tag["href"]) for tag in BeautifulSoup(page.html, "html.parser").find_all("a", href=True)]
    folder = posixpath.dirname(page.path)
    targets = {posixpath.normpath(posixpath.join(folder, link.partition("#")[0])) for link in links}
    return targets - {page.path}


def not_linked(site: Site, pages_by_kind: dict[str, set[str]]) -> list[str]:
    """Pages of the site by kind and path, that no other page links to."""
    linked = set().union(*map(linked_from, site.pages))
    return [f"{kind}: {path}" for kind, paths in pages_by_kind.items() for path in sorted(paths - linked)]


def test_every_page_of_every_kind_is_linked(site: Site, pages_by_kind: dict[str, set[str]]) -> None:
    assert [kind for kind, paths in pages_by_kind.items() if not paths] == [], (
        "no page of this kind is looked at"
    )
    assert not_linked(site, pages_by_kind) == []


def test_a_kind_that_no_page_links_to_is_seen(site: Site, pages_by_kind: dict[str, set[str]]) -> None:
    cut = tuple(
        replace(page, html=page.html.replace("rules/index.html", "index.html")) for page in site.pages
    )
    assert not_linked(replace(site, pages=cut), pages_by_kind) == ["rules: rules/index.html"]
