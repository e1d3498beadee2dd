"""A printable HTML document in, a PDF file out, by the optional extra `pdf`."""

from __future__ import annotations

from pathlib import Path


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
