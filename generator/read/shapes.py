"""The keys that recipes, gatherings, pages and book.yaml take, as pydantic models; what does not fit comes out as problems.

All values are text here. What they mean is read later, with its own hints.
"""

from __future__ import annotations

from typing import Annotated, TypeVar

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag, ValidationError

from generator.problems import Position, ProblemLog, nearest
from generator.read.text import FrontMatter, Path

Model = TypeVar("Model", bound=BaseModel)


class _Shape(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)


class MeatShape(_Shape):
    """`meat:` of a recipe."""

    animal: str
    cut: str | None = None
    weight: str | None = None
    pieces: str | None = None
    thickness: str | None = None
    thinnest: str | None = None
    shape: str | None = None
    bone: str | None = None
    skin: str | None = None
    silverskin: str | None = None
    form: str | None = None
    source: str | None = None


class PumpBrineShape(_Shape):
    """`pump brine:` of a cure."""

    water: str
    salt: str | None = None
    sugar: str | None = None
    curing_salt: str | None = Field(default=None, alias="curing salt")
    kind: str | None = Field(default=None, alias="kind of curing salt")


class CureShape(_Shape):
    """`cure:` of a recipe."""

    method: str
    water: str | None = None
    salt: str | None = None
    sugar: str | None = None
    curing_salt: str | None = Field(default=None, alias="curing salt")
    kind: str | None = Field(default=None, alias="kind of curing salt")
    pump: str | None = None
    pump_brine: PumpBrineShape | None = Field(default=None, alias="pump brine")
    pick_up: str | None = Field(default=None, alias="pick-up")
    nitrate: str | None = None
    accelerator: str | None = None
    applications: str | None = None


class KeepShape(_Shape):
    """`keep:` of a recipe."""

    fridge: str | None = None
    freezer: str | None = None
    shelf: str | None = None


def _list_or_groups(value: object) -> str:
    return "groups" if isinstance(value, dict) else "lines"


Lines = Annotated[
    Annotated[list[str], Tag("lines")] | Annotated[dict[str, list[str]], Tag("groups")],
    Discriminator(_list_or_groups),
]


def _text_or_key(value: object) -> str:
    return "staged" if isinstance(value, dict) else "named"


Item = Annotated[
    Annotated[str, Tag("named")] | Annotated[dict[str, str], Tag("staged")], Discriminator(_text_or_key)
]


class RecipeShape(_Shape):
    """The front matter of a recipe."""

    name: str
    summary: str | None = None
    makes: str | None = None
    serves: str | None = None
    chapter: str | None = None
    tags: list[str] | None = None
    meat: MeatShape | None = None
    cure: CureShape | None = None
    ingredients: Lines | None = None
    course: list[Item] | None = None
    eat: str | None = None
    keep: KeepShape | None = None
    accept: dict[str, str] | None = None
    draft: str | None = None


class GuestsShape(_Shape):
    """`guests:` of a gathering, where they are told apart."""

    adults: str
    children: str | None = None
    child_share: str | None = Field(default=None, alias="child share")


def _number_or_keys(value: object) -> str:
    return "number" if isinstance(value, str) else "keys"


WhoComes = Annotated[
    Annotated[str, Tag("number")] | Annotated[GuestsShape, Tag("keys")], Discriminator(_number_or_keys)
]


class GatheringShape(_Shape):
    """The front matter of a gathering."""

    name: str
    summary: str | None = None
    date: str
    work_from: str | None = Field(default=None, alias="work from")
    guests: WhoComes
    dishes: list[str]
    on_hand: list[str] | None = Field(default=None, alias="on hand")
    whole_batches: str | None = Field(default=None, alias="whole batches")
    draft: str | None = None


class PageShape(_Shape):
    """The front matter of a page."""

    name: str
    summary: str | None = None


class BookShape(_Shape):
    """book.yaml."""

    title: str
    family: str | None = None
    address: str | None = None
    language: str | None = None
    units: str | None = None
    altitude: str | None = None
    poison_help: str | None = Field(default=None, alias="poison help")
    deer_disease_area: str | None = Field(default=None, alias="deer disease area")
    shot: str | None = None
    densities: dict[str, str] | None = None
    weighings: dict[str, str] | None = None
    curing_salts: dict[str, str] | None = Field(default=None, alias="curing salts")
    chapters: list[str] | None = None
    accept: dict[str, str] | None = None
    theme: str | None = None
    paper: str | None = None
    smoker_capacity: str | None = Field(default=None, alias="smoker capacity")
    ovens: str | None = None
    burners: str | None = None
    pots: list[str] | None = None


LATER = {
    "jar": "Cures in a jar are not read by this version.",
}
"Keys that the design knows and this version does not: never passed over in silence."

_OVENS = "What a kitchen has stands in book.yaml: ovens: 1."
INSTEAD = {
    "nitrite": "Write 'curing salt: 150 ppm'; nitrate is another salt.",
    "smoker": "What a smoker holds stands in book.yaml: smoker capacity: 30 lb.",
    "oven": _OVENS,
    "oven capacity": _OVENS,
}
"Keys whose nearest neighbour means something else."

EXAMPLES = {
    "name": "name: Smoked elk shank",
    "title": "title: The larder book",
    "animal": "animal: elk",
    "method": "method: brine, or method: dry",
    "date": "date: 2026-12-05 17:30",
    "guests": "guests: 35",
    "adults": "adults: 29",
    "dishes": "dishes: and under it - all guests [Cornbread](../recipes/cornbread.md)",
}

_INNER: dict[str, type[BaseModel]] = {
    "meat": MeatShape,
    "cure": CureShape,
    "pump brine": PumpBrineShape,
    "keep": KeepShape,
    "guests": GuestsShape,
}

_WANTED = {
    "list_type": ("a list", "Write one item a line, each with a dash, or [first, second]."),
    "dict_type": ("keys with a value each", "Write one 'name: value' a line, indented."),
    "model_type": ("keys with a value each", "Write one 'key: value' a line, indented."),
    "string_type": ("text", "Write it in one line."),
}


def check_shape(shape: type[Model], found: FrontMatter, log: ProblemLog) -> Model | None:
    """The front matter as a model, or None with a problem for every key and value that does not fit."""
    try:
        return shape.model_validate(found.data)
    except ValidationError as error:
        for detail in error.errors(include_url=False, include_context=False, include_input=False):
            _report(detail["type"], _path(detail["loc"], found), detail["loc"], shape, found, log)
        return None


def _path(loc: tuple[int | str, ...], found: FrontMatter) -> Path:
    """The part of a place that stands in the file: pydantic puts names of alternatives between."""
    path: Path = ()
    for part in loc:
        if isinstance(part, int) or (*path, part) in found.keys or (*path, part) in found.texts:
            path = (*path, part)
    return path


def _report(
    kind: str,
    path: Path,
    loc: tuple[int | str, ...],
    shape: type[BaseModel],
    found: FrontMatter,
    log: ProblemLog,
) -> None:
    key = str(loc[-1])
    if kind == "missing":
        hint = f"Add {EXAMPLES.get(key, f'{key}: ...')}"
        log.add("missing-key", found.key(*path), f"'{key}' is missing{_under(path)}.", f"{hint}.")
    elif kind == "extra_forbidden":
        _report_unknown(key, found.key(*path), path, shape, log)
    else:
        name = next((str(part) for part in reversed(path) if isinstance(part, str)), "value")
        wanted, hint = _WANTED.get(kind, ("something else", "Look at the rules of the file."))
        text = found.text(*path)
        message = (
            f"'{name}' is empty." if text is not None and not text.value else f"'{name}' takes {wanted}."
        )
        log.add("wrong-value", found.place(*path), message, hint)


def _under(path: Path) -> str:
    return f" under '{path[-1]}'" if path else ""


def _report_unknown(key: str, at: Position, path: Path, shape: type[BaseModel], log: ProblemLog) -> None:
    parent = path[:-1]
    inner = _INNER.get(str(parent[-1]), shape) if parent else shape
    known = keys_of(inner)
    if key.lower() in LATER:
        log.add("unknown-key", at, f"'{key}': {LATER[key.lower()]}", "Remove the line.")
        return
    hint = INSTEAD.get(key.lower()) or nearest(key, known) or f"Known are {', '.join(known)}."
    log.add("unknown-key", at, f"'{key}' is not a key that is known{_under(parent)}.", hint)


def keys_of(shape: type[BaseModel]) -> tuple[str, ...]:
    """The keys that a shape takes, as they are written."""
    return tuple(field.alias or name for name, field in shape.model_fields.items())
