"""A gathering as written in, its dishes and what is on hand of them by their recipes out."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from generator.model.gathering import Dish, Gathering, Invited, OnHand
from generator.model.recipe import Link, Recipe
from generator.problems import Position, ProblemLog
from generator.resolve.uses import batches_of, linked_recipe


def invite_all(
    gatherings: Iterable[Gathering], by_file: dict[str, Recipe], unread: frozenset[str], log: ProblemLog
) -> tuple[Invited, ...]:
    """Every gathering whose links lead where they should, by date as the local clock tells it, then slug."""
    found = [_invite(gathering, by_file, unread, log) for gathering in gatherings]
    whole = [invited for invited in found if invited is not None]
    return tuple(sorted(whole, key=_by_date))


def _by_date(invited: Invited) -> tuple[str, str]:
    return invited.gathering.serve_at.replace(tzinfo=None).isoformat(), invited.gathering.slug


def _invite(
    gathering: Gathering, by_file: dict[str, Recipe], unread: frozenset[str], log: ProblemLog
) -> Invited | None:
    """None where something of it is wrong, or a recipe that it names could not be read."""
    links = _Links(gathering, by_file, unread, log)
    dishes = [(dish, links.dish(dish)) for dish in gathering.dishes]
    told_once = _check_twice(dishes, log)
    there = [(one, links.component(one)) for one in gathering.on_hand if one.line.link is not None]
    if not told_once or any(found is None for _, found in (*dishes, *there)):
        return None
    return Invited(
        gathering=gathering,
        dishes=tuple((dish, slug) for dish, slug in dishes if slug is not None),
        components=tuple((one, *found) for one, found in there if found is not None),
        ingredients=tuple(one for one in gathering.on_hand if one.line.link is None),
    )


class _Links:
    """Follows the links of one gathering; what is wrong goes to the log and comes out as None."""

    def __init__(
        self, gathering: Gathering, by_file: dict[str, Recipe], unread: frozenset[str], log: ProblemLog
    ) -> None:
        self._gathering = gathering
        self._by_file = by_file
        self._unread = unread
        self._log = log

    def dish(self, dish: Dish) -> str | None:
        """The slug of a dish that can be made for so many."""
        recipe = self._recipe(Link(text=dish.name, target=dish.link, position=dish.position))
        if recipe is None or recipe.serves is not None:
            return recipe.slug if recipe else None
        self._log.add(
            "not-scalable",
            dish.position,
            f"{recipe.name} does not say how many it serves.",
            f"Add `serves:` to {recipe.file}, or put a dish that is made with it on the list.",
        )
        return None

    def component(self, one: OnHand) -> tuple[str, Fraction] | None:
        """The slug of what is there, and the batches of it that this is."""
        assert one.line.link is not None
        recipe = self._recipe(one.line.link)
        batches = batches_of(one.line, recipe, self._log, at_least=True) if recipe else None
        return None if recipe is None or batches is None else (recipe.slug, batches)

    def _recipe(self, link: Link) -> Recipe | None:
        recipe = linked_recipe(link, self._gathering.file, self._by_file, self._unread, self._log)
        if recipe is not None and recipe.draft and not self._gathering.draft:
            self._refuse_draft(recipe, link.position)
            return None
        return recipe

    def _refuse_draft(self, recipe: Recipe, at: Position) -> None:
        message = f"'{recipe.slug}' is a draft and has no page."
        hint = "Take `draft: true` out of it, or make this gathering a draft too."
        self._log.add("unknown-link", at, message, hint)


def _check_twice(dishes: Iterable[tuple[Dish, str | None]], log: ProblemLog) -> bool:
    """True where no dish stands twice."""
    lines: dict[str, int] = {}
    before = len(log)
    for dish, slug in dishes:
        if slug is None:
            continue
        if slug in lines:
            message = f"'{dish.name}' is the dish of line {lines[slug]} already."
            log.add("same-dish", dish.position, message, "Keep one line, and say there how much of it.")
        lines.setdefault(slug, dish.position.line)
    return len(log) == before
