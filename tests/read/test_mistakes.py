"""One recipe with one mistake a case: slug, line, column, words of the sentence and of the hint.

The sign « stands just before the character that the problem must point at.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from generator.model.recipe import Recipe
from generator.problems import SLUGS, Position, ProblemLog, Severity

ReadRecipe = Callable[..., tuple[Recipe | None, ProblemLog]]

MARK = "«"
CURED = "meat:\n  animal: elk\n  cut: fore shank\n  weight: 5 lb\ncure:\n  method: brine\n  water: 1 gal\n  salt: 3 %\n"
DRY = "meat:\n  animal: deer\n  weight: 3 lb\ncure:\n  method: dry\n  salt: 2.5 %\n"


def dish(front: str, body: str = "Cook it.\n") -> str:
    return f"---\nname: Dish\nserves: 4\n{front}---\n\n{body}"


# name, text with its mark, slug, words of the sentence, words of the hint
MISTAKES: list[tuple[str, str, str, str, str]] = [
    # keys
    ("unknown key", dish("«sumary: x\n"), "unknown-key", "'sumary'", "'summary'"),
    ("key in capitals", dish("«Summary: x\n"), "unknown-key", "'Summary'", "'summary'"),
    ("unknown inner key", dish("meat:\n  animal: elk\n  «wieght: 5 lb\n"), "unknown-key", "under 'meat'", "'weight'"),
    ("unknown cure key", dish(CURED + "  «nitrite: 150 ppm\n"), "unknown-key", "under 'cure'", "curing salt"),
    ("unknown place to keep", dish("keep:\n  «frige: 4 days\n"), "unknown-key", "'frige'", "'fridge'"),
    ("pick-up that is no share", dish(CURED + "  pick-up: «8 oz\n"), "wrong-value", "8 oz", "Write 8 %"),
    ("pump brine in one line", dish(CURED + "  pump brine: «1 qt\n"), "wrong-value", "pump brine", "key: value"),
    ("pump brine without water", dish(CURED + "  «pump brine:\n    salt: 3 %\n"), "missing-key", "water", "water"),
    ("nitrate by the clove", dish(CURED + "  nitrate: «2 cloves saltpetre\n"), "wrong-dimension", "neither a weight", "2 oz saltpetre"),
    ("accelerator by the spoon", dish(CURED + "  accelerator: «2 tsp ascorbic acid\n"), "wrong-dimension", "not a weight", "3 g"),
    ("unknown nitrate", dish(CURED + "  nitrate: 2 oz «lunar caustic\n"), "unreadable-amount", "lunar caustic", "saltpetre"),
    ("unknown accelerator", dish(CURED + "  accelerator: 3 g «vitamin\n"), "unreadable-amount", "vitamin", "erythorbate"),
    ("accept in one line", dish("accept: «game-160\n"), "wrong-value", "'accept' takes keys", "name: value"),
    ("unknown rule", dish("accept:\n  «wild-game-156: we like it pink\n"), "unknown-rule", "'wild-game-156' is not a rule", "'wild-game-165'"),
    ("rule like no other", dish("accept:\n  «xyz: why not\n"), "unknown-rule", "'xyz'", "named by their slug"),
    ("rule of a CAUTION", dish("accept:\n  «grey-middle: no\n"), "unknown-rule", "cannot be accepted", "nothing to accept"),
    ("rule of a NOTICE", dish("accept:\n  «fish-advice: no\n"), "unknown-rule", "cannot be accepted", "It is a NOTICE"),
    ("accepted without a reason", dish("accept:\n  wild-game-165:«\n"), "wrong-value", "without a reason", "Write why"),
    ("jar", dish(CURED + "  «jar: 1 qt\n"), "unknown-key", "by this version", "Remove"),
    ("no name", "---\n«serves: 4\n---\n", "missing-key", "'name'", "name: Smoked elk shank"),
    ("no yield", "---\n«name: Dish\n---\n", "missing-key", "'makes'", "serves: 6"),
    ("no animal", dish("«meat:\n  weight: 5 lb\n"), "missing-key", "'animal' is missing under 'meat'", "elk"),
    ("no method", dish("«cure:\n  salt: 3 %\n"), "missing-key", "'method' is missing under 'cure'", "brine"),
    # values
    ("empty name", "---\n«name:\nserves: 4\n---\n".replace("«name:", "name:«"), "wrong-value", "empty", "value"),
    ("serves words", dish("").replace("serves: 4", "serves: «many"), "wrong-value", "'many'", "serves: 6"),
    ("serves cups", dish("").replace("serves: 4", "serves: «4–6 cups"), "wrong-value", "4–6 cups", "one number"),
    ("serves nobody", dish("").replace("serves: 4", "serves: «0"), "wrong-value", "'0'", "serves: 6"),
    ("tags in one line", dish("tags: «smoked, keeps\n"), "wrong-value", "list", "Write tags: [smoked, keeps]"),
    ("ingredients in one line", dish("ingredients: «2 onions\n"), "wrong-value", "list", "dash"),
    ("group without lines", dish("ingredients:\n  Pot:«\n"), "wrong-value", "'Pot' is empty", "dash"),
    ("meat without an animal", dish("meat: «2 lb shank\n"), "unknown-animal", "'shank'", "2 lb deer shank"),
    ("list for a name", dish("«summary:\n  - a\n"), "wrong-value", "'summary' takes text", "one line"),
    ("draft perhaps", dish("draft: «perhaps\n"), "wrong-value", "yes nor no", "yes or no"),
    ("eat how", dish("eat: «cooked\n"), "wrong-value", "'cooked'", "after cooking"),
    ("unknown shape", dish("meat:\n  animal: elk\n  shape: «cube\n"), "wrong-value", "'cube'", "round, slab or lump"),
    ("unknown method", dish("cure:\n  method: «brin\n"), "wrong-value", "'brin'", "'brine'"),
    ("half a piece", dish("meat:\n  animal: elk\n  pieces: «1 1/2\n"), "wrong-value", "whole number", "4"),
    ("water in a dry cure", dish(DRY + "  «water: 1 gal\n"), "wrong-value", "dry cure", "brine"),
    ("pump in a dry cure", dish(DRY + "  «pump: 8 %\n"), "wrong-value", "dry cure", "brine"),
    ("brine strength in a dry cure", dish(DRY.replace("2.5 %", "2.5 «% of the brine")), "wrong-value", "dry", "3 %"),
    ("pump by weight", dish(CURED + "  pump: «6 oz\n"), "wrong-value", "share", "8 %"),
    ("to make a weight", dish(CURED.replace("1 gal", "to make «6 lb")), "wrong-dimension", "not a volume", "6 gal"),
    # meat and cure
    ("unknown animal", dish("meat:\n  animal: «elkk\n"), "unknown-animal", "'elkk'", "'elk'"),
    ("weight by volume", dish("meat:\n  animal: elk\n  weight: «5 qt\n"), "wrong-dimension", "a weight", "5 lb"),
    ("weight a range", dish("meat:\n  animal: elk\n  weight: «5–6 lb\n"), "wrong-value", "range", "5 lb"),
    ("thickness by weight", dish("meat:\n  animal: elk\n  thickness: «3 lb\n"), "wrong-dimension", "length", "3 in"),
    ("unit of the weight", dish("meat:\n  animal: elk\n  weight: 5 «pund\n"), "unknown-unit", "'pund'", "'pound'"),
    ("curing salt by colour", dish(CURED + "  kind of curing salt: «pink\n"), "unknown-curing-salt", "pink", "no. 1"),
    ("salt that is none", dish(CURED.replace("3 %", "2 cups «celery salt")), "unknown-crystal", "celery", "dense-flake"),
    ("curing salt in per cent", dish(CURED + "  curing salt: 0.25 «%\n"), "wrong-value", "0.25 %", "150 ppm"),
    ("ice by volume", dish(CURED.replace("1 gal", "1 gal + «1 qt ice")), "wrong-dimension", "air", "1 lb ice"),
    # amounts and lines
    ("unknown unit", dish("ingredients:\n  - 2 «cupps flour\n"), "unknown-unit", "'cupps'", "'cups'"),
    ("unknown unit, quoted", dish("ingredients:\n  - '2 «cupps Ida''s flour'\n"), "unknown-unit", "'cupps'", "'cups'"),
    ("unknown unit in a group", dish("ingredients:\n  Pot:\n    - 2 «cupps flour\n"), "unknown-unit", "cupps", "cups"),
    ("unreadable amount", dish("ingredients:\n  - «1,5,0 g flour\n"), "unreadable-amount", "1,5,0", "1000, 1.5"),
    ("two sizes of a unit", dish("ingredients:\n  - 2 «gr yeast\n"), "ambiguous-unit", "'gr'", "'g' or 'mg'"),
    ("no name in a line", dish("ingredients:\n  - 2 cups«, sifted\n"), "missing-name", "no name", "flour, sifted"),
    ("same id", dish("ingredients:\n  - 1 lb butter\n  - «2 tbsp Butter\n"), "same-id", "line 5", "add the amounts"),
    ("taken id", dish(CURED + "ingredients:\n  - «2 lb sugar\n"), "taken-id", "'sugar'", "cure"),
    ("taken by the meat", dish("meat:\n  animal: elk\ningredients:\n  - «2 lb meat\n"), "taken-id", "'meat'", "apart"),
    ("brackets", dish("ingredients:\n  - «2 lb (1900 g) beans\n"), "alternatives-disagree", "6 %", "Correct"),
    ("brackets of the yield", dish("makes: «2 lb (1900 g)\n"), "alternatives-disagree", "6 %", "Correct"),
    ("brackets of the weight", dish("meat:\n  animal: elk\n  weight: «5 lb (5 kg)\n"), "alternatives-disagree", "5", "Co"),
    ("meat again", dish(CURED + "ingredients:\n  - «5 lb fore shanks, elk\n").replace("shanks, elk", "elk shanks"),
     "meat-listed-again", "counts once", "#meat"),
    ("two links", dish("ingredients:\n  - 1 [a](a.md) or «[b](b.md)\n"), "wrong-value", "two", "each"),
    ("link elsewhere", dish("ingredients:\n  - 1 [a](«http://a.b)\n"), "link-scheme", "http://a.b", "smoked-elk-shank.md"),
    ("yield without amount", dish("makes: «plenty\n"), "unreadable-amount", "'plenty'", "4 shanks (3 1/2 lb)"),
    ("yield with loose weight", dish("makes: 4 «shanks, 3 lb\n"), "unreadable-amount", "3 lb", "brackets"),
    ("yield in hours", dish("makes: «4 h\n"), "wrong-dimension", "'4 h'", "3 lb"),
    # stages and keeping
    ("unknown stage", dish("course:\n  - «simer: 3 h\n"), "unknown-stage", "'simer'", "'simmer'"),
    ("unknown stage alone", dish("course:\n  - «zap\n"), "unknown-stage", "'zap'", "thaw, trim"),
    ("colon forgotten", dish("course:\n  - cure« 5 days\n"), "unreadable-stage", "colon", "Write cure: 5 days"),
    ("unknown place", dish("course:\n  - cure: 5 days in the «frige\n"), "unknown-place", "'frige'", "'fridge'"),
    ("stage not understood", dish("course:\n  - simmer: «nearly two days\n"), "unreadable-stage", "'nearly'", "6 h at"),
    ("no time at all", dish("course:\n  - cure: «5\n"), "unreadable-time", "'5'", "5 days"),
    ("no scale", dish("course:\n  - bake: 1 h at «350\n"), "unreadable-temperature", "'350' has no scale", "at 350 °F, or at 350 °C"),
    ("where", dish("course:\n  - bake: 1 h «to 165 °F\n"), "unreadable-stage", "where", "inside"),
    ("keeps a while", dish("keep:\n  fridge: «a while\n"), "unreadable-time", "'a while'", "5 days"),
    # body
    ("unknown ingredient", dish("ingredients:\n  - 1 cup honey\n", "Stir «[x](#hony).\n"), "unknown-ingredient", "#hony", "'honey'"),
    ("no ingredient at all", dish("", "Stir «[x](#hony).\n"), "unknown-ingredient", "#hony", "none"),
    ("malformed share", dish("ingredients:\n  - 1 cup honey\n", "«[x](#honey:half)\n"), "wrong-value", "'half'", "1/2"),
    ("share of nothing", dish("ingredients:\n  - 1 cup honey\n", "«[x](#honey:0/2)\n"), "wrong-value", "0/2", "above 0"),
    ("share by nothing", dish("ingredients:\n  - 1 cup honey\n", "«[x](#honey:1/0)\n"), "wrong-value", "1/0", "above 0"),
    ("share above one", dish("ingredients:\n  - 1 cup honey\n", "«[x](#honey:3/2)\n"), "wrong-value", "3/2", "up to 1"),
    ("share of no amount", dish("ingredients:\n  - parsley\n", "«[x](#parsley:1/2)\n"), "wrong-value", "no amount", "Link"),
    (
        "shares over the whole",
        dish("ingredients:\n  - 1 cup honey\n", "[a](#honey:1/2) and «[b](#honey:2/3)\n"),
        "shares-over-whole",
        "7/6",
        "add up",
    ),
    ("javascript", dish("", "- See «[x](javascript:alert(1))\n"), "link-scheme", "javascript", "http"),
    ("hidden javascript", dish("", "«[x](java&#115;cript:1)\n"), "link-scheme", "javascript", "http"),
    ("data", dish("", "> «[x](data:text/html,1)\n"), "link-scheme", "data:", "http"),
    ("ftp", dish("", "«<ftp://a.b/c>\n"), "link-scheme", "ftp:", "http"),
    ("another host without scheme", dish("", "«[x](//a.b/c)\n"), "link-scheme", "//a.b/c", "http"),
    ("photo elsewhere", dish("", "Look: «![x](https://a.b/c.jpg)\n"), "link-scheme", "picture", "photos/"),
    ("link to nothing", dish("", "«[x]()\n"), "unknown-link", "'x'", "address"),
    (
        "amount not linked",
        dish("ingredients:\n  - 1 cup wild honey\n", "First stir in\n  «1 cup of the honey.\n"),
        "unlinked-amount",
        "'1 cup'",
        "[wild honey](#wild-honey)",
    ),
    (
        "amount beside its link",
        dish("ingredients:\n  - 3 lb potatoes\n", "| a | b |\n|---|---|\n| x | «2 lb [potatoes](#potatoes) |\n"),
        "unlinked-amount",
        "'2 lb'",
        "(#potatoes)",
    ),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "slug", "words", "hint"), [m[1:] for m in MISTAKES], ids=[m[0] for m in MISTAKES]
)
def test_mistake_is_told_with_its_place(
    read_text_of_recipe: ReadRecipe, text: str, slug: str, words: str, hint: str
) -> None:
    before, _, after = text.partition(MARK)
    recipe, log = read_text_of_recipe(before + after)
    problems = log.sorted()
    assert [problem.slug for problem in problems] == [slug], problems
    (problem,) = problems
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    assert problem.position == Position("recipes/dish.md", line, column)
    assert words in problem.message
    assert hint in problem.hint
    assert recipe is not None or slug in WITHOUT or "name" in problem.message
    assert log.has_errors is (SLUGS[slug][0] is Severity.ERROR)
    in_front = "\n---\n" not in before
    if recipe is not None and log.has_errors and in_front and slug != "missing-key":
        assert [hole.position for hole in recipe.holes] == [problem.position]


WITHOUT = frozenset({"yaml-syntax"})
"YAML has no sense, so that nothing is read."


def test_enough_kinds_of_mistakes_are_tried() -> None:
    assert len(MISTAKES) >= 80
    assert len({slug for _, _, slug, _, _ in MISTAKES}) >= 25


def test_all_mistakes_of_a_file_are_told_at_once(read_text_of_recipe: ReadRecipe) -> None:
    recipe, log = read_text_of_recipe(
        "---\nsumary: x\nserves: many\nmeat:\n  animal: ekl\ningredients:\n  - 2 cupps flour\n  - 1/0 cup honey\n"
        "course:\n  - simer: 3 h\n---\n\n[x](#y)\n"
    )
    assert recipe is None, "it has no name"
    assert [(problem.slug, problem.position.line) for problem in log.sorted() if problem.position] == [
        ("missing-key", 2),
        ("unknown-key", 2),
        ("wrong-value", 3),
        ("unknown-animal", 5),
        ("unknown-unit", 7),
        ("unreadable-amount", 8),
        ("unknown-stage", 10),
    ], "the link may be to a line that is not read: it is asked about when that is mended"


FINE = [
    ("ordinary heading link", "## Method of it\n\nSee [above](#method-of-it).\n"),
    ("second heading of a name", "## A\n\n## A\n\n[x](#a-2)\n"),
    ("a unit without an ingredient", "Chop it 2 in thick and wait for 3 cups of steam.\n"),
    ("an amount far from the name", "Use 2 cups of the water that was left over from boiling honey.\n"),
    ("amount in another sentence", "Pour off 2 cups. The honey follows.\n"),
    ("amount in code", "`2 cups honey`\n"),
    ("temperature", "Heat to 165 °F, then add [honey](#honey).\n"),
    ("shares that add up", "[a](#honey:1/3), [b](#honey:2/3), [c](#honey)\n"),
    ("links of allowed kinds", "[a](https://a.b) [b](mailto:a@b.c) [c](other.md#salt) <http://x.y>\n"),
    ("a share of one", "[a](#honey:1)\n"),
]


@pytest.mark.parametrize("body", [case[1] for case in FINE], ids=[case[0] for case in FINE])
def test_what_is_right_gives_no_problem(read_text_of_recipe: ReadRecipe, body: str) -> None:
    recipe, log = read_text_of_recipe(dish("ingredients:\n  - 1 cup honey\n", body))
    assert log.sorted() == ()
    assert recipe is not None


TITLED = "---\nname: Kraut\nmakes: 2 gal\ningredients:\n"


@pytest.mark.parametrize(
    ("lines", "hint", "mended"),
    [
        (
            "  - Cabbage:\n      - 15 lb cabbage\n  - Salt, of the cabbage:\n      - 2 % salt\n",
            "Take the dash away: 'Cabbage:', and under it, further in, - 15 lb cabbage",
            "  Cabbage:\n    - 15 lb cabbage\n  Salt, of the cabbage:\n    - 2 % salt\n",
        ),
        (
            "  - 15 lb cabbage\n  - Salt, of the cabbage:\n      - 2 % salt\n",
            "Take the dash away: 'Salt, of the cabbage:', and under it, further in, - 2 % salt, and put a title above "
            "the lines that have none too, such as 'For the dish:'.",
            "  For the dish:\n    - 15 lb cabbage\n  Salt, of the cabbage:\n    - 2 % salt\n",
        ),
        (
            "  - Cabbage:\n  - 15 lb cabbage\n",
            "Take the dash away: 'Cabbage:', and under it, further in, the lines of the list, each with its dash",
            "  Cabbage:\n    - 15 lb cabbage\n",
        ),
    ],
)
def test_a_title_with_a_dash_is_told_as_that(
    read_text_of_recipe: ReadRecipe, lines: str, hint: str, mended: str
) -> None:
    _, log = read_text_of_recipe(f"{TITLED}{lines}---\n\nPack it.\n")
    assert "single quotes" not in " ".join(problem.hint for problem in log)
    assert hint in [problem.hint for problem in log]
    found, log = read_text_of_recipe(f"{TITLED}{mended}---\n\nPack it.\n")
    assert found is not None
    assert list(log) == []


def test_a_colon_in_a_line_is_no_title(read_text_of_recipe: ReadRecipe) -> None:
    _, log = read_text_of_recipe(f"{TITLED}  - '2 lb cabbage'\n  - 2 lb deer: trim\n---\n\nPack it.\n")
    assert [problem.hint for problem in log] == ["Put the text in single quotes: - '2 lb deer: trim'"]
