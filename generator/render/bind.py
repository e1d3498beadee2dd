"""Pages that stand alone in, one document of them out: no id of one page meets that of another.

Only our own pages are bound, and their attributes are in double quotes, as the templates write them.
"""

from __future__ import annotations

import re

from markupsafe import Markup

NAMES = re.compile(r' (id|for|headers|aria-labelledby|aria-describedby)="([^"]*)"')
MATTER = re.compile(r'<main id="main" tabindex="-1">\n(.*)</main>', re.DOTALL)
TAG = re.compile(r"(<[^<>]*>)")
LINKS = re.compile(r'(href="#|fill="url\(#)([^")]*)')


def with_own_ids(html: str, prefix: str) -> Markup:
    """A page's matter with the prefix before every id and before whatever names one."""
    pieces = TAG.split(html)
    return Markup("".join(_tag(piece, prefix) if piece.startswith("<") else piece for piece in pieces))


def matter_of(page: str) -> str:
    """What stands between head and foot of a page. One without it is a bug and raises."""
    found = MATTER.search(page)
    assert found is not None, "a page has no main"
    return found[1]


def _tag(tag: str, prefix: str) -> str:
    tag = NAMES.sub(
        lambda match: f' {match[1]}="{" ".join(prefix + name for name in match[2].split())}"', tag
    )
    return LINKS.sub(lambda match: f"{match[1]}{prefix}{match[2]}", tag)
