"""Words behind `in` or `on` in, the place that they name out, or that they name none: `in buttermilk`.

The last words decide: a cold tractor shed is a shed. Two places, or one that something only stands beside, are not read.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from generator.problems import nearest
from generator.read.grammar import Grammar
from generator.read.number import AmountError
from generator.tables import Tables
from generator.tables.words import ARTICLES

COOL = frozenset({"cool", "cold", "chilly", "unheated"})
"Before a place that is warm by itself: nobody knows how cold. Source: words of the trade."
COOL_PLACE = "cool place"
WARM_BY_THEMSELVES = frozenset({"porch", "garage", "shed", "cellar", "pantry", "cupboard"})
NO_PLACES = frozenset(
    {
        *(
            "brine",
            "cure",
            "salt",
            "water",
            "milk",
            "buttermilk",
            "whey",
            "stock",
            "broth",
            "juice",
            "vinegar",
        ),
        *("wine", "beer", "cider", "marinade", "pickle", "syrup", "oil", "fat", "lard", "butter", "tallow"),
        *(
            "drippings",
            "sauce",
            "gravy",
            "liquor",
            "liquid",
            "sugar",
            "honey",
            "mix",
            "mixture",
            "rub",
            "herbs",
        ),
        *("spices", "cream", "yogurt", "feather", "feathers", "fur", "hide", "skin", "shell", "jackets"),
        *("casings", "casing", "cheesecloth", "foil", "paper", "cloth", "sack", "flour", "crumbs", "batter"),
        *(
            "smoke",
            "steam",
            "ashes",
            "batches",
            "pieces",
            "slices",
            "strips",
            "half",
            "two",
            "quarters",
            "turn",
        ),
        *(
            "place",
            "wind",
            "fire",
            "campfire",
            "middle",
            "center",
            "centre",
            "draft",
            "draught",
            "breeze",
            "heat",
            "side",
            "sides",
            "edge",
            "end",
            "coals",
            "embers",
        ),
    }
)
"Last words of what is no place: what it lies in, how it is cut, how the stove is set. Source: words of the trade."
_SET = re.compile(r"(?:an? |the )?(?:very )?(?:low|medium|high)(?![\w'’])", re.IGNORECASE)
"How the stove is set: on low, over a low fire."
PARTS_OF = (
    r"(?:bottom|back|side|end|part|corner|middle|drawer|rack|shelf|bag|bath|full|pot|pan|bucket|tub|basin|bowl|sink|"
    r"cooler|mouth)"
)
_BESIDE = re.compile(
    r"(?<![\w'’-])(?:(?:and|or|not|no|without|top|front|near|by|beside|next|outside|under|out|above|over|never)"
    rf"(?![\w'’-])|(?!{PARTS_OF} )[\w'’-]+ of (?!ice))",
    re.IGNORECASE,
)
"`on top of the fridge`, `the fridge or the porch`."


@dataclass(frozen=True, slots=True)
class PlaceFound:
    """A place by its word in the table."""

    word: str


@dataclass(frozen=True, slots=True)
class Unplaced:
    """Words that are no place."""


def read_place(written: str, grammar: Grammar) -> PlaceFound | Unplaced:
    """The place of words; AmountError at the noun where they may be one that is not known."""
    place = grammar.tables.place
    whole = place(written)
    if whole is not None:
        return PlaceFound(whole)
    words = written.lower().split(" ")
    if words[-1].strip(".") in NO_PLACES or _SET.match(written):
        return Unplaced()
    if _BESIDE.search(written) is None:
        for start in range(1, len(words)):
            found = place(" ".join(words[start:]))
            if found is not None:
                cool = found in WARM_BY_THEMSELVES and not COOL.isdisjoint(words[:start])
                return PlaceFound(COOL_PLACE if cool else found)
        if any(written.lower().endswith(jar) for jar in grammar.tables.garden.jars):
            return PlaceFound("jar")
    raise _unknown(written, grammar)


def find_place(written: str, grammar: Grammar) -> bool:
    """True where the name of a place stands anywhere in words."""
    return _spellings(grammar.tables).search(written) is not None


@lru_cache(maxsize=2)
def _spellings(tables: Tables) -> re.Pattern[str]:
    names = "|".join(re.escape(name) for name in sorted(tables.place_names, key=len, reverse=True))
    return re.compile(rf"(?<![\w'’-])(?:{names})(?![\w'’-])", re.IGNORECASE)


def _unknown(written: str, grammar: Grammar) -> AmountError:
    spellings = grammar.tables.place_names
    first, _, rest = written.partition(" ")
    noun = rest if first.lower() in ARTICLES and rest else written
    known = sorted({place.word for place in spellings.values()})
    if find_place(written, grammar):
        hint = "Write one place by its own name, such as in the fridge, or on the counter."
        return AmountError("unknown-place", f"'{noun}' is not one place.", hint, len(written) - len(noun))
    hint = nearest(noun, spellings) or f"Known are {', '.join(known)}."
    return AmountError("unknown-place", f"'{noun}' is not a place.", hint, len(written) - len(noun))
