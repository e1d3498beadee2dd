"""A small book and its guests as the tests of gatherings need them, by the program's own readers."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from fractions import Fraction
from pathlib import Path

from generator.compute import Kitchen
from generator.model.book import Book
from generator.model.gathering import Dish, Gathering, Guests, Invited, OnHand
from generator.model.recipe import Body, Link
from generator.problems import Position, ProblemLog
from generator.read import read_book
from generator.read.grammar import Grammar
from generator.read.ingredient_line import parse_ingredient
from generator.read.text import Text
from generator.resolve import resolve_book
from generator.tables import Tables

HERE = Position("gatherings/supper.md")
FRONT = "---\nname: {name}\nchapter: Pots\n{rest}\n---\n\n{method}\n"


def recipe(name: str, rest: str, method: str = "Cook it.") -> str:
    """The text of a recipe's file."""
    return FRONT.format(name=name, rest=rest.strip(), method=method)


def book_of(folder: Path, recipes: dict[str, str], kitchen: Kitchen) -> Book:
    """A book of recipes by slug; a mistake in it fails the test."""
    (folder / "recipes").mkdir(parents=True)
    (folder / "book.yaml").write_text("title: A tiny book\nchapters: [Pots]\n", encoding="utf-8")
    for slug, text in recipes.items():
        (folder / f"recipes/{slug}.md").write_text(text, encoding="utf-8")
    log = ProblemLog()
    manuscript = read_book(folder, kitchen.tables, log)
    assert manuscript is not None
    book = resolve_book(manuscript, log)
    assert not log.has_errors, log.sorted()
    return book


def invite(
    *dishes: tuple[str, str],
    adults: int = 8,
    children: int = 0,
    whole_batches: bool = False,
    components: dict[str, str] | None = None,
    on_hand: tuple[str, ...] = (),
    tables: Tables,
) -> Invited:
    """Dishes as (slug, '24 servings') or (slug, '1/2') of the guests; components by batches; lines on hand."""
    found = tuple((_dish(slug, said), slug) for slug, said in dishes)
    lines = tuple(on_hand_line(line, tables) for line in on_hand)
    some = OnHand(line=on_hand_line("1 thing", tables).line)
    there = tuple((some, slug, Fraction(said)) for slug, said in (components or {}).items())
    gathering = Gathering(
        slug="supper",
        file=HERE.file,
        name="Supper",
        summary="",
        serve_at=datetime(2026, 12, 5, 17, 30),
        work_from=None,
        guests=Guests(adults=adults, children=children),
        dishes=tuple(dish for dish, _ in found),
        on_hand=lines,
        whole_batches=whole_batches,
        body=Body(text="", first_line=1),
        position=HERE,
    )
    return Invited(gathering=gathering, dishes=found, components=there, ingredients=lines)


def _dish(slug: str, said: str) -> Dish:
    number, _, word = said.partition(" ")
    told = Fraction(number)
    return Dish(
        link=Link(text=slug, target=f"../recipes/{slug}.md", position=HERE),
        servings=told if word else None,
        share=None if word else told,
    )


def on_hand_line(line: str, tables: Tables) -> OnHand:
    """An ingredient line by the reader of ingredient lines."""
    text = Text(value=line, file=HERE.file, lines=(line,), first_line=1, start=(0, 0))
    return OnHand(line=parse_ingredient(text, Grammar(system="us", language="en", tables=tables)))


def with_more(invited: Invited, *, adults: int) -> Invited:
    """The same gathering for other guests."""
    return replace(
        invited, gathering=replace(invited.gathering, guests=Guests(adults=adults)), dishes=invited.dishes
    )
