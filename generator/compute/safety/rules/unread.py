"""Places that are not read, of a recipe and of its components, in; the box that says nobody can tell, out."""

from __future__ import annotations

from generator.compute.safety.case import Case, Rule

UNREAD = "not-read"


def unread(case: Case) -> None:
    """What stands there may be what makes the food dangerous, or what makes it safe: it is never passed over."""
    for hole in case.facts.holes:
        words = f"'{hole.words}'" if hole.words else "a part of the text"
        case.cannot_tell(UNREAD, f"{words} is not read", (hole.key,), hole)


RULES = (Rule(slugs=(UNREAD,), look=unread),)
