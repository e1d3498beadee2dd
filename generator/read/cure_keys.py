"""The keys of `cure:` and of its pump brine, and the record they fill; every fact that cannot be read is a problem."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from generator.model.quantity import Quantity
from generator.model.recipe import Cure, CureLine, PumpBrine
from generator.problems import ProblemLog
from generator.read.cure import find_kind, nitrate_kind, parse_cure_value, parse_pump, parse_water
from generator.read.grammar import Grammar
from generator.read.keys import Behind, Block, Key
from generator.read.text import Path, typed
from generator.read.values import Value, count, of_text, one_of, place

BRINE_ONLY = {
    "water": "A dry cure has no water.",
    "pump": "A dry cure has no brine to pump.",
    "pick-up": "A dry cure takes up no brine.",
    "pump brine": "A dry cure is not pumped here.",
}


@of_text
def _kind(text: str, value: Value) -> str:
    return find_kind(text, value.grammar.tables, value.grammar.own_salts).key


@of_text
def _water(text: str, value: Value) -> Quantity:
    return parse_water(text, value.grammar.certain)


@of_text
def _share(text: str, value: Value) -> Fraction:
    return parse_pump(text, value.grammar.language)


def _line(value: Value) -> CureLine | None:
    """Salt, sugar, curing salt, nitrate or accelerator, each by the name of its key; a pump brine is a brine."""
    grammar, method, at = value.grammar.certain, value.before.get("method", "brine"), place(value)
    line = value.read(lambda text: parse_cure_value(text, value.name, grammar, method=method, position=at))
    value.warn_disagreement(line.amount if line else None)
    return line


def _nitrate_kind(value: Value) -> str | None:
    line = _line(value)
    return nitrate_kind(line) if line else None


_SALT = Key("salt", _line, "a target or an amount", "3 %")
_SUGAR = Key("sugar", _line, "a target or an amount", "1.5 %")
_CURING_SALT = Key("curing salt", _line, "a target or an amount", "150 ppm")
_KIND = Key(
    "kind of curing salt",
    _kind,
    "a published one, or one of `book.yaml`; no. 1 if not told",
    "no. 2",
    fills="kind",
)

PUMP_BRINE = Block(
    PumpBrine,
    Key("water", _water, "as in the cover", "1 qt", required=True),
    _SALT,
    _SUGAR,
    _CURING_SALT,
    _KIND,
)


def _pump_brine(value: Value) -> PumpBrine | None:
    """A separately mixed brine for the needle; its curing salt is of the cover's kind where it does not say."""
    cover = {"kind": value.before["kind"]} if "kind" in value.before else {}
    return PUMP_BRINE.read(value, position=value.position, **cover)


_METHOD = Key("method", one_of("brine", "dry"), "", "brine", required=True)

CURE = Block(
    Cure,
    _METHOD,
    Key(
        "water",
        _water,
        "a sum with hot, cold and ice, or `to make 6 gal`",
        "1 qt hot + 2 1/2 qt cold + 1 lb ice",
        also={"water_position": place},
    ),
    _SALT,
    _SUGAR,
    _CURING_SALT,
    _KIND,
    Key(
        "nitrate",
        _line,
        "ppm, or a weight and its kind",
        "2 oz saltpetre",
        also={"nitrate_kind": _nitrate_kind},
    ),
    Key("accelerator", _line, "ppm or a weight, and its name", "500 ppm sodium erythorbate"),
    Key("pump", _share, "share of the green weight that is injected", "8 %", fills="pump_percent"),
    Key("pump brine", _pump_brine, "the needle's own brine", "", behind=Behind.BLOCK, inner=PUMP_BRINE),
    Key("pick-up", _share, "weight that a short cure gains", "8 %", fills="pick_up_percent"),
    Key("applications", count, "equal parts in which a dry cure is rubbed on", "3"),
)


def read_cure(value: Value) -> Cure | None:
    """The cure as written; None where none is named or its method is not known."""
    method = _METHOD.read(value.under(_METHOD.name))
    if method is None:  # what the lines may say depends on it
        return None
    if method == "dry":
        _refuse_in_dry(value)
    cure = CURE.read(value, position=value.position)
    return None if cure is None else _of_named_kind(cure, value)


def _of_named_kind(cure: Cure, value: Value) -> Cure:
    """With the kind that stands behind an amount of curing salt; that of the cover holds for the needle too."""
    cover = _kind_of(cure, value)
    if cure.pump_brine is None:
        return replace(cure, kind=cover)
    inner = value.under("pump brine")
    told = (*inner.path, _KIND.name) in value.found.keys
    pump = cure.pump_brine if told else replace(cure.pump_brine, kind=cover)
    return replace(cure, kind=cover, pump_brine=replace(pump, kind=_kind_of(pump, inner)))


def _kind_of(brine: Cure | PumpBrine, value: Value) -> str:
    """The key of its curing salt; two that are not the same are a problem."""
    line = brine.curing_salt
    named = value.grammar.tables.curing_salt(line.name) if line is not None and line.name else None
    if line is None or named is None or named.key == brine.kind:
        return brine.kind
    if (*value.path, _KIND.name) in value.found.keys:
        value.log.add(
            "wrong-value",
            line.position,
            f"'{line.written}' is {named.title}, and `kind of curing salt` says {brine.kind}.",
            f"Name it once: write `curing salt: {line.amount.written if line.amount else line.written}`.",
        )
    return named.key


def read_typed_cure(
    options: Mapping[Path, tuple[str, str]], grammar: Grammar, log: ProblemLog
) -> Cure | None:
    """A cure from options: by the path of its key, each option and its text, which is where its problems stand."""
    return read_cure(Value(found=typed(options), grammar=grammar, log=log, path=("cure",)))


def _refuse_in_dry(value: Value) -> None:
    for key, why in BRINE_ONLY.items():
        if (*value.path, key) in value.found.keys:
            at = value.under(key).position
            value.log.add("wrong-value", at, why, "Remove the line, or write method: brine.")
