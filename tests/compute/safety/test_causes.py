"""What a box names as its cause: the lines, stages and keys of the recipe that made it, as they are written there."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.build import check_recipes
from tests.compute.safety.course import check, recipe

RAW_SHANK = recipe("hot smoke: 3 h at 150 °F", name="Shank", meat="animal: bear; cut: shank", eat=True)

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
]


@pytest.mark.parametrize(
    ("slug", "text", "causes"), CASES, ids=[f"{case[0]}-{at}" for at, case in enumerate(CASES)]
)
def test_box_names_what_made_it(slug: str, text: str, causes: tuple[str, ...], tmp_path: Path) -> None:
    check(tmp_path, text, shank=RAW_SHANK)
    computed = next(one for one in check_recipes(tmp_path).recipes if one.recipe.slug == "piece")
    box = next(one for one in computed.cautions if one.slug == slug)
    assert tuple(cause.words for cause in box.causes) == causes
