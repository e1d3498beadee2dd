"""A solved cure and its limit in, what to weigh and what the page shows out, as expressions over the setting.

Salt and sugar are rounded first, then the curing salt down: the floor of min(c, L rest / (1,000,000 n - L)) with what
is shown, so that weighing what is shown never passes the limit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.compute.cure.case import CureInput, NitriteForms
from generator.compute.cure.limits import most_curing_salt, most_curing_salt_by_pick_up
from generator.model.contract import Least, Rounded, Text, Value, Weight
from generator.model.form import MEAT, WATER
from generator.model.published import NitriteLimit
from generator.model.results import CureForms


@dataclass(frozen=True, slots=True, kw_only=True)
class Limited:
    """A cure's nitrite with what holds it down."""

    case: NitriteForms
    given: CureInput
    limit: NitriteLimit | None
    entered_share: Fraction
    "Of a short cure: the share of the whole-system figure that can have entered by its last day; else 1."

    def capped(self, use: str) -> Value:
        """The curing salt [g], held to the limit beside the salt and the sugar as they are rounded for a use."""
        case, pick_up = self.case, self.given.pick_up
        if self.limit is None or self.given.curing_salt is None:
            return case.curing_salt
        ppm = self.limit.limit_ppm
        rounded = replace(
            case, salt=Rounded(value=case.salt, use=use), sugar=Rounded(value=case.sugar, use=use)
        )
        whole = most_curing_salt(rounded, ppm / self.entered_share)
        if pick_up is None:
            return Least(of=(case.curing_salt, whole))
        return Least(of=(case.curing_salt, most_curing_salt_by_pick_up(rounded, pick_up, ppm), whole))


def to_weigh(limited: Limited) -> Mapping[str, Value]:
    """Weights [g] to 0.01 g, the curing salt down."""
    return {
        "salt": Rounded(value=limited.case.salt, use="weigh"),
        "sugar": Rounded(value=limited.case.sugar, use="weigh"),
        "curing_salt": Rounded(value=limited.capped("weigh"), use="weigh curing salt"),
    }


def to_show(limited: Limited, forms: CureForms) -> Mapping[str, Text]:
    """The page's strings in grams. Meat and water round up, which can only lower the nitrite figure."""
    given = limited.given
    rows: tuple[tuple[str, Value, str, object], ...] = (
        ("green_weight", MEAT, "cure base", True),
        ("water", WATER, "cure base", given.is_brine or None),
        ("salt", forms.salt, "cure weight", given.salt),
        ("sugar", forms.sugar, "cure weight", given.sugar),
        ("curing_salt", limited.capped("cure weight"), "curing salt", given.curing_salt),
        ("nitrate", forms.nitrate, "curing salt", given.nitrate),
        ("accelerator", forms.accelerator, "curing salt", given.accelerator),
    )
    return {key: () if line is None else (Weight(value=value, use=use),) for key, value, use, line in rows}
