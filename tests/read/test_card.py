"""An old card as somebody typed it off becomes a draft: what is understood in place, a question for what is not, no word lost.

The cards are invented, in the manner of cards of 1900 to 1980; what each part must be was written down by hand.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.book import BookConfig
from generator.problems import ProblemLog
from generator.read.card import Card, read_card
from generator.read.draft import Draft
from generator.read.recipe import read_recipe
from generator.read.record import Reading
from generator.read.source import split_front_matter
from generator.read.start import draft_recipe
from generator.tables import Tables, load_tables

CARDS = sorted((Path(__file__).parent.parent / "corpus/cards").glob("*.txt"))
CONTEXT = Reading(config=BookConfig(title="Book"), tables=load_tables())
HAM = """From the kitchen of Mrs. Ida Fox
Ham Cure

20 lbs. pork ham
1 1/2 lb. salt
1/2 lb brown sugar
2 oz. saltpeter
1 T. pepper

Rub well. Lay in cool cellar 4 wks, turning.
"""


def context_of(tables: Tables) -> Reading:
    return Reading(config=BookConfig(title="Book"), tables=tables)


def read(text: str, tables: Tables) -> Card:
    return read_card(text, context_of(tables).grammar)


def draft(text: str, tables: Tables) -> Draft:
    found = draft_recipe("x", "x", text, context_of(tables))
    assert found is not None
    return found


def front(text: str, tables: Tables) -> list[str]:
    """The lines of the draft between the two ---."""
    return draft(text, tables).text.split("---\n")[1].splitlines()


@pytest.mark.parametrize(
    ("head", "name", "origin"),
    [
        ("Boiled Dressing.", "Boiled Dressing", []),
        ("MINCEMEAT OF DEER NECK", "Mincemeat of deer neck", []),
        ("PUDDING  (Vesta's)", "Pudding", ["Vesta's"]),
        ("Camp Chili  (deer camp '74)", "Camp Chili", ["deer camp '74"]),
        ("Corn Bread\n(Mrs. H., Upper Fork)", "Corn Bread", ["Mrs. H., Upper Fork"]),
        ("Pork cake, Mother's", "Pork cake", ["Mother's"]),
        ("Smoked Eels - Grandpa Tull", "Smoked Eels", ["Grandpa Tull"]),
        ("Sweet Pickles        from Aunt Orla, 1938", "Sweet Pickles", ["Aunt Orla, 1938"]),
        ("From the kitchen of: Ida Fox\n\nHam", "Ham", ["Ida Fox"]),
        ("Ham\nNov. 12, 1944", "Ham", ["Nov. 12, 1944"]),
        ("Recipe for:  Nut Cookies\nRecipe from the kitchen of: Dot", "Nut Cookies", ["Dot"]),
        ("Rind pickle. Mrs. Alma Reed's.", "Rind pickle", ["Mrs. Alma Reed's"]),
        ('"Bush Bannock"', "Bush Bannock", []),
        ("Ketchup\n(from the Grange cookbook)", "Ketchup", ["the Grange cookbook"]),
        ("Corn Bread (Southern Style)", "Corn Bread (Southern Style)", []),
        ("Corn Bread\n(Ida Fox)", "Corn Bread", ["Ida Fox"]),
        ("Bread, butter and pickle", "Bread, butter and pickle", []),
        ("Rolls (never fail)", "Rolls (never fail)", []),
        ("Beans - three kinds", "Beans - three kinds", []),
    ],
)
def test_a_title_is_parted_from_whose_it_is(head: str, name: str, origin: list[str], tables: Tables) -> None:
    card = read(f"{head}\n\n2 cups flour\n1 egg\n\nMix and bake.\n", tables)
    assert (card.name, card.origin) == (name, origin)
    assert [line.words for line in card.lines] == ["2 cups flour", "1 egg"]
    assert card.method == [["Mix and bake."]]


def test_a_recipe_in_one_paragraph_is_all_method(tables: Tables) -> None:
    text = "Mix till crumbly 1 c. flour, 3/4 c. oatmeal, 1 c. br. sugar. Press half in pan. Cover w/ 4 c. rhubarb."
    card = read(f"Rhubarb Crunch: {text}\n", tables)
    assert (card.name, card.lines, card.method) == ("Rhubarb Crunch", [], [[text]])
    found = draft(f"{text} Bake 350 1 hr.\n", tables)
    assert found.name == "x", "as the command names it"


def test_things_of_the_first_sentence_are_lines(tables: Tables) -> None:
    text = (
        "One cup sugar, half cup butter, two eggs, one cup milk and\n3 cups flour. Bake in layers. 2 hrs. do."
    )
    card = read(f"Layer Cake\n\n{text}\n", tables)
    things = ["One cup sugar", "half cup butter", "two eggs", "one cup milk", "3 cups flour"]
    assert [line.words for line in card.lines] == things
    assert card.method == [["Bake in layers. 2 hrs. do."]]


def test_a_remark_under_the_title_stands_above_the_method(tables: Tables) -> None:
    card = read("Cookies\n(no bake)\n1 c. sugar\n2 eggs\n\nMix.\n", tables)
    assert (card.origin, card.method) == ([], [["(no bake)"], ["Mix."]])
    assert read("Jam\n(makes 6 pints)\n1 c. sugar\n2 lb plums\n\nMix.\n", tables).makes == "6 pints"


def test_how_much_may_stand_in_the_title(tables: Tables) -> None:
    card = read("Pie Crust (makes 2)\n\n3 c flour\n1 c lard\n", tables)
    assert (card.name, card.makes) == ("Pie Crust", "2")


def test_who_wrote_it_may_stand_at_the_foot(tables: Tables) -> None:
    assert read("Cake\n\n2 eggs\n1 c. milk\n\nBake.\n\n- Mrs. Ida Fox\n", tables).origin == ["Mrs. Ida Fox"]
    signed = "Cake\n\n2 eggs\n1 c. milk\n\nBake.\n\n       Mrs. Ida Fox\n       Oct. 1951\n"
    assert read(signed, tables).origin == ["Mrs. Ida Fox", "Oct. 1951"]
    assert read("Cake\n\n2 eggs\n1 c. milk\n\nBake.\nAunt Orla, 1938\n", tables).origin == ["Aunt Orla, 1938"]


@pytest.mark.parametrize(
    ("line", "serves", "makes", "method"),
    [
        ("Bake. Serves 6.", "6", "", [["Bake."]]),
        ("Bake.\nServes 8 - 10", "8-10", "", [["Bake."]]),
        ("Bake.\nServes: 12-15", "12-15", "", [["Bake."]]),
        ("Bake. Feeds 6 hungry or 8.", "6 hungry or 8", "", [["Bake."]]),
        ("Bake. Makes 10 pts. Keeps well.", "", "10 pts", [["Bake. Keeps well."]]),
        ("Yield: about 3 doz.\nBake.", "", "about 3 doz", [["Bake."]]),
        ("Makes abt. 5 doz.\nBake.", "", "about 5 doz", [["Bake."]]),
        ("YIELD: 100 Portions\nBake.", "100", "", [["Bake."]]),
        ("100 portions\nBake.", "100", "", [["Bake."]]),
        ("Bake. Makes a nice gift.", "", "", [["Bake. Makes a nice gift."]]),
        ("Serve 1/2 a trout each.", "", "", [["Serve 1/2 a trout each."]]),
        ("Serve w/ cream.", "", "", [["Serve w/ cream."]]),
    ],
)
def test_how_much_it_makes_is_taken_out_of_the_method(
    line: str, serves: str, makes: str, method: list[list[str]], tables: Tables
) -> None:
    card = read(f"Cake\n\n2 eggs\n1 c. milk\n\n{line}\n", tables)
    assert (card.serves, card.makes, card.method) == (serves, makes, method)


@pytest.mark.parametrize(
    ("lines", "things"),
    [
        (
            "1 c. sugar      2 eggs\n1 tsp. soda     1/2 c. milk",
            ["1 c. sugar", "2 eggs", "1 tsp. soda", "1/2 c. milk"],
        ),
        ("Beans, navy, dry . . . . 10 lb\nSalt ........ 1/3 cup", ["10 lb Beans, navy, dry", "1/3 cup Salt"]),
        ("Flour        2 cups\nLard         1/2 lb", ["2 cups Flour", "1/2 lb Lard"]),
        ("* 1 onion\n- 2 eggs\n• 1 c. milk", ["1 onion", "2 eggs", "1 c. milk"]),
        (
            "One teaspoon mustard,\nFew grains cayenne,\nYolks 2 eggs.",
            ["One teaspoon mustard", "Few grains cayenne", "Yolks 2 eggs"],
        ),
        ("1 tsp each cloves & cinnamon\n1 lb raisins", ["1 tsp cloves", "1 tsp cinnamon", "1 lb raisins"]),
        ("Flour, wheat     2 lb 8 oz     2 1/2 qt", ["2 lb 8 oz (2 1/2 qt) Flour, wheat"]),
        (
            "2 1/4 C. Sugar\n3/4 C. Evap. Milk\n1 C. Nuts",
            ["2 1/4 C. Sugar", "3/4 C. Evap. Milk", "1 C. Nuts"],
        ),
        (
            "a colander of nettles\nS & P\n1 onion\ncream if you have it\n1 qt. stock",
            ["a colander of nettles", "S & P", "1 onion", "cream if you have it", "1 qt. stock"],
        ),
        ("1) 4 trout\n2) 1/2 C corn meal\n3) salt & pepper", ["4 trout", "1/2 C corn meal", "salt & pepper"]),
        ("200-250 g mushrooms\n300 g flour", ["200-250 g mushrooms", "300 g flour"]),
        (
            "3 C flour  -  1 t salt  -  2 T b. powder\n1 goose, 6 - 8 lbs",
            ["3 C flour", "1 t salt", "2 T b. powder", "1 goose, 6 - 8 lbs"],
        ),
        ("1 c. sugar; 2 eggs\n1 lb lard", ["1 c. sugar", "2 eggs", "1 lb lard"]),
        (
            "2 tbls. each: allspice, cloves\n1 lb raisins",
            ["2 tbls. allspice", "2 tbls. cloves", "1 lb raisins"],
        ),
        ("Wild plums\nSugar", ["Wild plums", "Sugar"]),
        (
            "Pepper, black 1 tbsp\nYolks of 2 eggs\nCarrots, 4 large",
            ["Pepper, black 1 tbsp", "Yolks of 2 eggs", "Carrots, 4 large"],
        ),
        (
            "1 c. sugar, 2 eggs, 1 c. flour\n1 c. milk, 3 eggs\n2 T lard",
            ["1 c. sugar", "2 eggs", "1 c. flour", "1 c. milk", "3 eggs", "2 T lard"],
        ),
        (
            "3 onions, 2 sliced, 1 chopped\n1 goose, 8 lbs dressed\n2 eggs, 1 beaten",
            ["3 onions, 2 sliced, 1 chopped", "1 goose, 8 lbs dressed", "2 eggs, 1 beaten"],
        ),
        ("1 lb salt pork\nsalt to taste\n1 pkg. yeast", ["1 lb salt pork", "salt to taste", "1 pkg. yeast"]),
        (
            "2 lg. onions\nlard the size of an egg\n1 pt. milk",
            ["2 lg. onions", "lard the size of an egg", "1 pt. milk"],
        ),
    ],
)
def test_things_to_fetch_are_lines(lines: str, things: list[str], tables: Tables) -> None:
    card = read(f"Cake\n\n{lines}\n\nMix, bake 350 till done.\n", tables)
    assert [line.words for line in card.lines] == things
    assert card.method == [["Mix, bake 350 till done."]]


@pytest.mark.parametrize(
    "method",
    [
        "Mix, bake 350 till done",
        "375 - 30 min",
        "1. Mix it.\n2. Bake 1 hr.",
        "2 hours before dinner put it on.",
        "Salt the fish well and let it stand in the crock over night",
        "Boil 1 hr. Add 1 c. milk and\n2 c. water. Serve hot.",
    ],
)
def test_what_is_done_is_the_method_without_an_empty_line_before_it(method: str, tables: Tables) -> None:
    card = read(f"Cake\n2 c. flour\n1 egg\n{method}\n", tables)
    assert [line.words for line in card.lines] == ["2 c. flour", "1 egg"]
    assert card.method == [method.splitlines()]


def test_a_remark_above_the_lines_is_none_of_them(tables: Tables) -> None:
    card = read("Cake\n\nA very old cake for picnics.\n\nA cup of milk\n2 eggs\n\nBake.\n", tables)
    assert [line.words for line in card.lines] == ["A cup of milk", "2 eggs"]
    assert card.method == [["A very old cake for picnics."], ["Bake."]]


@pytest.mark.parametrize(
    ("line", "written"),
    [
        ("Mix, bake 350 till done", "Mix, bake 350 °F till done"),
        ("Bake 45 min. at 350.", "Bake 45 min. at 350 °F."),
        ("Roast 325, 3 to 4 hours", "Roast 325 °F, 3 to 4 hours"),
        ("Bake 1 hr at 350-375", "Bake 1 hr at 350-375 °F"),
        ("Drop by tsp. 375 - 10 min", "Drop by tsp. 375 °F - 10 min"),
        ("Bake in slow oven (275) 3 hrs", "Bake in slow oven (275 °F) 3 hrs"),
        ("Bake in greased 9x13 pan, 325° 45 min.", "Bake in greased 9x13 pan, 325° 45 min."),
        ("Bake at 350F", "Bake at 350F"),
        ("Bake 350 degrees", "Bake 350 degrees"),
        ("Bake 200 rolls", "Bake 200 rolls"),
        ("Bake in 400 g tins", "Bake in 400 g tins"),
        ("Bake for a crowd of 350", "Bake for a crowd of 350"),
        ("Grind. 250-300 nuts do.", "Grind. 250-300 nuts do."),
        ("Feeds a crowd of 350", "Feeds a crowd of 350"),
    ],
)
def test_the_heat_of_an_oven_gets_its_sign_in_a_book_of_us_units(
    line: str, written: str, tables: Tables
) -> None:
    card = f"Cake\n\n2 eggs\n1 c. milk\n\n{line}\n"
    assert draft(card, tables).text.endswith(f"---\n\n{written}\n")
    metric = Reading(config=BookConfig(title="Book", units="metric"), tables=tables)
    found = draft_recipe("x", "x", card, metric)
    assert found is not None
    assert found.text.endswith(f"---\n\n{line}\n"), "there it may be either"


def test_titles_of_groups_stay(tables: Tables) -> None:
    lines = front(
        "Pie\n\nCrust:\n2 c. flour\n1 egg\n\nFor the filling:\n3 apples\n\nBake. Serves 6\n", tables
    )
    assert lines == [
        *("name: Pie", "serves: 6", "ingredients:", "  Crust:", "    - 2 c. flour", "    - 1 egg"),
        *("  For the filling:", "    - 3 apples"),
    ]


def test_titles_of_groups_may_lack_their_colon_and_have_a_number(tables: Tables) -> None:
    lines = front("Pie\n\nFilling\n1 rabbit\n\nPie Crust\n2 c. flour\n\nBake. Serves 6\n", tables)
    assert lines[3:] == ["  Filling:", "    - 1 rabbit", "  Pie Crust:", "    - 2 c. flour"]
    lines = front("Buns\n\nDay 1:\n1 pkg yeast\nDay 2:\n8 c. flour\n\nBake. Serves 6\n", tables)
    assert lines[3:] == ["  Day 1:", "    - 1 pkg yeast", "  Day 2:", "    - 8 c. flour"]


def test_what_stands_in_two_groups_is_named_apart(tables: Tables) -> None:
    text = "Pie\n\nFilling:\n1 rabbit\n1 tsp. salt\n\nCrust:\n2 c. flour\n1/2 tsp. salt, sifted\n\nBake. Serves 6\n"
    assert front(text, tables)[3:] == [
        *("  Filling:", "    - 1 rabbit", "    - 1 tsp. salt"),
        *("  Crust:", "    - 2 c. flour", "    - 1/2 tsp. salt for the crust, sifted"),
    ]
    text = "Buns\n\nDay 1:\n1 c. warm water\nDay 2:\n2 c. warm water\n\nBake. Serves 6\n"
    assert front(text, tables)[-1] == "    - 2 c. warm water for Day 2"
    (asked,) = draft("Buns\n\n1 c. milk\n8 c. flour\n2 c. milk\n\nBake. Serves 6\n", tables).questions
    assert asked.startswith('"2 c. milk": ')


def test_what_cannot_be_read_is_asked_where_its_answer_goes(tables: Tables) -> None:
    lines = front("Cake\n\n2 eggs\n2 lb 3 cups flour\n1 c. milk\n\nBake.\n", tables)
    assert lines[:4] == [
        "name: Cake",
        "# ? serves: How many does it feed? Write serves: 6, or makes: 4 pints.",
        "ingredients:",
        "  - 2 eggs",
    ]
    assert lines[4].startswith('  # ? "2 lb 3 cups flour": ')
    assert lines[5:] == ["  - 1 c. milk"]


def test_a_card_without_lines_and_a_recipe_without_a_card_ask_for_them(tables: Tables) -> None:
    asked = [
        "# ? serves: How many does it feed? Write serves: 6, or makes: 4 pints.",
        "  # ? ingredients: Which things does it take? Write one a line, each with a dash: - 2 cups flour.",
    ]
    assert front("Stew\n\nStew it long.\n", tables) == ["name: Stew", *asked]
    empty = draft_recipe("Pork cake", "pork-cake", None, context_of(tables))
    assert empty is not None
    assert empty.text == "\n".join(["---", "name: Pork cake", *asked, "---", ""])


def test_nitrate_is_never_put_into_place(tables: Tables) -> None:
    lines = front(HAM, tables)
    assert lines[:3] == [
        "name: Ham Cure",
        "from: Mrs. Ida Fox",
        "# ? serves: How many does it feed? Write serves: 6, or makes: 4 pints.",
    ]
    assert lines[3].startswith('# ? cure: "2 oz. saltpeter" is never put into place as it stands')
    assert lines[4:] == [
        "# meat: 20 lbs. pork ham",
        *("# cure:", "#   method: dry", "#   salt: 1 1/2 lb.", "#   sugar: 1/2 lb brown sugar"),
        *("#   nitrate: 2 oz. potassium nitrate", "ingredients:", "  - 1 T. pepper"),
    ]


def test_lines_of_the_cure_are_read_once_the_signs_are_taken_away(tables: Tables) -> None:
    answered = re.sub(r"^# (?!\?)", "", draft(HAM, tables).text, flags=re.MULTILINE)
    answered = re.sub(r"^# \? .*\n", "", answered, flags=re.MULTILINE).replace("from:", "serves: 20\nfrom:")
    log = ProblemLog()
    source = split_front_matter(answered, "recipes/ham.md", log)
    assert source is not None
    recipe = read_recipe(source, "ham", context_of(tables), log)
    assert list(log) == []
    assert recipe is not None
    assert recipe.cure is not None
    assert recipe.cure.nitrate_kind == "potassium nitrate"


@pytest.mark.parametrize(
    ("line", "written"),
    [
        ("1 oz. cure #1", ["  curing salt: 1 oz.", "  kind of curing salt: no. 1"]),
        ("2 tbsp. pink salt", ["  curing salt: 2 tbsp.", "  kind of curing salt:"]),
        ("2 T. pink salt", ["  curing salt:", "  kind of curing salt:"]),  # a T that may be a t is asked
        ("1 tsp. sodium nitrite", ["  curing salt: 1 tsp.", "  kind of curing salt: sodium nitrite"]),
    ],
)
def test_each_kind_has_its_lines(line: str, written: list[str], tables: Tables) -> None:
    found = draft(f"Ham\n\n20 lb ham\n1 gal. water\n{line}\n1 qt. salt\n\nLay in.\n", tables)
    assert [one for one in found.cure if "curing salt" in one] == written
    assert "  water: 1 gal." in found.cure
    assert f"- {line}" not in found.text


@pytest.mark.parametrize(
    ("method", "kept", "asked"),
    [
        (
            "Cut up. Rub with 2 oz. saltpeter and\na qt. of salt. Smoke.",
            "Cut up. Smoke.",
            "Rub with 2 oz. saltpeter and a qt. of salt.",
        ),
        ("Cut up. Use no saltpeter at all, 3 lb of salt do.", "", ""),
        ("The saltpeter goes in last. Smoke.", "", ""),
    ],
)
def test_a_dose_of_the_method_is_asked_too(method: str, kept: str, asked: str, tables: Tables) -> None:
    found = draft(f"Ham\n\n20 lb ham\n1 T. pepper\n\n{method}\n", tables)
    assert found.text.endswith(f"---\n\n{kept or method}\n")
    doses = [question for question in found.questions if question.startswith("cure:")]
    assert len(doses) == bool(asked)
    assert all(f'"{asked}"' in dose for dose in doses)
    assert ("  nitrate: potassium nitrate" in found.cure) is bool(asked)


def test_onion_salt_is_not_the_salt_of_a_cure(tables: Tables) -> None:
    found = draft(
        "Jerky\n\n3 lb venison\n2 tsp onion salt\n1 tsp hickory smoke salt\n1 tsp cure #1\n\nLay in.\n",
        tables,
    )
    assert "  salt:" in found.cure
    assert "  - 2 tsp onion salt" in found.text


def test_several_meats_are_a_list_and_none_is_to_be_told(tables: Tables) -> None:
    two = draft("Sausage\n\n8 lb deer trim\n2 lb pork butt\n2 tsp cure #1\n\nGrind.\n", tables)
    assert two.cure[:3] == ("meat:", "  - 8 lb deer trim", "  - 2 lb pork butt")
    none = draft("Cure\n\n5 lb salt\n2 oz cure #1\n\nMix.\n", tables)
    assert none.cure[:3] == ("meat:", "  animal:", "  weight:")


def test_what_is_no_food_gets_no_lines(tables: Tables) -> None:
    found = draft("Ham\n\n20 lb ham\n1 oz stump remover\n\nLay in.\n", tables)
    assert found.cure == ()
    assert any(one.startswith('cure: "1 oz stump remover" is no food.') for one in found.questions)


@pytest.mark.parametrize("line", ["1 tsp sea salt", "1 lb bacon, no nitrite", "2 stalks celery"])
def test_other_salt_is_in_place(line: str, tables: Tables) -> None:
    assert f"  - {line}" in front(f"Soup\n\n{line}\n1 onion\n\nBoil.\n", tables)


@pytest.mark.parametrize("path", CARDS, ids=lambda path: path.stem)
def test_no_word_of_a_card_is_lost(path: Path, tables: Tables) -> None:
    text = path.read_text(encoding="utf-8")
    taken = {"from", "feeds", "serves", "portions", "each"}
    "Said by the keys, and by a line for each."
    assert words(text) - words(draft(text, tables).text) <= taken


def words(text: str) -> set[str]:
    return {word.strip("'") for word in re.findall(r"[\w/']+", text.lower())}


@settings(max_examples=60)
@given(st.text(alphabet=st.sampled_from("aB1 2½c.,:;#'\"-*_[]{}()&!|>%@`~?\\<=+\n\n°/"), max_size=160))
def test_any_text_becomes_a_file_that_yaml_and_markdown_leave_alone(text: str) -> None:
    found = draft_recipe("x", "x", text, CONTEXT)
    if found is None:
        return
    log = ProblemLog()
    source = split_front_matter(found.text, "recipes/x.md", log)
    assert source is not None
    read_recipe(source, "x", CONTEXT, log)
    assert [one for one in log if one.is_error] == []
