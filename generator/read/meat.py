"""`meat:` and `cure:` of a front matter in, their records out; every fact that cannot be read is a problem."""

from __future__ import annotations

from generator.model.published import CuringSalt
from generator.model.quantity import Dimension
from generator.model.recipe import Cure, CureLine, Meat
from generator.problems import nearest
from generator.read.cure import CURING_SALT, SALT, SUGAR, find_kind, parse_cure_value, parse_pump, parse_water
from generator.read.number import AmountError
from generator.read.values import Values

KIND = "kind of curing salt"


def read_meat(values: Values) -> Meat | None:
    """The raw meat a recipe is written for; None where none is named or the animal is not known."""
    written = values.words("meat", "animal")
    key = values.read(lambda value: _animal_key(value, values), "meat", "animal")
    if key is None:
        return None
    return Meat(
        animal=key,
        animal_written=written,
        cut=values.words("meat", "cut"),
        weight=values.amount(Dimension.WEIGHT, "meat", "weight"),
        pieces=values.count("meat", "pieces"),
        thickness=values.amount(Dimension.LENGTH, "meat", "thickness"),
        shape=values.one_of(("round", "slab", "lump"), "meat", "shape"),
        bone=values.one_of(("in", "out"), "meat", "bone"),
        skin=values.one_of(("on", "off"), "meat", "skin"),
        silverskin=values.one_of(("on", "off"), "meat", "silverskin"),
        form=values.one_of(("whole", "ground", "sliced"), "meat", "form"),
        source=values.one_of(("wild", "farmed"), "meat", "source"),
        position=values.found.key("meat"),
    )


def _animal_key(value: str, values: Values) -> str:
    tables = values.grammar.tables
    animal = tables.animal(value)
    if animal is not None:
        return animal.key
    names = [name for animal in tables.animals for name in animal.names]
    hint = nearest(value, names) or f"Known are {', '.join(animal.key for animal in tables.animals)}."
    raise AmountError("unknown-animal", f"'{value}' is not an animal that is known.", hint)


def read_cure(values: Values, own: tuple[CuringSalt, ...]) -> Cure | None:
    """The cure as written; None where none is named or its method is not known."""
    method = values.one_of(("brine", "dry"), "cure", "method")
    if method is None:
        return None
    if method == "dry":
        _refuse_in_dry(values)
    grammar, found = values.grammar, values.found
    kind = values.read(lambda value: find_kind(value, grammar.tables, own), "cure", KIND)
    water = found.text("cure", "water")
    return Cure(
        method=method,
        water=values.read(
            lambda value: parse_water(
                value, system=grammar.system, language=grammar.language, tables=grammar.tables
            ),
            "cure",
            "water",
        ),
        salt=_line(values, SALT, method),
        sugar=_line(values, SUGAR, method),
        curing_salt=_line(values, CURING_SALT, method),
        kind=kind.key if kind else "no. 1",
        pump_percent=values.read(lambda value: parse_pump(value, grammar.language), "cure", "pump"),
        position=found.key("cure"),
        water_position=water.position if water else None,
    )


def _refuse_in_dry(values: Values) -> None:
    for key, why in (("water", "A dry cure has no water."), ("pump", "A dry cure has no brine to pump.")):
        if values.found.text("cure", key) is not None:
            at = values.found.key("cure", key)
            values.log.add("wrong-value", at, why, "Remove the line, or write method: brine.")


def _line(values: Values, which: str, method: str) -> CureLine | None:
    grammar, text = values.grammar, values.found.text("cure", which)
    line = values.read(
        lambda value: parse_cure_value(
            value,
            which,
            method=method,
            system=grammar.system,
            language=grammar.language,
            tables=grammar.tables,
            own_weights=grammar.own_weights,
            position=text.position if text else None,
        ),
        "cure",
        which,
    )
    values.warn_disagreement(line.amount if line else None, text)
    return line
