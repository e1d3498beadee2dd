"""What a box names as its cause: the lines, stages and keys of the recipe that made it, as they are written there."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.build import check_recipes
from tests.compute.safety.course import check, recipe

RAW_SHANK = recipe("hot smoke: 3 h at 150 °F", name="Shank", meat="animal: bear; cut: shank", eat=True)
WEAK = "method: brine; water: 2 qt; salt: 3 %; curing salt: 100 ppm"
BELLY = recipe(
    "cure: 9 days in the fridge",
    name="Belly",
    meat="animal: pork; cut: belly; weight: 4 lb; skin: off",
    cure=WEAK,
)
HASH = recipe("boil: 1 h", name="Hash", meat="", lines=("1 lb [belly](belly.md)",), makes="makes: 4 cups")
DRY = "method: dry; salt: 3 %; curing salt: 150 ppm"

THICK = "animal: elk; cut: shank; weight: 4 lb; thickness: 4 in; shape: round"

CASES = [
    (
        "wild-game-165",
        recipe("roast: 2 h to 140 °F inside"),
        ("roast: 2 h to 140 °F inside", "meat: elk roast"),
    ),
    (
        "wild-game-165",
        recipe("boil: 3 h", meat="", lines=("1 lb [shank](shank.md)",)),
        ("1 lb [shank](shank.md)",),
    ),
    ("eat-after-cooking", recipe("dry: 1 h", eat=True), ("eat: after cooking", "meat: elk roast")),
    (
        "lead-shot",
        recipe("braise: 3 h", lines=("1 lb ground venison", "2 cups red wine", "1 onion")),
        ("meat: elk roast", "1 lb ground venison", "2 cups red wine"),
    ),
    (
        "elderberry",
        recipe("boil: 25 min in the pot", "chill: 1 h", meat="", lines=("1 cup elderberries", "1 onion")),
        ("1 cup elderberries", "boil: 25 min in the pot"),
    ),
    (
        "waterfowl-advice",
        recipe("braise: 3 h", meat="animal: goose; cut: legs", lines=("2 duck breasts",)),
        ("meat: goose legs", "2 duck breasts"),
    ),
    (
        "below-120",
        recipe("cure: 9 days in the fridge", meat="animal: elk; cut: roast; weight: 4 lb", cure=WEAK),
        ("cure: brine",),
    ),
    (
        "cure-time",
        recipe(
            "cure: 1 day in the fridge", meat="animal: pork; cut: belly; weight: 4 lb; skin: off", cure=DRY
        ),
        ("cure: dry", "meat: pork belly", "cure: 1 day in the fridge"),
    ),
    (
        "vegetable-nitrite",
        recipe("boil: 1 h", lines=("2 tsp celery powder", "1 onion")),
        ("2 tsp celery powder",),
    ),
    (
        "fried-cured-belly",
        recipe("boil: 1 h", "fry: 10 min", meat="", lines=("6 oz bacon", "1 onion")),
        ("6 oz bacon", "fry: 10 min"),
    ),
    (
        "infant-nitrite",  # by way of the hash, which uses the belly
        recipe("boil: 1 h", meat="", lines=("1 cup [hash](hash.md)",), name="Porridge for babies"),
        ("name: Porridge for babies", "1 cup [hash](hash.md)"),
    ),
    (
        "jerky",
        recipe("dry: 6 h at 100 °F", meat="animal: elk; cut: strips; form: sliced"),
        ("dry: 6 h at 100 °F", "meat: elk strips"),
    ),
    (
        "canning-cured",
        recipe("jar: 90 min in the pressure canner", meat="", lines=("1 cup [hash](hash.md)",)),
        ("jar: 90 min in the pressure canner", "1 cup [hash](hash.md)"),
    ),
    (
        "canning-thick",
        recipe("jar: 90 min in the pressure canner", meat="", lines=("4 lb beef, diced", "1 cup flour")),
        ("jar: 90 min in the pressure canner", "1 cup flour"),
    ),
    (
        "pickle-acid",
        recipe("pickle: 9 days", meat="", lines=("1 lb beets", "2 cups cider vinegar, 4 %", "1 onion")),
        ("2 cups cider vinegar, 4 %", "pickle: 9 days"),
    ),
    (
        "ferment-salt",
        recipe("ferment: 21 days", meat="", lines=("5 lb cabbage", "20 g salt", "1 tsp caraway seed")),
        ("ferment: 21 days", "5 lb cabbage", "20 g salt"),
    ),
    (
        "smoker-air",
        recipe("dry: 1 h in the fridge", "hot smoke: 4 h at 230 °F to 165 °F inside", lines=("1 onion",)),
        ("meat: elk roast", "hot smoke: 4 h at 230 °F to 165 °F inside"),
    ),
    (
        "come-up-time",
        recipe("hot smoke: 5 h at 225 °F", "roast: 1 h at 240 °F", "boil: 1 h", meat=THICK),
        ("hot smoke: 5 h at 225 °F", "roast: 1 h at 240 °F", "meat: elk shank"),
    ),
    (
        "cold-smoke-raw",
        recipe("cold smoke: 2 h at 70 °F", meat="", lines=("1 lb [shank](shank.md)", "1 onion")),
        ("cold smoke: 2 h at 70 °F", "1 lb [shank](shank.md)"),
    ),
    (
        "smoke-frozen",
        recipe("freeze", "trim: 20 min in the fridge", "hot smoke: 4 h at 250 °F to 165 °F inside"),
        ("hot smoke: 4 h at 250 °F to 165 °F inside", "freeze"),
    ),
    (
        "danger-hours",
        recipe("trim: 90 min on the counter", "rest: 90 min on the counter", "boil: 3 h"),
        ("rest: 90 min on the counter", "trim: 90 min on the counter", "meat: elk roast"),
    ),
    (
        "cool-two-steps",  # by way of the hash, which uses the belly
        recipe("boil: 3 h", "cool: 5 h on the counter", meat="", lines=("1 cup [hash](hash.md)", "1 onion")),
        ("cool: 5 h on the counter", "1 cup [hash](hash.md)"),
    ),
    (
        "thick-cooling",
        recipe("boil: 3 h", "cool: 2 h in the fridge", meat=THICK, lines=("1 lb ground venison",)),
        ("meat: elk shank", "cool: 2 h in the fridge"),
    ),
    ("simmer-too-short", recipe("simmer: 10 min", meat=THICK), ("simmer: 10 min", "meat: elk shank")),
    (
        "keep-fridge",
        recipe("boil: 3 h", keep="fridge: 9 days; freezer: 2 months"),
        ("keep: fridge: 9 days",),
    ),
    (
        "shelf-meat",
        recipe("pack: vacuum", meat="", lines=("1 cup flour", "1 lb garlic, peeled"), keep="shelf: 1 month"),
        ("keep: shelf: 1 month", "1 lb garlic, peeled"),
    ),
    (
        "frozen-stuffed-bird",
        recipe("stuff: 20 min", "rest: 1 h in the fridge", "freeze", meat="animal: goose; cut: whole"),
        ("freeze", "meat: goose whole"),
    ),
    (
        "oil-infusion",
        recipe("infuse: 1 h", meat="", lines=("1 cup olive oil", "6 garlic cloves"), keep="fridge: 9 days"),
        ("keep: fridge: 9 days", "6 garlic cloves"),
    ),
]


@pytest.mark.parametrize(
    ("slug", "text", "causes"), CASES, ids=[f"{case[0]}-{at}" for at, case in enumerate(CASES)]
)
def test_box_names_what_made_it(slug: str, text: str, causes: tuple[str, ...], tmp_path: Path) -> None:
    check(tmp_path, text, shank=RAW_SHANK, belly=BELLY, hash=HASH)
    computed = next(one for one in check_recipes(tmp_path).recipes if one.recipe.slug == "piece")
    box = next(one for one in computed.cautions if one.slug == slug)
    assert tuple(cause.words for cause in box.causes) == causes
