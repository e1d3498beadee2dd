"""A laid plan in; what waits longer than it keeps, out: in the fridge a problem, in the freezer a note."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from generator.compute.gathering.laid import FREEZER, FRIDGE, Given, Laid, ends_frozen
from generator.compute.gathering.lengths import DAY
from generator.compute.safety.words import span_words
from generator.model.moment_words import moment_words
from generator.model.recipe import Keep, Recipe
from generator.problems import ProblemLog


def waits(given: Given, laid: Laid) -> dict[str, int]:
    """Minutes from the end of each component to its last use."""
    return {
        slug: max(used) - laid.courses[slug].ready
        for slug in given.order
        if (used := _used_at(given, laid, slug))
    }


def _used_at(given: Given, laid: Laid, slug: str) -> tuple[int, ...]:
    """Of a component: by each taker, and on the table where it is a dish as well."""
    takers = laid.used_at(given, slug)
    return (*takers, 0) if takers and slug in given.dishes else takers


def kept_too_long(given: Given, laid: Laid) -> dict[str, int]:
    """Minutes beyond what a component keeps unfrozen."""
    return {slug: over for slug, over in past_keep(given, laid).items() if not _is_frozen(given, slug)}


def past_keep(given: Given, laid: Laid) -> dict[str, int]:
    """Minutes beyond what a component keeps, in the cold or in the freezer."""
    past = {}
    for slug, wait in waits(given, laid).items():
        recipe = given.book.recipes[slug]
        keep = _keep(recipe, FREEZER) if ends_frozen(recipe) else cold_keep(recipe)
        if keep is not None and wait > most(keep):
            past[slug] = wait - most(keep)
    return past


def _is_frozen(given: Given, slug: str) -> bool:
    return ends_frozen(given.book.recipes[slug])


def cold_keep(recipe: Recipe) -> Keep | None:
    """How long it keeps unfrozen: in the fridge, else on the shelf."""
    return _keep(recipe, "fridge") or _keep(recipe, "shelf")


def most(keep: Keep) -> int:
    """The shorter end, in whole minutes."""
    return floor(keep.days.low * Fraction(DAY))


def check_keeping(given: Given, laid: Laid, log: ProblemLog) -> list[str]:
    """Problems into the log; quiet lines out."""
    notes, over, waited = [], kept_too_long(given, laid), waits(given, laid)
    for slug, wait in waited.items():
        recipe = given.book.recipes[slug]
        if slug in over:
            _tell(given, laid, recipe, wait, log)
        elif ends_frozen(recipe):
            notes += _freezer_note(recipe, wait)
        elif cold_keep(recipe) is None and wait > DAY:
            notes.append(
                f"{recipe.name} waits {span_words(wait, wait)}, and its recipe does not say how long it keeps."
            )
    return notes + check_larder(given, laid, log)


def check_larder(given: Given, laid: Laid, log: ProblemLog) -> list[str]:
    """What lies in the fridge is at least as old as the work on it: past its time a problem, else a question."""
    notes = []
    for one, slug, _ in given.invited.components:
        recipe, takers = given.book.recipes[slug], given.takers(slug)
        keep = cold_keep(recipe)
        if one.place != FRIDGE or keep is None or not takers:
            continue
        used = max(laid.courses[taker].start for taker in takers)
        if given.work_from is not None and used - given.work_from > most(keep):
            log.add(
                "kept-too-long",
                one.line.position,
                f"{recipe.name} in the fridge is there since {moment_words(given.moment(given.work_from))} at the latest, "
                f"and used {moment_words(given.moment(used))}; it keeps {keep.written}.",
                "Freeze it (`, in the freezer`), or make it new.",
            )
        else:
            notes.append(
                f"{recipe.name} in the fridge keeps {keep.written}: count them from the day it was made."
            )
    return notes


def _tell(given: Given, laid: Laid, recipe: Recipe, wait: int, log: ProblemLog) -> None:
    keep = cold_keep(recipe)
    assert keep is not None
    thaws = " and thaw it again" if keep.place == "fridge" else ""
    log.add(
        "kept-too-long",
        given.invited.gathering.position,
        f"{recipe.name} would wait {span_words(wait, wait)} in the {keep.place}; it keeps {keep.written}.",
        f"Freeze it{thaws} (freeze: in the freezer), or make what is used last a second time, later: "
        f"not before {_latest_words(given, laid, recipe, keep)}.",
    )


def _latest_words(given: Given, laid: Laid, recipe: Recipe, keep: Keep) -> str:
    """When it may be ready at the earliest, so that it still keeps until its last use."""
    last = max(_used_at(given, laid, recipe.slug))
    return moment_words(given.moment(last - most(keep)))


def _freezer_note(recipe: Recipe, wait: int) -> list[str]:
    keep = _keep(recipe, FREEZER)
    if keep is None or wait <= most(keep):
        return []
    return [
        f"{recipe.name} waits {span_words(wait, wait)} in the freezer, past the {keep.written} that it is good for: "
        "safe, but no longer at its best."
    ]


def _keep(recipe: Recipe, place: str) -> Keep | None:
    return next((keep for keep in recipe.keep if keep.place == place), None)
