"""`keep:` of a recipe in; the refusal of too long, too warm or on a shelf, and the note on a long freezer, out."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.keeping import is_called_jerky, is_canned, is_fish, is_vacuum, keeping_of
from generator.compute.safety.facts.meats import BIRDS, is_smoked
from generator.compute.safety.facts.pieces import has_meat
from generator.compute.safety.facts.times import last_stage
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import at_most, both_scales, sentence_start
from generator.model.recipe import Keep
from generator.model.results import Caution
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables
from generator.tables.keeping import Keeping

MONTH_DAYS = Fraction(31)
"The longest, so that three months written in days are not more than three months. Source: the calendar."
LOW_ACID = ("infused", "greens")
"Kinds of words for garlic, mushrooms, herbs and greens in food_words.csv."


def kept(facts: Facts, place: str) -> Keep | None:
    """What `keep:` says of one place."""
    return next((keep for keep in facts.recipe.keep if keep.place == place), None)


def _packing(facts: Facts) -> int | None:
    return last_stage(facts.recipe, ("pack", "freeze"))


def keep_fridge(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """More days, or warmer, than the table has for its kind. Met, without a box: a quiet line tells how long."""
    row, keep = keeping_of(facts, tables), kept(facts, "fridge")
    if row is None or keep is None:
        return []
    cold = tables.constant("cold_holding_maximum_f")
    if keep.at is not None and keep.at.high.fahrenheit > cold:
        warm = both_scales(keep.at.high.fahrenheit)
        return _refuse(facts, keep, row, f"at {warm}, above {at_most(cold)}", tables, log)
    row = _for_loose_fish(row, keep, facts, tables)
    if keep.days.high <= row.fridge_days:
        return []
    days = f"for {show_decimal(keep.days.high, places=1)} days; {row.title}: {row.fridge_days} days at most"
    return _refuse(facts, keep, row, days, tables, log)


def _for_loose_fish(row: Keeping, keep: Keep, facts: Facts, tables: Tables) -> Keeping:
    """Loosely wrapped smoked fish keeps longer in a fridge that is told to be colder."""
    limit = tables.constant("loose_smoked_fish_f")
    colder = keep.at is not None and keep.at.high.fahrenheit <= limit
    loose = row.kind == "smoked fish" and colder and not is_vacuum(facts.recipe)
    return tables.keeping["smoked fish below 36"] if loose else row


def _refuse(
    facts: Facts, keep: Keep, row: Keeping, how: str, tables: Tables, log: ProblemLog
) -> list[Caution]:
    found = contradict(
        "keep-fridge",
        facts,
        tables,
        log,
        position=keep.position,
        message=f"It is kept in the fridge {how}.",
        hint=f"Write fridge: {row.fridge_days} days, and freeze what is left.",
        because=f"it is kept in the fridge {how}",
    )
    return [replace(one, sources=row.sources) for one in found]


def keep_freezer(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Longer in the freezer than tastes good: a note, since it stays safe."""
    row, keep = keeping_of(facts, tables), kept(facts, "freezer")
    if row is None or keep is None or keep.days.high <= row.freezer_months * MONTH_DAYS:
        return []
    because = f"{row.title}: best within {row.freezer_months} months"
    found = box("keep-freezer", because, tables, stage=_packing(facts))
    return [replace(found, sources=row.sources)]


def vacuum_fish(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Vacuum-packed fish in the fridge: below 38 °F and 5 days, or it cannot be told. Frozen only: no box."""
    recipe = facts.recipe
    if not is_vacuum(recipe) or is_canned(recipe) or not is_fish(facts, tables):
        return []
    keep, stage = kept(facts, "fridge"), _packing(facts)
    if keep is None:
        if kept(facts, "freezer") is not None:
            return []
        because = "the fish is vacuum-packed, and nothing says how it is kept"
        return cannot_tell("vacuum-fish", because, ("keep.fridge",), tables, stage=stage)
    limit, most = tables.constant("vacuum_fish_below_f"), tables.keeping["smoked fish"].fridge_days
    warm = keep.at is not None and keep.at.high.fahrenheit >= limit
    if warm or keep.days.high > most:
        return contradict(
            "vacuum-fish",
            facts,
            tables,
            log,
            position=keep.position,
            message=f"Vacuum-packed fish is kept in the fridge for {keep.written}; it keeps {most} days below "
            f"{at_most(limit)}, and no longer or warmer.",
            hint="Write it: fridge: 5 days at 36 °F. Or freeze it.",
            because=f"the fish is vacuum-packed and kept for {keep.written}",
            stage=stage,
        )
    because = f"the fish is vacuum-packed and kept in the fridge for {keep.written}"
    if keep.at is None:
        return cannot_tell(
            "vacuum-fish", f"{because}; how cold is not told", ("keep.fridge",), tables, stage=stage
        )
    return [box("vacuum-fish", because, tables, stage=stage)]


def shelf_meat(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Meat on a shelf, and low-acid plants in a vacuum there. Cannot be told: cured or smoked, and no word on keeping."""
    recipe, keep = facts.recipe, kept(facts, "shelf")
    what = _perishable(facts, tables)
    if not what or is_canned(recipe) or is_called_jerky(facts, tables):
        return []
    if keep is not None:
        return contradict(
            "shelf-meat",
            facts,
            tables,
            log,
            position=keep.position,
            message=f"{sentence_start(what)}, and it is kept on a shelf for {keep.written}.",
            hint="Keep it in the fridge or in the freezer, and delete the line.",
            because=f"{what}, kept on a shelf",
        )
    preserved = recipe.cure is not None or is_smoked(recipe)
    if recipe.keep or not preserved or recipe.serves is not None:
        return []
    because = f"{what}, and nothing says how it is kept"
    return cannot_tell("shelf-meat", because, ("keep",), tables, stage=_packing(facts))


def _perishable(facts: Facts, tables: Tables) -> str:
    """What may not stand on a shelf; empty where nothing is known that may not."""
    if has_meat(facts):
        because = [meat.because for meat in facts.meats] + [
            f"it uses {part.name}" for part in facts.parts if part.meat
        ]
        return because[0]
    if not is_vacuum(facts.recipe):
        return ""
    plants = [
        line.name
        for line in facts.recipe.ingredients
        if any(tables.garden.says(line.name, kind) for kind in LOW_ACID)
    ]
    return f"{plants[0]} is packed without air" if plants else ""


def stuffed_bird(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """A stuffed bird is roasted, never frozen raw. Cannot be told: it is kept frozen, and no stage says before or after."""
    recipe = facts.recipe
    birds = [meat for meat in facts.meats if meat.animal.group in BIRDS]
    index = facts.first_stage("stuff")
    if not birds or index is None:
        return []
    for stage in recipe.stages[index + 1 :]:
        if tables.stages.get(stage.name, False):
            return []
        if stage.name == "freeze":
            return contradict(
                "frozen-stuffed-bird",
                facts,
                tables,
                log,
                position=stage.position,
                message=f"{birds[0].words} is stuffed and then frozen.",
                hint="Freeze the bird empty, and stuff it just before it is roasted.",
                because=f"{birds[0].because}, stuffed and then frozen",
                stage=recipe.stages.index(stage),
            )
    if kept(facts, "freezer") is None:
        return []
    because = f"{birds[0].because}, stuffed, and nothing says whether it is frozen before it is cooked"
    return cannot_tell("frozen-stuffed-bird", because, ("course",), tables, stage=index)
