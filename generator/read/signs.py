"""Text in, the same text to the eye out, without the signs in it that would hide a word from whoever looks it up.

A soft hyphen and its like only say where a line may break: they are left out everywhere. Joiners and marks of direction
belong to the spelling of many scripts and of joined emoji, and stay there; beside a Latin letter or a digit they change
nothing that is seen, and `ven\u00adison` has to be found as venison.
"""

from __future__ import annotations

import re

_BREAKS = "\u00ad\u200b\u2060\ufeff"
"Soft hyphen, zero width space, word joiner, byte-order mark within a text."
_JOINERS = "\u034f\u061c\u180e\u200c-\u200f\u2061-\u2064"
"Joiners, marks of direction, invisible operators."
_SHAPES = "\ufe00-\ufe0f\U000e0001-\U000e007f\U000e0100-\U000e01ef"
"Variation selectors and tags: behind a letter they have no meaning, behind an emoji or a digit they have."
_LETTER = "A-Za-z\u00c0-\u024f"
_BREAK = re.compile(f"[{_BREAKS}]")
_IGNORED = re.compile(
    f"[{_BREAKS}]|(?<=[{_LETTER}])[{_JOINERS}{_SHAPES}]+|(?<=[0-9])[{_JOINERS}]+|(?<![{_JOINERS}])[{_JOINERS}]++(?=[{_LETTER}0-9])"
)
CURLY = "“”„‘’‚"
"Quotation marks that YAML takes for letters."


def without_ignored(text: str) -> str:
    """The text without its ignored signs. Columns count what is left."""
    once = _BREAK.sub("", text)  # first, so that they part no letter from a joiner
    return _IGNORED.sub("", once)
