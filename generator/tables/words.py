"""sources, animals, stages, places, cautions, named_boxes, differences (.csv) in; the closed lists of words out."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path

from generator.model.published import Animal, CautionText, Difference, NamedBox, Source
from generator.tables.csvfile import normal, once, read_rows

CERTAINTIES = ("seen", "second-hand", "from memory", "common practice", "house choice")
GROUPS = (
    "deer family",
    "wild pig",
    "bear",
    "small game",
    "other game",
    "carnivore",
    "waterfowl",
    "upland bird",
    "fish",
    "shellfish",
    "domestic",
    "poultry",
)
SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"Signal words of ANSI Z535."

ARTICLES = ("the", "a", "an")
"Dropped before a place: in the fridge, on a rack."


def read_sources(folder: Path) -> dict[str, Source]:
    """Every publication by its key."""
    sources: dict[str, Source] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "sources.csv", ("key", "citation", "certainty", "note")):
        source = Source(
            key=row.text("key"),
            citation=row.text("citation"),
            certainty=row.one_of("certainty", CERTAINTIES),
            note=row.optional("note"),
        )
        once(seen, source.key, row)
        sources[source.key] = source
    return sources


def read_animals(folder: Path, sources: Collection[str]) -> dict[str, Animal]:
    """Animals by each of their names."""
    columns = ("key", "names", "group", "wild", "title", "source", "locator")
    animals: dict[str, Animal] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "animals.csv", columns):
        row.source(sources)
        animal = Animal(
            key=row.text("key"),
            names=row.names("names"),
            group=row.one_of("group", GROUPS),
            wild=row.yes("wild"),
            title=row.text("title"),
        )
        if animal.key not in animal.names:
            raise row.error(f"{animal.key} is not among its own names")
        for name in animal.names:
            once(seen, name, row)
            animals[name] = animal
    return animals


def read_stages(folder: Path, sources: Collection[str]) -> dict[str, bool]:
    """Names of stages; True for those that can bring the middle of a piece to a temperature."""
    stages: dict[str, bool] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "stages.csv", ("name", "heats", "source", "locator")):
        row.source(sources)
        once(seen, row.text("name"), row)
        stages[row.text("name")] = row.yes("heats")
    return stages


def read_places(folder: Path, sources: Collection[str]) -> dict[str, str]:
    """Places by each of their spellings."""
    places: dict[str, str] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "places.csv", ("place", "spellings", "source", "locator")):
        row.source(sources)
        for spelling in row.names("spellings"):
            once(seen, spelling, row)
            places[spelling] = row.text("place")
    return places


def without_article(words: str) -> str:
    """Words as they are compared, without a leading article."""
    first, _, rest = normal(words).partition(" ")
    return rest if first in ARTICLES and rest else normal(words)


def read_cautions(folder: Path, sources: Collection[str]) -> dict[str, CautionText]:
    """The words of caution boxes by slug."""
    columns = ("slug", "signal", "title", "text", "source", "locator")
    cautions: dict[str, CautionText] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "cautions.csv", columns):
        caution = CautionText(
            slug=row.text("slug"),
            signal=row.one_of("signal", SIGNALS),
            title=row.text("title"),
            text=row.text("text"),
            sources=row.sources(sources),
            locator=row.text("locator"),
        )
        once(seen, caution.slug, row)
        cautions[caution.slug] = caution
    return cautions


def read_named_boxes(
    folder: Path, cautions: Collection[str], names: Mapping[str, Collection[str]]
) -> tuple[NamedBox, ...]:
    """The names that are enough for a box; `names` are those that are known, by the kind of name."""
    boxes: list[NamedBox] = []
    seen: set[object] = set()
    for row in read_rows(
        folder / "named_boxes.csv", ("slug", "by", "name", "in_lines", "wild", "message", "hint")
    ):
        by = row.one_of("by", names)
        box = NamedBox(
            slug=row.one_of("slug", cautions),
            by=by,
            name=row.one_of("name", names[by]),
            in_lines=row.yes("in_lines"),
            wild=row.yes("wild"),
            message=row.optional("message"),
            hint=row.optional("hint"),
        )
        once(seen, (box.by, box.name), row)
        if bool(box.message) != bool(box.hint):
            raise row.error("a message needs a hint, and a hint a message")
        if box.by == "plant" and not box.in_lines:
            raise row.error("a plant stands in a line and nowhere else")
        boxes.append(box)
    return tuple(boxes)


def read_differences(folder: Path, sources: Collection[str]) -> tuple[Difference, ...]:
    """Where sources differ, in the order of the table; each topic once."""
    columns = ("topic", "says", "takes", "why", "source", "locator")
    differences: list[Difference] = []
    seen: set[object] = set()
    for row in read_rows(folder / "differences.csv", columns):
        once(seen, row.text("topic"), row)
        differences.append(
            Difference(
                topic=row.text("topic"),
                says=row.text("says"),
                takes=row.text("takes"),
                why=row.text("why"),
                sources=row.sources(sources),
                locator=row.text("locator"),
            )
        )
    return tuple(differences)
