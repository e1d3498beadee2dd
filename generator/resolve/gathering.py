"""A gathering as written in, its dishes and what is on hand of them by their recipes out."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from generator.model.gathering import Dish, Gathering, Invited
from generator.model.recipe import Ingredient, Link, Recipe
from generator.problems import ProblemLog
from generator.resolve.links import Linked
from generator.resolve.uses import batches_of


def invite_all(gatherings: Iterable[Gathering], linked: Linked) -> tuple[Invited, ...]:
    """Every gathering whose links lead where they should, by date as the local clock tells it, then slug."""
    found = [_invite(gathering, linked) for gathering in gatherings]
    whole = [invited for invited in found if invited is not None]
    return tuple(sorted(whole, key=_by_date))


def _by_date(invited: Invited) -> tuple[str, str]:
    return invited.gathering.serve_at.replace(tzinfo=None).isoformat(), invited.gathering.slug


def _invite(gathering: Gathering, linked: Linked) -> Invited | None:
    """None where something of it is wrong, or a recipe that it names could not be read."""
    dishes = [(dish, _dish(dish, gathering, linked)) for dish in gathering.dishes]
    told_once = _check_twice(dishes, linked.log)
    parts = [(one, one.line.link) for one in gathering.on_hand]
    there = [(one, _component(one.line, link, gathering, linked)) for one, link in parts if link is not None]
    # Only now, when all of it was looked at: every problem is told at once.
    if not told_once or any(found is None for _, found in (*dishes, *there)):
        return None
    return Invited(
        gathering=gathering,
        dishes=tuple((dish, slug) for dish, slug in dishes if slug is not None),
        components=tuple((one, *found) for one, found in there if found is not None),
        ingredients=tuple(one for one, link in parts if link is None),
    )


def _dish(dish: Dish, gathering: Gathering, linked: Linked) -> str | None:
    """The slug of a dish that can be made for so many; None, with a problem, of any other."""
    recipe = _recipe(dish.link, gathering, linked)
    if recipe is None or recipe.serves is not None:
        return recipe.slug if recipe else None
    message = f"{recipe.name} does not say how many it serves."
    hint = f"Add `serves:` to {recipe.file}, or put a dish that is made with it on the list."
    linked.log.add("not-scalable", dish.link.position, message, hint)
    return None


def _component(
    line: Ingredient, link: Link, gathering: Gathering, linked: Linked
) -> tuple[str, Fraction] | None:
    """The slug of what is there, and the batches of it that this is."""
    recipe = _recipe(link, gathering, linked)
    batches = batches_of(line, recipe, linked.log, at_least=True) if recipe else None
    return None if recipe is None or batches is None else (recipe.slug, batches)


def _recipe(link: Link, gathering: Gathering, linked: Linked) -> Recipe | None:
    recipe = linked.recipe(link, gathering.file)
    if recipe is not None and recipe.draft and not gathering.draft:
        linked.refuse_draft(recipe.slug, "gathering", link.position)
        return None
    return recipe


def _check_twice(dishes: Iterable[tuple[Dish, str | None]], log: ProblemLog) -> bool:
    """True where no dish stands twice."""
    lines: dict[str, int] = {}
    before = len(log)
    for dish, slug in dishes:
        if slug is None:
            continue
        if slug in lines:
            message = f"'{dish.link.text}' is the dish of line {lines[slug]} already."
            log.add("same-dish", dish.link.position, message, "Keep one line, and say there how much of it.")
        lines.setdefault(slug, dish.link.position.line)
    return len(log) == before
