"""The list of what is fetched: merged, as bought, by place, less what is on hand. Numbers worked by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from generator.compute import Kitchen
from generator.compute.gathering.demand import make_demand
from generator.compute.gathering.shopping import make_list
from generator.model.book import Book
from generator.model.gathering import Invited, OnHand
from generator.model.plan import Item
from generator.model.quantity import Span
from tests.compute.gathering.conftest import RECIPES
from tests.compute.gathering.invite import book_of, invite, on_hand_line, recipe


def listed(book: Book, invited: Invited, kitchen: Kitchen) -> dict[str, Item]:
    items = make_list(book, invited, make_demand(book, invited, kitchen), kitchen)
    assert len({(item.place, item.name) for item in items}) == len(items)
    return {item.name: item for item in items}


def of_lines(
    folder: Path, kitchen: Kitchen, *lines: str, on_hand: tuple[str, ...] = (), tags: str = "", more: str = ""
) -> dict[str, Item]:
    """The list of one dish for four, made once for four; `more` is a second dish of the same gathering."""
    texts = {"dish": _dish("Dish", lines, tags)}
    dishes = [("dish", "4 servings")]
    if more:
        texts["other"] = _dish("Other", more.split(" | "), "")
        dishes.append(("other", "4 servings"))
    book = book_of(folder / "content", texts, kitchen)
    return listed(book, invite(*dishes, on_hand=on_hand, tables=kitchen.tables), kitchen)


def _dish(name: str, lines: tuple[str, ...] | list[str], tags: str) -> str:
    said = f"tags: [{tags}]\n" if tags else ""
    return recipe(name, f"serves: 4\n{said}ingredients:\n" + "\n".join(f"  - {line}" for line in lines))


CHAIN = ("greens", "1"), ("beans", "1")


def test_the_whole_list_of_a_chain(book: Book, kitchen: Kitchen) -> None:
    """By hand, of 4 batches of greens, 3 of beans, 2 of stock and 7/4 of shanks: collards 4 x 570 g / 0.57 = 4 kg,
    vinegar 8 tbsp, onions 2 x 1 + 3 x 2, honey 2 x 60 g + 3 x 21 g, beans 3 x 500 g, bay leaves once, meat 3.5 kg.
    The cure is over 7/4 x 5 kg = 8.75 kg: sugar 87.5 g, curing salt 0.00015 x 1.04 x 8750 / (0.0625 x 0.99985)
    = 21.843 g, down to 21.8 g; salt 262.5 - 0.9375 x 21.843 = 242.02 g."""
    invited = invite(*CHAIN, adults=21, children=6, tables=kitchen.tables)
    items = make_list(book, invited, make_demand(book, invited, kitchen), kitchen)
    assert [(item.place, item.name, item.shown.us, item.shown.metric) for item in items] == [
        ("freezer", "elk fore shank", "7¾ lb", "3.5 kg"),
        ("garden", "collard leaves", "9 lb", "4 kg"),
        ("garden", "onions", "8", "8"),
        ("smokehouse shelf", "curing salt no. 1 (6.25 % sodium nitrite)", "22 g", "22 g"),
        ("smokehouse shelf", "salt", "9 oz", "250 g"),
        ("smokehouse shelf", "sugar", "3¼ oz", "90 g"),
        ("shop", "bay leaves", "2", "2"),
        ("shop", "cider vinegar", "½ cup", "150 mL"),
        ("shop", "dry pinto beans", "3 lb 5 oz", "1.5 kg"),
        ("shop", "honey", "6½ oz", "190 g"),
        ("shop", "salt", "to taste", "to taste"),
    ]
    found = {(item.place, item.name): item for item in items}
    honey = found["shop", "honey"]
    assert honey.grams == Span.of(183)
    assert honey.needed_for == ("beans", "stock")
    collards = found["garden", "collard leaves"]
    assert collards.grams == Span.of(4000)
    assert collards.note == "43 % of the weight is stems, counted in."
    assert collards.sources == ("sr28",)
    assert found["garden", "onions"].grams is None, "nobody knows how big they are"
    assert found["smokehouse shelf", "salt"].grams == Span.of(242)
    curing = found["smokehouse shelf", "curing salt no. 1 (6.25 % sodium nitrite)"]
    assert curing.grams == Span.of(Fraction("21.8"))
    assert curing.note == "Exactly 21.8 g for the cures."
    assert curing.needed_for == ("shank",)


def test_what_is_not_made_needs_nothing(book: Book, kitchen: Kitchen) -> None:
    invited = invite(("greens", "6 servings"), components={"stock": "1"}, tables=kitchen.tables)
    found = listed(book, invited, kitchen).values()
    assert {item.name for item in found if not item.is_made} == {"collard leaves", "cider vinegar"}


def with_there(invited: Invited, kitchen: Kitchen, *there: tuple[str, str, str]) -> Invited:
    """Shanks on hand as (line, place, batches)."""
    return replace(
        invited,
        components=tuple(
            (OnHand(line=on_hand_line(line, kitchen.tables).line, place=place), "shank", Fraction(batches))
            for line, place, batches in there
        ),
    )


def test_the_list_begins_with_what_is_made_already(book: Book, kitchen: Kitchen) -> None:
    """21 adults and 6 children take 4 batches of greens, 2 of stock with 2 shanks each, 3 of beans with a shank each: 7 shanks.
    5 of them are there, 4 of a batch; each stands where it lies, before the raw meat of the freezer.
    Two are made of half of 2 kg, which is 35.3 oz: up to the next ounce."""
    invited = with_there(
        invite(*CHAIN, adults=21, children=6, tables=kitchen.tables),
        kitchen,
        ("2 smoked shanks", "freezer", "1/2"),
        ("2 smoked shanks", "fridge", "1/2"),
        ("1 smoked shank", "", "1/4"),
    )
    items = make_list(book, invited, make_demand(book, invited, kitchen), kitchen)
    assert [(item.place, item.shown.us, item.name) for item in items[:4]] == [
        ("freezer", "2", "smoked shanks"),
        ("freezer", "2 lb 4 oz", "elk fore shank"),
        ("fridge", "2", "smoked shanks"),
        ("on hand", "1", "smoked shank"),
    ]
    assert {(item.note, item.needed_for) for item in items if item.is_made} == {
        ("Made already.", ("beans", "stock"))
    }


def test_of_what_is_made_only_what_is_needed_is_taken(book: Book, kitchen: Kitchen) -> None:
    """Beans for 12 are 1 1/2 batches with a shank each: of what stands first two, whole; of what stands second none."""
    invited = with_there(
        invite(("beans", "12 servings"), tables=kitchen.tables),
        kitchen,
        ("4 smoked shanks", "fridge", "1"),
        ("3 smoked shanks", "freezer", "3/4"),
    )
    items = make_list(book, invited, make_demand(book, invited, kitchen), kitchen)
    assert [(item.place, item.shown.us) for item in items if item.is_made] == [("fridge", "2")]


SAUSAGE = "serves: 4\nmeat:\n  animal: {animal}\n  cut: trim\n  weight: 2 lb\ningredients:\n"


@pytest.mark.parametrize(
    ("animal", "lines", "us"),
    [
        ("deer", ("2 lb venison trim",), {"deer trim": "2 lb"}),
        ("venison", ("2 lb deer trimmings",), {"venison trim": "2 lb"}),
        ("deer", ("2 lb deer trim", "1 lb pork fat"), {"deer trim": "2 lb", "pork fat": "1 lb"}),
        # The same animal by the same weight.
        ("deer", ("2 lb venison, ground twice",), {"deer trim": "2 lb"}),
        # In two lines. Where they say more than `meat:`, that counts, and a warning asks which is right.
        ("deer", ("1 lb venison trim", "1 lb deer trim, frozen"), {"deer trim": "2 lb"}),
        ("deer", ("3 lb venison trim",), {"deer trim": "2 lb"}),
        # Another cut, another animal.
        ("deer", ("1 lb venison liver",), {"deer trim": "2 lb", "venison liver": "1 lb"}),
        ("deer", ("2 lb elk trim",), {"deer trim": "2 lb", "elk trim": "2 lb"}),
    ],
)
def test_meat_that_is_listed_again_is_fetched_once(
    tmp_path: Path, kitchen: Kitchen, animal: str, lines: tuple[str, ...], us: dict[str, str]
) -> None:
    text = recipe("Sausage", SAUSAGE.format(animal=animal) + "\n".join(f"  - {line}" for line in lines))
    book = book_of(tmp_path / "content", {"sausage": text}, kitchen)
    items = listed(book, invite(("sausage", "4 servings"), tables=kitchen.tables), kitchen)
    assert {name: item.shown.us for name, item in items.items()} == us


def test_each_of_several_meats_is_fetched(tmp_path: Path, kitchen: Kitchen) -> None:
    """Twice what serves 4: each meat twice, listed again or not."""
    meats = "meat:\n  - 2 lb deer trim\n  - 1 lb pork shoulder\n  - 8 oz back fat\n"
    lines = "ingredients:\n  - 2 lb venison trimmings\n  - 1 lb onions\n"
    book = book_of(
        tmp_path / "content", {"sausage": recipe("Sausage", f"serves: 4\n{meats}{lines}")}, kitchen
    )
    items = listed(book, invite(("sausage", "8 servings"), tables=kitchen.tables), kitchen)
    assert {name: (item.shown.us, item.place) for name, item in items.items() if name != "onions"} == {
        "deer trim": ("4 lb", "freezer"),
        "pork shoulder": ("2 lb", "freezer"),
        "back fat": ("1 lb", "freezer"),
    }


def test_one_meat_by_two_names_in_two_dishes_is_one_line(tmp_path: Path, kitchen: Kitchen) -> None:
    items = of_lines(tmp_path, kitchen, "2 lb venison stew meat", more="1 lb deer stew meat")
    assert {name: item.shown.us for name, item in items.items()} == {"venison stew meat": "3 lb"}


def test_meat_on_hand_is_found_by_its_other_name(tmp_path: Path, kitchen: Kitchen) -> None:
    items = of_lines(tmp_path, kitchen, "2 lb venison stew meat", on_hand=("1 lb deer stew meat",))
    assert {name: item.shown.us for name, item in items.items()} == {"venison stew meat": "1 lb"}


@pytest.mark.parametrize(
    ("line", "more", "name", "us", "metric", "grams"),
    [
        # USDA SR28: a cup of flour 125 g; 250 + 150 g are 14.11 oz.
        ("2 cups all-purpose flour", "150 g all-purpose flour", "all-purpose flour", "14½ oz", "400 g", 400),
        # One of the two has no known weight: a bunch is no certain weight.
        ("3 bunches parsley", "2 lb parsley", "parsley", "3 bunches + 2 lb", "3 bunches + 910 g", None),
        ("3 bunches parsley", "1 bunch parsley, chopped", "parsley", "4 bunches", "4 bunches", None),
        ("1 onion, sliced", "2 onions, chopped", "onions", "3", "3", None),
        ("1 onion", "1 cup chopped onion", "onion", "1 + 1 cup", "1 + 250 mL", None),
        # SR28: 3 medium carrots of 61 g with 11 % crown and tops: 183 / 0.89.
        ("1 medium carrot", "2 medium carrots", "medium carrots", "3", "3", Fraction(18300, 89)),
        # Liquids stay measured: 6 tbsp are 88.7 mL.
        ("1/4 cup cider vinegar", "2 tbsp cider vinegar", "cider vinegar", "½ cup", "90 mL", None),
        ("1/2 head cabbage", "1/4 head cabbage", "cabbage", "1 head", "1 head", None),
        ("salt, to taste", "salt, to taste", "salt", "to taste", "to taste", None),
        # SR28: a teaspoon of table salt weighs 6 g.
        ("1 tsp table salt", "table salt, to taste", "table salt", "¼ oz + to taste", "6 g + to taste", 6),
        ("parsley", "parsley, for the plate", "parsley", "", "", None),
        # Of a range there must be enough.
        ("1–2 leaves sage", "1 leaf sage", "sage", "3 leaves", "3 leaves", None),
        ("1–2 lb lard", "1 lb lard", "lard", "3 lb", "1.4 kg", "range"),
    ],
)
def test_two_dishes_are_one_line(
    tmp_path: Path, kitchen: Kitchen, line: str, more: str, name: str, us: str, metric: str, grams: object
) -> None:
    items = of_lines(tmp_path, kitchen, line, more=more)
    assert list(items) == [name]
    item = items[name]
    assert (item.shown.us, item.shown.metric) == (us, metric)
    assert item.needed_for == ("dish", "other")
    if grams == "range":
        pound = Fraction("453.59237")
        assert item.grams == Span(2 * pound, 3 * pound)
    elif grams is not None:
        assert item.grams == Span.of(Fraction(str(grams)))


@pytest.mark.parametrize(
    ("line", "grams", "us", "note"),
    [
        # SR28, refuse 43 %: 1 lb / 0.57 = 1.754 lb.
        ("1 lb collards", "795.776", "1 lb 13 oz", "43 % of the weight is stems, counted in."),
        (
            "4 lb collards, stems stripped, leaves in ribbons",
            "1814.369",
            "4 lb",
            "43 % of the weight is stems, which the recipe takes off.",
        ),
        # 28 %: 16 oz / 0.72 = 22.2 oz.
        ("1 lb kale", "629.989", "1 lb 7 oz", "28 % of the weight is stem ends and midribs, counted in."),
        # A cup of chopped carrots is 128 g; 11 % is not in it: 143.82 g, 5.07 oz.
        (
            "1 cup carrots, chopped",
            "143.820",
            "5½ oz",
            "11 % of the weight is crown, tops and scrapings, counted in.",
        ),
        # Nothing is published for it: no share is made up.
        ("1 lb salsify", "453.592", "1 lb", ""),
    ],
)
def test_produce_as_bought(
    tmp_path: Path, kitchen: Kitchen, line: str, grams: str, us: str, note: str
) -> None:
    (item,) = of_lines(tmp_path, kitchen, line).values()
    assert item.grams is not None
    assert abs(item.grams.high - Fraction(grams)) < Fraction(1, 1000)
    assert (item.shown.us, item.note) == (us, note)


@pytest.mark.parametrize(
    ("line", "have", "us", "note"),
    [
        ("2 lb lard", "1 lb lard", "1 lb", ""),
        ("2 lb lard", "2 lb lard", None, ""),
        ("2 lb lard", "5 lb lard", None, ""),
        # A pound of flour in the bag, 453.6 g; 5 cups are 625 g: 171.4 g or 6.05 oz are missing.
        ("5 cups all-purpose flour", "1 lb all-purpose flour", "6½ oz", ""),
        ("4 onions, sliced", "3 onions", "1", ""),
        ("1 onion", "4 onions", None, ""),
        # Of a range on hand only the low end is certain.
        ("4 onions", "1–3 onions", "3", ""),
        (
            "3 bunches parsley",
            "1 lb parsley",
            "3 bunches",
            "On hand: 1 lb parsley, which cannot be compared with it.",
        ),
        ("2 lb lard", "lard, some", "2 lb", "On hand: lard, some, which cannot be compared with it."),
        ("salt, to taste", "2 lb salt", None, ""),
        # What lies in the garden has its stems on: 1 lb of leaves is 1.754 lb, less 1 lb; 12.07 oz.
        ("1 lb collards", "1 lb collards", "12½ oz", "43 % of the weight is stems, counted in."),
        ("2 lb lard", "2 lb butter", "2 lb", ""),
    ],
)
def test_less_what_is_on_hand(
    tmp_path: Path, kitchen: Kitchen, line: str, have: str, us: str | None, note: str
) -> None:
    items = list(of_lines(tmp_path, kitchen, line, on_hand=(have,)).values())
    if us is None:
        assert items == []
    else:
        assert [(item.shown.us, item.note) for item in items] == [(us, note)]


def test_what_is_on_hand_is_taken_once(book: Book, kitchen: Kitchen) -> None:
    """242 and 21.8 g for the cure: 42 and 11.8 g are missing, and nothing is left for the salt to taste."""
    invited = invite(
        *CHAIN, adults=24, on_hand=("200 g salt", "10 g curing salt no. 1"), tables=kitchen.tables
    )
    items = make_list(book, invited, make_demand(book, invited, kitchen), kitchen)
    notes = {item.name: item.note for item in items}
    assert notes[ONE] == "Exactly 21.8 g for the cures, of which 10 g is on hand."
    shown = {(item.place, item.name): item.shown.metric for item in items}
    assert shown["smokehouse shelf", "salt"] == "45 g"
    assert shown["shop", "salt"] == "to taste"
    assert shown["smokehouse shelf", "curing salt no. 1 (6.25 % sodium nitrite)"] == "12 g"


@pytest.mark.parametrize(
    ("line", "tags", "place"),
    [
        ("1 lb venison stew meat", "", "freezer"),
        ("1 rabbit, cut up", "", "freezer"),
        ("2 trout fillets", "", "freezer"),
        ("1 lb kale", "", "garden"),
        ("3 sprigs thyme", "", "garden"),
        ("2 apples", "", "garden"),
        ("1 tsp dried thyme", "", "shop"),
        ("1 tsp ground black pepper", "", "shop"),
        ("1 cup apple juice", "", "shop"),
        ("2 tbsp tomato paste", "", "shop"),
        ("1 lb chanterelles", "", "woods"),
        ("1 lb nettle tops", "", "woods"),
        ("1 cup mushrooms", "", "shop"),
        ("1 cup mushrooms", "foraged", "woods"),
        ("1 cup wild rice", "", "shop"),
        ("2 tbsp duck fat", "", "shop"),
        ("1 qt chicken stock", "", "shop"),
    ],
)
def test_where_it_is_fetched(tmp_path: Path, kitchen: Kitchen, line: str, tags: str, place: str) -> None:
    (item,) = of_lines(tmp_path, kitchen, line, tags=tags).values()
    assert item.place == place


def test_water_is_not_bought(tmp_path: Path, kitchen: Kitchen) -> None:
    assert list(of_lines(tmp_path, kitchen, "5 qt water", "2 cups boiling water", "1 lemon")) == ["lemon"]


SHANK = RECIPES["shank"]
NECK = (
    SHANK.replace("Smoked shank", "Smoked neck").replace("fore shank", "neck").replace("4 shanks", "4 necks")
)
POT = recipe("Pot", "serves: 8\ningredients:\n  - 4 [shanks](shank.md)\n  - 4 [necks](neck.md)")


def smokehouse(folder: Path, kitchen: Kitchen, shank: str, neck: str) -> dict[str, Item]:
    book = book_of(folder / "content", {"shank": shank, "neck": neck, "pot": POT}, kitchen)
    items = listed(book, invite(("pot", "8 servings"), tables=kitchen.tables), kitchen)
    return {name: item for name, item in items.items() if item.place == "smokehouse shelf"}


ONE, TWO = (
    "curing salt no. 1 (6.25 % sodium nitrite)",
    "curing salt no. 2 (6.25 % sodium nitrite, 4 % sodium nitrate)",
)


def test_two_cures_are_added_to_the_gram(tmp_path: Path, kitchen: Kitchen) -> None:
    """By hand: 0.00015 x 1.04 x 5000 / (0.0625 x 0.99985) = 12.48 g, shown as 12.4 g; twice is 24.8 g."""
    items = smokehouse(tmp_path, kitchen, SHANK, NECK)
    assert items[ONE].grams == Span.of(Fraction("24.8"))
    assert {items[ONE].shown.in_units(system) for system in ("us", "metric", "imperial")} == {"25 g"}
    assert items[ONE].note == "Exactly 24.8 g for the cures."
    assert items[ONE].needed_for == ("shank", "neck")


def test_curing_salts_of_two_kinds_are_two_lines(tmp_path: Path, kitchen: Kitchen) -> None:
    neck = NECK.replace("150 ppm\n", "150 ppm\n  kind of curing salt: no. 2\n").replace(
        "cure: 6 d", "cure: 30 d"
    )
    items = smokehouse(tmp_path, kitchen, SHANK, neck)
    assert {name for name in items if name.startswith("curing")} == {ONE, TWO}


def test_salt_by_its_crystal_is_a_line_of_its_own(tmp_path: Path, kitchen: Kitchen) -> None:
    items = smokehouse(tmp_path, kitchen, SHANK, NECK.replace("salt: 3 %", "salt: 150 g dense-flake salt"))
    assert items["dense-flake salt"].grams == Span.of(150)
    assert items["dense-flake salt"].needed_for == ("neck",)
    assert items["salt"].needed_for == ("shank",)


def test_a_cure_by_the_cup_is_fetched_from_the_least_to_the_most(tmp_path: Path, kitchen: Kitchen) -> None:
    """1 cup of salt is 134 to 292 g (hollow flake, table salt); the other shanks take what theirs weighs besides."""
    neck = NECK.replace("salt: 3 %", "salt: 1 cup kosher salt").replace(
        "sugar: 1 %", "sugar: 1 cup brown sugar"
    )
    items = smokehouse(tmp_path, kitchen, SHANK, neck)
    assert items["kosher salt"].grams == Span(Fraction(134), Fraction(292))
    assert items["kosher salt"].needed_for == ("neck",)
    assert items["brown sugar"].grams == Span(Fraction(145), Fraction(220))


def test_a_refused_cure_says_that_nobody_knows_its_weights(tmp_path: Path, kitchen: Kitchen) -> None:
    """60 g in 5 kg are above the limit: no weight of it is listed, and none is passed over in silence."""
    items = smokehouse(tmp_path, kitchen, SHANK.replace("150 ppm", "60 g"), NECK)
    assert items[ONE].shown.metric == "13 g + weight not known"
    assert "Smoked shank has no cure weights: see its problems." in items[ONE].note
    assert items[ONE].needed_for == ("shank", "neck")


PUMP = """  pump: 10 %
  pump brine:
    water: 1 L
    salt: 80 g
    curing salt: 5 g
"""


def test_a_brine_for_the_needle_is_counted_with_the_cover(tmp_path: Path, kitchen: Kitchen) -> None:
    shank = SHANK.replace("  curing salt: 150 ppm\n", f"  curing salt: 100 ppm\n{PUMP}")
    book = book_of(tmp_path / "content", {"shank": shank, "neck": NECK, "pot": POT}, kitchen)
    invited = invite(("pot", "8 servings"), tables=kitchen.tables)
    makings = make_demand(book, invited, kitchen)
    cure = next(making.recipe.cure for making in makings if making.slug == "shank")
    assert cure is not None
    assert cure.weigh is not None, [problem.message for problem in cure.problems]
    items = {item.name: item for item in make_list(book, invited, makings, kitchen)}
    # The cover's own as its page shows it, the neck's 12.4 g, and 5 g of the needle.
    cover = Fraction(cure.shown["curing_salt"].removesuffix(" g"))
    assert items[ONE].grams == Span.of(cover + Fraction("12.4") + 5)


def test_meat_of_unknown_weight_is_named(tmp_path: Path, kitchen: Kitchen) -> None:
    text = recipe("Stew", "serves: 4\nmeat:\n  animal: deer\n  cut: shoulder")
    book = book_of(tmp_path / "content", {"stew": text}, kitchen)
    items = listed(book, invite(("stew", "4 servings"), tables=kitchen.tables), kitchen)
    assert items["deer shoulder"].shown.us == "weight not told"
    assert items["deer shoulder"].grams is None
