"""The name of an ingredient in, the food that it is out, so that one onion and two chopped onions are three."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from generator.compute.safety.facts.animals import animal_in, found_in, meant
from generator.compute.weight.measures import SIZES
from generator.model.quantity import Dimension, Quantity, Span, Unit
from generator.tables import Tables

CUT = frozenset({"chopped", "sliced", "diced", "cubed", "grated", "shredded"})
"Words before a name that say how it is cut, which nobody buys by. Source: words of the trade."
SAME_CUT = {"trimming": "trim"}
"Source: words of the trade."
OES = frozenset({"potato", "tomato", "mango"})
"Source: English spelling."
LEAVES = {"leaves": "leaf", "loaves": "loaf", "halves": "half"}
"Source: English spelling."
NOTHING = Span.of(0)


def food_of(name: str, tables: Tables) -> str:
    """The food that a name is bought as: preparation and number left out, never a near name."""
    words = _without_size(without_cut(name)).lower()
    meat = meat_of(words, tables)
    if meat:
        return meat
    refuse = tables.refuse_of(words)
    if refuse is not None:
        return refuse.food
    for size in ("", *SIZES):
        piece = tables.piece(words, size)
        if piece is not None:
            return piece.food
    rows = tables.food(words)
    return rows[0].food if rows else singular(words)


def meat_of(name: str, tables: Tables) -> str:
    """The meat of an animal by whichever of its names: venison trim is deer trim; empty for what is no meat."""
    animal = animal_in(name, tables)
    if animal is None:
        return ""
    called = next(one for one in found_in(name, tables) if animal in meant(one, tables))
    words = f"{name[: called.start]} {name[called.end :]}".lower()
    cut = [singular(word) for word in re.sub("[-–]", " ", words).split()]
    return " ".join((animal.key, *(SAME_CUT.get(word, word) for word in cut if word != "meat")))


def without_cut(name: str) -> str:
    """Chopped onion is bought as onion; minced meat and crushed red pepper are bought as they are."""
    words = name.split()
    plain = words[1:] if len(words) == 2 and words[0].lower() in CUT else words
    return " ".join(plain)


def _size(name: str) -> str:
    return name[: len(name) - len(_without_size(name))].lower()


def _without_size(name: str) -> str:
    first, _, rest = name.partition(" ")
    return rest if rest and first.lower() in SIZES else name


def singular(name: str) -> str:
    """The last word of a name in the singular, as English mostly has it."""
    head, _, last = name.rpartition(" ")
    return f"{head} {_one(last)}".strip()


def _one(word: str) -> str:
    if word in LEAVES:
        return LEAVES[word]
    if word.endswith("ies") and len(word) > 4:
        return f"{word[:-3]}y"
    if word.endswith(("sses", "shes", "ches", "xes")) or (word.endswith("oes") and word[:-2] in OES):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith(("ss", "us", "is")) else word


def plural(name: str) -> str:
    """The last word of a name in the plural."""
    head, _, last = name.rpartition(" ")
    return f"{head} {_many(last)}".strip()


def _many(word: str) -> str:
    for many, one in LEAVES.items():
        if word == one:
            return many
    if _one(word) != word:
        return word
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return f"{word[:-1]}ies"
    return f"{word}es" if word.endswith(("s", "sh", "ch", "x")) or word in OES else f"{word}s"


def name_for(written: Iterable[str], *, count: Fraction | None) -> str:
    """One of the names as written: where things are counted, in the number that they have; a size where all have it."""
    found = {without_cut(name) for name in written}
    if len({_size(name) for name in found}) > 1:
        found = {_without_size(name) for name in found}
    names = sorted(found, key=lambda name: (-len(name), name.lower()))
    plurals = [name for name in names if singular(name.lower()) != name.lower()]
    singles = [name for name in names if name not in plurals]
    if count is None:
        return (plurals or names)[0]
    if count > 1:
        return plurals[0] if plurals else plural(names[0])
    return singles[0] if singles else singular(names[0])


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """So much of one food, exact."""

    grams: Span | None = NOTHING
    "All that has a size; None where some of it has no known weight."
    sizes: Mapping[str, Span] = field(default_factory=dict)
    "In base units, by dimension, and counts by their unit: weight, volume, count, bunch."
    units: Mapping[str, Unit] = field(default_factory=dict)
    "The units of the counts."
    vague: tuple[str, ...] = ()
    "to taste, a pinch; an empty word where only the name was told."

    def plus(self, other: Amount) -> Amount:
        """The exact sum."""
        sizes = dict(self.sizes)
        for key, span in other.sizes.items():
            sizes[key] = sizes.get(key, NOTHING).plus(span)
        return Amount(
            grams=_both(self.grams, other.grams),
            sizes=sizes,
            units={**self.units, **other.units},
            vague=tuple(dict.fromkeys((*self.vague, *other.vague))),
        )

    @property
    def is_sized(self) -> bool:
        """True where some of it has a size that is more than nothing."""
        return any(span.high > 0 for span in self.sizes.values())

    @property
    def is_nothing(self) -> bool:
        """True where nothing is left of it, not even a word."""
        return not self.is_sized and not self.vague


def _both(one: Span | None, other: Span | None) -> Span | None:
    return None if one is None or other is None else one.plus(other)


def amount_of(quantity: Quantity | None, grams: Span | None) -> Amount:
    """An amount of a line, with its weight where one is known."""
    if quantity is None or quantity.is_vague:
        return Amount(vague=(quantity.vague if quantity else "",))
    sizes: dict[str, Span] = {}
    for measure in quantity.measures:
        unit = measure.unit
        key = unit.key if unit.dimension is Dimension.COUNT else unit.dimension.value
        sizes[key] = sizes.get(key, NOTHING).plus(measure.base)
    counted = {m.unit.key: m.unit for m in quantity.measures if m.unit.dimension is Dimension.COUNT}
    return Amount(grams=grams, sizes=sizes, units=counted)


def weighed(grams: Span) -> Amount:
    """So many grams."""
    return Amount(grams=grams, sizes={Dimension.WEIGHT.value: grams})


def less(need: Amount, have: Amount) -> tuple[Amount, Amount] | None:
    """What is still needed, and what is left of what is there; None where the two cannot be compared.

    Never below nothing. Of a range that is there its low end counts.
    """
    if need.grams is not None and have.grams is not None and need.is_sized and have.is_sized:
        return _less_by_weight(need, have, need.grams, have.grams)
    shared = [key for key in need.sizes if key in have.sizes]
    if not shared:
        return None
    still, rest = dict(need.sizes), dict(have.sizes)
    for key in shared:
        still[key], rest[key] = _minus(need.sizes[key], have.sizes[key])
    gone = not any(span.high > 0 for span in still.values())
    return (
        replace(need, sizes=_more_than_nothing(still), grams=NOTHING if gone else _share(need, still)),
        replace(have, sizes=_more_than_nothing(rest), grams=None),
    )


def _less_by_weight(need: Amount, have: Amount, wanted: Span, there: Span) -> tuple[Amount, Amount]:
    still, rest = _minus(wanted, there)
    return (
        _scaled(need, _ratio(still.high, wanted.high), still),
        _scaled(have, _ratio(rest.low, there.low), rest),
    )


def _minus(wanted: Span, there: Span) -> tuple[Span, Span]:
    """Still needed, and what is left over."""
    # Of what is there only the low end is sure.
    used = min(wanted.high, there.low)
    still = Span(max(wanted.low - there.low, Fraction(0)), wanted.high - used)
    return still, Span(there.low - used, there.low - used)


def _scaled(amount: Amount, share: Fraction, grams: Span) -> Amount:
    sizes = {key: one.times(share) for key, one in amount.sizes.items()}
    return replace(amount, sizes=_more_than_nothing(sizes), grams=grams)


def _more_than_nothing(sizes: Mapping[str, Span]) -> dict[str, Span]:
    return {key: span for key, span in sizes.items() if span.high > 0}


def _ratio(part: Fraction, whole: Fraction) -> Fraction:
    return part / whole if whole else Fraction(0)


def _share(need: Amount, still: Mapping[str, Span]) -> Span | None:
    """The weight of what is left, where all of it is of one measure; else it is not known."""
    if need.grams is None or len(need.sizes) != 1:
        return None
    (key,) = need.sizes
    return need.grams.times(_ratio(still[key].high, need.sizes[key].high))
