"""Relative links in, the file of the book they lead to out; what leads nowhere is a problem."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.model.recipe import Link, Recipe
from generator.problems import Position, ProblemLog, nearest


def linked_file(link: Link, from_file: str) -> str:
    """The path, relative to the book, that a relative link written in a file points to."""
    path = link.target.partition("#")[0]
    return posixpath.normpath(posixpath.join(posixpath.dirname(from_file), path))


def nearest_file(path: str, files: Iterable[str], from_file: str) -> str:
    """A hint that names the file whose name is nearest; the way to it where only the folder is wrong."""
    by_name = {posixpath.basename(file): file for file in files}
    name = posixpath.basename(path)
    if name in by_name:
        way = posixpath.relpath(by_name[name], posixpath.dirname(from_file))
        return f"From this file it is '{way}'."
    return nearest(name, by_name)


@dataclass(frozen=True, slots=True)
class Linked:
    """The recipes of a book that links lead to; what leads to none goes to the log."""

    by_file: Mapping[str, Recipe]
    unread: frozenset[str]
    "Files with errors of their own, which are told already: a link to one is passed over."
    log: ProblemLog

    def recipe(self, link: Link, from_file: str) -> Recipe | None:
        """The recipe that a link in a file leads to; None, with a problem unless that file has its own."""
        target = linked_file(link, from_file)
        if target not in self.by_file and target not in self.unread:
            message = f"'{link.target}' is not a recipe of this book."
            hint = nearest_file(target, self.by_file, from_file) or "Link to a recipe's .md file."
            self.log.add("unknown-link", link.position, message, hint)
        return self.by_file.get(target)

    def refuse_draft(self, slug: str, taker: str, at: Position) -> None:
        """What is published cannot be made from a recipe that has no page."""
        hint = f"Take `draft: true` out of it, or make this {taker} a draft too."
        self.log.add("unknown-link", at, f"'{slug}' is a draft and has no page.", hint)


def check_links(links: Iterable[Link], from_file: str, files: frozenset[str], log: ProblemLog) -> None:
    """Every relative link must lead to a recipe, gathering or page of this book, and to the whole of it."""
    for link in links:
        target = linked_file(link, from_file)
        if target not in files:
            log.add(
                "unknown-link",
                link.position,
                f"'{link.target}' leads to no file of this book.",
                nearest_file(target, files, from_file)
                or "Write the path to a .md file, from the folder of this one.",
            )
        elif "#" in link.target:
            log.add(
                "unknown-link",
                link.position,
                f"'{link.target}' points into a page.",
                f"Link to the page itself: {link.target.partition('#')[0]}",
            )


def check_photos(photos: Iterable[Link], from_file: str, known: frozenset[str], log: ProblemLog) -> None:
    """Every picture must be a file in `photos/`."""
    for photo in photos:
        target = linked_file(photo, from_file)
        if target not in known:
            log.add(
                "missing-photo",
                photo.position,
                f"'{photo.target}' is not a photo of this book.",
                nearest_file(target, known, from_file)
                or "Put the file into photos/ and write ../photos/NAME.",
            )
