"""A recipe's cure in; the cold that it needs, what too little nitrite loses, and the refusal of three cures, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.animals import animal_in
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.places import ROOM
from generator.compute.safety.facts.times import days_in
from generator.compute.safety.words import at_most, both_scales, sentence_start
from generator.model.recipe import Recipe, Stage
from generator.model.shown import show_decimal
from generator.problems import Position
from generator.tables import Tables

COLD, COLOUR_ONLY, TOO_LITTLE = "cure-cold", "below-40", "below-120"

UNTOLD_ICE = "cooler"
"Cold with ice in it: `in a cooler with ice`. Source: words of the trade."
WARM_PLACES = ROOM | {"cellar", "smoker", "oven", "grill"}
"Places that are not known to be cold. Source: house choice."
SEALED = frozenset({"vacuum", "jar"})
"Packs without air. Source: house choice."
SLOW_STAGES = ("cure", "equalise", "age", "dry")
"Stages in which nitrate has time to work. Source: common practice, no source."
SLOW_DAYS = Fraction(30)
"Source: common practice, no source; below this, nitrate has no time to turn into nitrite."


def cure_cold(case: Case) -> None:
    """Every cure: brine and meat are cold before they meet, beside the cure stage where there is one."""
    cure = case.recipe.cure
    if cure is not None:
        what = "brine" if cure.method == "brine" else "cure"
        because = f"raw meat lies in the {what} for the whole time"
        case.box(COLD, because, cure, stage=case.facts.first_stage("cure"))
    _warm_cure(case)


def low_nitrite(case: Case) -> None:
    """Below the policy minimum a box says what is lost; below the preservative level it is colour only.

    A belly in a brine may not have more than 120 ppm, so there the minimum says nothing.
    """
    written, cure = case.recipe.cure, case.facts.cure
    ppm = _ingoing_ppm(case.facts)
    if ppm is None or written is None or cure is None or cure.limit is None:
        return
    because = f"the ingoing nitrite is {show_decimal(ppm, places=0)} ppm"
    if ppm < case.constant("preservative_minimum_ppm"):
        case.box(COLOUR_ONLY, because, written)
    elif ppm < case.constant("policy_minimum_ppm") < cure.limit.limit_ppm:
        case.box(TOO_LITTLE, because, written)


def _ingoing_ppm(facts: Facts) -> Fraction | None:
    """The least that the meat gets: the low end where a range was worked out."""
    cure = facts.cure
    if not facts.nitrite or cure is None:
        return None
    if cure.ppm_range is not None:
        return cure.ppm_range.low
    figures = (cure.pick_up_ppm, cure.whole_system_ppm, cure.dry_ppm)
    return next((ppm for ppm in figures if ppm is not None), None)


def _warm_cure(case: Case) -> None:
    """A cure, or the equalising of a brined piece, above the cold or in a place that is not known to be cold.

    Equalising after a dry cure may be warmer by 9 CFR 318.10 (35 to 60 °F for hams), so it is not judged.
    """
    recipe = case.recipe
    if recipe.cure is None and recipe.meat is None:
        return  # onions and squash are cured warm
    brined = recipe.cure is not None and recipe.cure.method == "brine"
    maximum = case.constant("cold_holding_maximum_f")
    for index, stage in enumerate(recipe.stages):
        judged = stage.name == "cure" or (stage.name == "equalise" and brined)
        warm = _why_warm(stage, maximum) if judged else ""
        if warm and stage.is_read:
            because = (
                f"{warm[0].lower()}{warm[1:].rstrip('.')}; the method says “{stage.written.rstrip('.!')}”"
            )
            case.box(COLD, because, stage, stage=index)
        elif warm:
            case.log.add(
                "warm-cure",
                stage.position,
                warm,
                f"Cure in the fridge, at or below {at_most(maximum)} (NCHFP 2002, section 6.1.3), and write it: "
                f"{stage.title}: 5 days in the fridge at 38 °F. More salt does not replace the cold."
                + (
                    " With ice in it all the time, write: in a cooler with ice."
                    if stage.place == UNTOLD_ICE
                    else ""
                ),
            )


def _why_warm(stage: Stage, maximum: Fraction) -> str:
    if stage.at is not None:
        warmest = stage.at.high.fahrenheit
        if warmest <= maximum:
            return ""
        return f"The meat lies in '{stage.title}' at up to {both_scales(warmest)}, above {at_most(maximum)}."
    if stage.place in WARM_PLACES:
        return f"The meat lies in '{stage.title}' {stage.place_written}, and no temperature says that it is cold there."
    if stage.place == UNTOLD_ICE:
        return (
            f"The meat lies in '{stage.title}' {stage.place_written}, and nothing says whether ice is in it."
        )
    return ""


def cold_smoke_sealed(case: Case) -> None:
    """Meat that was cold-smoked without a curing salt and not cooked may not be sealed from the air."""
    if _is_guarded(case) or not _is_of_meat(case.recipe, case.tables):
        return
    enough = case.constant("cured_smoked_minimum_f")
    for stage in _sealed_raw(case, enough):
        if stage.is_read:
            continue  # the box that cold smoke does not cook speaks of it
        case.log.add(
            "cold-smoke-sealed",
            stage.position,
            "Meat that was cold-smoked without a curing salt is still raw, and here it is sealed from the air, "
            "in which Clostridium botulinum grows.",
            f"Cook it first, with a stage that says to {show_decimal(enough, places=0)} °F inside or hotter; or "
            "pack it open, in paper or a tray, and freeze it; or cure it with a curing salt.",
        )


def _sealed_raw(case: Case, enough: Fraction) -> list[Stage]:
    """The stages that seal what was cold-smoked, where nothing cooks it between."""
    raw, found = False, []
    for stage in case.stages:
        if stage.name == "cold smoke":
            raw = True
        elif case.tables.stages.get(stage.name, False) and stage.inside is not None:
            raw = raw and stage.inside.fahrenheit < enough
        elif raw and (stage.name == "jar" or (stage.name == "pack" and stage.place in SEALED)):
            found.append(stage)
    return found


def _is_guarded(case: Case) -> bool:
    """Nitrite guards from the level that is said to have some preservative effect; below it only colours."""
    cure = case.facts.cure
    if not case.facts.nitrite or cure is None:
        return False
    ppm = cure.whole_system_ppm if cure.whole_system_ppm is not None else cure.dry_ppm
    return ppm is None or ppm >= case.constant("preservative_minimum_ppm")


def _is_of_meat(recipe: Recipe, tables: Tables) -> bool:
    """Cheese, nuts and salt are cold-smoked too."""
    lines = (animal_in(line.name, tables) for line in recipe.ingredients)
    return recipe.meat is not None or recipe.cure is not None or any(animal is not None for animal in lines)


def nitrate_quick_cure(case: Case) -> None:
    """Nitrate in a cure that is over before it can work, and that is cooked or hot-smoked."""
    brought = _nitrate(case.facts, case.tables)
    if brought is None or not case.facts.heating or case.recipe.course_read:
        return  # days that were read from a method are not certain enough for an error
    # A drying without a length is the drying before the smoke, hours until tacky.
    days = days_in(case.recipe, SLOW_STAGES, lambda stage: stage.name != "dry" or stage.minutes is not None)
    if days is None or days.high >= SLOW_DAYS:
        return
    words, position = brought
    case.log.add(
        "nitrate-quick-cure",
        position,
        f"{sentence_start(words)}, which needs weeks to work; this cure is over in "
        f"{show_decimal(days.high, places=1)} days and then cooked.",
        f"Use curing salt no. 1, or cure, dry and age for at least {SLOW_DAYS} days (common practice, no source).",
    )


def _nitrate(facts: Facts, tables: Tables) -> tuple[str, Position | None] | None:
    """What brings nitrate into a cure, in words, and where that is written."""
    cure = facts.recipe.cure
    if cure is None:
        return None
    if cure.nitrate is not None:
        return "nitrate is weighed in", cure.nitrate.position
    if facts.cure is not None and cure.curing_salt is not None and facts.cure.kind.nitrate > 0:
        return f"{facts.cure.kind.title} brings nitrate", cure.curing_salt.position
    pumped = cure.pump_brine
    kind = tables.curing_salt(pumped.kind) if pumped is not None else None
    if pumped is not None and pumped.curing_salt is not None and kind is not None and kind.nitrate > 0:
        return f"{kind.title} brings nitrate", pumped.curing_salt.position
    return None


RULES = (
    Rule(slugs=(COLD,), look=cure_cold),
    Rule(slugs=(COLOUR_ONLY, TOO_LITTLE), look=low_nitrite),
    Rule(slugs=(), look=cold_smoke_sealed),
    Rule(slugs=(), look=nitrate_quick_cure),
)
