"""Hostile recipes of heat and game: what must stop the site, and what must print a box."""

from __future__ import annotations

LEAD = "title: A hostile book\nchapters: [Pots]\nshot: lead\n"
SICK = "title: A hostile book\nchapters: [Pots]\ndeer disease area: yes\n"
FILE = "recipes/hostile.md"


def of_meat(meat: str, *course: str, more: str = "") -> str:
    """A recipe with a piece of meat of its own; facts with semicolons between."""
    facts = "".join(f"  {fact.strip()}\n" for fact in meat.split(";"))
    return f"---\nname: Dinner\nserves: 4\nchapter: Pots\nmeat:\n{facts}{more}{course_of(course)}---\n\nCook it.\n"


def of_lines(lines: tuple[str, ...], *course: str) -> str:
    """A recipe whose meat is an ingredient line."""
    listed = "".join(f"  - {line}\n" for line in lines)
    return f"---\nname: Dinner\nserves: 4\nchapter: Pots\ningredients:\n{listed}{course_of(course)}---\n\nCook it.\n"


def course_of(stages: tuple[str, ...]) -> str:
    return "course:\n" + "".join(f"  - {stage}\n" for stage in stages)


DRY = "cure:\n  method: dry\n  salt: 3 %\n  curing salt: 150 ppm\n"
PUMPED = (
    "cure:\n  method: brine\n  water: 1 gal\n  salt: 3 %\n  curing salt: 100 ppm\n  pump: 8 %\n"
    "accept:\n  wild-game-165: we like it pink\n"
)

HOSTILE: tuple[tuple[str, str | dict[str, str], str, str], ...] = (
    (
        "bear roast to 140",
        of_meat("animal: bear; cut: loin; weight: 4 lb", "roast: 2 h at 300 °F to 140 °F inside in the oven"),
        "high-risk-game-165",
        "error",
    ),
    (
        "duck breast rare",
        of_meat(
            "animal: duck; cut: breast; weight: 1 lb", "fry: 6 min to 130 °F inside in the pan", "rest: 5 min"
        ),
        "high-risk-game-165",
        "error",
    ),
    (
        "bear ham dried and eaten",
        of_meat(
            "animal: bear; cut: ham; weight: 9 lb",
            "cure: 20 days in the fridge",
            "dry: 60 days at 55 °F",
            more=DRY,
        ),
        "trichinella",
        "error",
    ),
    (
        "boar cold-smoked after 60 days of frost",
        of_meat(
            "animal: wild boar; cut: belly; weight: 5 lb; skin: off",
            "freeze: 60 days at 0 °F in the freezer",
            "cure: 7 days in the fridge",
            "cold smoke: 12 h at 75 °F",
            more=DRY,
        ),
        "trichinella",
        "error",
    ),
    (
        "raw sausage of feral pig",
        of_lines(
            ("5 lb feral pig shoulder", "60 g table salt"), "grind", "stuff", "ferment: 2 days at 70 °F"
        ),
        "trichinella",
        "error",
    ),
    (
        "pumped deer accepted at 160",
        of_meat(
            "animal: deer; cut: hind leg; weight: 5 lb",
            "cure: 5 days in the fridge",
            "hot smoke: 6 h at 225 °F to 160 °F inside",
            more=PUMPED,
        ),
        "wild-game-165",
        "error",
    ),
    (
        "chicken at 150",
        of_meat(
            "animal: chicken; cut: breast; weight: 2 lb",
            "roast: 40 min at 350 °F to 150 °F inside in the oven",
        ),
        "poultry-165",
        "error",
    ),
    (
        "hamburgers pink",
        of_lines(("2 lb ground beef",), "fry: 6 min to 130 °F inside in the pan"),
        "ground-160",
        "error",
    ),
    (
        "injected beef rare",
        of_lines(
            ("5 lb beef roast, injected with broth",), "roast: 2 h at 250 °F to 135 °F inside in the oven"
        ),
        "not-intact-160",
        "error",
    ),
    (
        "merganser stew",
        of_meat("animal: merganser; weight: 2 lb", "simmer: 4 h to 180 °F inside"),
        "merganser",
        "error",
    ),
    (
        "deer spine in the stock",
        {
            "book.yaml": SICK,
            FILE: of_lines(("3 lb venison spine, sawn", "2 qt water"), "simmer: 6 h to 200 °F inside"),
        },
        "deer-disease-parts",
        "error",
    ),
    (
        "moose kidney pie",
        of_lines(("2 lb moose kidney", "1 lb flour"), "bake: 2 h at 350 °F to 170 °F inside"),
        "moose-organs",
        "error",
    ),
    (
        "gut-shot deer for sausage",
        of_lines(("3 lb venison, gut-shot, rinsed",), "grind", "fry: 10 min to 165 °F inside"),
        "gut-soiled",
        "error",
    ),
    (
        "deer hung warm",
        of_meat(
            "animal: deer; cut: haunch; weight: 9 lb",
            "age: 9 days at 55 °F in the cellar",
            "roast: 2 h to 165 °F inside",
        ),
        "age-cold",
        "error",
    ),
    (
        "home-cured ham warmed to 120",
        of_lines(("3 lb ham",), "reheat: 1 h at 250 °F to 120 °F inside in the oven"),
        "reheat-165",
        "error",
    ),
    (
        "rabbit shot with lead, in wine",
        {"book.yaml": LEAD, FILE: of_lines(("1 rabbit", "2 cups red wine"), "braise: 3 h to 180 °F inside")},
        "lead-shot",
        "box",
    ),
    (
        "ham of farm pork, never cooked",
        of_meat(
            "animal: pork; cut: ham; weight: 15 lb",
            "cure: 40 days in the fridge",
            "dry: 200 days at 55 °F",
            more=DRY,
        ),
        "raw-pork",
        "box",
    ),
    ("deer liver", of_lines(("1 lb deer liver",), "fry: 8 min to 165 °F inside"), "deer-organs", "box"),
    (
        "wild goose",
        of_lines(("1 goose", "4 apples"), "roast: 3 h to 165 °F inside"),
        "waterfowl-advice",
        "box",
    ),
    (
        "pike from the mill pond",
        of_meat("animal: pike; weight: 3 lb", "bake: 30 min to 150 °F inside"),
        "fish-advice",
        "box",
    ),
    (
        "rabbit in the fur",
        of_lines(("1 rabbit, in the fur",), "braise: 2 h to 165 °F inside"),
        "carcass",
        "box",
    ),
)
