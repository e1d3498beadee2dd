"""A laid plan in; where more is planned for one place at one time than the kitchen has, as problems, out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from math import ceil

from generator.compute.gathering.layout import Given, LaidStage, Layout
from generator.model.moment import Window, window_words
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Stage
from generator.model.results import ComputedLine
from generator.problems import ProblemLog
from generator.tables import Tables

SMOKES = frozenset({"hot smoke", "cold smoke"})
IN_OVEN = frozenset({"roast", "bake"})
IN_POT = frozenset({"boil", "simmer", "blanch"})
ON_STOVE = frozenset({"fry", "brown", "boil", "simmer", "braise", "cook", "blanch", "reheat", "render"})
"Where a stage happens that tells no place. Source: words of the trade."
VESSELS = frozenset({"pot", "pan", "water bath", "pressure canner"})
"What stands on a burner. Source: words of the trade."


def in_smoker(stage: Stage) -> bool:
    """Takes a part of the smoker."""
    return stage.place == "smoker" or (stage.name in SMOKES and stage.place in ("", "rack"))


def in_oven(stage: Stage) -> bool:
    """Takes an oven."""
    return stage.place == "oven" or (stage.name in IN_OVEN and not stage.place)


def on_burner(stage: Stage) -> bool:
    """Takes a burner."""
    return stage.name in ON_STOVE and (stage.place in VESSELS or not stage.place)


def in_pot(stage: Stage) -> bool:
    """Takes a pot."""
    return stage.place == "pot" or (stage.name in IN_POT and not stage.place)


def takings(layout: Layout, takes: Callable[[Stage], bool]) -> tuple[LaidStage, ...]:
    """Every stage that takes one kind of place for a time, in the order of the clock."""
    stages = (one for course in layout.courses.values() for one in course.stages)
    found = (one for one in stages if one.end > one.start and takes(one.stage))
    return tuple(sorted(found, key=lambda one: (one.start, one.slug, one.index)))


def together(found: tuple[LaidStage, ...]) -> Iterator[tuple[LaidStage, ...]]:
    """At each start, all that take the place then; what is a part of another such set is left out."""
    sets = [tuple(one for one in found if one.start <= at.start < one.end) for at in found]
    for number, group in enumerate(sets):
        others = (*sets[:number], *sets[number + 1 :])
        if not any(set(group) < set(other) for other in others) and group not in sets[:number]:
            yield group


def check_capacity(given: Given, layout: Layout, log: ProblemLog) -> list[str]:
    """Ovens, burners, pots, smoker: problems into the log, quiet lines out."""
    capacity = given.book.config.capacity
    pots = len(capacity.pots_ml) or None
    for takes, there, noun in (
        (in_oven, capacity.ovens, "oven"),
        (on_burner, capacity.burners, "burner"),
        (in_pot, pots, "pot"),
    ):
        if there is not None:
            _check_number(given, layout, log, takes, there, noun)
    return _check_smoker(given, layout, log)


def _check_number(
    given: Given, layout: Layout, log: ProblemLog, takes: Callable[[Stage], bool], there: int, noun: str
) -> None:
    """One problem for the same recipes, however many of their stages meet."""
    crowds: dict[tuple[str, ...], list[tuple[LaidStage, ...]]] = {}
    for group in together(takings(layout, takes)):
        if len(group) > there:
            crowds.setdefault(tuple(sorted(one.slug for one in group)), []).append(group)
    for slugs, groups in crowds.items():
        log.add(
            "kit-conflict",
            given.invited.gathering.position,
            f"{_names(given, groups)} overlap, {_when(given, groups)}: that takes {len(slugs)} {noun}s, and there "
            f"{'is' if there == 1 else 'are'} {there}.",
            "Make one of them earlier and keep it hot, or in another place, or borrow what is lacking.",
        )


def _check_smoker(given: Given, layout: Layout, log: ProblemLog) -> list[str]:
    notes: list[str] = []
    if given.book.config.capacity.smoker_g is None:
        return notes
    for group in together(takings(layout, in_smoker)):
        weights = [given.made[one.slug].green_weight_g for one in group]
        unknown = [
            f"{given.book.recipes[one.slug].name} ({one.stage.title})"
            for one, weight in zip(group, weights, strict=True)
            if weight is None
        ]
        if unknown:
            notes.append(
                f"What {' and '.join(unknown)} weighs is not told: whether the smoker takes it is not known."
            )
        _check_smoke(given, group, log)
    return notes


def _check_smoke(given: Given, group: tuple[LaidStage, ...], log: ProblemLog) -> None:
    """Too heavy for the smoker, or at temperatures that no one smoker has."""
    smoker = given.book.config.capacity.smoker_g
    load = sum((given.made[one.slug].green_weight_g or Fraction(0) for one in group), Fraction(0))
    position, names, when = given.invited.gathering.position, _names(given, (group,)), _when(given, (group,))
    assert smoker is not None
    if load > smoker:
        takes = "takes" if len(group) == 1 else "overlap in the smoker and take"
        log.add(
            "kit-conflict",
            position,
            f"{names} {takes} {_shown(given, load)} green weight, {when}; the smoker holds {_shown(given, smoker)}.",
            "Smoke it in rounds, on two days, or in two smokers.",
        )
    elif not all(same_heat(group[0].stage, other.stage) for other in group[1:]):
        log.add(
            "kit-conflict",
            position,
            f"{names} overlap in the smoker, {when}, {_why_apart(group)}.",
            "Start one of them earlier, or smoke it elsewhere; where both recipes allow it, write one temperature.",
        )


def _why_apart(group: tuple[LaidStage, ...]) -> str:
    is_told = all(one.stage.at is not None for one in group)
    return "at different temperatures" if is_told else "and not all of them tell their temperature"


def same_heat(one: Stage, other: Stage) -> bool:
    """The same smoke at the same written temperature range."""
    if one.name != other.name or one.at is None or other.at is None:
        return False
    return (one.at.low.celsius, one.at.high.celsius) == (other.at.low.celsius, other.at.high.celsius)


def fits_smoker(given: Given, slugs: tuple[str, ...]) -> bool:
    """What the makings weigh green is told, and together no more than the smoker holds."""
    smoker = given.book.config.capacity.smoker_g
    weights = [given.made[slug].green_weight_g for slug in slugs]
    known = [weight for weight in weights if weight is not None]
    return smoker is not None and len(known) == len(weights) and sum(known) <= smoker


def _names(given: Given, groups: Iterable[tuple[LaidStage, ...]]) -> str:
    """Each recipe once, with its stages."""
    stages: dict[str, list[str]] = {}
    for group in groups:
        for one in group:
            said = stages.setdefault(one.slug, [])
            said += [one.stage.name] if one.stage.name not in said else []
    return " and ".join(f"{given.book.recipes[slug].name} ({', '.join(of)})" for slug, of in stages.items())


def _when(given: Given, groups: Iterable[tuple[LaidStage, ...]]) -> str:
    """From the first time that they meet to the last."""
    start = min(max(one.start for one in group) for group in groups)
    end = max(min(one.end for one in group) for group in groups)
    return window_words(Window(earliest=given.moment(start), latest=given.moment(end)))


def round_notes(given: Given) -> dict[tuple[str, int], str]:
    """By slug and index of the first stage in a pot."""
    pots = given.book.config.capacity.pots_ml
    if not pots:
        return {}
    notes = {}
    for slug in given.order:
        stages = given.book.recipes[slug].stages
        first = next((index for index, stage in enumerate(stages) if in_pot(stage)), None)
        said = [*_greens(given, slug, max(pots)), *_liquid(given, slug, max(pots))]
        if first is not None and said:
            notes[slug, first] = "; ".join(said)
    return notes


def _greens(given: Given, slug: str, pot_ml: Fraction) -> list[str]:
    """Raw leaves by weight, as a mound."""
    tables, said = given.kitchen.tables, []
    for line in given.made[slug].recipe.lines:
        leaf = tables.garden.says(line.ingredient.name, "greens")
        if not leaf or line.grams is None or line.ingredient.link is not None:
            continue
        bulk = _grams_per_ml(line, leaf, tables)
        shown = _shown(given, line.grams.high)
        if bulk is None:
            said.append(f"{shown} of {leaf}: how much room they take is not known; add them as they wilt")
        elif line.grams.high > bulk * pot_ml:
            rounds = ceil(line.grams.high / bulk / pot_ml)
            said.append(
                f"{shown} of {leaf} are wilted in {rounds} rounds: raw they fill about "
                f"{_shown(given, line.grams.high / bulk, 'ingredient volume')}, and the largest pot holds "
                f"{_shown(given, pot_ml, 'ingredient volume')}"
            )
    return said


def _grams_per_ml(line: ComputedLine, leaf: str, tables: Tables) -> Fraction | None:
    """A published weight per measure of the raw leaves, chopped where there is one."""
    name = line.ingredient.name
    for called in (f"chopped {leaf}", f"raw {leaf}", f"chopped {name}", f"raw {name}"):
        for row in tables.food(called):
            if tables.units[row.unit].dimension is Dimension.VOLUME:
                return row.grams / tables.units[row.unit].factor
    return None


def _liquid(given: Given, slug: str, pot_ml: Fraction) -> list[str]:
    """What a recipe makes by volume."""
    makes = given.made[slug].recipe.makes
    made = makes.total(Dimension.VOLUME) if makes is not None else None
    if made is None or made.high <= pot_ml:
        return []
    return [
        f"{_shown(given, made.high, 'ingredient volume')} in {ceil(made.high / pot_ml)} rounds or pots: the largest "
        f"holds {_shown(given, pot_ml, 'ingredient volume')}"
    ]


def _shown(given: Given, amount: Fraction, use: str = "ingredient weight") -> str:
    return given.kitchen.shower.base(Span.of(amount), use=use, system=given.book.config.units)
