"""lethality.csv, minimums.csv and game_hazards.csv in; how hot the middle of which meat must get out."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from generator.tables.csvfile import Row, TableError, once, read_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """How long the middle of a whole roast of farmed meat stays at a temperature, at least [s]."""

    inside_f: Fraction
    six_and_a_half_log_s: Fraction
    seven_log_s: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Minimum:
    """The least inside temperature of one kind of meat; the rule's words are in cautions.csv."""

    rule: str
    minimum_f: Fraction
    rest_min: Fraction
    "Minutes of rest that go with it."
    what: str
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GameHazard:
    """Why one group of wild animals is cooked through."""

    group: str
    is_danger: bool
    "True: too little heat is an error that nobody can accept."
    reason: str
    sources: tuple[str, ...]


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


def read_heat(folder: Path, groups: Collection[str], sources: Collection[str]) -> HeatTables:
    """The three tables of heat."""
    return HeatTables(
        holds=_holds(folder, sources),
        minimums=_minimums(folder, sources),
        game=_game(folder, groups, sources),
    )


def _holds(folder: Path, sources: Collection[str]) -> tuple[Hold, ...]:
    """Refuses a hotter row that asks for longer, a 7-log time below the 6.5-log one, and a missing degree."""
    holds: list[Hold] = []
    columns = ("inside_f", "hold_6_5_s", "hold_7_s", "source", "locator")
    for row in read_rows(folder / "lethality.csv", columns):
        row.source(sources)
        hold = Hold(
            inside_f=row.amount("inside_f"),
            six_and_a_half_log_s=row.amount("hold_6_5_s"),
            seven_log_s=row.amount("hold_7_s"),
        )
        if hold.seven_log_s < hold.six_and_a_half_log_s:
            raise row.error("7-log takes less time than 6.5-log")
        if holds:
            _follows(row, holds[-1], hold)
        holds.append(hold)
    return tuple(holds)


def _follows(row: Row, colder: Hold, hotter: Hold) -> None:
    if hotter.inside_f != colder.inside_f + 1:
        raise row.error("the rows are not a degree apart")
    if hotter.seven_log_s > colder.seven_log_s or hotter.six_and_a_half_log_s > colder.six_and_a_half_log_s:
        raise row.error("a hotter roast takes longer")


def _minimums(folder: Path, sources: Collection[str]) -> dict[str, Minimum]:
    minimums: dict[str, Minimum] = {}
    seen: set[object] = set()
    columns = ("rule", "minimum_f", "rest_min", "what", "source", "locator")
    for row in read_rows(folder / "minimums.csv", columns):
        once(seen, row.text("rule"), row)
        minimums[row.text("rule")] = Minimum(
            rule=row.text("rule"),
            minimum_f=row.amount("minimum_f"),
            rest_min=row.amount("rest_min"),
            what=row.text("what"),
            sources=row.sources(sources),
        )
    return minimums


def _game(folder: Path, groups: Collection[str], sources: Collection[str]) -> dict[str, GameHazard]:
    hazards: dict[str, GameHazard] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "game_hazards.csv", ("group", "danger", "reason", "source", "locator")):
        group = row.one_of("group", groups)
        once(seen, group, row)
        hazards[group] = GameHazard(
            group=group,
            is_danger=row.yes("danger"),
            reason=row.text("reason"),
            sources=row.sources(sources),
        )
    if not hazards:
        raise TableError("game_hazards.csv", 1, "there is no row")
    return hazards
