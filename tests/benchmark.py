"""CPU time of one build of a book and of its parts as ratios to its floor: the same libraries doing only the unavoidable.

Run it by hand: python tests/benchmark.py [BOOK]. It is no test: nothing fails by the clock.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from pathlib import Path

import jinja2
import markdown_it
import yaml

from generator.build import build_site

ROUNDS = 7
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


def floor_s(book: Path, into: Path) -> float:
    """CPU time [s] of the floor."""
    start = time.process_time()
    floor(book, into)
    return time.process_time() - start


def parts_s(book: Path, into: Path) -> dict[str, float]:
    """CPU time [s] of each part of a build, in its order, and of the whole."""
    marks: list[tuple[str, float]] = []
    build_site(book, into=into, progress=lambda part: marks.append((part, time.process_time())))
    ends = [*(at for _, at in marks[1:]), time.process_time()]
    parts = {part: end - at for (part, at), end in zip(marks, ends, strict=True)}
    return {**parts, "build": ends[-1] - marks[0][1]}


def main() -> None:
    """The floor and the parts take turns, so that what else the machine does falls on both."""
    book = Path(sys.argv[1] if len(sys.argv) > 1 else "content")
    least: list[float] = []
    built: list[dict[str, float]] = []
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        build_site(book, into=place / "site")  # what is loaded once is no part
        for _ in range(ROUNDS):
            least.append(floor_s(book, place / "floor"))
            built.append(parts_s(book, place / "site"))
    of_floor = statistics.median(least)
    print(f"floor {of_floor * 1000:.0f} ms")
    for part in built[0]:
        took = statistics.median(one[part] for one in built)
        print(f"{part:8} {took * 1000:6.0f} ms {took / of_floor:6.2f}")


if __name__ == "__main__":
    main()
