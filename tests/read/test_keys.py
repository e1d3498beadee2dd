"""Each key is one entry beside the field that it fills: read, told in words, shown by an example, and in the README."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import MISSING, fields
from typing import Any

import pytest

from generator.model.book import BookConfig
from generator.model.recipe import Recipe
from generator.problems import ProblemLog
from generator.read.config import BOOK, BOOK_FILE_KEYS, KITCHEN, read_config
from generator.read.cure_keys import CURE, PUMP_BRINE
from generator.read.gathering import GATHERING, GUESTS, read_gathering
from generator.read.keys import Behind, Block, Key
from generator.read.recipe import KEEP, MEAT, PAGE, RECIPE, read_page, read_recipe
from generator.read.record import Reading
from generator.read.shapes import INSTEAD, LATER
from generator.read.source import split_front_matter
from generator.tables import Tables
from tests.gaps import GENERATOR, TEMPLATES, names_shown, names_taken
from tests.read.gaps import KeyPlaces, key_gaps
from tests.readme_keys import README, written

WITH_KEYS = (Behind.BLOCK, Behind.TEXT_OR_BLOCK, Behind.PIECES)
"What may have keys of its own."
OF_A_LINE = {"called", "preparation"}
"Fields of a meat that only its line fills."
OF_THE_FILE = {"slug", "file", "body", "position"}
BLOCKS: dict[str, tuple[Block[Any], set[str], str]] = {
    "a recipe": (RECIPE, OF_THE_FILE | {"read_course", "questions", "holes"}, ""),
    "meat": (MEAT, {"position", *OF_A_LINE}, " of `meat`"),
    "cure": (CURE, {"position"}, " of `cure`"),
    "pump brine": (PUMP_BRINE, {"position"}, " of `pump brine`"),
    "a gathering": (GATHERING, OF_THE_FILE, ""),
    "guests": (GUESTS, set(), " of `guests`"),
    "a page": (PAGE, OF_THE_FILE, ""),
    "book.yaml": (BOOK, {"file", "capacity"}, ""),
    "the kitchen": (KITCHEN, set(), ""),
}
"Each block, the fields of its record that no key fills, and what stands behind the name of a key in the README."


def test_the_tables_of_the_readme_are_what_the_entries_write() -> None:
    """Where this fails, `python -m tests.readme_keys` writes them anew."""
    readme = README.read_text(encoding="utf-8")
    assert readme == written(readme)


@pytest.mark.parametrize(("block", "others", "above"), BLOCKS.values(), ids=BLOCKS)
def test_every_key_stands_wherever_it_is_needed(block: Block[Any], others: set[str], above: str) -> None:
    behind = [file for file in GENERATOR.rglob("*.py") if file.parent.name != "read"]
    taken = names_taken(*behind, GENERATOR / "read/book.py") | names_shown(*TEMPLATES)
    readme = README.read_text(encoding="utf-8")
    assert key_gaps(KeyPlaces(block=block, others=others, above=above, readme=readme, taken=taken)) == []


def test_places_to_keep_are_what_the_record_says() -> None:
    assert KEEP.names == ("fridge", "freezer", "shelf")


def _all(block: Block[Any]) -> Iterator[Key]:
    for key in block.keys:
        yield key
        if key.inner:
            yield from _all(key.inner)


EVERY = {key.name: key for block in (RECIPE, GATHERING, PAGE, BOOK_FILE_KEYS) for key in _all(block)}


@pytest.mark.parametrize("key", EVERY.values(), ids=EVERY)
def test_keys_of_its_own_and_a_closed_list_fit_what_a_key_takes(key: Key) -> None:
    assert (key.inner is not None) is (key.behind in WITH_KEYS)
    assert not key.choices or key.example in key.choices


def test_hints_beside_the_entries_name_keys_that_are_not_there() -> None:
    assert not {*INSTEAD, *LATER} & EVERY.keys()


def yaml_of(block: Block[Any], *, indent: str = "") -> str:
    """A front matter in which every key has its example."""
    return "".join(f"{indent}{key.name}:{_behind(key, indent + '  ')}" for key in block.keys)


def _behind(key: Key, indent: str) -> str:
    if key.behind in WITH_KEYS:
        assert key.inner is not None
        return "\n" + yaml_of(key.inner, indent=indent)
    if key.behind is Behind.TEXT:
        return f" {key.example}\n"
    return f"\n{indent}{'' if key.behind is Behind.MAPPING else '- '}{key.example}\n"


def changed(record: Any) -> Iterator[str]:
    """The fields of a record that do not hold their default."""
    for field in fields(record):
        made = field.default_factory() if field.default_factory is not MISSING else field.default
        if getattr(record, field.name) != made:
            yield field.name


def test_examples_of_a_recipe_are_read_and_fill_every_field(tables: Tables) -> None:
    recipe, log = _read_recipe(yaml_of(RECIPE), tables)
    assert recipe is not None, list(log)
    assert list(log) == []
    assert recipe.meat is not None
    assert recipe.cure is not None
    assert recipe.cure.pump_brine is not None
    assert recipe.read_course is None, "it has a course"
    assert recipe.questions == ()
    assert recipe.serves_most is None, "of a range alone"
    assert recipe.holes == (), "everything is read"
    for record in (recipe, recipe.meat, recipe.cure, recipe.cure.pump_brine):
        assert set(changed(record)) | {"read_course", "questions", "holes", "serves_most", *OF_A_LINE} >= {
            field.name for field in fields(record)
        }
    assert [kept.place for kept in recipe.keep] == ["fridge", "freezer", "shelf"]


def test_examples_of_a_gathering_and_of_a_page_are_read_and_fill_every_field(tables: Tables) -> None:
    log, context = ProblemLog(), Reading(config=BookConfig(title="Book"), tables=tables)
    for block, read in ((GATHERING, read_gathering), (PAGE, read_page)):
        source = split_front_matter(f"---\n{yaml_of(block)}---\n", "x/feast.md", log)
        assert source is not None
        record = read(source, "feast", context, log)
        assert list(log) == []
        assert set(changed(record)) == {field.name for field in fields(record)}  # type: ignore[arg-type]


def test_examples_of_book_yaml_are_read_and_fill_every_field(tables: Tables) -> None:
    log = ProblemLog()
    config = read_config(yaml_of(BOOK_FILE_KEYS), "book.yaml", tables, log)
    assert list(log) == []
    assert set(changed(config)) == {field.name for field in fields(config)} - {"file"}
    assert set(changed(config.capacity)) == {field.name for field in fields(config.capacity)}
    assert [weight.name for weight in config.house_weights] == ["acorn flour", "dense-flake salt"]


@pytest.mark.parametrize("name", ["name", "animal", "method", "water"])
def test_hint_of_a_missing_key_is_a_line_that_mends_it(name: str, tables: Tables) -> None:
    """The first line that the hint names, put where the key is missing. `water` is that of the pump brine."""
    key = next(key for key in _all(RECIPE) if key.name == name and key.required)
    line, whole = f"{name}: {key.example}\n", yaml_of(RECIPE)
    assert whole.count(line) == 1
    _, log = _read_recipe(whole.replace(line, "\n"), tables)
    (problem,) = [one for one in log if one.slug == "missing-key"]
    mended = problem.hint.removeprefix("Add ").removesuffix(".").split(", or ")[0]
    recipe, log = _read_recipe(whole.replace(line, f"{mended}\n"), tables)
    assert recipe is not None
    assert list(log) == []


def _read_recipe(front: str, tables: Tables) -> tuple[Recipe | None, ProblemLog]:
    log, context = ProblemLog(), Reading(config=BookConfig(title="Book"), tables=tables)
    source = split_front_matter(f"---\n{front}---\n", "recipes/dish.md", log)
    assert source is not None
    return read_recipe(source, "dish", context, log), log
