"""Folders in; a moment to build again, once per save however an editor saves, out."""

from __future__ import annotations

import fnmatch
import os
import threading
import time
from collections.abc import Sequence
from pathlib import Path
from types import TracebackType

from watchdog.events import FileSystemEvent, FileSystemEventHandler
from watchdog.observers import Observer

from generator.read import DROPPINGS

DEBOUNCE_S = 0.05
"Quiet time after the last event before a build: an editor's save is a burst of events."
LONGEST_BURST_S = 2.0
"A burst that goes on longer is built in the middle of."
_CHANGES = frozenset({"created", "modified", "moved", "deleted", "closed"})
"Reading a file gives opened and closed_no_write: the build itself reads, and must not wake itself."


def is_of_the_book(path: str, folder: Path) -> bool:
    """True for a file that an author means: no dropping of an editor, nothing in a dot-folder."""
    relative = os.path.relpath(path, folder)
    if any(part.startswith(".") for part in Path(relative).parts):
        return False
    name = os.path.basename(relative)
    return not any(fnmatch.fnmatchcase(name, pattern) for pattern in DROPPINGS)


class _Handler(FileSystemEventHandler):
    """Turns the events of one folder into a sign that something changed."""

    def __init__(self, folder: Path, changed: threading.Event) -> None:
        self._folder = folder
        self._changed = changed

    def on_any_event(self, event: FileSystemEvent) -> None:
        """A moved file counts by both its names: a save by renaming has the true one last."""
        if event.is_directory or event.event_type not in _CHANGES:
            return
        paths = [os.fsdecode(path) for path in (event.src_path, event.dest_path) if path]
        if any(is_of_the_book(path, self._folder) for path in paths):
            self._changed.set()


class Watcher:
    """Watches folders between `with` and its end; `wait` gives one True per burst of changes."""

    def __init__(self, folders: Sequence[Path], *, debounce_s: float = DEBOUNCE_S) -> None:
        self._debounce_s = debounce_s
        self._changed = threading.Event()
        self._observer = Observer()
        for folder in folders:
            resolved = folder.resolve(strict=True)
            self._observer.schedule(_Handler(resolved, self._changed), str(resolved), recursive=True)

    def __enter__(self) -> Watcher:
        self._observer.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._observer.stop()
        self._observer.join()

    def wait(self, timeout_s: float) -> bool:
        """True after a change and the quiet that follows it; False where none came in time.

        A change during a build is not lost: the next call returns at once.
        """
        if not self._changed.wait(timeout_s):
            return False
        latest = time.monotonic() + LONGEST_BURST_S
        while self._changed.is_set() and time.monotonic() < latest:
            self._changed.clear()
            time.sleep(self._debounce_s)
        return True
