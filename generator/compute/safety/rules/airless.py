"""Pickled eggs, potatoes in foil, garlic in honey: foods that shut air out in; a refusal where they stand warm, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Met, Rule
from generator.compute.safety.facts.acid import is_called_pickle, own_lines, says
from generator.compute.safety.facts.heat import CANNERS
from generator.compute.safety.facts.keeping import kept
from generator.compute.safety.facts.places import COLD
from generator.compute.safety.facts.sour import is_kept, lines_with
from generator.model.recipe import Ingredient, Keep, Stage
from generator.tables.garden import spaced

EGGS, FOIL, HONEY = "pickled-eggs", "foil-potato", "low-acid-ferment"

OUT_MIN = Fraction(120)
"Source: NCHFP, pickled eggs: out of the fridge for no more than 2 hours."
WARM = frozenset({"pantry", "cellar", "shade", "counter", "rack"})
"Places that are not known to be cold. Source: house choice."
PRICKED = frozenset({"pricked", "pierced", "poked"})
UNWRAPPED = (
    "unwrap",
    "take the foil off",
    "foil off",
    "out of the foil",
    "remove the foil",
    "peel off the foil",
)
STANDS = frozenset({"infuse", "ferment", "rest"})
"Stages in which something stands in honey. Source: words of the trade."
HONEY_NAMES = ("garlic honey", "honey garlic", "in honey", "fermented honey", "honey ferment", "onion honey")
HEATED = frozenset({"roast", "bake", "fry", "braise", "simmer", "boil", "cook", "hot smoke"})


def pickled_eggs(case: Case) -> None:
    """Met, without a box: in the fridge from start to end. Not met: a shelf, a canner, a warm place, or pricked."""
    if not is_called_pickle(case.facts):
        return
    eggs = next((line for line in own_lines(case.recipe) if says(line, "egg", case.tables)), None)
    sour = lines_with(case.recipe, ("vinegar",))
    # An egg in a relish for the table, or beside a pickle, is no pickled egg.
    named = (
        eggs is not None and "pickled" in spaced(f"{case.recipe.name} {eggs.name} {eggs.preparation}").split()
    )
    if eggs is None or not (sour or named) or not (named or _lies_in_vinegar(case)):
        return
    if PRICKED & set(spaced(eggs.preparation).split()):
        _refuse(
            case,
            EGGS,
            eggs,
            eggs,
            f"'{eggs.written}': pricked eggs have carried botulism.",
            "Leave them whole.",
        )
    elif (warm := _warm(case)) is not None:
        hint = "Keep them in the fridge alone: pickle: 2 weeks in the fridge."
        _refuse(case, EGGS, warm, eggs, f"Pickled eggs stand out of the cold ({warm.written}).", hint)
    elif not _is_in_fridge(case):
        because = f"{eggs.name} are pickled, and nothing says that they stay in the fridge"
        case.cannot_tell(EGGS, because, ("keep.fridge",), eggs)


def _is_in_fridge(case: Case) -> bool:
    """By a key, a stage, or a sentence."""
    staged = any(stage.place == "fridge" for stage in case.stages)
    return staged or kept(case.recipe, "fridge") is not None or "fridge told" in case.facts.words.facts


def _lies_in_vinegar(case: Case) -> bool:
    index = case.facts.first_stage("pickle")
    return index is not None and is_kept(case.stages[index], case.recipe)


def _warm(case: Case) -> Stage | Keep | None:
    """Where it stands warm for longer than two hours, is sealed by heat, or is kept on a shelf."""
    for stage in case.stages:
        long = stage.minutes is None or stage.minutes.high > OUT_MIN
        if (stage.place in WARM and long) or (stage.place in CANNERS and stage.name == "jar"):
            return stage
    return kept(case.recipe, "shelf")


def _refuse(case: Case, slug: str, where: Met, line: Ingredient, message: str, hint: str) -> None:
    case.refuse(slug, where, line, message=message, hint=hint, because=f"it uses {line.name}")


def foil_potatoes(case: Case) -> None:
    """Baked in foil and eaten hot: nothing. Not met: kept or standing warm. Cannot be told: kept, the foil not off."""
    potatoes = [line for line in own_lines(case.recipe) if says(line, "potato", case.tables)]
    if not potatoes or not _is_in_foil(case, potatoes[0]):
        return
    line = potatoes[0]
    warm = _warm(case)
    text = case.recipe.body.text.lower()
    unwrapped = any(phrase in f"{text} {line.preparation.lower()}" for phrase in UNWRAPPED)
    if warm is not None and not unwrapped:
        hint = "Take the foil off, and chill them within 2 hours: chill: 1 h in the fridge."
        _refuse(
            case, FOIL, warm, line, f"Potatoes baked in foil stand out of the cold ({warm.written}).", hint
        )
    elif _is_put_by(case) and not unwrapped:
        because = f"{line.name} baked in foil and kept, and nothing says that the foil is taken off"
        case.cannot_tell(FOIL, because, ("course",), line)


def _is_in_foil(case: Case, line: Ingredient) -> bool:
    recipe = case.recipe
    said = (recipe.name, *recipe.tags, line.name, line.preparation, *(stage.until for stage in recipe.stages))
    has_line = bool(lines_with(recipe, ("foil",)))
    baked = any(stage.name in ("bake", "roast", "cook") or stage.place == "grill" for stage in recipe.stages)
    return any("foil" in spaced(words).split() for words in said) or (has_line and baked)


def _is_put_by(case: Case) -> bool:
    """Kept, or cooled: it is not eaten hot."""
    return bool(case.recipe.keep) or any(stage.name in ("chill", "cool", "pack") for stage in case.stages)


def honey_garlic(case: Case) -> None:
    """Garlic, onion or ramps that stand raw in honey: no tested rule, so a box wherever it is kept."""
    honey = next(iter(lines_with(case.recipe, ("honey",))), None)
    if honey is None or case.facts.meats or lines_with(case.recipe, ("vinegar", "oil", "soy")):
        return
    lines = (line for line in own_lines(case.recipe) if says(line, "in honey", case.tables))
    fresh = next((line for line in lines if not _is_dried(line)), None)
    if fresh is None:
        return
    stands = [stage for stage in case.stages if stage.name in STANDS and stage.place not in COLD]
    named = any(phrase in case.recipe.name.lower() for phrase in HONEY_NAMES)
    heated = any(stage.name in HEATED for stage in case.stages)
    long = any(stage.minutes is None or stage.minutes.high > OUT_MIN for stage in stands)
    if heated or not (named or long):
        return
    because = f"{fresh.name} stands in {honey.name}, and no rule for that was tested"
    missing = () if case.recipe.keep else ("keep",)
    case.cannot_tell(HONEY, because, missing, fresh, honey)


def _is_dried(line: Ingredient) -> bool:
    words = set(spaced(f"{line.name} {line.preparation}").split())
    return bool(words & {"dried", "powder", "granulated", "powdered"})


RULES = (
    Rule(slugs=(EGGS,), look=pickled_eggs),
    Rule(slugs=(FOIL,), look=foil_potatoes),
    Rule(slugs=(HONEY,), look=honey_garlic),
)
