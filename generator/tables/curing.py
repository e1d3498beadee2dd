"""What curing goes by (.csv) in, out by name: curing salts and their limits, the brine table, cure times, and how salt
and nitrite move in meat.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from generator.model.published import BrineRow, CuringSalt, DayRule, Sourced, TransferRow
from generator.tables.csvfile import Shelf, Signed, Wrong, after_each_other, is_range, never, own_name
from generator.tables.words import CERTAINTIES

CUTS = ("whole", "ground", "belly")
METHODS = ("brine", "dry")
CONSTANT_UNITS = ("percent", "ppm", "share", "degF", "g/mL", "lb/gal", "g", "mg", "h", "min", "in")
FIGURES = ("percent", "lb_salt_per_us_gal_water", "specific_gravity")
"Columns of the brine table; `published` names those that are printed in the source."

GENERAL = "general"
"Product of the rules for any heavy piece: they speak where a cut has no rule of its own."
PRODUCTS = ("ham", "picnic", "shoulder", "belly", "loin", "capocollo", "coppa")
NO_PRODUCT = "none"
"A cut whose name holds the name of another: a ham hock is no ham."
CUT_PRODUCTS = (*PRODUCTS, NO_PRODUCT)
PUMPED = ("yes", "no", "any")
COUNTS = ("contact", "equalise", "cure + equalise")

TRANSFER_UNITS = ("m2/s", "h", "log10/degC", "kJ/mol", "1", "g/g", "mm")
JUDGED = ("seen", "second-hand", "from memory", "judgement")
"How sure a value of transfer is; a source may have been seen, and what was taken from it still be a judgement."


@dataclass(frozen=True, slots=True, kw_only=True)
class FishLimit(Sourced):
    """The most nitrite and the most nitrate in one of the few fish that may have any."""

    animal: str
    limit_ppm: Fraction
    nitrate_ppm: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class SingleValue(Sourced):
    """A single published number, in the unit of its row."""

    key: str
    value: Signed
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CutProduct(Sourced):
    """Names of cuts, and the product whose cure times speak of them."""

    product: str
    cuts: tuple[str, ...]


def read_curing_salts(shelf: Shelf) -> dict[str, CuringSalt]:
    """Curing salts by each of their names."""
    more = never("the shares are more than the whole", lambda one: one.nitrite + one.nitrate + one.salt > 1)
    return shelf.by("names", "curing_salts.csv", CuringSalt, partial(own_name, "key"), more)


def read_brine(shelf: Shelf) -> tuple[BrineRow, ...]:
    """Rows in order of strength at 60 °F."""
    return shelf.rows("brine.csv", BrineRow, _names_figures, after_each_other(_is_stronger))


def _names_figures(row: BrineRow) -> None:
    for column in row.published:
        if column not in FIGURES:
            raise Wrong(f"published names '{column}', which is no figure")


def _is_stronger(before: BrineRow, after: BrineRow) -> None:
    """Each figure grows from row to row, so that one may read between them, and from any figure to any other."""
    for column in ("degrees", *FIGURES):
        if getattr(after, column) <= getattr(before, column):
            raise Wrong(f"{column} is not above that of the row before")


def read_day_rules(shelf: Shelf) -> tuple[DayRule, ...]:
    """Every published cure time, in the order of the table."""
    lists = {"method": METHODS, "pumped": PUMPED, "counts": COUNTS, "certainty": CERTAINTIES}
    products = (*PRODUCTS, GENERAL)
    checks = (is_range, _asks_for_days)
    return tuple(shelf.by("key", "day_rules.csv", DayRule, *checks, products=products, **lists).values())


def _asks_for_days(rule: DayRule) -> None:
    if rule.days_per_lb is None and rule.days_per_inch is None and rule.least_days is None:
        raise Wrong("the rule asks for no days")
    if not rule.cold_days_count and rule.low_f is None:
        raise Wrong("cold days do not count, and no temperature says which they are")


def read_transfer(shelf: Shelf) -> tuple[TransferRow, ...]:
    """How salt and nitrite move in meat. Parameters are made of it in `compute/transfer`: tables know no formula."""
    lists = {"unit": TRANSFER_UNITS, "certainty": JUDGED}
    return tuple(shelf.by("key", "transfer.csv", TransferRow, _is_in_order, **lists).values())


def _is_in_order(row: TransferRow) -> None:
    """Slow, central and fast stand in one order, up or down: a central value outside is a slip of the pen."""
    rises = row.low <= row.central and (row.high is None or row.central <= row.high)
    falls = row.high is not None and row.low >= row.central >= row.high
    if not (rises or falls):
        raise Wrong("central is not between low and high")
