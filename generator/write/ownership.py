"""The folder to write to in; what there is ours, what is not and stays, and what forbids writing, out.

A file is ours where our manifest lists it and its content is still what we wrote. All else is foreign:
it stays, and where it stands in the way of a file of the new site, nothing is written.
"""

from __future__ import annotations

import os
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from generator.model.slug import fold
from generator.problems import ProblemLog
from generator.write.manifest import MANIFEST_NAME, BadManifestError, Manifest, hash_file, read_manifest
from generator.write.paths import folders_above, is_hidden

BOOK_FOLDERS = ("recipes", "gatherings", "pages", "photos")
"Folders of a book that hold its author's own files."
ELSEWHERE = "Name an empty or a new folder with --into."
NAMES_SHOWN = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Tree:
    """All that lies in a folder, as relative paths, sorted."""

    files: tuple[str, ...] = ()
    folders: tuple[str, ...] = ()
    odd: tuple[str, ...] = ()
    "Symbolic links, and whatever is neither file nor folder."


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """What stands in the folder before we write."""

    ours: frozenset[str] = frozenset()
    "Written by us and unchanged."
    changed: frozenset[str] = frozenset()
    "Written by us and changed since: foreign now."
    foreign: tuple[str, ...] = ()
    "Files that stay, the changed ones among them."
    folders: tuple[str, ...] = ()
    "Empty folders that none of our files ever made."
    manifest: Manifest = field(default_factory=Manifest)


def list_tree(folder: Path) -> Tree:
    """Everything below a folder, without following a link."""
    files: list[str] = []
    folders: list[str] = []
    odd: list[str] = []
    waiting = [""]
    while waiting:
        above = waiting.pop()
        with os.scandir(folder / above) as entries:
            for entry in entries:
                path = f"{above}/{entry.name}" if above else entry.name
                if entry.is_dir(follow_symlinks=False):
                    folders.append(path)
                    waiting.append(path)
                else:
                    (files if entry.is_file(follow_symlinks=False) else odd).append(path)
    return Tree(files=tuple(sorted(files)), folders=tuple(sorted(folders)), odd=tuple(sorted(odd)))


def meets_book(into: Path, book: Path, log: ProblemLog) -> bool:
    """Note and tell whether writing to `into` would write over the book itself."""
    target, root = into.resolve(), book.resolve()
    if target == root or target in root.parents:
        log.add("foreign-folder", None, f"'{into}' is the book's own folder or lies above it.", ELSEWHERE)
        return True
    for name in BOOK_FOLDERS:
        held = (root / name).resolve()
        if held == target or held in target.parents:
            log.add("foreign-folder", None, f"'{into}' lies in the book's folder '{name}'.", ELSEWHERE)
            return True
    return False


def survey_folder(into: Path, log: ProblemLog) -> Survey | None:
    """What is whose in the folder; None, with the reason in the log, where the folder is not ours."""
    if into.is_symlink():
        hint = "Name the folder itself that the link leads to."
        log.add("foreign-folder", None, f"'{into}' is a symbolic link.", hint)
        return None
    if not into.exists():
        return Survey()
    if not into.is_dir():
        log.add("foreign-folder", None, f"'{into}' is a file, not a folder.", ELSEWHERE)
        return None
    tree = list_tree(into)
    if _has_odd_entries(tree, into, log):
        return None
    try:
        manifest = read_manifest(into)
    except BadManifestError as error:
        hint = f"If nothing in it is yours, delete the folder; otherwise: {ELSEWHERE}"
        log.add("foreign-folder", None, f"'{into}/{MANIFEST_NAME}' cannot be trusted: {error}.", hint)
        return None
    if manifest is None and _has_foreign_content(tree, into, log):
        return None
    return _compare(tree, into, manifest or Manifest())


def _has_odd_entries(tree: Tree, into: Path, log: ProblemLog) -> bool:
    """Links are let be only inside the author's dot-folders, a repository say, where we never write."""
    odd = [path for path in tree.odd if not any(is_hidden(folder) for folder in folders_above(path))]
    for path in odd:
        message = f"'{into}/{path}' is a symbolic link, or neither a file nor a folder."
        log.add("foreign-folder", None, message, "Delete it, or put a plain file in its place.")
    return bool(odd)


def _has_foreign_content(tree: Tree, into: Path, log: ProblemLog) -> bool:
    """Without a manifest only dotfiles may be there."""
    names = sorted({path.partition("/")[0] for path in (*tree.files, *tree.folders)})
    visible = [name for name in names if not name.startswith(".")]
    if not visible:
        return False
    message = f"'{into}' holds what Potherb did not write: {listed(visible)}."
    log.add("foreign-folder", None, message, ELSEWHERE)
    return True


def listed(names: Sequence[str]) -> str:
    """The first few names, and how many more there are."""
    more = f" and {len(names) - NAMES_SHOWN} more" if len(names) > NAMES_SHOWN else ""
    return ", ".join(f"'{name}'" for name in names[:NAMES_SHOWN]) + more


def _compare(tree: Tree, into: Path, manifest: Manifest) -> Survey:
    """Sort the files by owner; `odd` entries in dot-folders are the author's."""
    known = {path for path in tree.files if path in manifest.files}
    ours = frozenset(path for path in known if hash_file(into / path) == manifest.files[path])
    foreign = tuple(path for path in (*tree.files, *tree.odd) if path not in ours and path != MANIFEST_NAME)
    full = {folder for path in (*foreign, *manifest.files) for folder in folders_above(path)}
    empty = tuple(folder for folder in tree.folders if folder not in full)
    return Survey(
        ours=ours, changed=frozenset(known - ours), foreign=foreign, folders=empty, manifest=manifest
    )


def find_in_the_way(survey: Survey, paths: Collection[str], into: Path, log: ProblemLog) -> None:
    """Note each foreign file or folder that stands where a file or folder of the new site must go."""
    ours = {fold(path) for path in paths}
    our_folders = {fold(folder) for path in paths for folder in folders_above(path)}
    for path in survey.foreign:
        if fold(path) in ours | our_folders or any(fold(up) in ours for up in folders_above(path)):
            who = "was changed after Potherb wrote it" if path in survey.changed else "is not Potherb's"
            hint = "Move it elsewhere or delete it, then build again."
            log.add("foreign-file", None, f"'{into}/{path}' {who}, and the site needs its place.", hint)
    for path in survey.folders:
        if any(fold(folder) in ours for folder in (path, *folders_above(path))):
            message = f"The folder '{into}/{path}' stands where the site needs a file."
            log.add("foreign-file", None, message, "Move it elsewhere or delete it, then build again.")
