"""`meat:` and `cure:` of a front matter in, their records out; every fact that cannot be read is a problem."""

from __future__ import annotations

from collections.abc import Mapping

from generator.model.published import CuringSalt
from generator.model.quantity import Dimension, Quantity
from generator.model.recipe import Cure, CureLine, Meat, PumpBrine
from generator.problems import ProblemLog, nearest
from generator.read.cure import (
    ACCELERATOR,
    CURING_SALT,
    NITRATE,
    SALT,
    SUGAR,
    find_kind,
    nitrate_kind,
    parse_cure_value,
    parse_pump,
    parse_water,
)
from generator.read.grammar import Grammar
from generator.read.number import AmountError
from generator.read.text import Path, typed
from generator.read.values import Values, certain

KIND = "kind of curing salt"
NO_1 = "no. 1"
"The kind that is meant where none is written."


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
        thinnest=values.amount(Dimension.LENGTH, "meat", "thinnest"),
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
    water, nitrate = found.text("cure", "water"), _line(values, NITRATE, method)
    kind = _kind(values, own, NO_1, "cure", KIND)
    return Cure(
        method=method,
        water=_water(values, "cure", "water"),
        salt=_line(values, SALT, method),
        sugar=_line(values, SUGAR, method),
        curing_salt=_line(values, CURING_SALT, method),
        kind=kind,
        nitrate=nitrate,
        nitrate_kind=nitrate_kind(nitrate) if nitrate else "",
        accelerator=_line(values, ACCELERATOR, method),
        pump_percent=values.read(lambda value: parse_pump(value, grammar.language), "cure", "pump"),
        pick_up_percent=values.read(lambda value: parse_pump(value, grammar.language), "cure", "pick-up"),
        pump_brine=_pump_brine(values, own, kind),
        applications=values.count("cure", "applications") or 1,
        position=found.key("cure"),
        water_position=water.position if water else None,
    )


def read_typed_cure(
    options: Mapping[Path, tuple[str, str]], own: tuple[CuringSalt, ...], grammar: Grammar, log: ProblemLog
) -> Cure | None:
    """A cure from options: by the path of its key, each option and its text, which is where its problems stand."""
    return read_cure(Values(typed(options), grammar, log), own)


def _kind(values: Values, own: tuple[CuringSalt, ...], default: str, *path: str) -> str:
    kind = values.read(lambda value: find_kind(value, values.grammar.tables, own), *path)
    return kind.key if kind else default


def _water(values: Values, *path: str) -> Quantity | None:
    grammar = values.grammar
    return values.read(
        lambda value: parse_water(
            value, system=grammar.system, language=certain(grammar.language), tables=grammar.tables
        ),
        *path,
    )


def _pump_brine(values: Values, own: tuple[CuringSalt, ...], cover: str) -> PumpBrine | None:
    """A separately mixed brine for the needle; its curing salt is of the cover's kind where it does not say."""
    if values.found.text("cure", "pump brine", "water") is None:
        return None
    parent = ("cure", "pump brine")
    return PumpBrine(
        water=_water(values, *parent, "water"),
        salt=_line(values, SALT, "brine", *parent),
        sugar=_line(values, SUGAR, "brine", *parent),
        curing_salt=_line(values, CURING_SALT, "brine", *parent),
        kind=_kind(values, own, cover, *parent, KIND),
        position=values.found.key(*parent),
    )


BRINE_ONLY = {
    "water": "A dry cure has no water.",
    "pump": "A dry cure has no brine to pump.",
    "pick-up": "A dry cure takes up no brine.",
    "pump brine": "A dry cure is not pumped here.",
}


def _refuse_in_dry(values: Values) -> None:
    for key, why in BRINE_ONLY.items():
        if ("cure", key) in values.found.keys:
            at = values.found.key("cure", key)
            values.log.add("wrong-value", at, why, "Remove the line, or write method: brine.")


def _line(values: Values, which: str, method: str, *parent: str) -> CureLine | None:
    path = (*(parent or ("cure",)), which)
    grammar, text = values.grammar, values.found.text(*path)
    line = values.read(
        lambda value: parse_cure_value(
            value,
            which,
            method=method,
            system=grammar.system,
            language=certain(grammar.language),
            tables=grammar.tables,
            own_weights=grammar.own_weights,
            position=text.position if text else None,
        ),
        *path,
    )
    values.warn_disagreement(line.amount if line else None, text)
    return line
