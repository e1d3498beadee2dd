"""A plan's moments and guests in, the words of its pages out. A zone is told once where it is the same all along."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.model.gathering import Guests
from generator.model.moment import Moment
from generator.model.plan import Plan
from generator.model.shown import show_number
from generator.render.clock_words import date_words, time_words, weekday_words

PLACES = {
    "freezer": "From the freezer",
    "fridge": "From the fridge",
    "shelf": "From the shelf",
    "on hand": "On hand, made already",
    "garden": "From the garden",
    "woods": "From the woods",
    "smokehouse shelf": "From the smokehouse shelf",
    "shop": "From the shop",
}
"Headings of the shopping and gathering list, in the order in which one walks."


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanClock:
    """Says moments of one plan."""

    zone: str
    "Told once for the whole plan; empty where none is known, and where the clocks change on the way."
    tells_zone: bool
    "Every time has its zone behind it, because it is not the same all along."

    def time(self, moment: Moment) -> str:
        """`08:00`"""
        return time_words(moment) if self.tells_zone else f"{moment:%H:%M}"

    def day(self, moment: Moment) -> str:
        """`Sat 5 Dec`"""
        return f"{weekday_words(moment)} {date_words(moment)}"

    def date(self, moment: Moment) -> str:
        """`Sat 5 Dec 2026`"""
        return f"{self.day(moment)} {moment.year}"

    def moment(self, moment: Moment) -> str:
        """`Sat 5 Dec 08:00`"""
        return f"{self.day(moment)} {self.time(moment)}"

    def until(self, start: Moment, end: Moment) -> str:
        """An end as seen from its start: `to 14:30`, `to Sat 5 Dec 08:00`; empty where it takes no time."""
        if start == end:
            return ""
        return f"to {self.time(end) if start.date() == end.date() else self.moment(end)}"


def plan_clock(plan: Plan) -> PlanClock:
    """The clock of one plan."""
    moments = [plan.invited.gathering.serve_at]
    moments += [moment for step in plan.steps for moment in (step.start, step.end)]
    zones = {moment.tzname() or "" for moment in moments}
    return PlanClock(zone="" if len(zones) > 1 else zones.pop(), tells_zone=len(zones) > 1)


def guests_words(guests: Guests) -> str:
    """`29 adults and 6 children, each counted as 1/2`."""
    words = _some(guests.adults, "adult", "adults")
    if guests.children:
        share = show_number(guests.child_share)
        each = "" if guests.child_share == 1 else f", each counted as {share}"
        words += f" and {_some(guests.children, 'child', 'children')}{each}"
    return words


def guest_count(guests: Guests) -> str:
    """`35 guests`"""
    return _some(guests.adults + guests.children, "guest", "guests")


def servings_words(servings: Fraction | None) -> str:
    """`32 servings`; empty for a component."""
    if servings is None:
        return ""
    return f"{show_number(servings)} {'serving' if servings == 1 else 'servings'}"


def _some(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"
