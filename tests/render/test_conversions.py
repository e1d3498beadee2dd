"""Running text in both systems: what is added, what is left alone, and which way a temperature is rounded.

Expected temperatures: (F - 32) x 5/9 worked by hand, then up for a minimum, down for a maximum. Published pairs for
165 °F / 74 °C, 145 °F / 63 °C and 40 °F / 4 °C: FoodSafety.gov chart of safe minimum internal temperatures and the
USDA FSIS danger zone page (from memory). Weights and volumes: NIST SP 811, Table B.8 factors, then the step of the
rounding table.
"""

from __future__ import annotations

import pytest

from generator.model.quantity import Unit
from generator.render.amounts import Amounts
from generator.render.conversions import bound_of, conversions
from generator.tables import AmbiguousUnit
from tests.render import sample


def both(text: str, system: str = "us") -> str:
    """The text with what is added put in brackets."""

    def find_unit(spelling: str) -> Unit | None:
        try:
            return sample.TABLES.find_unit(spelling, system)
        except AmbiguousUnit:
            return None

    for added in reversed(conversions(text, amounts=Amounts(sample.SHOWER, system), find_unit=find_unit)):
        text = f"{text[: added.at]} ({added.text}){text[added.at :]}"
    return text


MINIMUM = [
    ("Cook to at least 145 °F.", "Cook to at least 145 °F (63 °C)."),  # 62.78
    ("to 145 °F inside", "to 145 °F (63 °C) inside"),
    ("165 °F inside", "165 °F (74 °C) inside"),  # 73.89
    ("until it reaches 150 °F", "until it reaches 150 °F (66 °C)"),  # 65.56
    ("The meat must pass 160 °F.", "The meat must pass 160 °F (72 °C)."),  # 71.11
    ("160 °F or hotter", "160 °F (72 °C) or hotter"),
    ("over 130 °F", "over 130 °F (55 °C)"),  # 54.44
    (
        "reaches at least an internal temperature of 160 °F",
        "reaches at least an internal temperature of 160 °F (72 °C)",
    ),
    ("Never let it stand below 130 °F.", "Never let it stand below 130 °F (55 °C)."),
    ("no less than 160 °F", "no less than 160 °F (72 °C)"),
    ("do not eat it before it reaches 160 °F", "do not eat it before it reaches 160 °F (72 °C)"),
    ("to 63 °C inside", "to 63 °C (146 °F) inside"),  # 145.4
]
MAXIMUM = [
    ("below 40 °F", "below 40 °F (4 °C)"),  # 4.44
    ("at most 98 °F", "at most 98 °F (36 °C)"),  # 36.67
    ("no more than 98 °F", "no more than 98 °F (36 °C)"),
    ("never above 98 °F", "never above 98 °F (36 °C)"),
    ("It must not go over 98 °F.", "It must not go over 98 °F (36 °C)."),
    ("98 °F or below", "98 °F (36 °C) or below"),
    ("to 98 °F or below", "to 98 °F (36 °C) or below"),
    ("chilled to 35 °F", "chilled to 35 °F (1 °C)"),  # 1.67
    ("Cool it under 98 degrees Fahrenheit", "Cool it under 98 degrees Fahrenheit (36 °C)"),
    ("under 4 °C", "under 4 °C (39 °F)"),  # 39.2
]
PLAIN = [
    ("a 350 °F oven", "a 350 °F (177 °C) oven"),  # 176.67
    ("heat up to 98 °F", "heat up to 98 °F (37 °C)"),
    ("freeze at -4 °F", "freeze at -4 °F (-20 °C)"),
    ("smoke at 180–200 °F", "smoke at 180–200 °F (82–93 °C)"),
    ("smoke at 180 to 200 °F", "smoke at 180 to 200 °F (82–93 °C)"),
    ("between 180 and 200 °F", "between 180 and 200 °F (82–93 °C)"),
    ("140 °F to 160 °F", "140 °F to 160 °F (60–71 °C)"),
]
AMOUNTS = [
    ("add 2 lb of meat", "add 2 lb (905 g) of meat"),  # 907.18
    ("add 2 1/2 lb", "add 2 1/2 lb (1.15 kg)"),  # 1133.98
    ("2½ lb and 1¾ cups", "2½ lb (1.15 kg) and 1¾ cups (415 mL)"),  # 414.03
    ("2 lb 3 oz of meat", "2 lb 3 oz (990 g) of meat"),  # 992.23
    ("no deeper than 2 inches", "no deeper than 2 inches (5 cm)"),  # 5.08
    ("every 3/4 inch", "every 3/4 inch (2 cm)"),  # 1.905
    ("a 2-inch lid", "a 2-inch (5 cm) lid"),
    ("5–6 lb roast", "5–6 lb (2.25–2.7 kg) roast"),  # 2.268 to 2.722
    ("1 gal. of brine", "1 gal. (3.8 L) of brine"),  # 3.785
    ("1.5 kg of bones", "1.5 kg (3 lb 5 oz) of bones"),  # 52.9 oz
]
LEFT_ALONE = [
    "165 °F (74 °C)",
    "165 °F / 74 °C",
    "74 °C (165 °F) inside",
    "5 lb (about 2.3 kg)",
    "5 lb or 2.3 kg",
    "It costs $5 a pound and $4 lb.",
    "In 1998 we shot 4 in the fog, all 165 of them.",
    "a .30-06 and a 12 gauge",
    "1,500 g of it",
    "20 degrees salometer",
    "a 2 x 4 ft board",
    "Stir 3 times in 5 min.",
]


@pytest.mark.parametrize(("text", "expected"), MINIMUM)
def test_least_temperature_is_never_rounded_down(text: str, expected: str) -> None:
    assert both(text) == expected


@pytest.mark.parametrize(("text", "expected"), MAXIMUM)
def test_greatest_temperature_is_never_rounded_up(text: str, expected: str) -> None:
    assert both(text) == expected


@pytest.mark.parametrize(("text", "expected"), PLAIN)
def test_plain_temperature_is_rounded_to_the_nearest_degree(text: str, expected: str) -> None:
    assert both(text) == expected


@pytest.mark.parametrize(("text", "expected"), AMOUNTS)
def test_weight_volume_and_length_get_the_other_system(text: str, expected: str) -> None:
    assert both(text) == expected


@pytest.mark.parametrize("text", LEFT_ALONE)
def test_what_is_no_certain_amount_or_stands_in_both_systems_is_left_alone(text: str) -> None:
    assert both(text) == text


def test_unit_of_two_sizes_is_left_alone_where_the_book_does_not_settle_it() -> None:
    assert both("2 pints of stock", "us") == "2 pints of stock".replace("pints", "pints (945 mL)")
    assert both("2 pints of stock", "metric") == "2 pints of stock"


def test_metric_book_gets_the_us_system_behind_it() -> None:
    assert both("500 g of meat at 180 °C", "metric") == "500 g (1 lb 1½ oz) of meat at 180 °C (356 °F)"


def test_words_of_another_sentence_do_not_bound_a_temperature() -> None:
    assert bound_of("Keep it below. Roast at ", " for an hour") == ""
    assert bound_of("Keep it below ", "") == "maximum"
