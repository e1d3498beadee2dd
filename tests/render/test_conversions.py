"""Running text in both systems: what is added, what is left alone, and which way a temperature is rounded.

Expected temperatures: (F - 32) x 5/9 worked by hand, then up for a minimum, down for a maximum. Published pairs for
165 °F / 74 °C, 145 °F / 63 °C and 40 °F / 4 °C: FoodSafety.gov chart of safe minimum internal temperatures and the
USDA FSIS danger zone page (from memory). Weights and volumes: NIST SP 811, Table B.8 factors, then the step of the
rounding table.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.model.quantity import Temperature, TemperatureRange, Unit
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
COLD = [
    ("Bring the brine to 38-40°F before the meat goes in.", "3–4 °C"),  # 3.33, 4.44: never 5
    ("Chill to 38–40 °F.", "3–4 °C"),
    ("Keep the brine at 36–39 °F.", "2–3 °C"),  # 2.22, 3.89
    ("Hold it in the cooler at 37–39 °F.", "3 °C"),  # 2.78, 3.89
    ("Bring the brine to 40 °F.", "4 °C"),  # 4.44
    ("until the brine reaches 40 °F", "4 °C"),
    ("Keep at 3–5 °C.", "37–41 °F"),  # 37.4, 41
]
"A cold place is a most allowed one: 41 °F or less, FDA Food Code 2022, 3-501.16(A)(2) (from memory)."
WARM = [
    ("Warm to 100°–110°F and stir in the rennet.", "38–43 °C"),  # 37.78, 43.33: never 44
    ("Dissolve the yeast in water at 105–115 °F.", "41–46 °C"),  # 40.56, 46.11
    ("Let it rise in a place of 75-80 F till doubled.", "24–26 °C"),  # 23.89, 26.67: never 27
    ("Proof at 80 °F.", "26 °C"),
    ("Warm the milk to 100 °F.", "38 °C"),  # 37.78
    ("Warm the milk to 110 °F.", "43 °C"),  # 43.33: nearest, no least
    ("Do not let it reach 98 °F.", "36 °C"),  # 36.67
    ("to 121 °F inside", "50 °C"),  # 49.44: of the middle of a piece it stays a least one
]
"Below 130 °F no heat makes food safe: FSIS Revised Appendix A, 2021, begins its times there."
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
    ("Tie with string every 3 in.", "Tie with string every 3 in. (7.5 cm)"),  # 7.62
    ("every 3/4 inch", "every 3/4 inch (19 mm)"),  # 19.05
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


WITHOUT_THE_SIGN = [
    ("Bake at 350F until brown.", "Bake at 350F (177 °C) until brown."),
    ("Cut it into squares and bake at 350 degrees.", "Cut it into squares and bake at 350 degrees (177 °C)."),
    ("Bake at 350 F.", "Bake at 350 F (177 °C)."),
    ("in a 350-degree oven", "in a 350-degree (177 °C) oven"),
    ("in a 325-degree F. oven", "in a 325-degree F. (163 °C) oven"),  # 162.78
    ("at 90 deg. F for a day", "at 90 deg. F (32 °C) for a day"),  # 32.22
    ("Bake 10 minutes at 450°, then at 350°.", "Bake 10 minutes at 450° (232 °C), then at 350° (177 °C)."),
    ("Roast at 180 C until tender", "Roast at 180 C (356 °F) until tender"),
    ("Keep the curing room at 36 to 38 degrees.", "Keep the curing room at 36 to 38 degrees (2–3 °C)."),
    ("Smoke at 175°-200 F for an hour", "Smoke at 175°-200 F (79–93 °C) for an hour"),  # 79.44, 93.33
    ("between 80° and 90° F", "between 80° and 90° F (27–32 °C)"),
    ("Freeze at 10 °F below zero", "Freeze at 10 °F (-23 °C) below zero"),  # -23.33
]
CHANGES = [  # times 5/9 or 9/5, no 32
    ("Raise the heat by 10 °F an hour", "Raise the heat by 10 °F (5.6 °C) an hour"),
    ("15 °F hotter", "15 °F (8.3 °C) hotter"),
    ("within 5 °F of that", "within 5 °F (2.8 °C) of that"),
    ("at 140 °F, plus or minus 5 °F", "at 140 °F (60 °C), plus or minus 5 °F (2.8 °C)"),
    ("off by 25 degrees", "off by 25 degrees (14 °C)"),
    ("another 5 to 10 °F", "another 5 to 10 °F (2.8–5.6 °C)"),
    ("Increase the temperature by 10 °C", "Increase the temperature by 10 °C (18 °F)"),
    ("8 °F above the boiling point of water", "8 °F (4.4 °C) above the boiling point of water"),
    ("Keep at 36–40 °F; every 5 °F warmer", "Keep at 36–40 °F (2–4 °C); every 5 °F (2.8 °C) warmer"),
]
NO_CHANGES = [  # a word of change that leads to a point
    ("Raise the temperature to 160-165F.", "Raise the temperature to 160-165F (72–74 °C)."),
    ("Drop the doughnuts into 370 °F fat.", "Drop the doughnuts into 370 °F (188 °C) fat."),
    ("below 40 °F an hour later", "below 40 °F (4 °C) an hour later"),
    ("kept within 34 and 38 °F", "kept within 34 and 38 °F (1–3 °C)"),
]
AS_PRINTED = [
    ("2- to 3-inch strips", "2- to 3-inch (5–7.5 cm) strips"),  # 5.08, 7.62
    ("1/4 to 1/2 inch thick", "1/4 to 1/2 inch (6–13 mm) thick"),  # 6.35, 12.7
    ("a 2-1/2- to 3-pound bird", "a 2-1/2- to 3-pound (1.15–1.35 kg) bird"),  # 1133.98, 1360.78
    ("1-1/2 inches of fat", "1-1/2 inches (3.8 cm) of fat"),  # 3.81
    ("2 1⁄2 cups of liquor", "2 1⁄2 cups (590 mL) of liquor"),  # 591.47
    ("Leave 1/2 in. headspace.", "Leave 1/2 in. (13 mm) headspace."),
    (
        "2 GALLONS and 10 LB and 3 gals. of it",
        "2 GALLONS (7.55 L) and 10 LB (4.55 kg) and 3 gals. (11.4 L) of it",
    ),
    ("a 9 x 13-inch pan", "a 9 x 13-inch (23 × 33 cm) pan"),  # 22.86, 33.02
    ('a 9" pie tin', 'a 9" (23 cm) pie tin'),
    ('1" cubes and 1½" to 2" pieces', '1" (2.5 cm) cubes and 1½" to 2" (3.8–5 cm) pieces'),
    (
        "Between 2 and 3 lb of 1-inch-thick slices",
        "Between 2 and 3 lb (905 g – 1.35 kg) of 1-inch-thick (2.5 cm) slices",
    ),
    ("8 fl. oz. of cream", "8 fl. oz. (235 mL) of cream"),
    ("2 lb. 3 oz. of meat", "2 lb. 3 oz. (990 g) of meat"),
]
OF_NO_HEAT_OR_WEIGHT = [
    "Process pints at 11 lb. pressure; above 1,000 feet use 15 pounds.",
    "Use the weighted gauge at 10 pounds.",
    "Steam at 5 lb. for 40 min.",
    "In a pressure canner: 11 lb (0-2,000 ft), 12 lb (2,001-4,000 ft).",
    "Cook 90 minutes at 15 pounds of pressure.",
    "Turn each piece 90 degrees.",
    "Cut the ribs at a 45° angle.",
    "The brine should read 60 degrees on the salometer.",
    "a 70-degree pickle, or a brine of 60 degrees",
    "Slice the belly at 30 degrees.",
    "Add 2 C flour and 2C sugar.",
    "He shot it in '52 F and all.",
    "a 6-inch boning knife and an 8-inch chef's knife",
    "3 lb/gal, or 3 qt./2.8 L",
    'She said "stir it until 52" and went.',
    "Stir 2 in. Cover it.",
    "Fill 12 pint jars.",
    "at 225F/107C",
    "raise it by 10 °F (5.6 °C) an hour",
    "1/0 lb of it",
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


@pytest.mark.parametrize(("text", "expected"), WITHOUT_THE_SIGN)
def test_temperature_is_read_as_cooks_write_it(text: str, expected: str) -> None:
    assert both(text) == expected


@pytest.mark.parametrize(("text", "expected"), CHANGES)
def test_change_of_temperature_is_shown_as_a_change(text: str, expected: str) -> None:
    assert both(text) == expected


@pytest.mark.parametrize(("text", "expected"), NO_CHANGES)
def test_point_behind_a_word_of_change_stays_a_point(text: str, expected: str) -> None:
    assert both(text) == expected


@pytest.mark.parametrize(("text", "expected"), AS_PRINTED)
def test_sizes_and_amounts_are_read_as_they_are_printed(text: str, expected: str) -> None:
    assert both(text) == expected


@pytest.mark.parametrize(("text", "added"), [*COLD, *WARM])
def test_cold_and_living_things_have_a_most_and_no_least(text: str, added: str) -> None:
    assert f" ({added})" in both(text)


@pytest.mark.parametrize("text", OF_NO_HEAT_OR_WEIGHT)
def test_pressures_angles_brines_knives_and_quotes_are_left_alone(text: str) -> None:
    assert both(text) == text


def test_degrees_without_a_scale_are_those_of_the_book() -> None:
    assert both("Bake at 180°.", "metric") == "Bake at 180° (356 °F)."
    assert both("Bake at 350°.", "metric") == "Bake at 350°."  # no oven reaches 350 °C


@pytest.mark.parametrize("text", LEFT_ALONE)
def test_what_is_no_certain_amount_or_stands_in_both_systems_is_left_alone(text: str) -> None:
    assert both(text) == text


def test_unit_of_two_sizes_is_left_alone_where_the_book_does_not_settle_it() -> None:
    assert both("2 pints of stock", "us") == "2 pints of stock".replace("pints", "pints (945 mL)")
    assert both("2 pints of stock", "metric") == "2 pints of stock"


def test_metric_book_gets_the_us_system_behind_it() -> None:
    assert both("500 g of meat at 180 °C", "metric") == "500 g (1 lb 1½ oz) of meat at 180 °C (356 °F)"


def test_words_of_another_sentence_do_not_bound_a_temperature() -> None:
    hot = TemperatureRange(*[Temperature(Fraction(350), "F")] * 2)
    assert bound_of("Keep it below. Roast at ", " for an hour", hot) == ""
    assert bound_of("Keep it below ", "", hot) == "maximum"
