"""Words that give the size of a food by another thing: of `butter the size of an egg` the egg is no food."""

from __future__ import annotations

import re

_THING = r"(?:half )?(?:an?|your|the) (?:(?! (?:and|or|with|plus) )[^,();]){1,40}"
SIZE_OF = re.compile(rf"(?:about )?(?:(?:the )?size of|as (?:big|large) as) {_THING}", re.IGNORECASE)


def without_size(text: str) -> str:
    """The text with spaces in the place of such words, so that what is found in it keeps its place."""
    return SIZE_OF.sub(lambda found: " " * len(found.group()), text)
