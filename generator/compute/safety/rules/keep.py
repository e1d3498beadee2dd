"""`keep:` of a recipe in; the refusal of too long, too warm or on a shelf, and the note on a long freezer, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Met, Rule
from generator.compute.safety.facts.animals import FATS
from generator.compute.safety.facts.keeping import (
    is_called_jerky,
    is_canned,
    is_fish,
    is_vacuum,
    keeping_of,
    kept,
)
from generator.compute.safety.facts.meats import BIRDS, is_smoked
from generator.compute.safety.facts.names import stems_in
from generator.compute.safety.facts.pieces import Inside, meat_inside
from generator.compute.safety.facts.times import last_stage
from generator.compute.safety.words import at_most, both_scales, sentence_start
from generator.model.recipe import Ingredient, Keep
from generator.model.shown import show_decimal
from generator.tables.heat import Keeping

VACUUM, SHELF, FRIDGE, FREEZER = "vacuum-fish", "shelf-meat", "keep-fridge", "keep-freezer"
DRIED = "jerky-shelf"
STUFFED = "frozen-stuffed-bird"

MONTH_DAYS = Fraction(31)
"The longest, so that three months written in days are not more than three months. Source: the calendar."
DRIED_MONTHS = 2
"[months] Source: University of Wisconsin (second-hand, KEEP-58): jerky, 1 to 2 months at room temperature."
SOLID_FATS = FATS - {"oil"} | {"marrow", "butter"}
"What dried meat is mixed with; a spoon of oil is of a marinade. Source: words of the trade."
LOW_ACID = ("infused", "greens")
"Kinds of words for garlic, mushrooms, herbs and greens in food_words.csv."


def _packing(case: Case) -> int | None:
    return last_stage(case.recipe, ("pack", "freeze"))


def vacuum_fish(case: Case) -> None:
    """Vacuum-packed fish in the fridge: below 38 °F and 5 days, or it cannot be told. Frozen only: no box."""
    recipe = case.recipe
    if not is_vacuum(recipe) or is_canned(recipe) or not is_fish(case.facts, case.tables):
        return
    keep, meat = kept(recipe, "fridge"), meat_inside(case.facts)[0].written
    if keep is not None:
        _judge_vacuum(case, keep, meat)
    elif kept(recipe, "freezer") is None:
        because = "the fish is vacuum-packed, and nothing says how it is kept"
        case.cannot_tell(VACUUM, because, ("keep.fridge",), meat, stage=_packing(case))


def _judge_vacuum(case: Case, keep: Keep, meat: Met) -> None:
    limit, most = case.constant("vacuum_fish_below_f"), case.tables.keeping["smoked fish"].fridge_days
    stage, because = _packing(case), f"the fish is vacuum-packed and kept in the fridge for {keep.written}"
    if keep.days.high > most or (keep.at is not None and keep.at.high.fahrenheit >= limit):
        case.refuse(
            VACUUM,
            keep,
            meat,
            message=f"Vacuum-packed fish is kept in the fridge for {keep.written}; it keeps {most} days below "
            f"{at_most(limit)}, and no longer or warmer.",
            hint="Write it: fridge: 5 days at 36 °F. Or freeze it.",
            because=f"the fish is vacuum-packed and kept for {keep.written}",
            stage=stage,
        )
    elif keep.at is None:
        because += "; how cold is not told"
        case.cannot_tell(VACUUM, because, ("keep.fridge",), keep, meat, stage=stage)
    else:
        case.box(VACUUM, because, keep, meat, stage=stage)


def shelf_meat(case: Case) -> None:
    """Meat on a shelf, and low-acid plants in a vacuum there. Cannot be told: cured or smoked, and no word on keeping."""
    recipe, keep, what = case.recipe, kept(case.recipe, "shelf"), _perishable(case)
    if what is None or is_canned(recipe) or is_called_jerky(case.facts, case.tables):
        return
    preserved = recipe.cure is not None or is_smoked(recipe)
    if keep is not None:
        case.refuse(
            SHELF,
            keep,
            what.written,
            message=f"{sentence_start(what.because)}, and it is kept on a shelf for {keep.written}.",
            hint="Keep it in the fridge or in the freezer, and delete the line.",
            because=f"{what.because}, kept on a shelf",
        )
    elif preserved and not recipe.keep and recipe.serves is None:
        because = f"{what.because}, and nothing says how it is kept"
        case.cannot_tell(SHELF, because, ("keep",), what.written, stage=_packing(case))


def dried_on_shelf(case: Case) -> None:
    """Jerky and pemmican of the home. Met: within the published months. Cannot be told: with fat, for which none are."""
    keep, inside = kept(case.recipe, "shelf"), meat_inside(case.facts)
    if keep is None or not inside or not is_called_jerky(case.facts, case.tables) or is_canned(case.recipe):
        return
    fat = next((line for line in case.recipe.ingredients if _is_fat(line)), None)
    if keep.days.high > DRIED_MONTHS * MONTH_DAYS:
        case.refuse(
            DRIED,
            keep,
            inside[0].written,
            message=f"{case.recipe.name} is kept on a shelf for {keep.written}; "
            f"meat that is dried at home keeps for 1 to {DRIED_MONTHS} months there.",
            hint="Write freezer: 6 months, and delete the line.",
            because=f"{inside[0].because}, dried, and kept on a shelf for {keep.written}",
        )
    elif fat is not None:
        because = f"{inside[0].because}, mixed with {fat.name}, and no time on a shelf is known for that"
        case.cannot_tell(DRIED, because, ("keep.shelf",), keep, fat)


def _is_fat(line: Ingredient) -> bool:
    return not SOLID_FATS.isdisjoint(stems_in(line.name))


def _perishable(case: Case) -> Inside | None:
    """What may not stand on a shelf; None where nothing is known that may not."""
    meats, says = meat_inside(case.facts), case.tables.garden.says
    if meats or not is_vacuum(case.recipe):
        return meats[0] if meats else None
    lines = case.recipe.ingredients
    plant = next((line for line in lines if any(says(line.name, kind) for kind in LOW_ACID)), None)
    if plant is None:
        return None
    return Inside(because=f"{plant.name} is packed without air", written=plant)


def keep_fridge(case: Case) -> None:
    """More days, or warmer, than the table has for its kind. Met, without a box: a quiet line tells how long."""
    row, keep = keeping_of(case.facts, case.tables), kept(case.recipe, "fridge")
    if row is None or keep is None:
        return
    cold = case.constant("cold_holding_maximum_f")
    if keep.at is not None and keep.at.high.fahrenheit > cold:
        warm = both_scales(keep.at.high.fahrenheit)
        _refuse(case, keep, row, f"at {warm}, above {at_most(cold)}")
        return
    row = _for_loose_fish(row, keep, case)
    if keep.days.high > row.fridge_days:
        days = show_decimal(keep.days.high, places=1)
        _refuse(case, keep, row, f"for {days} days; {row.title}: {row.fridge_days} days at most")


def _for_loose_fish(row: Keeping, keep: Keep, case: Case) -> Keeping:
    """Loosely wrapped smoked fish keeps longer in a fridge that is told to be colder."""
    colder = keep.at is not None and keep.at.high.fahrenheit <= case.constant("loose_smoked_fish_f")
    loose = row.kind == "smoked fish" and colder and not is_vacuum(case.recipe)
    return case.tables.keeping["smoked fish below 36"] if loose else row


def _refuse(case: Case, keep: Keep, row: Keeping, how: str) -> None:
    case.refuse(
        FRIDGE,
        keep,
        message=f"It is kept in the fridge {how}.",
        hint=f"Write fridge: {row.fridge_days} days, and freeze what is left.",
        because=f"it is kept in the fridge {how}",
        sources=row.sources,
    )


def keep_freezer(case: Case) -> None:
    """Longer in the freezer than tastes good: a note, since it stays safe."""
    row, keep = keeping_of(case.facts, case.tables), kept(case.recipe, "freezer")
    if row is not None and keep is not None and keep.days.high > row.freezer_months * MONTH_DAYS:
        because = f"{row.title}: best within {row.freezer_months} months"
        case.box(FREEZER, because, keep, stage=_packing(case), sources=row.sources)


def stuffed_bird(case: Case) -> None:
    """A stuffed bird is roasted, never frozen raw. Cannot be told: it is kept frozen, and no stage says before or after."""
    bird = next((meat for meat in case.facts.meats if meat.animal.group in BIRDS), None)
    index, frozen = case.facts.first_stage("stuff"), kept(case.recipe, "freezer")
    if bird is None or index is None:
        return
    # what comes first behind the stuffing decides: heat, or the freezer
    later = ((at, stage) for at, stage in enumerate(case.stages) if at > index)
    hot = case.tables.stages
    follows = next(((at, one) for at, one in later if one.name == "freeze" or hot.get(one.name, False)), None)
    if follows is not None and follows[1].name == "freeze":
        case.refuse(
            STUFFED,
            follows[1],
            bird,
            message=f"{bird.words} is stuffed and then frozen.",
            hint="Freeze the bird empty, and stuff it just before it is roasted.",
            because=f"{bird.because}, stuffed and then frozen",
            stage=follows[0],
        )
    elif follows is None and frozen is not None:
        because = f"{bird.because}, stuffed, and nothing says whether it is frozen before it is cooked"
        case.cannot_tell(STUFFED, because, ("course",), bird, frozen, stage=index)


RULES = (
    Rule(slugs=(VACUUM,), look=vacuum_fish),
    Rule(slugs=(SHELF,), look=shelf_meat),
    Rule(slugs=(DRIED,), look=dried_on_shelf),
    Rule(slugs=(FRIDGE,), look=keep_fridge),
    Rule(slugs=(FREEZER,), look=keep_freezer),
    Rule(slugs=(STUFFED,), look=stuffed_bird),
)
