"""The words around a temperature in, `minimum`, `maximum` or nothing out.

English only. Where the words do not settle it the temperature is a plain one, rounded to the nearest degree.
"""

from __future__ import annotations

import re

_LEAST = (
    r"at least|over|above|past|pass(?:es|ed)?|exceeds?|beyond|reach(?:es|ed|ing)?|hits?|reads?|registers?|"
    r"shows?|hotter than|warmer than|more than|higher than|minimum(?: of)?|to"
)
_MOST = (
    r"at most|below|under|less than|lower than|colder than|cooler than|maximum(?: of)?|"
    r"(?:stays?|staying|keeps?|kept) within"
)
_FILLER = (
    r"(?:\s+(?:an?|the|its|inside|internal|core|middle|temperature|heat|of|about|around|full|is))*[\s~]*$"
)
_BEFORE = re.compile(rf"\b(?:(?P<unclear>up to)|(?P<least>{_LEAST})|(?P<most>{_MOST})){_FILLER}")
_NOT = re.compile(r"(?:\b(?:no|not|never|nor|without|cannot)|n[’']t)\b(?:\s+\w+){0,3}\s*$")
_UNTIL = re.compile(r"\b(?:before|until|till|unless)\b")
_COOLING = re.compile(r"\b(?:cool|chill|drop|fall|fell|down|lower|freez|froze)\w*\b[^,;:]{0,30}$")
_MIDDLE = r"(?:middle|cent(?:er|re)|core|thickest|bone)"
_OR_MORE = re.compile(
    r"\s*(?:or|and)\s+(?:more|above|over|higher|hotter|warmer|up)\b|\s*at (?:the )?(?:least|minimum)\b"
)
_OR_LESS = re.compile(
    r"\s*(?:or|and)\s+(?:less|below|under|lower|colder|cooler)\b|\s*at (?:the )?(?:most|maximum)\b"
)
_INSIDE = re.compile(rf",?\s*(?:inside|(?:in|at) (?:the|its) {_MIDDLE})\b")


FARTHEST = 160
"Characters on either side of a temperature whose words can speak of it. Source: house; a clause is shorter."


def bound_of(before: str, after: str) -> str:
    """`or below` behind it settles it first, then the words before it, then `inside` behind it."""
    if _OR_MORE.match(after.lower()):
        return "minimum"
    if _OR_LESS.match(after.lower()):
        return "maximum"
    clause = re.split(r"[.;:!?]\s", before.lower())[-1]
    if match := _BEFORE.search(clause):
        return _said_before(match, clause[: match.start()])
    return "minimum" if _INSIDE.match(after.lower()) else ""


def _said_before(match: re.Match[str], rest: str) -> str:
    """What the last words before a temperature say; `never` and its like turn them round."""
    if match["unclear"]:
        return ""
    if match["least"] == "to" and _COOLING.search(rest):
        return "maximum"
    no = _NOT.search(rest)
    turned = no is not None and not match[0].startswith("at ") and not _UNTIL.search(no[0])
    return "minimum" if (match["least"] is not None) is not turned else "maximum"
