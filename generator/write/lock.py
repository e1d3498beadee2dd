"""A folder to write to in; the right to be the only build that writes there, or BuildRunningError, out."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path


class BuildRunningError(Exception):
    """Another build holds the folder."""


@contextmanager
def only_build(into: Path) -> Iterator[None]:
    """Hold the lock beside `into` for a while.

    The system drops the lock when a process ends, however it ends, so a crash leaves a file but no lock.
    """
    path = into.with_name(f".{into.name}.potherb-lock")
    handle = _take(path)
    try:
        yield
    finally:
        _give_back(handle, path)


if sys.platform == "win32":

    def _take(path: Path) -> int:
        """Windows refuses to delete a file that another process holds open: that is the lock."""
        try:
            path.unlink(missing_ok=True)
            return os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL)
        except (PermissionError, FileExistsError) as error:
            raise BuildRunningError(str(path)) from error

    def _give_back(handle: int, path: Path) -> None:
        os.close(handle)
        with suppress(OSError):
            path.unlink()

else:
    import fcntl

    def _take(path: Path) -> int:
        """Lock the file that stands at the path; one deleted by its last holder meanwhile does not count."""
        while True:
            handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC | os.O_NOFOLLOW, 0o666)
            try:
                fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
                if _stands_at(handle, path):
                    return handle
            except BaseException as error:
                os.close(handle)
                if isinstance(error, BlockingIOError):
                    raise BuildRunningError(str(path)) from error
                raise
            os.close(handle)

    def _stands_at(handle: int, path: Path) -> bool:
        try:
            return os.path.samestat(os.fstat(handle), os.stat(path, follow_symlinks=False))
        except FileNotFoundError:
            return False

    def _give_back(handle: int, path: Path) -> None:
        """Delete before letting go: whoever opened the file before sees that it no longer stands there."""
        with suppress(OSError):
            path.unlink()
        os.close(handle)
