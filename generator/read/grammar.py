"""How a book writes its amounts: a system and a language decide what `pint` and `1,000` mean; and its tables."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.model.published import CuringSalt
from generator.model.quantity import Dimension, Span, Unit
from generator.read.number import ANY, AmountError
from generator.tables import AmbiguousUnit, Tables

_WORD = r"(?:[^\W\d_]+(?:\.[^\W\d_]+)*\.?|[#\"″])"
_WORDS = re.compile(rf"{_WORD}(?:[ -]{_WORD}){{0,2}}")
_JOINED = re.compile(r"[\w'’]|-[^\W\d_]")
"What may not follow a unit: it would be part of a longer word (T-bone, 2 in one)."

_STOP = re.compile(r"\.(?= ?[a-z0-9(¼-¾⅐-⅞,]|$)")
"The full stop of an abbreviation: behind it no sentence begins."
_NUMBERED = re.compile(
    r"(?:no\.?|nr\.?|number|#) ?(?P<size>\d{1,3}(?:[ -]1/2| ?½|\.5)?(?: cylinder| picnic)?)[ -]"
    r"(?:cans?|tins?|cn)(?![\w'’-])\.?",
    re.IGNORECASE,
)
"A can named by its number: No. 10 can, #303 can."

MEASURED = (Dimension.WEIGHT, Dimension.VOLUME)

ADJECTIVES = ("rib", "strip", "leaf", "loaf")
"Singular behind a number above one they belong to the name: 4 rib chops, 2 strip steaks."

NOT_UNITS = (
    *("pinto", "graham", "round", "quarter", "pecan", "lamb", "cupcake", "litchi", "pink", "gray", "pod"),
    *("gala", "liver", "grill", "tub", "pot", "table", "pounded", "tap"),
)
"Foods, cuts and words for them whose spelling is near that of a unit; with and without an s."

NEAR = 0.75


def certain(language: str) -> str:
    """How numbers are read where a slip of a comma would be a thousandfold: `2,400 kg` of meat is refused."""
    return ANY if language.lower().split("-")[0] == "en" else language


@dataclass(frozen=True, slots=True, kw_only=True)
class Grammar:
    """What an amount is read with."""

    system: str
    language: str
    tables: Tables
    own_weights: frozenset[str] = frozenset()
    "Foods, in lower case, of which the author weighed a measure."
    own_salts: tuple[CuringSalt, ...] = ()
    "Curing salts of the book."

    @property
    def certain(self) -> Grammar:
        """The same for amounts that a safety figure follows from: see the function of that name."""
        return replace(self, language=certain(self.language))

    def unit_at(self, text: str, start: int) -> tuple[Unit, int] | None:
        """The longest unit spelled at an offset, and where it ends, with the full stop of an abbreviation."""
        can = self.numbered_can(text, start)
        if can is not None:
            return can
        found = _WORDS.match(text, start)
        if found is None:
            return None
        words = found.group().replace("-", " ").split(" ")
        for count in range(len(words), 0, -1):
            spelling = " ".join(words[:count])
            for tried in (spelling, spelling.removesuffix(".")):
                end = start + len(tried)
                if _JOINED.match(text, end) and tried[-1].isalnum():
                    continue
                unit = self.unit(tried, start)
                if unit is not None:
                    return unit, end + bool(_STOP.match(text, end))
        return None

    def numbered_can(self, text: str, start: int) -> tuple[Unit, int] | None:
        """The can of a number at an offset, and where it ends: a thing that is counted."""
        found = _NUMBERED.match(text, start)
        if found is None:
            return None
        row = self.tables.cans.get(" ".join(found["size"].lower().split()))
        title = f"No. {row.size if row else found['size']} can"
        unit = Unit(
            key=title,
            dimension=Dimension.COUNT,
            factor=Fraction(1),
            system="any",
            singular=title,
            plural=f"{title}s",
        )
        return unit, found.end()

    def holds(self, unit: Unit) -> Span | None:
        """What a can of a published number holds [US cups]; None for anything else."""
        size = unit.key.removeprefix("No. ").removesuffix(" can")
        row = self.tables.cans.get(size) if unit.key.startswith("No. ") else None
        return Span(row.low_cups, row.high_cups) if row else None

    def unit(self, spelling: str, offset: int = 0) -> Unit | None:
        """The unit of a spelling, measured or counted."""
        spelling = spelling.replace("″", '"')
        try:
            found = self.tables.find_unit(spelling, self.system)
        except AmbiguousUnit as ambiguous:
            choices = " or ".join(f"'{choice}'" for choice in ambiguous.choices)
            raise AmountError(
                "ambiguous-unit",
                f"'{spelling}' means different sizes in different kitchens.",
                f"Write {choices}.",
                offset,
            ) from None
        return found or self.tables.counted(spelling)

    def begins_with_measure(self, words: str) -> bool:
        """True where words begin with the spelling of a weight or a volume, of two letters or more."""
        found = self.unit_at(words, 0)
        return found is not None and found[0].dimension in MEASURED and found[1] > 1

    def near_unit(self, word: str) -> str:
        """A unit of weight or volume that a word may misspell; empty where it is plausibly a food."""
        lower = word.lower().strip(".,;")
        if len(lower) < 3 or lower.removesuffix("s") in NOT_UNITS or self._is_food(lower):
            return ""
        known = [name for name in self.tables.unit_names.spellings if len(name) >= 3 and name.isalpha()]
        close = [name for name in known if sorted(name) == sorted(lower)]
        close += difflib.get_close_matches(lower, known, n=3, cutoff=NEAR)
        return next((name for name in close if name[0].lower() == lower[0] and self.is_measure(name)), "")

    def is_measure(self, spelling: str) -> bool:
        """True for the spelling of a weight or a volume, be it of two sizes."""
        try:
            unit = self.tables.find_unit(spelling, self.system)
        except AmbiguousUnit:
            return True
        return unit is not None and unit.dimension in MEASURED

    def names_food(self, words: str) -> bool:
        """True for the name of a food or an animal, one or more of them."""
        return self._is_food(words.lower()) or self._is_food(words.lower().removesuffix("es"))

    def _is_food(self, word: str) -> bool:
        singular = word.removesuffix("s")
        return any(self.tables.food(name) or self.tables.animal(name) for name in (word, singular))
