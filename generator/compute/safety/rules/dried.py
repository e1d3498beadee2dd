"""Meat that is dried thin, or ripens raw, in; the heat and the dryer that it needs, or a refusal, out."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.acts import degrees_in
from generator.compute.safety.facts.gather import FISH, MeatFact
from generator.compute.safety.facts.heat import WET_STAGES, Heat, is_hot, reached
from generator.compute.safety.facts.keeping import is_bought_dried, is_called_jerky
from generator.compute.safety.facts.meats import BIRDS
from generator.compute.safety.facts.places import COLD
from generator.compute.safety.facts.times import DAY_MIN
from generator.compute.safety.told import tells_inside
from generator.compute.safety.words import both_scales, sentence_start
from generator.english.degrees import scale_of
from generator.model.recipe import Stage
from generator.tables.garden import spaced

JERKY, RAW_GAME, RAW_SAUSAGE = "jerky", "uncooked-ferment", "fermented-sausage"
HANGING = "uncured-hanging"

WEEKS = Fraction(14)
"[days] Source: house choice; from two weeks on a piece hangs."
WITH_SALT_ALONE = frozenset({"ham", "shoulder", "picnic"})
"Source: 9 CFR 318.10 and Farmers' Bulletin 2265, dry cures with salt, sugar and no need of nitrite."

WARM_DRYER_F = Fraction(80)
"A drying hotter than this [degF] is a dryer's and not a rest in the cold. Source: house choice."
DRYER_LEAST_F = Fraction(130)
"Source: USDA FSIS, Jerky and Food Safety: the dryer holds 130 to 140 °F all the time."
MEAT_F = Fraction(160)
BIRD_F = Fraction(165)
"Source: USDA FSIS, Jerky and Food Safety: meat to 160 °F, poultry to 165 °F."
THIN = frozenset(
    {"strips", "strip", "slices", "sliced", "ribbons", "thin", "ground", "jerky", "biltong", "sticks"}
)
"Words of meat that is cut to dry. Source: words of the trade."
DRYERS = frozenset({"oven", "smoker"})
"Places whose drying is warm, though no temperature is told. Source: house choice."
SLOW = ("ferment", "age")
"Stages in which raw meat ripens. Source: words of the trade."
DRY_DAYS = Fraction(3)
"A cured piece that dries for this long or longer is a dry-cured one. Source: house choice."


def jerky(case: Case) -> None:
    """Met: heated to 160 or 165 °F before or after a dryer of at least 130 °F. Else refused, or not to be told."""
    bought = [meat for meat in case.facts.meats if is_bought_dried(meat, case.tables)]
    meats = [meat for meat in case.facts.meats if meat not in bought]
    if not meats and bought:
        _ask_bought(case, bought)
    if not meats or not _is_jerky(case):
        return
    for index, stage in enumerate(case.stages):
        if _is_warm(stage) and stage.at is not None and stage.at.low.fahrenheit < DRYER_LEAST_F:
            _refuse_dryer(case, index, stage.at.low.fahrenheit, meats)
            return
    _judge_heat(case, meats)


def _ask_bought(case: Case, meats: Sequence[MeatFact]) -> None:
    """Dried before, and eaten so. Met: its line, the method or a stage tells enough heat, or it goes into a pot."""
    least = BIRD_F if any(meat.animal.group in BIRDS for meat in meats) else MEAT_F
    eaten_so = is_called_jerky(case.facts, case.tables) and not case.recipe.eat_after_cooking
    if not eaten_so or any(stage.name in WET_STAGES for stage in case.stages):
        return
    told = tells_inside(case, least) is not None or all(_line_tells(meat, least, case) for meat in meats)
    if told or reached(case.recipe, least, case.tables).heat is Heat.MET:
        case.box(JERKY, meats[0].because, *meats)
        return
    because = (
        f"{meats[0].because}, dried before this recipe begins, bought or made elsewhere, "
        f"and nothing says that it was heated to {both_scales(least)}"
    )
    case.cannot_tell(JERKY, because, ("ingredients",), *meats)


def _line_tells(meat: MeatFact, least: Fraction, case: Case) -> bool:
    written = meat.line.written if meat.line is not None else ""
    scale = scale_of(case.facts.config.units)
    return any(heat >= least for heat in degrees_in(written, scale))


def _is_jerky(case: Case) -> bool:
    """By name or tag; or by a warm dryer for meat that nothing heats, or that is thin."""
    if is_called_jerky(case.facts, case.tables):
        return True
    if case.facts.heating and not _is_thin(case):
        return False
    return any(_is_warm(stage) or _is_thin_and_dried(case, stage) for stage in case.stages)


def _is_thin(case: Case) -> bool:
    """By `form:`, or by the words of its line: strips."""
    own = any(
        meat.form in ("sliced", "ground") or THIN & set(spaced(f"{meat.cut} {meat.preparation}").split())
        for meat in case.recipe.meats
    )
    return own or any(
        THIN & set(spaced(one.words).split()) for one in case.facts.meats if one.line is not None
    )


def _is_thin_and_dried(case: Case, stage: Stage) -> bool:
    """Strips that hang in the air for a day, whatever they are called; in the fridge they only rest."""
    long = stage.minutes is None or stage.minutes.high >= DAY_MIN
    hung = stage.name == "dry" and stage.place not in COLD and long
    is_raw = not case.facts.heating and case.recipe.cure is None
    return hung and is_raw and _is_thin(case)


def _is_warm(stage: Stage) -> bool:
    if stage.name != "dry":
        return False
    return stage.at.high.fahrenheit >= WARM_DRYER_F if stage.at is not None else stage.place in DRYERS


def _refuse_dryer(case: Case, index: int, low_f: Fraction, meats: Sequence[MeatFact]) -> None:
    """A dryer that is warm and yet below 130 °F."""
    case.refuse(
        JERKY,
        case.stages[index],
        meats[0],
        message=f"The meat dries at {both_scales(low_f)}. Below {both_scales(DRYER_LEAST_F)} germs grow while it dries.",
        hint="Heat it first (roast: 20 min to 160 °F inside), then dry it: dry: 6 h at 140 °F.",
        because=f"the meat dries at {both_scales(low_f)}",
        stage=index,
    )


def _judge_heat(case: Case, meats: Sequence[MeatFact]) -> None:
    """A piece that a dish cooks later is boxed only."""
    minimum = BIRD_F if any(meat.animal.group in BIRDS for meat in meats) else MEAT_F
    heat = reached(case.recipe, minimum, case.tables)
    if heat.heat is not Heat.MET and (said := tells_inside(case, minimum)) is not None:
        case.box(
            JERKY, f"{meats[0].because}; the method says “{said.text.rstrip('.!')}”", meats[0], said.cause(0)
        )
        return
    meat, untold = meats[0], [stage for stage in case.stages if stage.name == "dry" and stage.at is None]
    if case.recipe.eat_after_cooking:
        case.box(JERKY, f"{meat.because}, and is not yet cooked", meat)
    elif heat.heat is Heat.MET and untold:
        because = f"{meat.because}, and the dryer's temperature is not told"
        case.cannot_tell(JERKY, because, ("course",), meat, *untold)
    elif heat.heat is Heat.MET:
        case.box(JERKY, meat.because, meat)
    elif heat.heat is Heat.UNKNOWN:
        because = (
            f"{meat.because}, and no stage says to what temperature inside; {both_scales(minimum)} is needed"
        )
        case.cannot_tell(JERKY, because, ("course",), meat)
    else:
        _refuse_heat(case, meat, minimum, heat.inside_f)


def _refuse_heat(case: Case, meat: MeatFact, minimum: Fraction, inside: Fraction | None) -> None:
    how = f"heated only to {both_scales(inside)}" if inside is not None else "dried raw"
    case.refuse(
        JERKY,
        case.recipe,
        meat,
        message=f"{case.recipe.name}: the meat is {how}. Raw strips dry before they are hot enough to be safe.",
        hint=f"Heat it to {both_scales(minimum)} first, in the marinade or in the oven: roast: 20 min to "
        f"{int(minimum)} °F inside. Then dry it at 130 to 140 °F. Freezing first does not replace the heat.",
        because=f"{meat.because}, {how}",
    )


def uncooked_ferment(case: Case) -> None:
    """Game is refused. Sausage of farmed meat that ferments raw gets a CAUTION. Cooked, or to be cooked: nothing."""
    index = next((index for index, stage in enumerate(case.stages) if _is_slow(stage)), None)
    meats = [meat for meat in case.facts.meats if meat.animal.group not in FISH]
    if index is None or not meats or case.recipe.eat_after_cooking or _is_jerky(case):
        return
    if any(is_hot(stage, case.recipe, case.tables) for stage in case.stages[index:]):
        return
    game = next((meat for meat in meats if meat.is_wild), None)
    if game is not None:
        _refuse_game(case, game, index)
    # Whole pieces that age have published times of their own; sausage that ferments has none for the home.
    elif case.facts.first_stage("ferment") is not None:
        without = "" if case.facts.nitrite else ", without a curing salt"
        case.box(RAW_SAUSAGE, f"{meats[0].because} and ferments uncooked{without}", meats[0], stage=index)


def uncured_hanging(case: Case) -> None:
    """A piece that dries or ages raw for weeks without nitrite or nitrate. Met: at 40 °F or colder, or a ham by its rule."""
    recipe = case.recipe
    meats = [meat for meat in case.facts.meats if meat.animal.group not in FISH]
    if not meats or case.facts.nitrite or (recipe.cure is not None and recipe.cure.nitrate is not None):
        return
    salted = recipe.cure is not None or any(stage.name == "cure" for stage in case.stages)
    hung = [(index, stage) for index, stage in enumerate(case.stages) if _hangs_for_weeks(stage)]
    if not hung or not salted or _is_jerky(case) or _is_ham(case):
        return
    index, stage = hung[0]
    cold = stage.at is not None and stage.at.high.fahrenheit <= case.constant("cold_holding_maximum_f")
    if stage.place in COLD or cold:
        return
    because = (
        f"{meats[0].because}, and hangs for {stage.length_written or 'weeks'} without nitrite or nitrate"
    )
    case.cannot_tell(HANGING, because, ("cure",), meats[0], stage=index)


def _hangs_for_weeks(stage: Stage) -> bool:
    long = stage.minutes is None or stage.minutes.high >= WEEKS * DAY_MIN
    return stage.name in ("age", "dry") and long and (stage.name == "age" or stage.minutes is not None)


def _is_ham(case: Case) -> bool:
    """Hams and shoulders have published cures with salt alone, and times of their own."""
    products = [case.tables.product(meat.cut) for meat in case.recipe.meats]
    return bool(products) and all(product in WITH_SALT_ALONE for product in products)


def _refuse_game(case: Case, game: MeatFact, index: int) -> None:
    case.refuse(
        RAW_GAME,
        case.stages[index],
        game,
        message=f"{sentence_start(game.because)} and is never cooked: '{case.stages[index].name}' kills no parasite.",
        hint="Cook it: hot smoke: 6 h to 165 °F inside. Or end the recipe raw, with `eat: after cooking`, so that "
        "its dishes cook it.",
        because=f"{game.because} and is never cooked",
        stage=index,
    )


def _is_slow(stage: Stage) -> bool:
    if stage.name == "dry":
        return stage.minutes is not None and stage.minutes.high >= DRY_DAYS * DAY_MIN
    return stage.name in SLOW


RULES = (
    Rule(slugs=(JERKY,), look=jerky),
    Rule(slugs=(HANGING,), look=uncured_hanging),
    Rule(slugs=(RAW_GAME, RAW_SAUSAGE), look=uncooked_ferment),
)
