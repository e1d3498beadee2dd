"""A new book, a new recipe, or one document as PDF, in; its files where the author asks for them out. No site is touched."""

from __future__ import annotations

import shutil
from importlib.resources import as_file, files
from pathlib import Path

from generator.write.paths import is_hidden


class NotANewFolder(Exception):
    """Something lies there already; nothing was written."""


def start_book(folder: Path) -> Path:
    """Write `content/` of a new book into a folder that is missing, or empty but for hidden files.

    Raises NotANewFolder where anything else lies there, and OSError where the folder cannot be written.
    """
    if folder.exists() and not folder.is_dir():
        raise NotANewFolder(f"'{folder}' is a file.")
    if folder.is_dir() and any(not is_hidden(path.name) for path in folder.iterdir()):
        raise NotANewFolder(f"'{folder}' holds files already.")
    book = folder / "content"
    with as_file(files("generator") / "starter") as starter:
        shutil.copytree(starter, book)
    return book


def write_new(path: Path, text: str) -> None:
    """Write a file that is not there yet, and its folder. Raises FileExistsError where it is, OSError where it cannot be."""
    path.parent.mkdir(exist_ok=True)
    with path.open("x", encoding="utf-8") as file:
        file.write(text)


class PdfNotInstalled(RuntimeError):
    """The extra that writes PDFs is not there; the message says how to get it."""


def write_pdf(html: str, into: Path) -> None:
    """Write one document as PDF. Raises PdfNotInstalled without the extra, OSError where the file cannot be written."""
    try:
        import weasyprint
    except ImportError as error:
        raise PdfNotInstalled(
            "A PDF needs the extra `pdf`: .venv/bin/pip install -e '.[pdf]' in the folder of Potherb. "
            "Or write a .html file and print it."
        ) from error
    into.write_bytes(weasyprint.HTML(string=html).write_pdf())
