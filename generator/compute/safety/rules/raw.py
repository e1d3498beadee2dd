"""Fish, shellfish, meat and eggs of the lines in; of a dish that nothing heats, how each may be eaten raw, out.

A stage heats it, or a sentence of the method does. Wild game has a rule of its own, which asks for its heat.
"""

from __future__ import annotations

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.gather import MeatFact
from generator.compute.safety.facts.heat import is_hot
from generator.compute.safety.told import is_frozen_long, says_heat
from generator.model.recipe import Ingredient
from generator.tables.garden import spaced
from generator.tables.phrases import spoken

FISH, SHELLFISH, MEAT, EGG = "raw-fish", "raw-shellfish", "raw-meat", "raw-egg"

BY_GROUP = {"fish": FISH, "shellfish": SHELLFISH, "domestic": MEAT, "poultry": MEAT}
"The rule for what a line brings; game has its own."
SPOKEN = frozenset(
    {"fish-145", "poultry-165", "ground-160", "not-intact-160", "stuffed-165", "whole-cut-145", "raw-pork"}
)
"Rules that have said of the same meat that its heat is not told."
COOKED = frozenset(
    {
        "cooked",
        "smoked",
        "canned",
        "tinned",
        "boiled",
        "roast",
        "roasted",
        "leftover",
        "jarred",
        "baked",
        "fried",
    }
    | {
        "hard",
        "pasteurised",
        "pasteurized",
        "bought",
        "powder",
        "powdered",
        "dried",
        "grilled",
        "steamed",
        "deli",
    }
    | {"poached", "pickled", "paste", "sauce", "hot", "ham", "bacon", "salami", "cured", "braised", "corned"}
)
"Words of a line that was made ready before. Source: words of the trade."
NO_SHELLFISH = frozenset(
    {"mushroom", "mushrooms", "juice", "crackers", "apple", "apples", "boil", "seasoning", "stock"}
)
"Oyster mushrooms, clam juice, crab apples. Source: words of the trade."
EGGS = frozenset({"egg", "eggs", "yolk", "yolks"})
WHITES = frozenset({"white", "whites"})
"Of an egg, where the line says so."


def raw(case: Case) -> None:
    """Met: heated, or fish frozen as the food code asks. Cannot be told: nothing says that it is heated."""
    recipe = case.recipe
    if (
        recipe.eat_after_cooking
        or any(is_hot(stage, recipe, case.tables) for stage in case.stages)
        or says_heat(case)
    ):
        return
    for meat in case.facts.meats:
        slug = BY_GROUP.get(meat.animal.group, "")
        if slug and meat.line is not None and not _is_ready(meat.line) and not _is_said(case, meat, slug):
            case.cannot_tell(slug, f"{meat.because}, and nothing says that it is heated", ("course",), meat)
    _shellfish(case)
    for line in recipe.ingredients:
        if line.link is None and spaced(line.name).split()[-1:] and _is_egg(line) and not _is_ready(line):
            case.cannot_tell(
                EGG, f"{line.name} is an ingredient, and nothing says that it is heated", ("course",), line
            )


def _shellfish(case: Case) -> None:
    """By a word of the trade, where the table of animals has no name for it."""
    phrase = case.tables.acts().notation.phrase("[shellfish word]")
    known = [meat.line for meat in case.facts.meats]
    for line in case.recipe.ingredients:
        is_other = line.link is not None or line in known or _is_ready(line)
        names = spaced(f"{line.name} {line.preparation}").split()
        if not is_other and NO_SHELLFISH.isdisjoint(names) and phrase.stands_in(spoken(line.name)):
            because = f"{line.name} is an ingredient, and nothing says that it is heated"
            case.cannot_tell(SHELLFISH, because, ("course",), line)


def _is_egg(line: Ingredient) -> bool:
    words = spaced(line.name).split()
    return words[-1] in EGGS or (words[-1] in WHITES and "egg" in words)


def _is_ready(line: Ingredient) -> bool:
    return not COOKED.isdisjoint(spaced(f"{line.name} {line.preparation}").split())


def _is_said(case: Case, meat: MeatFact, slug: str) -> bool:
    """Frozen long enough, or told by the rule of its own heat."""
    if slug == FISH and is_frozen_long(case):
        return True
    return (meat.is_wild and slug == MEAT) or any(box.slug in SPOKEN for box in case.boxes)


RULES = (Rule(slugs=(FISH, SHELLFISH, MEAT, EGG), look=raw),)
