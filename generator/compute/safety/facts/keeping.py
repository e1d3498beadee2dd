"""Facts in; which row of the keeping table speaks of what the recipe makes, out. None: no row does."""

from __future__ import annotations

import re
from collections.abc import Iterable

from generator.compute.safety.facts.gather import FISH, Facts, MeatFact
from generator.compute.safety.facts.heat import CANNERS, MOVES, WET_STAGES, Heat, is_hot_jar, reached
from generator.compute.safety.facts.meats import BIRDS, is_ground, is_smoked
from generator.compute.safety.facts.pieces import has_meat
from generator.model.recipe import Keep, Meat, Recipe, Stage
from generator.tables import Tables
from generator.tables.heat import Keeping

FATTY = frozenset(
    {"trout", "salmon", "char", "mackerel", "herring", "eel", "shad", "sablefish", "tuna", "whitefish"}
)
"Fish of the fatty line. Source: chart (salmon, mackerel, trout); the others common knowledge of the trade, no source."
OFFAL = re.compile(r"\b(?:liver|livers|heart|hearts|kidneys?|tongue|sweetbreads?|gizzards?|offal|tripe)\b")
STEW = re.compile(r"\bstew(?:ing)?\b")
STOCK = re.compile(r"\b(?:stock|broth)\b")
SAUSAGE = re.compile(r"\bsausages?\b")
DRIED = re.compile(r"\b(?:dried|jerked|dehydrated)\b(?! (?:with|off|on|in|by)\b)")
COOLING = ("cool", "chill", "freeze")
"Source: words of the trade."
AT_EATING = frozenset({"fry", "brown", "cook"})
"What ends a recipe to be eaten after cooking is the cooking of what was kept raw. Source: words of the trade."
HARD_MIN = 7 * 24 * 60
"A sausage that dries for so long is a hard one. Source: house choice, a week."


def keeping_of(facts: Facts, tables: Tables) -> Keeping | None:
    """The row; None for a dish without meat, for jars, for jerky, and where too little is told."""
    recipe = facts.recipe
    if not has_meat(facts) or is_canned(recipe) or is_called_jerky(facts, tables):
        return None
    kind = (
        _cured(facts, tables)
        if recipe.cure is not None and recipe.meat is not None
        else _plain(facts, tables)
    )
    return tables.keeping[kind] if kind else None


def is_canned(recipe: Recipe) -> bool:
    """Sealed jars have rules of their own; a jar in the fridge keeps no longer than any other vessel there."""
    return any(_cans(stage, recipe) for stage in recipe.stages)


def _cans(stage: Stage, recipe: Recipe) -> bool:
    return is_hot_jar(stage, recipe) or (stage.place in CANNERS and stage.name in MOVES)


def is_called_jerky(facts: Facts, tables: Tables) -> bool:
    """By its name or tags."""
    return any(tables.garden.says(words, "jerky") for words in (facts.recipe.name, *facts.recipe.tags))


def is_bought_dried(meat: MeatFact, tables: Tables) -> bool:
    """A line of meat that was dried before this recipe begins: beef jerky, dried bison."""
    if meat.line is None or meat.animal.group in FISH:
        return False
    named = bool(tables.garden.says(meat.words, "jerky"))
    return named or DRIED.search(meat.line.name.lower()) is not None


def is_vacuum(recipe: Recipe) -> bool:
    """Packed without air."""
    return any(stage.name == "pack" and stage.place == "vacuum" for stage in recipe.stages)


def is_fish(facts: Facts, tables: Tables) -> bool:
    """What the recipe is of: its own meat, else that of all its lines and components."""
    groups = [meat.animal.group for meat in facts.meats if meat.line is None] or [
        *(meat.animal.group for meat in facts.meats),
        *(
            animal.group
            for _, part in facts.used
            for meat in part.meats
            if (animal := tables.animal(meat.animal))
        ),
    ]
    return bool(groups) and all(group in FISH for group in groups)


def kept(recipe: Recipe, place: str) -> Keep | None:
    """What `keep:` says of one place."""
    return next((keep for keep in recipe.keep if keep.place == place), None)


def cooked_by(recipe: Recipe, tables: Tables) -> Stage | None:
    """The stage that has cooked what is kept, whatever `eat:` says; a fry at the end may be that of eating it."""
    found = reached(recipe, tables.constant("wild_game_minimum_f"), tables)
    if found.heat is not Heat.MET or found.stage is None or not recipe.eat_after_cooking:
        return None
    stage, later = recipe.stages[found.stage], recipe.stages[found.stage + 1 :]
    is_kept = stage.name == "hot smoke" or any(one.name in (*COOLING, "pack") for one in later)
    return stage if is_kept else None


def _is_kept_raw(facts: Facts, tables: Tables) -> bool:
    recipe = facts.recipe
    return not facts.heating or (recipe.eat_after_cooking and cooked_by(recipe, tables) is None)


def cooled_from(facts: Facts, tables: Tables) -> int | None:
    """Index of the last stage of heat of a dish with meat that is kept or cooled; None where nothing is cooled."""
    recipe = facts.recipe
    hot = [index for index, stage in enumerate(recipe.stages) if tables.stages.get(stage.name, False)]
    if not hot or not has_meat(facts) or any(_cans(stage, recipe) for stage in recipe.stages[hot[-1] :]):
        return None  # a sealed jar cools by itself, and must
    later = any(stage.name in COOLING for stage in recipe.stages[hot[-1] + 1 :])
    if not later and recipe.eat_after_cooking and recipe.stages[hot[-1]].name in AT_EATING:
        return None
    return hot[-1] if later or kept(recipe, "fridge") or kept(recipe, "freezer") else None


def _cured(facts: Facts, tables: Tables) -> str:
    recipe = facts.recipe
    if is_fish(facts, tables):
        return (
            "smoked fish"
            if is_smoked(facts.recipe)
            else ("cooked fish" if facts.heating else _shortest(map(_raw_fish, facts.meats), tables))
        )
    if SAUSAGE.search(" ".join((recipe.name, *(meat.cut for meat in recipe.meats))).lower()):
        return _sausage(facts, tables)
    if _is_kept_raw(facts, tables):
        return "raw cured meat"
    kinds = [_cooked_cured(meat, facts, tables) for meat in recipe.meats]
    return kinds[0] if len(set(kinds)) == 1 else _shortest(kinds, tables)


def _cooked_cured(meat: Meat, facts: Facts, tables: Tables) -> str:
    product = tables.product(meat.cut)
    if product == "belly" and facts.nitrite and is_smoked(facts.recipe):
        return "bacon"
    return "whole ham" if product == "ham" and meat.form == "whole" else "cooked cured meat"


def _shortest(kinds: Iterable[str], tables: Tables) -> str:
    """Of several meats the line that keeps least long in the fridge, then in the freezer."""
    return min(
        kinds, key=lambda kind: (tables.keeping[kind].fridge_days, tables.keeping[kind].freezer_months)
    )


def _sausage(facts: Facts, tables: Tables) -> str:
    """Cured sausage: dried for days, smoked and cooked, only cooked, or raw."""
    dried = [stage.minutes for stage in facts.recipe.stages if stage.name in ("dry", "age")]
    if any(minutes is not None and minutes.low >= HARD_MIN for minutes in dried):
        return "hard sausage"
    if _is_kept_raw(facts, tables):
        return "raw sausage"
    return "smoked sausage" if is_smoked(facts.recipe) else "cooked cured meat"


def _plain(facts: Facts, tables: Tables) -> str:
    recipe, fish = facts.recipe, is_fish(facts, tables)
    if facts.heating and not recipe.eat_after_cooking:
        if fish:
            return "smoked fish" if is_smoked(facts.recipe) else "cooked fish"
        if STOCK.search(recipe.name.lower()):
            return "stock"
        wet = any(stage.name in WET_STAGES for stage in recipe.stages)
        return "soup or stew" if wet else "cooked meat"
    if recipe.eat_after_cooking or not recipe.stages:
        return "raw cured meat" if facts.raw_components else _raw(facts, tables)
    if facts.raw_components:
        return "raw cured meat"
    return _raw(facts, tables) if facts.meats else ("cooked fish" if fish else "cooked meat")


def _raw(facts: Facts, tables: Tables) -> str:
    """The strictest raw line of the recipe's own meat; empty where it is not of the recipe itself."""
    return raw_kind(facts, tables) if facts.recipe.serves is None else ""


def _raw_kind(meat: MeatFact, recipe: Recipe) -> str:
    words, group = meat.words.lower(), meat.animal.group
    if group in FISH:
        return _raw_fish(meat)
    if SAUSAGE.search(words) or SAUSAGE.search(recipe.name.lower()):
        return "raw sausage"
    if is_ground(meat, recipe):
        return "ground meat"
    if OFFAL.search(words):
        return "offal"
    if group in BIRDS:
        return "game birds" if meat.is_wild else "poultry"
    if STEW.search(words):
        return "stew meat"
    return {"small game": "small game", "deer family": "venison cuts", "wild pig": "wild pig cuts"}.get(
        group, "cuts"
    )


def raw_kind(facts: Facts, tables: Tables) -> str:
    """The line of the recipe's own meat before anything is done to it, of several the strictest; empty without."""
    own = [meat for meat in facts.meats if meat.line is None]
    return _shortest((_raw_kind(meat, facts.recipe) for meat in own), tables) if own else ""


def _raw_fish(meat: MeatFact) -> str:
    return "fatty fish" if meat.animal.key in FATTY else "lean fish"
