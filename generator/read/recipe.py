"""One file of `recipes/` or `pages/` in, a Recipe or a PlainPage out; None where the file has an error."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.model.book import BookConfig
from generator.model.quantity import Dimension, Quantity
from generator.model.recipe import Cure, Ingredient, Keep, Makes, Meat, PlainPage, Recipe
from generator.problems import ProblemLog
from generator.read.accept import read_accept
from generator.read.body import NOTHING_KNOWN, Known, read_body
from generator.read.front_matter import read_front_matter
from generator.read.grammar import Grammar
from generator.read.lines import read_course, read_ingredients
from generator.read.meat import read_cure, read_meat
from generator.read.number import AmountError, plain, unreadable
from generator.read.quantity import read_amount, take_alternative
from generator.read.shapes import PageShape, RecipeShape, check_shape
from generator.read.source import Source
from generator.read.text import FrontMatter
from generator.read.time import MINUTES_A_DAY, parse_kept
from generator.read.values import Values
from generator.tables import Tables

PLACES_TO_KEEP = ("fridge", "freezer", "shelf")


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """What the files of one book are read with."""

    config: BookConfig
    tables: Tables

    @property
    def grammar(self) -> Grammar:
        """How amounts are written in this book."""
        return Grammar(
            system=self.config.units,
            language=self.config.language,
            tables=self.tables,
            own_weights=frozenset(weight.name.lower() for weight in self.config.house_weights),
        )


def read_recipe(source: Source, slug: str, context: Context, log: ProblemLog) -> Recipe | None:
    """The recipe of a file; None, and every problem noted, where something in it is an error."""
    own = ProblemLog()
    recipe = _read_recipe(source, slug, context, own)
    log.extend(own)
    return None if own.has_errors else recipe


def _read_recipe(source: Source, slug: str, context: Context, log: ProblemLog) -> Recipe | None:
    found = read_front_matter(source.front, source.front_line, source.file, log)
    if found is None:
        return None
    check_shape(RecipeShape, found, log)
    values = Values(found, context.grammar, log)
    meat = read_meat(values)
    cure = read_cure(values, context.config.curing_salts)
    ingredients = read_ingredients(values, meat, has_cure=cure is not None)
    makes, serves = values.read(lambda text: _makes(text, values), "makes"), _serves(values)
    values.warn_disagreement(makes.quantity if makes else None, found.text("makes"))
    known = _known(ingredients, meat, cure)
    chapter = found.text("chapter")
    return Recipe(
        slug=slug,
        file=source.file,
        name=values.words("name"),
        summary=values.words("summary"),
        makes=makes,
        serves=serves,
        chapter=values.words("chapter"),
        chapter_position=chapter.position if chapter else None,
        tags=_tags(values),
        meat=meat,
        cure=cure,
        ingredients=ingredients,
        stages=read_course(values),
        eat_after_cooking=values.one_of(("after cooking",), "eat") is not None,
        keep=_keep(values),
        accept=read_accept(values),
        draft=bool(values.yes_no("draft")),
        body=read_body(source, known, context.grammar, log),
        position=found.start,
    )


def _serves(values: Values) -> Fraction | None:
    """How many a dish serves; a recipe says that, or what it makes, or both."""
    found = values.found
    if found.text("serves") is None and found.text("makes") is None:
        values.log.add(
            "missing-key",
            found.start,
            "Neither 'serves' nor 'makes' is there.",
            "Add serves: 6, or makes: 4 shanks (3 1/2 lb).",
        )
    return values.number("Write one number: serves: 6.", "serves")


def _makes(text: str, values: Values) -> Makes:
    """`4 shanks (3 1/2 lb)`, `2 qt broth`: an amount, what it is an amount of, and its weight."""
    grammar = values.grammar
    found = read_amount(text, 0, grammar)
    if found is None or found[0].is_vague:
        raise unreadable(f"'{text}' has no amount.", "Write an amount and what: 4 shanks (3 1/2 lb).", 0)
    quantity, end = found
    start = end + len(text[end:]) - len(text[end:].lstrip())
    taken, noun = take_alternative(quantity, text[start:].strip(), start, grammar)
    quantity, noun = taken or quantity, noun.removeprefix("of ").strip()
    if any(sign.isdigit() for sign in plain(noun)) or "(" in noun:
        raise unreadable(
            f"'{noun}' behind the amount cannot be read.",
            "Put the weight in brackets: 4 shanks (3 1/2 lb).",
            start,
        )
    near = grammar.near_unit(noun) if quantity.dimension is Dimension.COUNT else ""
    if near:
        raise AmountError("unknown-unit", f"'{noun}' is not a unit.", f"Did you mean '{near}'?", start)
    _refuse_time(quantity)
    position = values.found.place("makes")
    return Makes(quantity=quantity, noun=noun, position=position)


def _refuse_time(quantity: Quantity) -> None:
    if quantity.dimension in (Dimension.TIME, Dimension.LENGTH):
        raise AmountError(
            "wrong-dimension", f"'{quantity.written}' is not a count, a weight or a volume.", "Write 3 lb.", 0
        )


def _tags(values: Values) -> tuple[str, ...]:
    paths = [path for path in values.found.texts if path[0] == "tags" and len(path) == 2]
    return tuple(dict.fromkeys(values.words(*path) for path in paths))


def _keep(values: Values) -> tuple[Keep, ...]:
    """How long it keeps, in the order of the file."""
    kept = []
    for path, text in values.found.texts.items():
        if path[0] != "keep" or len(path) != 2 or path[1] not in PLACES_TO_KEEP:
            continue
        read = values.read(lambda value: parse_kept(value, values.grammar), *path)
        if read is not None:
            minutes, at = read
            days = minutes.times(Fraction(1, MINUTES_A_DAY))
            place, position = str(path[1]), text.position
            kept.append(Keep(place=place, days=days, written=text.value, position=position, at=at))
    return tuple(kept)


def _known(ingredients: tuple[Ingredient, ...], meat: Meat | None, cure: Cure | None) -> Known:
    """The ids and names that a body can use."""
    amounts = {line.id: line.quantity is not None and not line.quantity.is_vague for line in ingredients}
    names = {line.name: line.id for line in ingredients}
    if meat:
        amounts["meat"] = meat.weight is not None
        names |= {meat.cut or meat.animal_written: "meat"}
    if cure:
        parts = {"water": cure.water, "salt": cure.salt, "sugar": cure.sugar, "curing-salt": cure.curing_salt}
        for id, part in parts.items():
            if part is not None:
                amounts[id] = True
                names[id.replace("-", " ")] = id
    return Known(amounts, names)


def read_page(source: Source, slug: str, context: Context, log: ProblemLog) -> PlainPage | None:
    """The page of a file; None, and every problem noted, where something in it is an error."""
    own = ProblemLog()
    page = _read_page(source, slug, context, own)
    log.extend(own)
    return None if own.has_errors else page


def _read_page(source: Source, slug: str, context: Context, log: ProblemLog) -> PlainPage | None:
    found: FrontMatter | None = read_front_matter(source.front, source.front_line, source.file, log)
    if found is None:
        return None
    check_shape(PageShape, found, log)
    values = Values(found, context.grammar, log)
    return PlainPage(
        slug=slug,
        file=source.file,
        name=values.words("name"),
        summary=values.words("summary"),
        body=read_body(source, NOTHING_KNOWN, context.grammar, log),
        position=found.start,
    )
