"""A book's folder in, its site on this machine out while one writes: the composition of build and preview."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path

from generator.build import build_site
from generator.preview.outcome import BuildOutcome
from generator.preview.run import preview
from generator.problems import BookError, Problem
from generator.render.theme import themes_root
from generator.write import PhotoCache


def preview_book(
    folder: Path,
    *,
    port: int,
    say: Callable[[str], None],
    show_problems: Callable[[tuple[Problem, ...]], None],
) -> None:
    """Serve a book until interrupted. The site goes to a temporary folder; `output/` is not touched."""
    with tempfile.TemporaryDirectory(prefix="potherb-") as temporary:
        site = Path(temporary) / "site"
        photos: PhotoCache = {}

        def build() -> BuildOutcome:
            try:
                report = build_site(folder, into=site, photos=photos)
            except BookError as error:
                return BuildOutcome(ok=False, problems=error.problems, site=site)
            return BuildOutcome(ok=True, problems=report.problems, site=site)

        def built(outcome: BuildOutcome) -> None:
            show_problems(outcome.problems)
            say("built" if outcome.ok else "not built: the last good site stays")

        preview(
            folders=[folder, themes_root()],
            build=build,
            site=site,
            port=port,
            on_ready=lambda url: say(f"The book is at {url}  (Ctrl-C ends it)"),
            on_built=built,
        )
