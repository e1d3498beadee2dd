"""Published cure times: the figures of each source, one product a rule, and cuts by whole words."""

from __future__ import annotations

import csv
from fractions import Fraction

import pytest

from generator.model.published import DayRule
from generator.tables import Tables
from generator.tables.curing import GENERAL, PRODUCTS
from generator.tables.load import FOLDER


def rule(tables: Tables, key: str) -> DayRule:
    (found,) = [one for one in tables.day_rules if one.key == key]
    return found


PUBLISHED = [
    # key, days per lb, days per inch, least days, counts; 9 CFR 318.10 (2015 ed.), hams, loins, capocollo, coppa
    ("cfr-ham-1", None, None, "40", "contact"),
    ("cfr-ham-3-contact", "3/2", None, "28", "contact"),
    ("cfr-ham-3-total", "2", None, "40", "cure + equalise"),
    ("cfr-ham-4-contact", "2", None, "30", "contact"),
    ("cfr-ham-4-equalise", "1", None, "14", "equalise"),
    ("cfr-loin-1", None, None, "25", "contact"),
    ("cfr-loin-2", None, None, "25", "contact"),
    ("cfr-capocollo", None, None, "25", "contact"),
    ("cfr-coppa", None, None, "18", "contact"),
    # Virginia Cooperative Extension 458-223: from memory; its equalising second-hand
    ("virginia-ham-inch", None, "7", None, "contact"),
    ("virginia-ham-lb", "3/2", None, None, "contact"),
    ("virginia-ham-equalise", None, None, "14", "equalise"),
    # USDA Farmers' Bulletin 2265
    ("fb2265-belly-dry", None, "7", None, "contact"),
    ("fb2265-pickle-ham", "4", None, None, "contact"),
    ("fb2265-pickle-shoulder", "4", None, None, "contact"),
    ("fb2265-pickle-belly", None, None, "15", "contact"),
    ("fb2265-pickle-heavy-belly", None, None, "21", "contact"),
    ("fb2265-pickle-loin", None, None, "21", "contact"),
    # Purdue, J. R. Wiley, 6 January 1919
    ("purdue-sides-brine", None, None, "14", "contact"),
    ("purdue-sides-dry", None, None, "14", "contact"),
    ("purdue-heavy-brine", "2", None, None, "contact"),
    ("purdue-heavy-dry", "2", None, None, "contact"),
    # Levine, about 1921: hams 5 to 7 weeks, bacon 3 to 4 weeks
    ("levine-ham", None, None, "49", "contact"),
    ("levine-bacon", None, None, "28", "contact"),
]


@pytest.mark.parametrize(
    ("key", "per_lb", "per_inch", "least", "counts"), PUBLISHED, ids=lambda value: str(value)
)
def test_rule_has_its_published_figures(
    tables: Tables, key: str, per_lb: str | None, per_inch: str | None, least: str | None, counts: str
) -> None:
    found = rule(tables, key)
    for value, expected in (
        (found.days_per_lb, per_lb),
        (found.days_per_inch, per_inch),
        (found.least_days, least),
    ):
        assert value == (None if expected is None else Fraction(expected))
    assert found.counts == counts


def test_every_rule_is_checked_above(tables: Tables) -> None:
    assert {one.key for one in tables.day_rules} == {key for key, *_ in PUBLISHED}


def test_the_misprint_of_eleven_and_a_half_days_is_no_rule(tables: Tables) -> None:
    """Copies of Virginia 458-223 print 11 1/2 days per pound, which is 1 1/2 with a slash lost (second-hand)."""
    assert all(one.days_per_lb is None or one.days_per_lb <= 4 for one in tables.day_rules)
    assert "misprint" in rule(tables, "virginia-ham-lb").note


def test_days_below_35_do_not_count_where_the_rule_says_so(tables: Tables) -> None:
    # 9 CFR 318.10, ham, Method 3: 35 to 45 °F, days below 35 °F do not count.
    method_3 = rule(tables, "cfr-ham-3-contact")
    assert (method_3.low_f, method_3.high_f, method_3.cold_days_count) == (35, 45, False)
    assert rule(tables, "fb2265-belly-dry").cold_days_count


def test_a_rule_from_memory_says_so(tables: Tables) -> None:
    assert rule(tables, "virginia-ham-lb").certainty == "from memory"
    assert rule(tables, "fb2265-belly-dry").certainty == "seen"


def test_rules_share_no_product_but_one_source_sentence(tables: Tables) -> None:
    """A rule of two products stands where its source names both in one sentence: ham and picnic, Method 1."""
    several = {one.key for one in tables.day_rules if len(one.products) > 1}
    assert several == {"cfr-ham-1"}
    assert {product for one in tables.day_rules for product in one.products} == {*PRODUCTS, GENERAL}


@pytest.mark.parametrize(
    ("cut", "product"),
    [
        ("belly", "belly"),
        ("skinned belly, squared", "belly"),
        ("Ham", "ham"),
        ("picnic ham", "picnic"),
        ("picnic shoulder", "picnic"),
        ("bone-in shoulder", "shoulder"),
        ("backstrap", "loin"),
        ("loin", "loin"),
        ("ham hock", None),
        ("loin chops", None),
        ("tenderloin", None),
        ("fore shank", None),
        ("hamburger", None),
        ("", None),
    ],
)
def test_product_of_a_cut(tables: Tables, cut: str, product: str | None) -> None:
    assert tables.product(cut) == product


def test_table_4_is_whole() -> None:
    """9 CFR 318.10(c)(3)(i), Table 4: fourteen rows, from 3.3 to 2.0 lb of salt."""
    path = FOLDER.parent.parent / "tests" / "published" / "drying_time_added_percent.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        rows = [
            row for row in csv.DictReader(stream) if row["locator"].endswith("Table 4") and not row["note"]
        ]
    assert [Fraction(row["salt_percent"]) for row in rows] == [Fraction(33 - step, 10) for step in range(14)]
