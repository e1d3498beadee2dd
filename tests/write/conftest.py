"""A small book, small sites and small photos for the tests of the write stage."""

from __future__ import annotations

import hashlib
import io
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from PIL import Image

from generator.model.page import Page, Site
from generator.problems import ProblemLog
from generator.write.output import WriteReport, write_site


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A book's folder with its author's own folders."""
    folder = tmp_path / "content"
    for name in ("recipes", "gatherings", "pages", "photos"):
        (folder / name).mkdir(parents=True)
    (folder / "book.yaml").write_text("title: A book\n")
    return folder


@pytest.fixture
def into(tmp_path: Path) -> Path:
    """Where the site goes; not there yet."""
    return tmp_path / "output"


@pytest.fixture
def make_site() -> Callable[..., Site]:
    """A site of the named pages, each saying which version it is of."""

    def make(version: str = "1", *paths: str) -> Site:
        listed = paths or ("index.html", "recipes/shank/index.html")
        return Site(pages=tuple(Page(path=path, html=f"<p>{path} {version}</p>") for path in listed))

    return make


@pytest.fixture
def write(book: Path, into: Path) -> Callable[..., tuple[WriteReport, ProblemLog]]:
    """Write a site with a fresh log."""

    def run(site: Site, to: Path | None = None) -> tuple[WriteReport, ProblemLog]:
        log = ProblemLog()
        return write_site(site, into=to or into, book=book, log=log), log

    return run


@pytest.fixture
def contents() -> Callable[[Path], Mapping[str, str]]:
    """Every file below a folder with its hash: equal mappings are equal folders, byte for byte."""

    def read(folder: Path) -> Mapping[str, str]:
        files = (path for path in sorted(folder.rglob("*")) if path.is_file())
        return {
            path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
            for path in files
        }

    return read


@pytest.fixture
def photo_bytes() -> Callable[..., bytes]:
    """A photo whose left half is red and whose right half is blue."""

    def make(size: tuple[int, int] = (80, 60), kind: str = "JPEG", **options: object) -> bytes:
        image = Image.new("RGB", size, (220, 20, 20))
        image.paste((20, 20, 220), (size[0] // 2, 0, size[0], size[1]))
        out = io.BytesIO()
        image.save(out, kind, **options)
        return out.getvalue()

    return make
