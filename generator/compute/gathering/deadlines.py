"""A laid plan in; what would have to start before anybody does, as problems that say what helps, out."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from generator.compute.gathering.layout import FREEZER, FRIDGE, Given, Layout, ends_frozen, own_thaw
from generator.compute.gathering.lengths import DAY, course_lengths
from generator.compute.safety.facts.cure_days import rules_for
from generator.compute.safety.words import span_words
from generator.model.moment import moment_words
from generator.model.plan import Making
from generator.model.quantity import Dimension
from generator.model.recipe import Keep, Recipe
from generator.problems import ProblemLog

OTHERS = 2
"So many other dishes are named."


def late_starts(given: Given, layout: Layout) -> dict[str, int]:
    """The start [min from serving] of each making that would begin too early, with what the plan thaws for it."""
    if given.work_from is None:
        return {}
    starts = {slug: course.start for slug, course in layout.courses.items()}
    for thaw in layout.thaws:
        starts[thaw.taker] = min(starts[thaw.taker], thaw.start)
    return {slug: starts[slug] for slug in given.order if starts[slug] < given.work_from}


def check_late(given: Given, layout: Layout, log: ProblemLog) -> None:
    """A problem for each making that cannot be begun in time."""
    for slug, start in late_starts(given, layout).items():
        log.add(
            "too-late",
            given.invited.gathering.position,
            _message(given, slug, start),
            f"What helps: {_offers(given, slug)}.",
        )


def _message(given: Given, slug: str, start: int) -> str:
    assert given.work_from is not None
    # Up: work that must start an hour before anybody does takes that day.
    days = ceil((given.work_from - start) / DAY)
    late = f"{days} day{'s' if days > 1 else ''}"
    if days == 1:
        late += f" ({span_words(given.work_from - start, given.work_from - start)})"
    return (
        f"{given.book.recipes[slug].name} is too late by {late}: its last possible start is "
        f"{moment_words(given.moment(start))}, and work starts on {moment_words(given.moment(given.work_from))}."
        f"{_longest(given, slug)}"
    )


def _longest(given: Given, slug: str) -> str:
    """The stage that takes longest."""
    stages = given.book.recipes[slug].stages
    lengths = [length.minutes for length in given.lengths[slug]]
    most = max(lengths, default=0)
    if not most:
        return ""
    return f" What takes longest is '{stages[lengths.index(most)].name}', {span_words(most, most)}."


def _offers(given: Given, slug: str) -> str:
    recipe = given.book.recipes[slug]
    offers = [_from_larder(given, slug)] if given.takers(slug) else []
    tables = given.kitchen.tables
    rules = (rule for meat in recipe.meats for rule in rules_for(recipe, meat, tables))
    if any(rule.days_per_lb or rule.days_per_inch for rule in rules):
        offers.append(
            "a smaller or thinner piece, whose published cure time is shorter, with a course written for it"
        )
    others = other_dishes(given, slug)
    offers.append(
        f"another dish that can still be made: {' or '.join(others)}"
        if others
        else "a later date; no other dish of the book can be made by then either"
    )
    return "; ".join(offers)


def _from_larder(given: Given, slug: str) -> str:
    """What would have to be there already, so that none of it is made."""
    making = given.made[slug]
    return f"{_amount(given, making)} of {making.recipe.recipe.name} in the larder, under 'on hand'"


def _amount(given: Given, making: Making) -> str:
    """Whole pieces with what they weigh, else in the measure of what a batch makes."""
    makes = making.recipe.recipe.makes
    if makes is None:
        return "all that is needed"
    amount = makes.quantity.times(making.needed - making.on_hand)
    count, weight = amount.total(Dimension.COUNT), amount.total(Dimension.WEIGHT)
    shower, units = given.kitchen.shower, given.book.config.units
    if count is None:
        return f"{shower.quantity(amount, units)} {makes.noun_for(amount)}".strip()
    pieces = f"{ceil(count.high)} {makes.noun_for(amount)}".strip()
    if weight is None:
        return pieces
    return f"{pieces} ({shower.base(weight, use='ingredient weight', system=units)})"


def other_dishes(given: Given, slug: str) -> tuple[str, ...]:
    """Names of up to two dishes of the book that are not invited and can be made from nothing in the time there is."""
    assert given.work_from is not None
    chapters = {given.book.recipes[dish].chapter for dish in _served_by(given, slug)}
    fitting = [
        recipe
        for recipe in given.book.recipes.values()
        if recipe.serves is not None and not recipe.draft and recipe.slug not in given.dishes
    ]
    fitting.sort(key=lambda recipe: (recipe.chapter not in chapters, recipe.slug))
    found: list[str] = []
    for recipe in fitting:
        lead = lead_minutes(given, recipe)
        if lead is not None and -lead >= given.work_from and len(found) < OTHERS:
            found.append(recipe.name)
    return tuple(found)


def _served_by(given: Given, slug: str) -> frozenset[str]:
    """The dishes that a making goes into, itself among them."""
    own = frozenset((slug,)) if slug in given.dishes else frozenset[str]()
    return own.union(*(_served_by(given, taker) for taker in given.takers(slug)))


def lead_minutes(given: Given, recipe: Recipe) -> int | None:
    """From its first start to serving [min], everything it takes made too; None where a stage has no length."""
    book, tables = given.book, given.kitchen.tables
    lengths = course_lengths(book, recipe, tables)
    if not lengths or any(length.is_unknown for length in lengths):
        return None
    thaws = any(stage.name == "thaw" for stage in recipe.stages)
    before = [0]
    for use in book.uses_of(recipe.slug):
        component = book.recipes[use.component]
        lead = lead_minutes(given, component)
        if lead is None:
            return None
        puts_in = ends_frozen(component) and not thaws
        before.append(lead + (own_thaw(book, component.slug, given.kitchen).minutes if puts_in else 0))
    return sum(length.minutes for length in lengths) + max(before)


def waits(given: Given, layout: Layout) -> dict[str, int]:
    """From the end of each component to its last use [min]."""
    return {
        slug: max(used) - layout.courses[slug].ready
        for slug in given.order
        if (used := _used_at(given, layout, slug))
    }


def _used_at(given: Given, layout: Layout, slug: str) -> tuple[int, ...]:
    """Of a component: by each taker, and on the table where it is a dish as well."""
    takers = layout.used_at(given, slug)
    return (*takers, 0) if takers and slug in given.dishes else takers


def past_keep(given: Given, layout: Layout) -> dict[str, int]:
    """How far beyond what a component keeps it waits [min], in the cold or in the freezer."""
    past = {}
    for slug, wait in waits(given, layout).items():
        recipe = given.book.recipes[slug]
        keep = _keep(recipe, FREEZER) if ends_frozen(recipe) else cold_keep(recipe)
        if keep is not None and wait > most(keep):
            past[slug] = wait - most(keep)
    return past


def cold_keep(recipe: Recipe) -> Keep | None:
    """How long it keeps unfrozen: in the fridge, else on the shelf."""
    return _keep(recipe, "fridge") or _keep(recipe, "shelf")


def most(keep: Keep) -> int:
    """The shorter end [min], rounded down: what keeps 3 to 4 days is gone after 3."""
    return floor(keep.days.low * Fraction(DAY))


def check_keeping(given: Given, layout: Layout, log: ProblemLog) -> list[str]:
    """Problems into the log; quiet lines out."""
    notes, over = [], past_keep(given, layout)
    for slug, wait in waits(given, layout).items():
        recipe = given.book.recipes[slug]
        if slug in over and ends_frozen(recipe):
            notes.append(_freezer_note(recipe, wait))
        elif slug in over:
            _tell(given, layout, recipe, wait, log)
        elif not ends_frozen(recipe) and cold_keep(recipe) is None and wait > DAY:
            notes.append(
                f"{recipe.name} waits {span_words(wait, wait)}, and its recipe does not say how long it keeps."
            )
    return notes + check_larder(given, layout, log)


def check_larder(given: Given, layout: Layout, log: ProblemLog) -> list[str]:
    """What lies in the fridge is at least as old as the work on it: past its time a problem, else a question."""
    notes = []
    for one, slug, _ in given.invited.components:
        recipe, takers = given.book.recipes[slug], given.takers(slug)
        keep = cold_keep(recipe)
        if one.place != FRIDGE or keep is None or not takers:
            continue
        # The last use: what is too old then is too old, whatever was taken before.
        used = max(layout.courses[taker].start for taker in takers)
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


def _tell(given: Given, layout: Layout, recipe: Recipe, wait: int, log: ProblemLog) -> None:
    keep = cold_keep(recipe)
    assert keep is not None
    thaws = " and thaw it again" if keep.place == "fridge" else ""
    log.add(
        "kept-too-long",
        given.invited.gathering.position,
        f"{recipe.name} would wait {span_words(wait, wait)} {keep.where}; it keeps {keep.written}.",
        f"Freeze it{thaws} (freeze: in the freezer), or make what is used last a second time, later: "
        f"not before {_latest_words(given, layout, recipe, keep)}.",
    )


def _latest_words(given: Given, layout: Layout, recipe: Recipe, keep: Keep) -> str:
    """When it may be ready at the earliest, so that it still keeps until its last use."""
    last = max(_used_at(given, layout, recipe.slug))
    return moment_words(given.moment(last - most(keep)))


def _freezer_note(recipe: Recipe, wait: int) -> str:
    keep = _keep(recipe, FREEZER)
    assert keep is not None
    return (
        f"{recipe.name} waits {span_words(wait, wait)} in the freezer, past the {keep.written} that it is good for: "
        "safe, but no longer at its best."
    )


def _keep(recipe: Recipe, place: str) -> Keep | None:
    return next((keep for keep in recipe.keep if keep.place == place), None)
