"""A new site built beside the old one in; the two exchanged, and everything foreign still there, out.

Names beside DIR `output`: `.output.potherb-new` is being built, `.output.potherb-old` is being retired.

Where the system can exchange two folders in one step (renameat2 with RENAME_EXCHANGE, Linux), every moment
shows the old site or the new one. Elsewhere two renames stand in for it: between them, for some millionths of
a second, there is no folder at all, but never a half one. A crash at any point leaves at worst a folder under
one of these names; `repair`, which begins and ends every build, puts the old site back where DIR is missing.
What is under these names and not from a build of ours is told by `has_foreign_leftover` and is never touched.
"""

from __future__ import annotations

import ctypes
import errno
import os
import shutil
from collections.abc import Mapping
from pathlib import Path

from generator.problems import ProblemLog
from generator.write.manifest import (
    MANIFEST_NAME,
    UNFINISHED_NAME,
    BadManifestError,
    Manifest,
    hash_file,
    read_manifest,
)
from generator.write.ownership import Survey, list_tree, listed
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
    """Build the new site beside the old one: our files, then what stays.

    The manifest is the first file, under a name that says that the folder is not whole, and gets its own name last.
    """
    staged = new_folder(into)
    staged.mkdir()
    (staged / UNFINISHED_NAME).write_bytes(manifest.to_bytes())
    for path, content in files.items():
        target = staged / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    _carry_over(survey, into, staged)
    (staged / UNFINISHED_NAME).rename(staged / MANIFEST_NAME)
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


def has_foreign_leftover(into: Path, log: ProblemLog) -> bool:
    """Note what stands under our names beside the site and is not from a build of ours."""
    hint = "Potherb needs that name while it builds. Move it elsewhere or delete it, then build again."
    found = False
    for folder in (old_folder(into), new_folder(into)):
        if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
            log.add("foreign-folder", None, f"'{folder}' is not a folder that Potherb made.", hint)
        elif folder.is_dir() and (foreign := _foreign_files(folder, into)):
            message = f"'{folder}' holds what Potherb did not write: {listed(foreign)}."
            log.add("foreign-folder", None, message, hint)
        else:
            continue
        found = True
    return found


def _foreign_files(leftover: Path, into: Path) -> tuple[str, ...]:
    """Of a folder without our manifest: all that is not listed as ours and no copy of what the site holds."""
    if _manifest_of(leftover, MANIFEST_NAME) is not None:
        return ()
    unfinished = _manifest_of(leftover, UNFINISHED_NAME) or Manifest()
    ours = {UNFINISHED_NAME, *unfinished.files}
    sites = {into, new_folder(into)} - {leftover}  # between two renames the new site is not yet in its place
    tree = list_tree(leftover)
    return tuple(
        path
        for path in (*tree.files, *tree.odd)
        if path not in ours and not any(_is_copy(leftover / path, site / path) for site in sites)
    )


def _is_copy(one: Path, other: Path) -> bool:
    """True where both hold the same: only then one of them may go."""
    if one.is_symlink() or other.is_symlink():
        return one.is_symlink() and other.is_symlink() and one.readlink() == other.readlink()
    if not (one.is_file() and other.is_file()):
        return False
    return one.samefile(other) or hash_file(one) == hash_file(other)


def repair(into: Path) -> None:
    """Clear what a finished, failed or killed build of ours left beside the site; restore the old site if none is."""
    new, old = new_folder(into), old_folder(into)
    if not into.exists() and old.is_dir():
        old.rename(into)
    for leftover in (old, new):
        if leftover.is_dir():
            manifest = _manifest_of(leftover, MANIFEST_NAME)
            if leftover == old or manifest is not None:
                _rescue(leftover, into, manifest or Manifest())
            shutil.rmtree(leftover)


def _manifest_of(leftover: Path, name: str) -> Manifest | None:
    """None also where it was cut off, or is not ours."""
    try:
        return read_manifest(leftover, name)
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
