"""lethality, minimums, game_hazards and keeping (.csv) in; how hot meat must get, and how long food keeps cold, out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated

from generator.model.published import Cited, Sourced
from generator.tables.csvfile import Shelf, TableError, Wrong, after_each_other, never
from generator.tables.words import GROUPS


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold(Sourced):
    """How long the middle of a whole roast of farmed meat stays at a temperature, at least [s]."""

    inside_f: Fraction
    six_and_a_half_log_s: Annotated[Fraction, "hold_6_5_s"]
    seven_log_s: Annotated[Fraction, "hold_7_s"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Minimum(Cited):
    """The least inside temperature of one kind of meat; the rule's words are in cautions.csv."""

    rule: str
    minimum_f: Fraction
    rest_min: Fraction
    "Minutes of rest that go with it."
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GameHazard(Cited):
    """Why one group of wild animals is cooked through."""

    group: str
    is_danger: Annotated[bool, "danger"]
    "True: too little heat is an error that nobody can accept."
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Keeping(Cited):
    """One kind of food. Fridge days are a limit of safety at 40 °F, freezer months one of quality at 0 °F."""

    kind: Annotated[str, "key"]
    title: str
    "How a sentence names it: soups and stews with meat."
    fridge_days: Fraction
    freezer_months: Fraction
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HeatTables:
    """Look-ups are exact; None is not published."""

    holds: tuple[Hold, ...]
    "Coldest first, a row for each degree."
    minimums: Mapping[str, Minimum]
    game: Mapping[str, GameHazard]

    def hold(self, inside_f: Fraction) -> Hold | None:
        """The row at a temperature, or the next colder one, which asks for longer; None below the table."""
        found = [row for row in self.holds if row.inside_f <= inside_f]
        return found[-1] if found else None


def read_heat(shelf: Shelf) -> HeatTables:
    """The three tables of heat."""
    game = shelf.by("group", "game_hazards.csv", GameHazard, group=GROUPS)
    if not game:  # without a row no wild meat would be cooked through, and nothing would say so
        raise TableError("game_hazards.csv", 1, "there is no row")
    said = "7-log takes less time than 6.5-log"
    swapped = never(said, lambda hold: hold.seven_log_s < hold.six_and_a_half_log_s)
    return HeatTables(
        holds=shelf.rows("lethality.csv", Hold, swapped, after_each_other(_is_hotter)),
        minimums=shelf.by("rule", "minimums.csv", Minimum),
        game=game,
    )


def _is_hotter(colder: Hold, hotter: Hold) -> None:
    """No degree is missing: between two rows the colder one is taken, which must be near."""
    if hotter.inside_f != colder.inside_f + 1:
        raise Wrong("the rows are not a degree apart")
    if hotter.seven_log_s > colder.seven_log_s or hotter.six_and_a_half_log_s > colder.six_and_a_half_log_s:
        raise Wrong("a hotter roast takes longer")
