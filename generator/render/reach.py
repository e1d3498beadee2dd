"""An estimate of reach in, its sentences and the coordinates of its figure out; a template only prints them.

The sentences are the same on a page and at a prompt. They say what is estimated and no more; words that promise
anything about eating a piece have no place here.

User units: a figure 320 wide, so that its letters of 14 are above 12 px on the narrowest phone. x goes with days,
y downwards from the highest tick.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import ClassVar

from generator.model.results import ReachResult
from generator.model.rounding import round_nearest
from generator.model.shown import show_number

WIDTH, HEIGHT = 320, 232
LEFT, RIGHT, TOP, BOTTOM = 40.0, 306.0, 44.0, 184.0
"Edges of the field between the axes."
MARK, OVER = 5.0, 16.0
"Length of a mark below the axis, and how far the upright of the own day stands over the field."
MOST_ROWS = 32
"Points of a figure and rows of its table; a longer course is shown every second or fourth day."
DAY_STEPS = (7, 14, 28)
LEVEL_STEPS = (25, 50, 100, 200)
MOST_TICKS = 5

REACH_IDS = frozenset({"reach-title", "reach-description"})
"Ids of the figure, which no heading of a recipe may take."

SeriesRow = tuple[int, float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """A mark on an axis."""

    at: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TableRow:
    """One day of the table, in per cent of the even level."""

    day: int
    low: int
    central: int
    high: int
    without_pump: int | None
    is_own: bool
    "The recipe's own day."


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachFigure:
    """Salt at the middle against days."""

    width: ClassVar = WIDTH
    height: ClassVar = HEIGHT
    left: ClassVar = LEFT
    right: ClassVar = RIGHT
    top: ClassVar = TOP
    bottom: ClassVar = BOTTOM
    mark_end: ClassVar = BOTTOM + MARK
    "Where the marks of days end."
    own_top: ClassVar = TOP - OVER
    "Where the upright of the own day begins."
    title: ClassVar = "Estimated salt at the middle, day by day"
    description: str
    band: str
    "Points of the area between the slow and the fast case."
    low: str
    central: str
    high: str
    without_pump: str
    "Points of the central line without the pump; empty where there is none."
    own_x: float
    own_text: str
    own_anchor: str
    "Where the words of the recipe's own day begin or end: start, end."
    day_ticks: tuple[Tick, ...]
    level_ticks: tuple[Tick, ...]
    rows: tuple[TableRow, ...]
    "What the lines are drawn from, no more and no less."


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachView:
    """How far salt and nitrite have probably reached."""

    salt: str
    nitrite: str
    even: str
    reach: ReachResult
    figure: ReachFigure


def reach_view(reach: ReachResult | None) -> ReachView | None:
    """None for a recipe without an estimate."""
    if reach is None:
        return None
    return ReachView(
        salt=salt_sentence(reach),
        nitrite=nitrite_sentence(reach),
        even=even_sentence(reach),
        reach=reach,
        figure=reach_figure(reach),
    )


def percent(share: float) -> int:
    """A share of the even level in whole per cent."""
    return int(round_nearest(100 * Fraction(share), Fraction(1)))


def days(number: Fraction) -> str:
    """`6 days`, `½ day`."""
    return f"{show_number(number)} {'day' if number <= 1 else 'days'}"


def salt_sentence(reach: ReachResult) -> str:
    """Estimate, range, day and word."""
    return (
        f"The estimated salt level at the middle is about {percent(reach.central)} % "
        f"(likely range {percent(reach.low)} to {percent(reach.high)} %) of the even level "
        f"after {days(reach.day)}: {reach.words}."
    )


def nitrite_sentence(reach: ReachResult) -> str:
    """The weaker word of nitrite; nothing for a cure without any."""
    return f"Nitrite at the middle: {reach.nitrite_words}." if reach.nitrite_words else ""


def even_sentence(reach: ReachResult) -> str:
    """The days on which the fast and the slow case pass three quarters of the even level."""
    fast, slow = reach.day_even_low, reach.day_even_high
    if fast is None:
        return "It does not pass three quarters of the even level within 120 days, not even in the fast case."
    if slow is None:
        return (
            f"It passes three quarters of the even level on day {fast} in the fast case, "
            "and not within 120 days in the slow case."
        )
    if fast == slow:
        return f"It passes three quarters of the even level on day {fast}."
    return (
        f"It passes three quarters of the even level on day {fast} in the fast case, "
        f"on day {slow} in the slow case."
    )


def reach_figure(reach: ReachResult) -> ReachFigure:
    """The figure of one estimate."""
    last = max(reach.series[-1][0], ceil(reach.day))
    series = _chosen(reach.series, reach.day)
    without = _chosen(reach.series_without_pump or (), reach.day)
    levels = _level_ticks(max(level for _, *row in (*series, *without) for level in row))
    scale = Axes(last=last, most=levels[-1] / 100)
    own_x = scale.x(float(reach.day))
    return ReachFigure(
        description=_description(reach, last),
        band=" ".join((scale.line(series, 3), scale.line(series[::-1], 1))),
        low=scale.line(series, 1),
        central=scale.line(series, 2),
        high=scale.line(series, 3),
        without_pump=scale.line(without, 2),
        own_x=own_x,
        own_text=f"day {show_number(reach.day)}",
        own_anchor="start" if own_x < (LEFT + RIGHT) / 2 else "end",
        day_ticks=tuple(Tick(at=scale.x(day), text=str(day)) for day in _day_ticks(last)),
        level_ticks=tuple(Tick(at=scale.y(level / 100), text=str(level)) for level in levels),
        rows=_rows(series, without, reach.day),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Axes:
    """From days and shares of the even level to user units, to a tenth of one."""

    last: int
    "Day at the right edge."
    most: float
    "Share of the even level at the top."

    def x(self, day: float) -> float:
        """Where a day stands, from left to right."""
        return round(LEFT + (RIGHT - LEFT) * day / self.last, 1)

    def y(self, level: float) -> float:
        """Where a share of the even level stands, downwards."""
        return round(BOTTOM - (BOTTOM - TOP) * level / self.most, 1)

    def line(self, series: tuple[SeriesRow, ...], column: int) -> str:
        """Points of a line through one column of a series."""
        return " ".join(f"{self.x(row[0]):g},{self.y(row[column]):g}" for row in series)


def _chosen(series: tuple[SeriesRow, ...], own: Fraction) -> tuple[SeriesRow, ...]:
    """Every day, or every second or fourth of a long course; the recipe's own day and the last one always."""
    if not series:
        return ()
    last = series[-1][0]
    step = next(step for step in (1, 2, 4) if last <= MOST_ROWS * step)
    return tuple(row for row in series if row[0] % step == 0 or row[0] in (own, last))


def _day_ticks(last: int) -> tuple[int, ...]:
    """Whole weeks, at most five marks."""
    step = next((step for step in DAY_STEPS if floor(last / step) < MOST_TICKS), DAY_STEPS[-1])
    return tuple(range(0, last + 1, step))


def _level_ticks(highest: float) -> tuple[int, ...]:
    """Per cent of the even level, from nothing to at least 100, the highest tick above all that is drawn."""
    needed = max(100, ceil(100 * highest))
    step = next((step for step in LEVEL_STEPS if ceil(needed / step) < MOST_TICKS), LEVEL_STEPS[-1])
    return tuple(range(0, step * ceil(needed / step) + 1, step))


def _description(reach: ReachResult, last: int) -> str:
    """The figure in words, for whoever cannot see it."""
    first, at_end = reach.series[0], reach.series[-1]
    text = (
        f"A line with a band around it, from day 0 to day {last}. "
        f"After {days(reach.day)}, the recipe's own, it stands at {percent(reach.central)} % of the even level, "
        f"the band from {percent(reach.low)} to {percent(reach.high)} %. "
        f"The line begins at {percent(first[2])} % and ends at {percent(at_end[2])} %, "
        f"its band from {percent(at_end[1])} to {percent(at_end[3])} %."
    )
    if reach.series_without_pump:
        text += (
            f" Without the pump it would end at {percent(reach.series_without_pump[-1][2])} %, a dashed line."
        )
    return text


def _rows(
    series: tuple[SeriesRow, ...], without: tuple[SeriesRow, ...], own: Fraction
) -> tuple[TableRow, ...]:
    bare = {row[0]: percent(row[2]) for row in without}
    return tuple(
        TableRow(
            day=day,
            low=percent(low),
            central=percent(central),
            high=percent(high),
            without_pump=bare.get(day),
            is_own=day == own,
        )
        for day, low, central, high in series
    )
