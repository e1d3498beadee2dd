"""day_rules.csv and cut_products.csv in; published cure times and the names of their cuts out."""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction
from pathlib import Path

from generator.model.published import DayRule
from generator.tables.csvfile import Row, once, read_rows
from generator.tables.curing import METHODS
from generator.tables.words import CERTAINTIES

GENERAL = "general"
"Product of the rules for any heavy piece: they speak where a cut has no rule of its own."
PRODUCTS = ("ham", "picnic", "shoulder", "belly", "loin", "capocollo", "coppa")
NO_PRODUCT = "none"
"A cut whose name holds the name of another: a ham hock is no ham."
PUMPED = ("yes", "no", "any")
COUNTS = ("contact", "equalise", "cure + equalise")
COLUMNS = (
    *("key", "title", "products", "method", "pumped", "days_per_lb", "days_per_inch", "least_days"),
    *("above_lb", "to_lb", "counts", "low_f", "high_f", "cold_days", "says"),
    *("source", "locator", "certainty", "note"),
)


def read_day_rules(folder: Path, sources: Collection[str]) -> tuple[DayRule, ...]:
    """Every published cure time, in the order of the table."""
    seen: set[object] = set()
    rules = []
    for row in read_rows(folder / "day_rules.csv", COLUMNS):
        once(seen, row.text("key"), row)
        rules.append(_day_rule(row, sources))
    return tuple(rules)


def _day_rule(row: Row, sources: Collection[str]) -> DayRule:
    rule = DayRule(
        key=row.text("key"),
        title=row.text("title"),
        products=row.names("products"),
        method=row.one_of("method", METHODS),
        pumped=row.one_of("pumped", PUMPED),
        days_per_lb=_amount_or_none(row, "days_per_lb"),
        days_per_inch=_amount_or_none(row, "days_per_inch"),
        least_days=_amount_or_none(row, "least_days"),
        above_lb=_amount_or_none(row, "above_lb"),
        to_lb=_amount_or_none(row, "to_lb"),
        counts=row.one_of("counts", COUNTS),
        low_f=_amount_or_none(row, "low_f"),
        high_f=_amount_or_none(row, "high_f"),
        cold_days_count=row.one_of("cold_days", ("no",), empty=True) != "no",
        says=row.text("says"),
        source=row.source(sources),
        locator=row.text("locator"),
        certainty=row.one_of("certainty", CERTAINTIES),
        note=row.optional("note"),
    )
    _check_day_rule(row, rule)
    return rule


def _check_day_rule(row: Row, rule: DayRule) -> None:
    """Refuses an unknown product, a rule that asks for nothing, and cold days without a temperature."""
    for product in rule.products:
        if product not in (*PRODUCTS, GENERAL):
            raise row.error(f"unknown product '{product}'")
    if rule.days_per_lb is None and rule.days_per_inch is None and rule.least_days is None:
        raise row.error("the rule asks for no days")
    if not rule.cold_days_count and rule.low_f is None:
        raise row.error("cold days do not count, and no temperature says which they are")
    if rule.low_f is not None and rule.high_f is not None and rule.low_f > rule.high_f:
        raise row.error("low_f is above high_f")


def _amount_or_none(row: Row, column: str) -> Fraction | None:
    return row.amount(column) if row.optional(column) else None


def read_cut_products(folder: Path, sources: Collection[str]) -> dict[str, str]:
    """The product of a cut by each of its names; `none` for one that only sounds like a product."""
    products: dict[str, str] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "cut_products.csv", ("product", "cuts", "source", "locator")):
        row.source(sources)
        for cut in row.names("cuts"):
            once(seen, cut, row)
            products[cut] = row.one_of("product", (*PRODUCTS, NO_PRODUCT))
    return products
