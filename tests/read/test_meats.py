"""`meat:` as a line, as keys, and as a list of either; what it is read as, and what is asked about it.

Weights: 1 lb is 453.59237 g by definition (NIST Handbook 44, appendix C).
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from generator.model.quantity import Dimension
from generator.model.recipe import Meat, Recipe
from generator.problems import ProblemLog

ReadRecipe = Callable[..., tuple[Recipe | None, ProblemLog]]

LB = Fraction("453.59237")
DISH = "---\nname: Sausage\nserves: 6\n{meat}{more}---\n\n{method}\n"


def grams(meat: Meat) -> Fraction | None:
    total = None if meat.weight is None else meat.weight.total(Dimension.WEIGHT)
    return None if total is None else total.high


@pytest.fixture
def read(read_text_of_recipe: ReadRecipe) -> Callable[..., tuple[Recipe | None, ProblemLog]]:
    def one(meat: str, more: str = "", method: str = "Grind it.") -> tuple[Recipe | None, ProblemLog]:
        return read_text_of_recipe(DISH.format(meat=meat, more=more, method=method))

    return one


@pytest.fixture
def meats(read: Callable[..., tuple[Recipe | None, ProblemLog]]) -> Callable[[str], tuple[Meat, ...]]:
    def of(text: str) -> tuple[Meat, ...]:
        recipe, log = read(text)
        assert recipe is not None, list(log)
        assert list(log) == []
        return recipe.meats

    return of


LINES = (
    ("8 lb deer trim", "deer", "trim", 8 * LB, None),
    ("2 lb pork back fat", "pork", "back fat", 2 * LB, None),
    ("2 lb back fat", "pork", "back fat", 2 * LB, None),
    ("3 lb venison", "deer", "", 3 * LB, None),
    ("3 lb of moose meat", "moose", "", 3 * LB, None),
    ("4 elk fore shanks (5 lb)", "elk", "fore shanks", 5 * LB, 4),
    ("2 kg wild boar shoulder, boned", "wild boar", "shoulder", Fraction(2000), None),
    ("1 whole goose", "goose", "whole", None, 1),
)
"A line, its animal, its cut, its weight [g] and its pieces. Source: what the words say."


@pytest.mark.parametrize(("line", "animal", "cut", "weight", "pieces"), LINES, ids=[one[0] for one in LINES])
def test_a_line_is_a_meat(
    meats: Callable[[str], tuple[Meat, ...]],
    line: str,
    animal: str,
    cut: str,
    weight: Fraction | None,
    pieces: int | None,
) -> None:
    for text in (f"meat: {line}\n", f"meat:\n  - {line}\n"):
        (meat,) = meats(text)
        assert (meat.animal, meat.cut, grams(meat), meat.pieces) == (animal, cut, weight, pieces)


SAID = (
    ("2 lb pork shoulder, bone in", {"bone": "in"}),
    ("2 lb boneless pork shoulder", {"bone": "out"}),
    ("2 lb pork belly, skin on", {"skin": "on"}),
    ("2 lb pork belly, skin off", {"skin": "off"}),
    ("2 lb ground beef", {"form": "ground"}),
    ("2 lb elk round, sliced", {"form": "sliced"}),
    ("2 lb farmed venison", {"source": "farmed"}),
    ("2 lb wild duck breast", {"source": "wild"}),
    ("2 lb farmed javelina roast", {"source": None}),
)
"What a carrier of Trichinella was fed takes nothing from it (the rule of wild pig in ingredient lines)."


@pytest.mark.parametrize(("line", "keys"), SAID, ids=[one[0] for one in SAID])
def test_words_of_a_line_say_what_keys_say(
    meats: Callable[[str], tuple[Meat, ...]], line: str, keys: dict[str, str | None]
) -> None:
    (meat,) = meats(f"meat: {line}\n")
    told = ("bone", "skin", "form", "source")
    assert {key: getattr(meat, key) for key in told if getattr(meat, key) is not None} == {
        key: state for key, state in keys.items() if state is not None
    }
    name, _, rest = line.partition(", ")
    assert (meat.name, meat.preparation) == (name.removeprefix("2 lb "), rest), "no word is dropped"


def test_lines_and_keys_stand_in_one_list(meats: Callable[[str], tuple[Meat, ...]]) -> None:
    text = (
        "meat:\n  - 6 lb deer trim\n  - {animal: pork, cut: shoulder, weight: 2 lb}\n"
        "  - animal: pork\n    cut: back fat\n    weight: 2 lb  # no skin on it\n"
    )
    found = meats(text)
    assert [meat.name for meat in found] == ["deer trim", "pork shoulder", "pork back fat"]
    assert [meat.id for meat in found] == ["deer-trim", "pork-shoulder", "pork-back-fat"]
    assert [grams(meat) for meat in found] == [6 * LB, 2 * LB, 2 * LB]


def test_one_meat_in_keys_is_what_it_was(meats: Callable[[str], tuple[Meat, ...]]) -> None:
    (meat,) = meats("meat:\n  animal: elk\n  cut: fore shank\n  weight: 5 lb\n  pieces: 4\n")
    assert (meat.name, meat.pieces, grams(meat)) == ("elk fore shank", 4, 5 * LB)


MISTAKES = (
    ("- 2 lb trim", "unknown-animal", "names no animal", "2 lb deer trim"),
    ("- 2 lb zebu hump", "unknown-animal", "names no animal", "2 lb deer zebu hump"),
    ("- 2 lb venison and pork trim", "wrong-value", "venison and pork", "a line for each"),
    ("- 2 cups ground venison", "wrong-dimension", "is no weight", "2 lb ground venison"),
    ("- 2-3 lb deer trim", "wrong-value", "is a range", "3 lb deer trim"),
    ("- 2 lb deer trim (fixed)", "wrong-value", "scaled by", "Leave '(fixed)' out"),
    ("- 2 lb [shank](smoked-shank.md)", "wrong-value", "another recipe", "- 2 lb [shank](smoked-shank.md)"),
    ("- 2 lb deer trim\n  - 1 lb deer trim", "same-id", "stands in line", "Add the two weights"),
    ("- 2 lb deer trim\n    1 lb pork fat", "yaml-not-text", "joins this line", "Begin it with"),
    ("- 2 lb deer: trim", "yaml-not-text", "takes '2 lb deer:' for a key", "'2 lb deer: trim'"),
    ("- {animal: pork, cutt: belly}", "unknown-key", "'cutt' is not a key", "'cut'"),
    ("- cut: belly", "missing-key", "'animal' is missing", "animal: elk"),
    ("- 2 lb deer trim # frozen", "yaml-comment", "as a comment", "'2 lb deer trim # frozen'"),
)


@pytest.mark.parametrize(("items", "slug", "message", "hint"), MISTAKES, ids=[one[0] for one in MISTAKES])
def test_what_has_no_one_meaning_is_asked(
    read: Callable[..., tuple[Recipe | None, ProblemLog]], items: str, slug: str, message: str, hint: str
) -> None:
    _, log = read(f"meat:\n  {items}\n")
    (problem,) = log.sorted()
    assert problem.slug == slug
    assert message in problem.message
    assert hint in problem.hint


MENDED = (
    ("- 2 lb trim", "- 2 lb deer trim"),
    ("- 2 cups ground venison", "- 2 lb ground venison"),
    ("- 2-3 lb deer trim", "- 3 lb deer trim"),
    ("- 2 lb deer: trim", "- '2 lb deer trim'"),
)


@pytest.mark.parametrize(("items", "mended"), MENDED, ids=[one[0] for one in MENDED])
def test_the_hint_to_the_letter_makes_it_go_away(
    read: Callable[..., tuple[Recipe | None, ProblemLog]], items: str, mended: str
) -> None:
    recipe, log = read(f"meat:\n  {mended}\n")
    assert recipe is not None, items
    assert list(log) == []


AGAIN = (
    ("venison trim", True),
    ("deer trimmings", True),
    ("8 lb trimmed venison trim", True),
    ("boneless pork shoulder", True),
    ("pork back fat", True),
    ("elk trim", False),
    ("venison shoulder", False),
    ("pork loin", False),
    ("deer tallow", False),
)


@pytest.mark.parametrize(("line", "is_again"), AGAIN, ids=[one[0] for one in AGAIN])
def test_a_meat_listed_again_under_any_of_its_names_counts_once(
    read: Callable[..., tuple[Recipe | None, ProblemLog]], line: str, is_again: bool
) -> None:
    meat = "meat:\n  - 8 lb deer trim\n  - 2 lb pork shoulder\n  - 2 lb pork back fat\n"
    recipe, log = read(meat, f"ingredients:\n  - {line if line[0].isdigit() else f'8 lb {line}'}\n")
    assert recipe is not None
    assert [one.slug for one in log] == (["meat-listed-again"] if is_again else [])
    assert len(recipe.ingredients) == (0 if is_again else 1)


@pytest.mark.parametrize(
    ("lines", "is_asked"),
    [
        ("  - 8 lb venison trim\n", False),
        ("  - 3.6 kg venison trim\n", False),
        ("  - 4 lb venison trim\n  - 4 lb deer trimmings, frozen\n", False),
        ("  - venison trim\n", False),
        ("  - 9 lb venison trim\n", True),
        ("  - 4 lb venison trim\n", True),
    ],
)
def test_a_meat_listed_again_at_another_weight_is_asked_which_is_right(
    read: Callable[..., tuple[Recipe | None, ProblemLog]], lines: str, is_asked: bool
) -> None:
    recipe, log = read("meat: 8 lb deer trim\n", f"ingredients:\n{lines}")
    assert recipe is not None
    assert recipe.ingredients == ()
    assert {one.slug for one in log} == {"meat-listed-again"}
    assert all(("as the 8 lb" in one.message) is is_asked for one in log)
    assert all(("put the right weight there" in one.hint) is is_asked for one in log)


def test_the_body_names_all_the_meat_or_one_of_it(
    read: Callable[..., tuple[Recipe | None, ProblemLog]],
) -> None:
    text = "Grind [all of it](#meat), the [trim](#deer-trim) first."
    recipe, log = read("meat:\n  - 8 lb deer trim\n  - 2 lb pork fat\n", method=text)
    assert recipe is not None
    assert list(log) == []
    _, log = read("meat:\n  - 8 lb deer trim\n  - 2 lb pork fat\n", method="The [fat](#elk-fat).")
    assert [one.slug for one in log] == ["unknown-ingredient"]
