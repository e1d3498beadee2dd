"""A new site built beside the old one in; the two exchanged, and everything foreign still there, out.

Names beside DIR `output`: `.output.potherb-new` is being built, `.output.potherb-old` is being retired.

Where the system can exchange two folders in one step (renameat2 with RENAME_EXCHANGE, Linux), every moment
shows the old site or the new one. Elsewhere two renames stand in for it: between them, for some millionths of
a second, there is no folder at all, but never a half one. A crash at any point leaves at worst a folder under
one of these names; `repair`, which begins and ends every build, puts the old site back where DIR is missing.
"""

from __future__ import annotations

import ctypes
import errno
import os
import shutil
from collections.abc import Mapping
from pathlib import Path

from generator.write.manifest import MANIFEST_NAME, BadManifestError, Manifest, hash_file, read_manifest
from generator.write.ownership import Survey, list_tree
from generator.write.paths import folders_above

_RENAME_EXCHANGE = 2
_AT_FDCWD = -100
"Both from the Linux manual pages rename(2) and openat(2): paths are relative to the working folder."
_NOT_POSSIBLE_HERE = (errno.ENOSYS, errno.EINVAL, errno.EOPNOTSUPP)


def new_folder(into: Path) -> Path:
    """Where the new site is built."""
    return into.with_name(f".{into.name}.potherb-new")


def old_folder(into: Path) -> Path:
    """Where the old site waits to be deleted."""
    return into.with_name(f".{into.name}.potherb-old")


def stage(files: Mapping[str, bytes], manifest: Manifest, survey: Survey, into: Path) -> None:
    """Build the new site beside the old one: our files, then what stays, and last the manifest."""
    staged = new_folder(into)
    staged.mkdir()
    for path, content in files.items():
        target = staged / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    _carry_over(survey, into, staged)
    (staged / MANIFEST_NAME).write_bytes(manifest.to_bytes())
    if into.exists():
        shutil.copymode(into, staged)


def _carry_over(survey: Survey, source: Path, target: Path) -> None:
    """Have every foreign file in both folders, so that no crash can lose one."""
    folders = sorted({up for path in survey.foreign for up in folders_above(path)} | {*survey.folders})
    for folder in folders:
        (target / folder).mkdir(exist_ok=True)
    for path in survey.foreign:
        _link_or_copy(source / path, target / path)
    for folder in reversed(folders):
        shutil.copystat(source / folder, target / folder)


def _link_or_copy(source: Path, target: Path) -> None:
    """A second name for the same file, or a copy where the file system knows no second names."""
    try:
        os.link(source, target, follow_symlinks=False)
    except OSError:
        shutil.copy2(source, target, follow_symlinks=False)


def swap(into: Path) -> None:
    """Put the staged site in the place of the old one, which is left for `repair` to retire."""
    staged, old = new_folder(into), old_folder(into)
    if not into.exists():
        staged.rename(into)
    elif exchange(staged, into):
        staged.rename(old)
    else:
        into.rename(old)
        staged.rename(into)


def exchange(one: Path, other: Path) -> bool:
    """Exchange two folders in one step; False where system or file system cannot."""
    renameat2 = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None) if os.name == "posix" else None
    if renameat2 is None:
        return False
    paths = os.fsencode(one), os.fsencode(other)
    if renameat2(_AT_FDCWD, paths[0], _AT_FDCWD, paths[1], _RENAME_EXCHANGE) == 0:
        return True
    error = ctypes.get_errno()
    if error in _NOT_POSSIBLE_HERE:
        return False
    raise OSError(error, os.strerror(error), str(one), None, str(other))


def repair(into: Path) -> None:
    """Clear what a finished, failed or killed build left beside the site; restore the old site if none is."""
    new, old = new_folder(into), old_folder(into)
    if not into.exists() and old.is_dir():
        old.rename(into)
    for leftover in (old, new):
        if leftover.is_symlink():
            leftover.unlink()
        elif leftover.is_dir():
            manifest = _readable_manifest(leftover)
            if leftover == old or manifest is not None:
                _rescue(leftover, into, manifest or Manifest())
            shutil.rmtree(leftover)


def _readable_manifest(leftover: Path) -> Manifest | None:
    """None also where the manifest was cut off: it is the last file of a staged site to be written."""
    try:
        return read_manifest(leftover)
    except BadManifestError:
        return None


def _rescue(leftover: Path, into: Path, manifest: Manifest) -> None:
    """Move foreign files to the site that came, or were changed, after the site was staged.

    A staged site without a manifest never comes here: unfinished, it holds only our files and copies.
    """
    tree = list_tree(leftover)
    for path in (*tree.files, *tree.odd):
        if path != MANIFEST_NAME and _is_only_here(path, leftover, into, manifest):
            (into / path).parent.mkdir(parents=True, exist_ok=True)
            os.replace(leftover / path, into / path)


def _is_only_here(path: str, leftover: Path, into: Path, manifest: Manifest) -> bool:
    """True where the leftover holds a foreign file that the site lacks, or a later writing of it."""
    here, there = leftover / path, into / path
    if path in manifest.files and not here.is_symlink() and hash_file(here) == manifest.files[path]:
        return False
    if not os.path.lexists(there):
        return True
    return here.lstat().st_mtime_ns > there.lstat().st_mtime_ns
