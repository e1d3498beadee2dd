"""The coordinates of the figure, worked by hand from the edges of its field."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.render.reach import (
    BOTTOM,
    HEIGHT,
    LEFT,
    RIGHT,
    TOP,
    WIDTH,
    Axes,
    days,
    even_sentence,
    percent,
    reach_figure,
    salt_sentence,
)
from tests.render.reach_sample import reach, series


def points(text: str) -> list[tuple[float, float]]:
    found = [tuple(map(float, pair.split(","))) for pair in text.split(" ")]
    assert all(len(pair) == 2 for pair in found)
    return found  # type: ignore[return-value]  # pairs, as just asserted


def test_scale_puts_the_ends_on_the_edges_and_the_middle_between() -> None:
    scale = Axes(last=28, most=1.0)
    assert (scale.x(0), scale.x(28)) == (LEFT, RIGHT)
    assert (scale.y(0), scale.y(1)) == (BOTTOM, TOP)
    assert scale.x(7) == LEFT + (RIGHT - LEFT) / 4  # a week of four
    assert scale.y(0.25) == BOTTOM - (BOTTOM - TOP) / 4


def test_lines_go_through_the_series() -> None:
    figure = reach_figure(reach())
    # 0.8 at the end: four fifths of 140 below the top
    assert points(figure.central)[0] == (LEFT, BOTTOM)
    assert points(figure.central)[-1] == (RIGHT, BOTTOM - 0.8 * (BOTTOM - TOP))
    assert points(figure.low)[-1] == (RIGHT, BOTTOM - 0.4 * (BOTTOM - TOP))
    assert points(figure.high)[-1] == (RIGHT, TOP)
    assert points(figure.without_pump)[-1] == (RIGHT, BOTTOM - 0.4 * (BOTTOM - TOP))
    assert len(points(figure.central)) == 29


def test_band_goes_out_along_high_and_back_along_low() -> None:
    figure = reach_figure(reach())
    band = points(figure.band)
    assert band[:29] == points(figure.high)
    assert band[29:] == points(figure.low)[::-1]


def test_everything_lies_within_the_field() -> None:
    long = reach(day=Fraction(60), series=series(1.6, 120), series_without_pump=series(0.9, 120))
    for figure in (reach_figure(reach()), reach_figure(long)):
        for line in (figure.band, figure.low, figure.central, figure.high, figure.without_pump):
            for x, y in points(line):
                assert LEFT <= x <= RIGHT
                assert TOP <= y <= BOTTOM
        assert LEFT <= figure.own_x <= RIGHT
    assert (figure.width, figure.height) == (WIDTH, HEIGHT)


def test_without_a_pump_there_is_no_second_line() -> None:
    figure = reach_figure(reach(series_without_pump=None))
    assert figure.without_pump == ""
    assert all(row.without_pump is None for row in figure.rows)
    assert "pump" not in figure.description


@pytest.mark.parametrize(("day", "anchor"), [(7, "start"), (13, "start"), (15, "end"), (28, "end")])
def test_words_of_the_own_day_stay_inside(day: int, anchor: str) -> None:
    figure = reach_figure(reach(day=Fraction(day)))
    assert figure.own_x == round(LEFT + (RIGHT - LEFT) * day / 28, 1)
    assert (figure.own_text, figure.own_anchor) == (f"day {day}", anchor)


@pytest.mark.parametrize(
    ("last", "ticks"),
    [
        (28, "0 7 14 21 28"),
        (34, "0 7 14 21 28"),
        (35, "0 14 28"),
        (69, "0 14 28 42 56"),
        (120, "0 28 56 84 112"),
    ],
)
def test_days_are_marked_in_weeks(last: int, ticks: str) -> None:
    figure = reach_figure(reach(series=series(0.8, last), series_without_pump=None))
    assert " ".join(tick.text for tick in figure.day_ticks) == ticks
    assert figure.day_ticks[0].at == LEFT
    assert figure.day_ticks[-1].at <= RIGHT


@pytest.mark.parametrize(
    ("highest", "ticks"),
    [
        (0.1, "0 25 50 75 100"),
        (1.0, "0 25 50 75 100"),
        (1.01, "0 50 100 150"),
        (2.0, "0 50 100 150 200"),
        (2.01, "0 100 200 300"),
        (9.0, "0 200 400 600 800 1000"),
    ],
)
def test_levels_are_marked_to_above_the_highest(highest: float, ticks: str) -> None:
    rows = ((0, 0.0, 0.0, highest), (28, 0.0, 0.0, highest))
    figure = reach_figure(reach(series=rows, series_without_pump=None))
    assert " ".join(tick.text for tick in figure.level_ticks) == ticks
    assert figure.level_ticks[0].at == BOTTOM
    assert figure.level_ticks[-1].at == TOP


@pytest.mark.parametrize(
    ("last", "own", "expected"),
    [
        (28, 7, list(range(29))),
        (40, 7, sorted([*range(0, 41, 2), 7])),
        (64, 63, [*range(0, 63, 2), 63, 64]),
        (119, 45, sorted([*range(0, 120, 4), 45, 119])),
    ],
)
def test_table_has_exactly_the_points_of_the_figure(last: int, own: int, expected: list[int]) -> None:
    figure = reach_figure(
        reach(day=Fraction(own), series=series(0.8, last), series_without_pump=series(0.4, last))
    )
    assert [row.day for row in figure.rows] == expected
    assert len(points(figure.central)) == len(points(figure.without_pump)) == len(expected)
    assert [row.day for row in figure.rows if row.is_own] == [own]
    (own_row,) = (row for row in figure.rows if row.is_own)
    # straight lines to 0.8, half of it, and 1; without the pump to 0.4
    shares = (0.4, 0.8, 1.0, 0.4)
    assert (own_row.low, own_row.central, own_row.high, own_row.without_pump) == tuple(
        percent(share * own / last) for share in shares
    )


def test_half_a_day_is_marked_between_the_rows() -> None:
    figure = reach_figure(reach(day=Fraction(1, 2)))
    assert figure.own_text == "day ½"
    assert figure.own_x == round(LEFT + (RIGHT - LEFT) / 56, 1)
    assert not any(row.is_own for row in figure.rows)


def test_description_says_the_same_as_the_picture() -> None:
    text = reach_figure(reach()).description
    assert "from day 0 to day 28" in text
    assert (
        "After 7 days, the recipe's own, it stands at 20 % of the even level, the band from 10 to 25 %."
        in text
    )
    assert "ends at 80 %, its band from 40 to 100 %." in text
    assert "Without the pump it would end at 40 %" in text


# sentences


def test_sentence_is_the_one_that_may_be_said() -> None:
    assert salt_sentence(reach()) == (
        "The estimated salt level at the middle is about 20 % (likely range 10 to 25 %) of the even level "
        "after 7 days: probably not yet reached."
    )


@pytest.mark.parametrize(
    ("fast", "slow", "end"),
    [
        (8, 45, "on day 8 in the fast case, on day 45 in the slow case."),
        (8, None, "on day 8 in the fast case, and not within 120 days in the slow case."),
        (3, 3, "on day 3."),
    ],
)
def test_days_of_three_quarters(fast: int, slow: int | None, end: str) -> None:
    sentence = even_sentence(reach(day_even_low=fast, day_even_high=slow))
    assert sentence == f"It passes three quarters of the even level {end}"


def test_never_within_the_estimate() -> None:
    assert "not even in the fast case" in even_sentence(reach(day_even_low=None, day_even_high=None))


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (Fraction(1), "1 day"),
        (Fraction(1, 2), "½ day"),
        (Fraction(3, 2), "1½ days"),
        (Fraction(14), "14 days"),
    ],
)
def test_days_in_words(number: Fraction, words: str) -> None:
    assert days(number) == words
