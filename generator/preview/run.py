"""Folders to watch and a way to build in; the site on this machine, built anew at every save, out."""

from __future__ import annotations

import threading
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from generator.preview.live import Live
from generator.preview.outcome import BuildOutcome
from generator.preview.server import HOST, serving
from generator.preview.watch import Watcher

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
