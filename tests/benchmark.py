"""Times one build of a book as a ratio to its floor: the same libraries doing only the unavoidable.

Run it by hand: python tests/benchmark.py [BOOK]. It is no test: nothing fails by the clock.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import jinja2
import markdown_it
import yaml

from generator.build import build_site

ROUNDS = 5
TEMPLATE = "<!doctype html><title>{{ name }}</title><main>{{ body }}</main>"


def floor(book: Path, into: Path) -> None:
    """Read each file, load its front matter, render its Markdown, fill a template, write a page."""
    parser = markdown_it.MarkdownIt("commonmark").enable("table")
    template = jinja2.Environment(autoescape=True).from_string(TEMPLATE)
    for path in sorted(book.rglob("*.md")):
        _, front, body = path.read_text(encoding="utf-8").split("---\n", 2)
        name = yaml.load(front, Loader=yaml.CSafeLoader)["name"]
        page = into / path.stem / "index.html"
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(template.render(name=name, body=parser.render(body)), encoding="utf-8")


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def main() -> None:
    book = Path(sys.argv[1] if len(sys.argv) > 1 else "content")
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        build_site(book, into=place / "warm")
        built = statistics.median(
            seconds(lambda: build_site(book, into=place / "site")) for _ in range(ROUNDS)
        )
        least = statistics.median(seconds(lambda: floor(book, place / "floor")) for _ in range(ROUNDS))
    print(f"build {built * 1000:.0f} ms, floor {least * 1000:.0f} ms, ratio {built / least:.1f}")


if __name__ == "__main__":
    main()
