"""Hostile recipes of plants, jerky, jars, pickles and oil: what must stop the site, and what must print a box."""

from __future__ import annotations


def of(
    lines: str,
    *course: str,
    name: str = "Put up",
    makes: str = "4 pt",
    keep: str = "",
    meat: str = "",
    more: str = "",
) -> str:
    """A recipe of ingredient lines; lines, facts of the meat and places to keep have semicolons between."""
    listed = "".join(f"  - {line.strip()}\n" for line in lines.split(";") if line.strip())
    stages = "".join(f"  - {stage}\n" for stage in course)
    kept = "keep:\n" + "".join(f"  {one.strip()}\n" for one in keep.split(";")) if keep else ""
    own = "meat:\n" + "".join(f"  {fact.strip()}\n" for fact in meat.split(";")) if meat else ""
    items = f"ingredients:\n{listed}" if listed else ""
    return f"---\nname: {name}\nmakes: {makes}\nchapter: Pots\n{own}{more}{items}course:\n{stages}{kept}---\n\nCook it.\n"


BRINE = "cure:\n  method: brine\n  water: 1 gal\n  salt: 3 %\n  curing salt: 100 ppm\n"
DRY = "cure:\n  method: dry\n  salt: 3 %\n  curing salt: 150 ppm\n"
VENISON = "animal: deer; cut: round; weight: 4 lb; form: sliced"
FILE = "recipes/hostile.md"

HOSTILE: tuple[tuple[str, str | dict[str, str], str, str], ...] = (
    (
        "raw elderberries",
        of("2 lb elderberries; 1 cup honey", "chill: 1 day in the fridge"),
        "elderberry",
        "error",
    ),
    ("elderberries warmed", of("2 lb ripe elderberries", "simmer: 5 min in the pot"), "elderberry", "error"),
    (
        "elder bark in a syrup",
        of("1 oz elder bark; 1 qt water", "boil: 40 min in the pot"),
        "elder-leaf",
        "error",
    ),
    ("pokeweed boiled twice", of("2 lb poke sallet", "boil: 20 min", "boil: 20 min"), "pokeweed", "error"),
    (
        "rhubarb with its leaves",
        of("1 lb rhubarb leaves", "boil: 20 min in the pot"),
        "rhubarb-leaf",
        "error",
    ),
    ("fiddleheads fried only", of("1 lb fiddleheads", "fry: 8 min in the pan"), "fiddlehead", "error"),
    (
        "fiddleheads in vinegar",
        of("1 lb fiddleheads; 2 cups vinegar, 5 %", "pickle: 7 days"),
        "fiddlehead",
        "error",
    ),
    (
        "morels in a salad",
        of("6 oz morels, sliced; 2 tbsp olive oil", "chill: 1 h in the fridge"),
        "morel",
        "error",
    ),
    ("raw boletes", of("8 oz porcini; 1 lemon", "rest: 10 min"), "wild-mushrooms", "error"),
    (
        "ramps in butter",
        of("1 bunch ramps; 4 oz butter", "chill: 2 h in the fridge"),
        "ramps-lookalike",
        "box",
    ),
    (
        "mushrooms in a vacuum",
        of("2 lb mushrooms", "pack: vacuum", keep="fridge: 14 days"),
        "mushroom-sealed",
        "error",
    ),
    (
        "jerky at 120",
        of("1 tbsp table salt", "dry: 48 h at 120 °F", name="Jerky", meat=VENISON),
        "jerky",
        "error",
    ),
    ("jerky dried raw", of("", "dry: 8 h at 140 °F", name="Deer jerky", meat=VENISON), "jerky", "error"),
    (
        "salami of wild boar",
        of(
            "",
            "cure: 2 days in the fridge",
            "ferment: 2 days",
            "dry: 30 days",
            meat="animal: wild boar; weight: 4 lb",
            more=DRY,
        ),
        "uncooked-ferment",
        "error",
    ),
    (
        "smoked shank in a sealed jar",
        of(
            "",
            "cure: 6 days in the fridge",
            "hot smoke: 6 h at 225 °F to 165 °F inside",
            "jar: 90 min in the pressure canner",
            meat="animal: elk; cut: shank; weight: 6 lb; thickness: 3 in; pieces: 4",
            more=BRINE,
        ),
        "canning-cured",
        "error",
    ),
    (
        "ham hocks and beans in a jar",
        of("2 lb dry pinto beans; 1 lb smoked ham", "boil: 30 min", "jar: 75 min in the pressure canner"),
        "canning-cured",
        "error",
    ),
    (
        "venison in a water bath",
        of("4 lb venison, diced", "brown: 10 min", "jar: 3 h in the water bath"),
        "canning",
        "error",
    ),
    (
        "greens by the time of pickles",
        of("6 lb kale", "blanch: 5 min", "jar: 15 min in the pressure canner"),
        "canning",
        "error",
    ),
    (
        "soup with flour in a jar",
        of("2 lb beef; 2 lb carrots; 1 cup flour", "simmer: 1 h", "jar: 75 min in the pressure canner"),
        "canning",
        "error",
    ),
    (
        "weak vinegar",
        of("2 lb cucumbers; 3 cups rice vinegar, 4 %", "pickle: 14 days", keep="fridge: 60 days"),
        "pickle-acid",
        "error",
    ),
    (
        "kraut with half the salt",
        of("2000 g cabbage; 20 g salt", "ferment: 4 weeks at 70 °F in a crock"),
        "ferment-salt",
        "error",
    ),
    (
        "garlic oil on the shelf",
        of("1 cup garlic; 2 cups olive oil", "infuse: 1 h in the pot", keep="shelf: 30 days"),
        "oil-infusion",
        "error",
    ),
    (
        "herb oil for two weeks",
        of("1 cup basil; 2 cups olive oil", "infuse: 1 day in the fridge", keep="fridge: 14 days"),
        "oil-infusion",
        "error",
    ),
    (
        "beans blanched for a minute",
        of("4 lb green beans", "blanch: 1 min", "freeze: in the freezer"),
        "blanch-time",
        "box",
    ),
)
