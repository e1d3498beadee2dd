"""A book's folder in; its site on this machine, built anew at every save, out: the composition of build and preview."""

from __future__ import annotations

import tempfile
import threading
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from generator.build import build_site
from generator.preview.live import BuildOutcome, Live
from generator.preview.server import HOST, serving
from generator.preview.watch import Watcher
from generator.problems import BookError, Problem
from generator.render.theme import themes_root
from generator.write import PhotoCache

DEFAULT_PORT = 8000
_LOOK_UP_S = 0.25
"How often a quiet preview looks whether it is to stop."


def preview(
    *,
    folders: list[Path],
    build: Callable[[], BuildOutcome],
    site: Path,
    on_ready: Callable[[str], None],
    on_built: Callable[[BuildOutcome], None],
    host: str = HOST,
    port: int = DEFAULT_PORT,
    stop: threading.Event | None = None,
) -> None:
    """Build, serve and build again after each save, until `stop` is set or the author interrupts.

    `site` is a temporary folder of the caller's, into which `build` writes. `on_ready` is told the address,
    `on_built` each outcome: they print, nothing here does. What `build` raises is a bug and goes up.
    """
    if host not in (HOST, "localhost"):
        raise ValueError(f"a preview is served to this machine alone, not to {host!r}")
    stop, live = stop or threading.Event(), Live()

    def build_once() -> None:
        outcome = build()
        if outcome.site != site:
            raise ValueError(f"the preview serves '{site}', but the site was built in '{outcome.site}'")
        live.publish(outcome)
        on_built(outcome)

    with suppress(KeyboardInterrupt), Watcher(folders) as watcher:
        build_once()
        with serving(port, site=site, live=live) as server:
            on_ready(server.url)
            while not stop.is_set():
                if watcher.wait(_LOOK_UP_S):
                    build_once()


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
                report = build_site(folder, into=site, photos=photos, with_holes=True)
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
