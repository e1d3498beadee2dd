"""A whole recipe in, its record out: the example of the file format, and what each key becomes."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from generator.model.quantity import Dimension
from generator.model.recipe import Recipe, TargetKind
from generator.problems import Position, ProblemLog

ReadRecipe = Callable[..., tuple[Recipe | None, ProblemLog]]

SHANK = """---
name: Smoked elk shank
summary: Fore shanks, brined by weight and hot-smoked, for pots of beans and greens.
makes: 4 shanks (3 1/2 lb)
chapter: Smokehouse
tags: [smoked, keeps]
meat:
  animal: elk
  cut: fore shank
  weight: 5 lb               # green weight the amounts are written for
  pieces: 4                  # heaviest and thickest piece decide times, not the total
  thickness: 3 in            # thickest part, whole thickness
  shape: round               # round = cylinder | slab | lump = sphere
  bone: in
cure:
  method: brine              # brine | dry
  water: 1 qt hot + 2 1/2 qt cold + 1 lb ice
  salt: 3 %                  # of meat + water (brine) or of meat (dry)
  sugar: 1.5 %
  curing salt: 150 ppm       # or an amount, 22 g: then the book works out the ppm
  kind of curing salt: no. 1 # the default: 6.25 % sodium nitrite
  pump: 8 %                  # drawn from this brine
ingredients:
  - 4 bay leaves
  - 1 tbsp juniper berries, crushed
course:
  - thaw: in the fridge
  - cure: 5 days in the fridge
  - rinse
  - dry: 1 h until tacky
  - hot smoke: 6 h at 180–200 °F to 150 °F inside
  - cool
  - pack: vacuum
eat: after cooking
keep:
  fridge: 4 days
  freezer: 2 months
---

Stir the [salt](#salt), the [sugar](#sugar) and the [curing salt](#curing-salt) into the hot part of the
[water](#water); half the [berries](#juniper-berries:1/2), then the [shanks](#meat). See
[beans](pot-of-beans.md#salt) and ![a shank](../photos/shank.jpg).
"""
"The example of the file format, its comments and all."


@pytest.fixture
def shank(read_text_of_recipe: ReadRecipe) -> Recipe:
    recipe, log = read_text_of_recipe(SHANK)
    assert log.sorted() == ()
    assert recipe is not None
    return recipe


def test_head_of_the_example(shank: Recipe) -> None:
    assert (shank.slug, shank.file) == ("dish", "recipes/dish.md")
    assert shank.name == "Smoked elk shank"
    assert shank.summary.startswith("Fore shanks, brined")
    assert shank.chapter == "Smokehouse"
    assert shank.chapter_position == Position("recipes/dish.md", 5, 10)
    assert shank.tags == ("smoked", "keeps")
    assert shank.serves is None
    assert shank.eat_after_cooking
    assert not shank.draft
    assert shank.makes is not None
    assert shank.makes.noun == "shanks"
    made = shank.makes.quantity.total(Dimension.COUNT)
    assert made is not None
    assert made.low == 4
    weight = shank.makes.quantity.total(Dimension.WEIGHT)
    assert weight is not None
    assert weight.low == Fraction(7, 2) * Fraction(45359237, 100000)


def test_meat_of_the_example(shank: Recipe) -> None:
    meat = shank.meat
    assert meat is not None
    assert (meat.animal, meat.animal_written, meat.cut, meat.name) == (
        "elk",
        "elk",
        "fore shank",
        "elk fore shank",
    )
    assert (meat.pieces, meat.shape, meat.bone) == (4, "round", "in")
    assert meat.weight is not None
    assert meat.weight.written == "5 lb"
    assert meat.thickness is not None
    thick = meat.thickness.total(Dimension.LENGTH)
    assert thick is not None
    assert thick.low == Fraction(762, 10)
    assert (meat.skin, meat.silverskin, meat.form, meat.source) == (None, None, None, None)
    assert meat.position.line == 7


def test_cure_of_the_example(shank: Recipe) -> None:
    cure = shank.cure
    assert cure is not None
    assert (cure.method, cure.kind, cure.pump_percent) == ("brine", "no. 1", Fraction(8))
    assert cure.water is not None
    assert [measure.state for measure in cure.water.measures] == ["hot", "cold", "ice"]
    targets = [line.target for line in (cure.salt, cure.sugar, cure.curing_salt) if line]
    assert [(target.kind, target.value) for target in targets if target] == [
        (TargetKind.PERCENT, 3),
        (TargetKind.PERCENT, Fraction(3, 2)),
        (TargetKind.PPM, 150),
    ]
    assert cure.position == Position("recipes/dish.md", 15, 1)
    assert cure.water_position == Position("recipes/dish.md", 17, 10)
    assert cure.curing_salt is not None
    assert cure.curing_salt.position == Position("recipes/dish.md", 20, 16)


def test_lines_stages_and_keeping_of_the_example(shank: Recipe) -> None:
    assert [line.id for line in shank.ingredients] == ["bay-leaves", "juniper-berries"]
    assert shank.ingredients[1].preparation == "crushed"
    assert shank.ingredients[1].position == Position("recipes/dish.md", 25, 5)
    assert [stage.name for stage in shank.stages] == [
        *("thaw", "cure", "rinse", "dry", "hot smoke", "cool", "pack")
    ]
    smoke = shank.stages[4]
    assert smoke.written == "hot smoke: 6 h at 180–200 °F to 150 °F inside"
    assert smoke.position == Position("recipes/dish.md", 31, 5)
    assert [(keep.place, keep.days.low, keep.written) for keep in shank.keep] == [
        ("fridge", Fraction(4), "4 days"),
        ("freezer", Fraction(60), "2 months"),
    ]


def test_body_of_the_example(shank: Recipe) -> None:
    body = shank.body
    assert body.first_line == 39
    assert body.text.startswith("\nStir the [salt]")
    assert [(link.id, link.share) for link in body.amount_links] == [
        ("salt", None),
        ("sugar", None),
        ("curing-salt", None),
        ("water", None),
        ("juniper-berries", Fraction(1, 2)),
        ("meat", None),
    ]
    assert body.amount_links[0].position == Position("recipes/dish.md", 40, 10)
    assert [(link.text, link.target) for link in body.links] == [("beans", "pot-of-beans.md#salt")]
    assert [(photo.text, photo.target) for photo in body.photos] == [("a shank", "../photos/shank.jpg")]
    assert body.photos[0].position == Position("recipes/dish.md", 42, 35)


def test_groups_keep_their_titles(read_text_of_recipe: ReadRecipe) -> None:
    recipe, log = read_text_of_recipe(
        "---\nname: Pie\nserves: 6\ningredients:\n  Filling:\n    - 3 carrots\n  Crust:\n    - 2 cups flour\n---\n"
    )
    assert log.sorted() == ()
    assert recipe is not None
    assert [(line.group, line.name) for line in recipe.ingredients] == [
        ("Filling", "carrots"),
        ("Crust", "flour"),
    ]


def test_meat_listed_again_counts_once(read_text_of_recipe: ReadRecipe) -> None:
    front = "---\nname: A\nserves: 6\nmeat:\n  animal: elk\n  cut: fore shank\n  weight: 5 lb\ningredients:\n"
    for line in ("5 lb elk fore shanks, trimmed", "4 raw fore shanks of elk"):
        recipe, log = read_text_of_recipe(f"{front}  - {line}\n  - 1 cup honey\n---\n")
        assert [problem.slug for problem in log] == ["meat-listed-again"]
        assert recipe is not None
        assert [kept.name for kept in recipe.ingredients] == ["honey"]
    for line in ("2 qt elk stock", "2 lb elk neck", "1 fore shank bone"):
        recipe, log = read_text_of_recipe(f"{front}  - {line}\n---\n")
        assert log.sorted() == ()
        assert recipe is not None
        assert len(recipe.ingredients) == 1


YIELDS = [
    ("4 shanks (3 1/2 lb)", Dimension.COUNT, "shanks"),
    ("2 qt broth", Dimension.VOLUME, "broth"),
    ("3 lb", Dimension.WEIGHT, ""),
    ("3 lb of sausage", Dimension.WEIGHT, "sausage"),
    ("2 loaves (3 lb)", Dimension.COUNT, ""),
    ("4 breast halves (2 lb 4 oz)", Dimension.COUNT, "breast halves"),
    ("12–14 links (3 lb)", Dimension.COUNT, "links"),
]


@pytest.mark.parametrize(("text", "kind", "noun"), YIELDS)
def test_yield_is_amount_and_noun(
    read_text_of_recipe: ReadRecipe, text: str, kind: Dimension, noun: str
) -> None:
    recipe, log = read_text_of_recipe(f"---\nname: A\nmakes: {text}\n---\n")
    assert log.sorted() == ()
    assert recipe is not None
    assert recipe.makes is not None
    assert recipe.makes.quantity.dimension is kind
    assert recipe.makes.noun == noun
    assert (recipe.makes.quantity.total(Dimension.WEIGHT) is not None) is ("lb" in text)


def test_dry_cure_with_amounts(read_text_of_recipe: ReadRecipe) -> None:
    recipe, log = read_text_of_recipe(
        "---\nname: A\nmakes: 2 lb\nmeat:\n  animal: venison\n  weight: 2 lb\n  form: Ground\n  skin: off\n"
        "cure:\n  method: Dry\n  salt: 30 g\n  curing salt: 2 tsp\n  kind of curing salt: No. 2\ndraft: yes\n---\n"
    )
    assert log.sorted() == ()
    assert recipe is not None
    assert recipe.draft
    assert recipe.meat is not None
    assert (recipe.meat.animal, recipe.meat.animal_written) == ("deer", "venison")
    assert (recipe.meat.form, recipe.meat.skin) == ("ground", "off")
    assert recipe.cure is not None
    assert (recipe.cure.method, recipe.cure.kind) == ("dry", "no. 2")
    assert recipe.cure.curing_salt is not None
    assert recipe.cure.curing_salt.amount is not None
    assert recipe.cure.water is None


@pytest.mark.parametrize(
    ("written", "months"),
    [
        ("[May, June]", (5, 6)),
        ("[Sept., oct]", (9, 10)),
        ("[May to July]", (5, 6, 7)),
        ("[November–February, June]", (11, 12, 1, 2, 6)),
        ("[May, May to June]", (5, 6)),
    ],
)
def test_season_is_its_months(read_text_of_recipe: ReadRecipe, written: str, months: tuple[int, ...]) -> None:
    recipe, log = read_text_of_recipe(f"---\nname: Cake\nserves: 4\nseason: {written}\n---\n\nBake.\n")
    assert list(log) == []
    assert recipe is not None
    assert recipe.season == months


@pytest.mark.parametrize(
    ("written", "message", "hint"),
    [
        ("Marhc", "'Marhc' is not a month.", "Write March."),
        ("J", "'J' is not a month.", "Write months by their names: May."),
        ("5", "'5' is not a month.", "Write months by their names: May."),
        ("May - June - July", "'May - June - July' has more than two months.", "Write one item a month"),
    ],
)
def test_what_is_no_month_is_told(
    read_text_of_recipe: ReadRecipe, written: str, message: str, hint: str
) -> None:
    text = f"---\nname: Cake\nserves: 4\nseason:\n  - {written}\n---\n\nBake.\n"
    _, log = read_text_of_recipe(text)
    assert [(problem.slug, problem.message) for problem in log] == [("wrong-value", message)]
    assert [str(problem.position) for problem in log] == ["recipes/dish.md:5:5"]
    assert all(problem.hint.startswith(hint) for problem in log)


def test_whose_it_is_stands_as_written(read_text_of_recipe: ReadRecipe) -> None:
    recipe, log = read_text_of_recipe(
        "---\nname: Cake\nserves: 4\nfrom: Mrs. H., Upper Fork, 1938\n---\n\nBake.\n"
    )
    assert list(log) == []
    assert recipe is not None
    assert recipe.origin == "Mrs. H., Upper Fork, 1938"


@pytest.mark.parametrize(
    ("written", "least", "most"),
    [
        ("4-6", 4, 6),
        ("4–6", 4, 6),
        ("4 to 6", 4, 6),
        ("6 or 8", 6, 8),
        ("4 people", 4, None),
        ("about 12 to 15 servings", 12, 15),
        ("6 hungry people", 6, None),
    ],
)
def test_a_range_of_eaters_counts_by_its_lower_end(
    written: str, least: int, most: int | None, read_text_of_recipe: ReadRecipe
) -> None:
    recipe, log = read_text_of_recipe(f"---\nname: Cake\nserves: {written}\n---\n\nBake.\n")
    assert not log.sorted()
    assert recipe is not None
    assert (recipe.serves, recipe.serves_most) == (least, most)


@pytest.mark.parametrize("written", ["many", "0", "6-4", "6 cups", "4-6-8", "6 people twice"])
def test_what_is_no_number_of_eaters_is_told_once(written: str, read_text_of_recipe: ReadRecipe) -> None:
    _, log = read_text_of_recipe(f"---\nname: Cake\nserves: {written}\n---\n\nBake.\n")
    assert len(log.sorted()) == 1


@pytest.mark.parametrize(
    ("written", "after"),
    [
        ("after cooking", True),
        ("once cooked", True),
        ("as it is", False),
        ("ready to eat", False),
        ("raw", False),
    ],
)
def test_how_it_is_eaten(written: str, after: bool, read_text_of_recipe: ReadRecipe) -> None:
    recipe, log = read_text_of_recipe(f"---\nname: Cake\nserves: 4\neat: {written}\n---\n\nBake.\n")
    assert not log.sorted()
    assert recipe is not None
    assert recipe.eat_after_cooking is after


def test_cooked_has_two_meanings(read_text_of_recipe: ReadRecipe) -> None:
    _, log = read_text_of_recipe("---\nname: Cake\nserves: 4\neat: cooked\n---\n\nBake.\n")
    (problem,) = log.sorted()
    assert "eat: after cooking" in problem.hint
    assert "eat: as it is" in problem.hint


def test_pots_are_counted(read_text_of_recipe: ReadRecipe) -> None:
    recipe, log = read_text_of_recipe("---\nname: Potted hare\nmakes: 5 pots\n---\n\nPress it into pots.\n")
    assert not log.sorted()
    assert recipe is not None
    assert recipe.makes is not None
    assert recipe.makes.quantity.dimension is Dimension.COUNT
    assert recipe.makes.noun == "pots"
