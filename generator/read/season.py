"""`season:` of a recipe in, its months out: `May`, `Sept.`, `May to July`, each an item of a list."""

from __future__ import annotations

import re

from generator.model.moment import MONTH_NAMES
from generator.problems import nearest
from generator.read.values import Value, wrong

_TO = re.compile(r" ?(?:[–—-]|\b(?:to|till|until|through)\b) ?", re.IGNORECASE)
_SHORTEST = 3
"Letters by which a month is known: May, Jun."


def read_season(value: Value) -> tuple[int, ...]:
    """The months in the order of the file, each once."""
    months = (month for item in value.items() for month in item.read(_months) or ())
    return tuple(dict.fromkeys(months))


def _months(text: str) -> tuple[int, ...]:
    """One month, or all from one to another, over the new year where the second comes first in it."""
    ends = [_month(part) for part in _TO.split(text)]
    if len(ends) > 2:
        raise wrong(f"'{text}' has more than two months.", "Write one item a month, or May to July.")
    first, last = ends[0], ends[-1]
    return tuple((first - 1 + step) % 12 + 1 for step in range((last - first) % 12 + 1))


def _month(text: str) -> int:
    word = text.strip().removesuffix(".").lower()
    found = [
        number
        for number, name in enumerate(MONTH_NAMES, start=1)
        if len(word) >= _SHORTEST and name.lower().startswith(word)
    ]
    if found:
        return found[0]
    hint = nearest(word, [name.lower() for name in MONTH_NAMES])
    known = next((name for name in MONTH_NAMES if f"'{name.lower()}'" in hint), "")
    raise wrong(
        f"'{text.strip()}' is not a month.",
        f"Write {known}." if known else "Write months by their names: May.",
    )
