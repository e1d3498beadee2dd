"""Ingredient lines with a link in, uses out: how many batches of a component one batch of a dish takes."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from generator.model.book import Use
from generator.model.recipe import Hole, Ingredient, Recipe
from generator.problems import ProblemLog
from generator.resolve.links import Linked


def find_uses(recipe: Recipe, linked: Linked) -> list[Use]:
    """Every use of another recipe by one recipe; wrong links and wrong dimensions are problems."""
    uses = []
    for line in recipe.uses:
        assert line.link is not None
        component = linked.recipe(line.link, recipe.file)
        batches = batches_of(line, component, linked.log) if component else None
        if component is not None and batches is not None:
            uses.append(Use(dish=recipe.slug, component=component.slug, line=line, batches=batches))
    return uses


def uncounted(recipe: Recipe, uses: Iterable[Use]) -> tuple[Hole, ...]:
    """A hole for each line of a dish whose recipe is not read, or not so far that one knows how much is taken."""
    counted = {use.line.id for use in uses if use.dish == recipe.slug}
    return tuple(
        Hole(
            key="ingredients",
            words=line.written,
            message="The recipe that it is made by is not read, or not how much of it is taken.",
            hint="Mend the errors of that recipe, or of this line.",
            position=line.position,
        )
        for line in recipe.uses
        if line.id not in counted
    )


def batches_of(
    line: Ingredient, component: Recipe, log: ProblemLog, *, at_least: bool = False
) -> Fraction | None:
    """Used over made; of a range the used high end and the made low end, so that there is enough.

    Of what is there already only the low end is sure, `at_least`.
    """
    if line.quantity is None or line.quantity.is_vague:
        log.add(
            "wrong-dimension",
            line.position,
            f"'{line.name}' has no amount, so nobody knows how much of it to make.",
            "Write a count, a weight or a volume before the link.",
        )
        return None
    for used, whole in component.makes.compared_with(line.quantity) if component.makes else ():
        if whole.low > 0:
            return (used.low if at_least else used.high) / whole.low
    if not component.is_open("makes"):  # else its own file has the error
        log.add("wrong-dimension", line.position, *_mismatch(line, component))
    return None


def _mismatch(line: Ingredient, component: Recipe) -> tuple[str, str]:
    if component.makes is None:
        return (
            f"{component.name} does not say what a batch makes.",
            f"Add `makes:` to {component.file}, best a count with its weight in brackets.",
        )
    written = component.makes.quantity.written
    asked = (line.quantity.written if line.quantity else "") or line.written
    return (
        f"'{asked}' cannot be compared with what {component.name} makes ({written}).",
        f"Use it by what it makes, or add the other measure in brackets to `makes:` in {component.file}.",
    )
