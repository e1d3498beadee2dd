"""Pages of the hand-made book, made once and read by an independent parser."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import pytest
from bs4 import BeautifulSoup

from generator.model.page import Site
from generator.model.results import ComputedBook
from generator.render import Theme, load_theme, render_book
from tests.render import sample

Read = Callable[[str], BeautifulSoup]


@pytest.fixture(scope="session")
def theme() -> Theme:
    return load_theme("larder")


@pytest.fixture(scope="session")
def render(theme: Theme) -> Callable[[ComputedBook], Site]:
    """Any hand-made book as a site."""
    return lambda computed: render_book(computed, tables=sample.TABLES, theme=theme)


@pytest.fixture(scope="session")
def site(render: Callable[[ComputedBook], Site]) -> Site:
    return render(sample.book())


@pytest.fixture(scope="session")
def read(site: Site) -> Read:
    """One page of the site, parsed once: tests look at it and change nothing."""
    pages = {page.path: page.html for page in site.pages}
    return cache(lambda path: BeautifulSoup(pages[path], "html.parser"))
