"""Amounts of one food in, their exact sum out: by weight where all of it has one, and side by side by what it is told in.

A sum never loses a part: what has no known weight keeps its volume or its count, what has no size keeps its words.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from generator.model.quantity import Dimension, Quantity, Span, Unit

NOTHING = Span(Fraction(0), Fraction(0))


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
    share = _ratio(still.high, wanted.high)
    kept = Fraction(0) if there.low == 0 else rest.low / there.low
    return replace(_scaled(need, lambda span: span.times(share)), grams=still), replace(
        _scaled(have, lambda span: span.times(kept)), grams=rest
    )


def _minus(wanted: Span, there: Span) -> tuple[Span, Span]:
    """Still needed, and what is left over."""
    used = min(wanted.high, there.low)
    still = Span(max(wanted.low - there.low, Fraction(0)), wanted.high - used)
    return still, Span(there.low - used, there.low - used)


def _scaled(amount: Amount, change: Callable[[Span], Span]) -> Amount:
    return replace(amount, sizes=_more_than_nothing({key: change(one) for key, one in amount.sizes.items()}))


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
