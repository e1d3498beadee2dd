"""Paths of the site, text with forward slashes, in; whether they stay inside it and do not collide, out."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import PurePosixPath

from generator.model.slug import fold


def stays_inside(path: str) -> bool:
    """True for a relative path that can lead nowhere but below its folder, on any system."""
    if any(character in "\\:" or ord(character) < ord(" ") for character in path):
        return False
    return all(part not in ("", ".", "..") for part in path.split("/"))


def folders_above(path: str) -> tuple[str, ...]:
    """Every folder a path lies in, nearest first, without the site itself."""
    return tuple(str(parent) for parent in PurePosixPath(path).parents if parent != PurePosixPath("."))


def is_hidden(path: str) -> bool:
    """True where the path or a folder it lies in begins with a dot."""
    return any(part.startswith(".") for part in path.split("/"))


def check_paths(paths: Iterable[str]) -> None:
    """Refuse a set of files that no folder can hold: each is our own bug, so ValueError."""
    listed = tuple(paths)
    bad = [path for path in listed if not stays_inside(path)]
    if bad:
        raise ValueError(f"paths that leave the site: {bad}")
    seen: dict[str, str] = {}
    for path in listed:
        if fold(path) in seen:
            raise ValueError(f"two files for one place: {seen[fold(path)]!r} and {path!r}")
        seen[fold(path)] = path
    for path in listed:
        for folder in folders_above(path):
            if fold(folder) in seen:
                raise ValueError(f"a file where a folder is needed: {folder!r} for {path!r}")
