"""Tomatoes, applesauce and pickled beets in sealed jars in; their acid and their minutes in boiling water, out."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.acid import (
    EACH_JAR,
    acid_lines,
    juice_ml,
    low_acid_lines,
    own_lines,
    says,
)
from generator.compute.safety.facts.altitude import feet, height_shown
from generator.compute.safety.facts.jar import Jar, jar_of, made_pints
from generator.model.recipe import Ingredient
from generator.model.shown import show_decimal
from generator.tables.garden import BoilingTime, Names, spaced

ACID, BOILING = "tomato-acid", "canning-boiling"

JUICE_ML_A_PINT = Fraction("14.787")
"Source: USDA AIB 539 and University of Missouri GH1456: 1 tbsp bottled lemon juice a pint, 2 tbsp a quart."
ROUNDING = Fraction("0.95")
"A cup for sixteen tablespoons and the like are not held against an author. Source: house choice."
CRUSHED = frozenset({"crushed", "chopped", "diced"})
SOURS = ("lemon juice", "citric acid", "vinegar")


def tomato_acid(case: Case) -> None:
    """Every jar of tomatoes has acid of its own. Not met: too little, or none anywhere. Cannot be told: no amount."""
    jar, tomatoes = jar_of(case.facts, case.tables), _tomatoes(case)
    if jar is None or not tomatoes or jar.low_acid is not None or jar.is_only_packed:
        return
    acid = acid_lines(case.recipe, case.tables)
    if low_acid_lines(case.recipe, case.tables) and acid:
        return  # a salsa, whose acid is held against all of it
    if not acid and not _body_says_acid(case):
        message = "Tomatoes are canned, and no acid is among the ingredients. Tomatoes are not sour enough by themselves."
        _refuse(case, jar, tomatoes, message, f"{tomatoes[0].name} without acid")
        return
    share = _share(case, jar, acid)
    if share is None:
        because = f"{tomatoes[0].name} in jars, and how much acid goes into each is not told"
        missing = ("ingredients", *(() if jar.pints is not None else ("course",)))
        case.cannot_tell(ACID, because, missing, *tomatoes, *acid, stage=jar.index)
    elif share < ROUNDING:
        because = (
            f"{tomatoes[0].name} with {show_decimal(100 * share, places=0)} % of the acid that they need"
        )
        _refuse(case, jar, [*tomatoes, *acid], "There is too little acid for so many jars.", because)


def _tomatoes(case: Case) -> list[Ingredient]:
    """Fresh tomatoes; what is bought as paste or juice was sour enough for its maker."""
    cut = case.tables.garden.words["kept tomato"].cut_from
    return [
        line
        for line in own_lines(case.recipe)
        if case.tables.garden.says(cut(line.name), "tomato") and not line.link
    ]


def _body_says_acid(case: Case) -> bool:
    words = case.recipe.body.text.lower()
    return any(sour in words for sour in SOURS)


def _share(case: Case, jar: Jar, acid: Sequence[Ingredient]) -> Fraction | None:
    """The acid there is over the acid that so many pints need; None where either is not told, or lemons are squeezed."""
    juice = juice_ml(acid, in_vinegar=False) if acid else None
    if juice is None or any("fresh" in spaced(f"{line.name} {line.preparation}").split() for line in acid):
        return None
    if any(EACH_JAR.search(f"{line.name}, {line.preparation}".lower()) for line in acid):
        return juice.high / (jar.pints * JUICE_ML_A_PINT) if jar.pints is not None else None
    pints = made_pints(case.recipe, case.tables)
    return juice.high / (pints * JUICE_ML_A_PINT) if pints else None


def _refuse(case: Case, jar: Jar, lines: Sequence[Ingredient], message: str, because: str) -> None:
    case.refuse(
        ACID,
        jar.stage,
        *lines,
        message=message,
        hint="Give each pint 1 tbsp bottled lemon juice or 1/4 tsp citric acid, each quart twice as much, and write "
        "it among the ingredients: 7 tbsp bottled lemon juice. Or freeze them.",
        because=because,
        stage=jar.index,
    )


def boiling_water(case: Case) -> None:
    """The minutes of the table at the height. Met: nothing is said. Cannot be told: size, minutes or height."""
    jar = jar_of(case.facts, case.tables)
    if jar is None or jar.low_acid is not None or jar.method != "water bath":
        return
    lines, rows = _rows(case)
    if not rows:
        return
    asked = [row for row in rows if jar.pints is None or row.size == ("pint" if jar.pints <= 1 else "quart")]
    height = max(feet(case.facts.config.altitude_m or Fraction(0)), Fraction(0))
    needed = [row.minutes(height) for row in asked]
    given = jar.stage.minutes.low if jar.stage.minutes is not None else None
    told = "; ".join(_told(row, height) for row in asked)
    if given is not None and given < min(needed):
        at = (
            f" at {height_shown(case.facts.config.altitude_m)}"
            if case.facts.config.altitude_m is not None
            else ""
        )
        case.refuse(
            BOILING,
            jar.stage,
            *lines,
            message=f"{show_decimal(given, places=0)} min in boiling water is too short{at}: {told}.",
            hint="Give it the tested time, or keep it in the fridge or the freezer.",
            because=told,
            stage=jar.index,
        )
        return
    missing = [
        *(["course"] if given is None or jar.pints is None else []),
        *(["ingredients"] if given is not None and given < max(needed) else []),
        *(
            ["altitude in book.yaml"]
            if case.facts.config.altitude_m is None and not _holds_anywhere(given, asked)
            else []
        ),
    ]
    if missing:
        case.cannot_tell(BOILING, told, missing, jar.stage, *lines, stage=jar.index)


def _holds_anywhere(given: Fraction | None, rows: Sequence[BoilingTime]) -> bool:
    """Long enough for the highest kitchen of the table."""
    return given is not None and given >= max(row.above_6000_ft for row in rows)


def _rows(case: Case) -> tuple[list[Ingredient], list[BoilingTime]]:
    """What is in the jar, and the rows it may fall under; several where the lines do not decide."""
    rows, recipe = case.tables.garden.boiling, case.recipe
    if tomatoes := _tomatoes(case):
        low = low_acid_lines(recipe, case.tables)
        keys = _tomato_keys(tomatoes, own_lines(recipe))
        return tomatoes, [] if low else [row for row in rows if row.food in keys]
    words = " ".join((recipe.name, *(line.name for line in own_lines(recipe))))
    found = [row for row in rows if row.names and Names.of(row.names).first_in(words)]
    return [line for line in own_lines(recipe) if not says(line, "acid", case.tables)][:1], found


def _tomato_keys(tomatoes: Sequence[Ingredient], lines: Sequence[Ingredient]) -> set[str]:
    words = {word for line in tomatoes for word in spaced(f"{line.name} {line.preparation}").split()}
    others = {spaced(line.name).strip() for line in lines}
    if words & CRUSHED:
        return {"crushed tomatoes"}
    if any(one.endswith("tomato juice") for one in others):
        return {"tomatoes in juice"}
    water = any(one.split()[-1:] == ["water"] for one in others)
    return {"tomatoes in water"} if water else {"crushed tomatoes", "tomatoes in water", "tomatoes in juice"}


def _told(row: BoilingTime, height_ft: Fraction) -> str:
    soft = " by common advice" if row.certainty == "from memory" else ""
    return f"{row.title}: {row.minutes(height_ft)} min in {row.size}s{soft}"


RULES = (
    Rule(slugs=(ACID,), look=tomato_acid),
    Rule(slugs=(BOILING,), look=boiling_water),
)
