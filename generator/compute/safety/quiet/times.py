"""Facts in; quiet lines for the page out: thawing, the pot, cooling by the clock, best by, reheating, vacuum packs."""

from __future__ import annotations

from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.heat import WET_STAGES
from generator.compute.safety.facts.keeping import cooled_from, is_vacuum, keeping_of, kept, raw_kind
from generator.compute.safety.facts.pieces import MeatPiece, has_meat, inches, pieces
from generator.compute.safety.facts.places import IN_WATER
from generator.compute.safety.facts.pot import from_frozen, from_thawed, to_cook
from generator.compute.safety.facts.times import last_stage
from generator.compute.safety.words import span_words
from generator.compute.transfer.thaw import (
    COLD_WATER,
    FRIDGE,
    fridge_hours_by_weight,
    thawing_range_hours,
    water_hours_by_weight,
)
from generator.model.recipe import Stage
from generator.tables import Tables

MIN_PER_H = 60.0
"Source: a definition."
WEEK = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
THICK_MM = 25.0
"From here on a pot's time is worth a line. Source: house choice, 1 in."


def time_lines(facts: Facts, tables: Tables) -> tuple[str, ...]:
    """Every quiet line of times and keeping; none for a recipe without meat."""
    if not has_meat(facts):
        return ()
    lines = (
        *_thaw_lines(facts, tables),
        _pot_line(facts, tables),
        _cooling_line(facts, tables),
        _best_by_line(facts, tables),
        _reheat_line(facts, tables),
        _vacuum_line(facts),
    )
    return tuple(line for line in lines if line)


def _thaw_lines(facts: Facts, tables: Tables) -> tuple[str, ...]:
    """Of the piece that takes longest: by the published rule of weight, and by thickness."""
    stage = next((stage for stage in facts.recipe.stages if stage.name == "thaw"), None)
    if stage is None or stage.place not in IN_WATER | {"fridge"}:
        return ()
    thick = max(pieces(facts, tables), key=_size, default=None)
    if thick is None:
        return ()
    said = [words for words in (_by_weight(thick, stage), _by_thickness(thick, stage)) if words]
    where = "in the fridge" if stage.place == "fridge" else "in cold water"
    first = (f"Thawing {where}: {'; '.join(said)}.",) if said else ()
    return (*first, *_thawed_keeps(facts, stage, tables))


def _size(piece: MeatPiece) -> tuple[float, float]:
    return piece.thickness_mm or 0.0, piece.weight_lb or 0.0


def _by_weight(piece: MeatPiece, stage: Stage) -> str:
    if piece.weight_lb is None or piece.weight_lb <= 0:
        return ""
    pound = f"a piece of {piece.weight_lb:.3g} lb ({piece.weight_lb * 0.45359237:.2g} kg)"
    if stage.place == "fridge":
        low, high = fridge_hours_by_weight(piece_lb=piece.weight_lb)
        took = span_words(low * MIN_PER_H, high * MIN_PER_H)
        return f"{took} for {pound} by the published rule, a day for each 4 to 5 lb and a day at least"
    hours = water_hours_by_weight(piece_lb=piece.weight_lb) * MIN_PER_H
    return f"{span_words(hours, hours)} for {pound} by the published rule, 30 minutes a pound"


def _by_thickness(piece: MeatPiece, stage: Stage) -> str:
    if piece.thickness_mm is None:
        return ""
    medium = FRIDGE if stage.place == "fridge" else COLD_WATER
    low, high = thawing_range_hours(thickness_mm=piece.thickness_mm, shape=piece.shape, medium=medium)
    took = span_words(low * MIN_PER_H, high * MIN_PER_H)
    return f"{took} by an estimate from its thickness, {inches(piece.thickness_mm)}"


def _thawed_keeps(facts: Facts, stage: Stage, tables: Tables) -> tuple[str, ...]:
    kind = raw_kind(facts, tables)
    if stage.place != "fridge" or not kind or facts.recipe.cure is not None:
        return ()
    row = tables.keeping[kind]
    return (f"Thawed in the fridge it keeps raw for up to {row.fridge_days} more days ({row.title}).",)


def _pot_line(facts: Facts, tables: Tables) -> str:
    """How long the middle of the thickest piece takes in a simmer, thawed and from frozen."""
    thick = max((piece for piece in to_cook(facts, tables) if piece.thickness_mm), key=_size, default=None)
    if last_stage(facts.recipe, WET_STAGES) is None or thick is None or (thick.thickness_mm or 0) < THICK_MM:
        return ""
    thawed, frozen = from_thawed(thick, tables), from_frozen(thick, tables)
    if None in thawed or thick.thickness_mm is None:
        return ""
    line = (
        f"In a simmer the middle of a piece {inches(thick.thickness_mm)} thick comes to 165 °F (74 °C) after about "
        f"{_words(thawed)}"
    )
    if None not in frozen:
        line += f", from frozen {_words(frozen)}"
    return f"{line}, by an estimate; the thermometer decides."


def _words(ends: tuple[float | None, float | None]) -> str:
    low, high = ends
    assert low is not None
    assert high is not None
    return span_words(low, high)


def _cooling_line(facts: Facts, tables: Tables) -> str:
    """The two deadlines on a clock."""
    if cooled_from(facts, tables) is None:
        return ""
    half, whole = tables.constant("cooling_half_h"), tables.constant("cooling_whole_h")
    start = 18
    return (
        f"Cooling: off the heat at {start}:00, at 70 °F (21 °C) by {start + int(half)}:00 and at 41 °F (5 °C) by "
        f"{(start + int(whole)) % 24:02d}:00 ({half} and {whole} hours)."
    )


def _best_by_line(facts: Facts, tables: Tables) -> str:
    """The last day, on an example week; by the table where the recipe does not say."""
    row, keep = keeping_of(facts, tables), kept(facts.recipe, "fridge")
    if row is None:
        return ""
    days = row.fridge_days if keep is None else min(keep.days.high, row.fridge_days)
    if days < 1:
        return ""
    last = WEEK[(WEEK.index("Saturday") + int(days)) % len(WEEK)]
    week = f" {'of the next week' if days > 7 else ''}".rstrip()
    whose = "" if keep is not None else f"; {row.title} keep {row.fridge_days} days"
    return f"Best by: made on a Saturday, eat it by {last}{week}, or freeze it (fridge at 40 °F / 4 °C or colder{whose})."


def _reheat_line(facts: Facts, tables: Tables) -> str:
    minimum = int(tables.constant("wild_game_minimum_f"))
    keeps = kept(facts.recipe, "fridge") is not None or kept(facts.recipe, "freezer") is not None
    if not facts.heating or facts.recipe.eat_after_cooking or not keeps:
        return ""
    return f"Reheat leftovers to {minimum} °F (74 °C)."


def _vacuum_line(facts: Facts) -> str:
    if not is_vacuum(facts.recipe):
        return ""
    return "A vacuum pack does not preserve it: it keeps as many days in the fridge as unpacked."
