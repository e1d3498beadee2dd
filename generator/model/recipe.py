"""A recipe as its author wrote it: exact amounts with their places in the file, nothing computed."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from enum import StrEnum
from fractions import Fraction

from generator.model.quantity import COUNT, Dimension, Quantity, Span, Temperature, TemperatureRange
from generator.model.slug import slugify
from generator.problems import Position


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """An ordinary Markdown link to a file of the book."""

    text: str
    target: str
    "A relative path, perhaps with a fragment; percent escapes are read already."
    position: Position


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondAmount:
    """An amount within the preparation of a line (`mixed with 2 tbsp water`): it scales with the line."""

    start: int
    end: int
    "Where it stands in the preparation."
    quantity: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What a line is of a base, from which its weight follows."""

    part: Span
    "[1] Of the base; while its group is being read, of parts their number."
    is_parts: bool = False
    about: bool = False
    "Written with ~ or about."
    written: str
    "2.25 %, 3 parts."
    of: str = ""
    "The base in the words of the title."
    base: Quantity | None = None
    "A weight; of parts perhaps a volume."
    whole: str = ""
    "The base by the title of its group, or `total`; empty where it is a line or the meat."


@dataclass(frozen=True, slots=True, kw_only=True)
class Ingredient:
    """One ingredient line."""

    id: str
    "Slug of the name; the fragment that amount links use."
    name: str
    quantity: Quantity | None
    "None where the line is only a name."
    preparation: str = ""
    "What follows the first comma."
    second: tuple[SecondAmount, ...] = ()
    "Amounts in the preparation that scale, in their order."
    group: str = ""
    fixed: bool = False
    "Ends in (fixed): does not scale."
    link: Link | None = None
    "A use of another recipe."
    share: Share | None = None
    "Written as a share; the quantity is what that weighs."
    written: str
    position: Position

    def batches(self, of_recipe: Fraction) -> Fraction:
        """How many times the line counts at so many batches of its recipe: a fixed one always once."""
        return Fraction(1) if self.fixed else of_recipe

    def is_called(self, words: str) -> bool:
        """By its name or an ending of it, one or more: flour, of bread flour."""
        return _ends_in(self.name, words)

    @property
    def is_weighed_out(self) -> bool:
        """A share of a weight: it is shown by the steps of a scale."""
        return (
            self.share is not None
            and self.quantity is not None
            and self.quantity.dimension is Dimension.WEIGHT
        )

    @property
    def is_water(self) -> bool:
        """By whatever words before it: boiling water, cold water."""
        return self.name.lower().split()[-1:] == ["water"]


def _ends_in(name: str, words: str) -> bool:
    return f" {_one(name)}".endswith(f" {_one(words)}")


def _one(words: str) -> str:
    return " ".join(words.lower().split()).removesuffix("s")


COMPARED_BY = (Dimension.COUNT, Dimension.WEIGHT, Dimension.VOLUME)
"The ways in which an amount that is asked for and what a batch makes are compared, in this order."


@dataclass(frozen=True, slots=True, kw_only=True)
class Makes:
    """What one batch of a recipe makes, by count, weight or volume."""

    quantity: Quantity
    noun: str
    "The things counted (shanks), or what the weight is of; may be empty."
    position: Position

    def compared_with(self, amount: Quantity) -> Iterator[tuple[Span, Span]]:
        """What is asked for and what a batch makes, in each dimension that both have.

        A bare count takes the pieces that a batch makes; a count of slices needs slices.
        """
        asked_in, made_in = ({one.unit.key for one in q.measures} for q in (amount, self.quantity))
        for kind in COMPARED_BY:
            asked, made = amount.total(kind), self.quantity.total(kind)
            same = kind is not Dimension.COUNT or asked_in in (made_in, {COUNT.key})
            if asked is not None and made is not None and same:
                yield asked, made

    def noun_for(self, amount: Quantity) -> str:
        """The things made, one or more: 1 shank, 4 shanks."""
        count = amount.total(Dimension.COUNT)
        is_one = count is not None and count.high <= 1
        plain = self.noun.endswith("s") and not self.noun.endswith("ss")
        return self.noun[:-1] if is_one and plain else self.noun


@dataclass(frozen=True, slots=True, kw_only=True)
class Meat:
    """The raw meat a recipe is written for. None means the author did not say."""

    animal: str
    "Key of the animals table."
    animal_written: str
    called: str = ""
    "Its whole name, where it stands in a line; else it is animal and cut."
    preparation: str = ""
    "What follows the first comma of its line."
    cut: str = ""
    weight: Quantity | None = None
    "Green weight; None where the author gave none."
    pieces: int | None = None
    thickness: Quantity | None = None
    thinnest: Quantity | None = None
    "Thickness of the thinnest piece, where pieces differ."
    shape: str | None = None
    "round, slab, lump"
    bone: str | None = None
    "in, out"
    skin: str | None = None
    "on, off"
    silverskin: str | None = None
    form: str | None = None
    "whole, ground, sliced"
    source: str | None = None
    "wild, farmed"
    position: Position

    @property
    def name(self) -> str:
        """Animal and cut as written, for an ingredient line."""
        return self.called or f"{self.animal_written} {self.cut}".strip()

    @property
    def id(self) -> str:
        """The fragment of links to one of several meats; all of them together are `#meat`."""
        return slugify(self.name)

    def is_called(self, words: str) -> bool:
        """By its name or an ending of it, one or more."""
        return _ends_in(self.name, words)

    @property
    def green_g(self) -> Fraction | None:
        """The green weight [g], or None. Of two writings the lighter, which a cure must fit too."""
        if self.weight is None:
            return None
        writings = (self.weight, replace(self.weight, measures=self.weight.alternative, alternative=()))
        found = [total.low for one in writings if (total := one.total(Dimension.WEIGHT)) is not None]
        return min(found) if found else None

    @property
    def line(self) -> Ingredient:
        """It as an ingredient line, where it is one of several."""
        return Ingredient(
            id=self.id,
            name=self.name,
            quantity=self.weight,
            preparation=self.preparation,
            written=self.name,
            position=self.position,
        )

    @property
    def thickest_mm(self) -> Fraction | None:
        """The thickest part [mm], the high end of what is told."""
        return _most_mm(self.thickness)

    @property
    def thinnest_mm(self) -> Fraction | None:
        """Thickness of the thinnest piece [mm]: as told, or that of the only piece; else not known."""
        return _most_mm(self.thinnest or (self.thickness if self.pieces == 1 else None))


def _most_mm(length: Quantity | None) -> Fraction | None:
    span = None if length is None else length.total(Dimension.LENGTH)
    return None if span is None else span.high


class TargetKind(StrEnum):
    """What a target of a cure is a share of."""

    PERCENT = "percent"
    "of meat + water in a brine, of meat in a dry cure"
    PERCENT_OF_BRINE = "percent of the brine"
    DEGREES = "degrees salometer"
    PPM = "ppm"


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """A wanted concentration: its weight is worked out."""

    kind: TargetKind
    value: Fraction
    "In per cent, degrees or ppm."


@dataclass(frozen=True, slots=True, kw_only=True)
class CureLine:
    """Salt, sugar or curing salt of a cure: a target (weights are worked out) or an amount (audited)."""

    target: Target | None = None
    amount: Quantity | None = None
    name: str = ""
    "Crystal or kind written behind an amount: dense-flake salt, brown sugar."
    written: str
    position: Position | None
    "None where it was typed at a command."


@dataclass(frozen=True, slots=True, kw_only=True)
class PumpBrine:
    """A separately mixed brine that is injected."""

    water: Quantity | None
    salt: CureLine | None = None
    sugar: CureLine | None = None
    curing_salt: CureLine | None = None
    kind: str = "no. 1"
    position: Position


@dataclass(frozen=True, slots=True, kw_only=True)
class Cure:
    """The cure of one recipe as written."""

    method: str
    "brine or dry"
    water: Quantity | None = None
    "Measures carry hot, cold or ice as their state."
    salt: CureLine | None = None
    sugar: CureLine | None = None
    curing_salt: CureLine | None = None
    kind: str = "no. 1"
    "Key of the curing salts table or of the book's own curing salts."
    pump_percent: Fraction | None = None
    "Share of the green weight injected, per cent; drawn from the cover brine where no pump brine is written."
    pump_brine: PumpBrine | None = None
    pick_up_percent: Fraction | None = None
    "Declared weight gain of a short cure, per cent."
    nitrate: CureLine | None = None
    "Nitrate weighed by itself."
    nitrate_kind: str = ""
    "Key of the curing salts table: sodium nitrate, potassium nitrate."
    accelerator: CureLine | None = None
    "Ascorbate or erythorbate; its name stands in the line."
    applications: int = 1
    "A dry cure rubbed on in so many equal parts."
    position: Position
    water_position: Position | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One step of a recipe's course."""

    name: str
    "A name of the table of stages: what it does."
    called: str = ""
    "The word that its author has for it, where that is not the name: sear, of brown."
    minutes: Span | None = None
    length_written: str = ""
    at: TemperatureRange | None = None
    inside: Temperature | None = None
    place: str = ""
    "Key of the places table; empty where not said."
    place_written: str = ""
    "With its preposition: in the fridge, on a rack."
    until: str = ""
    words: str = ""
    "What else stands there, as it is written: gently, with the lid on."
    hands_minutes: Span | None = None
    jar_size: str = ""
    "pint, quart, half-pint ...; empty where not said. Only a stage `jar` has it and what follows."
    pack: str = ""
    "raw or hot."
    pounds: Fraction | None = None
    "Pressure in the canner [psi]."
    gauge: str = ""
    "dial gauge or weighted gauge."
    is_read: bool = False
    "From a sentence of the method, which then is what is written; False: from a line of `course`."
    written: str
    position: Position

    @property
    def title(self) -> str:
        """As the recipe calls it."""
        return self.called or self.name


@dataclass(frozen=True, slots=True, kw_only=True)
class Keep:
    """How long the finished thing keeps in one place."""

    place: str
    "fridge, freezer, shelf"
    days: Span
    written: str
    position: Position
    at: TemperatureRange | None = None
    "None: at whatever the place has."

    @property
    def where(self) -> str:
        """The place, as a sentence has it."""
        return f"{'on' if self.place == 'shelf' else 'in'} the {self.place}"


@dataclass(frozen=True, slots=True, kw_only=True)
class AmountLink:
    """A link of the body to an ingredient: [salt](#salt) or [salt](#salt:1/2)."""

    id: str
    written: str
    "What the link says: beans, for dry-pinto-beans."
    share: Fraction | None
    "None where the link only names the whole amount."
    position: Position


@dataclass(frozen=True, slots=True, kw_only=True)
class StageLink:
    """A link of the body to a stage of the course: [smoke it](#hot-smoke)."""

    number: int
    "Of the stage, from 0."
    written: str
    position: Position


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence:
    """One sentence of a body as it is heard: its words without markup, a space for each end of a line."""

    text: str
    block: int
    "Number of the paragraph, heading or cell it stands in."
    is_quoted: bool
    "In a block quote: somebody else's words."
    file: str
    places: tuple[tuple[int, int, int], ...]
    "From which offset the words stand at which line and column; the first at offset 0."

    def at(self, offset: int) -> Position:
        """The place of a character."""
        first, line, column = self.places[bisect_right(self.places, offset, key=lambda place: place[0]) - 1]
        return Position(self.file, line, column + offset - first)

    @property
    def position(self) -> Position:
        """Where it begins."""
        return self.at(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """The Markdown under the front matter."""

    text: str
    first_line: int
    amount_links: tuple[AmountLink, ...] = ()
    stage_links: tuple[StageLink, ...] = ()
    links: tuple[Link, ...] = ()
    photos: tuple[Link, ...] = ()
    sentences: tuple[Sentence, ...] = ()
    "In reading order, code left out."


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A line `# ? ...` of a front matter: what the author has still to find out, where the answer goes."""

    words: str
    position: Position


HARMLESS = frozenset({"makes", "serves", "chapter", "season", "from", "draft", "accept"})
"Keys of a recipe that hide no danger: what is accepted there and is not read is refused."


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A place of a recipe that is not read: the rest of the file stands without it, and no site is written."""

    key: str
    "The key at the left edge that it stands under; `text` for what is below the front matter."
    is_known: bool = True
    "False: nobody knows the key, so it may be any other, written wrongly."
    words: str
    "The line as written, without its dash."
    message: str
    hint: str
    position: Position

    @property
    def hides(self) -> bool:
        """True where what makes the food dangerous, or safe, may stand in it."""
        return self.key not in HARMLESS


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadCourse:
    """What became of a method that was read because there is no `course`."""

    unread: tuple[Sentence, ...]
    "Sentences that gave no stage."
    is_whole: bool
    "No sentence that gave none tells a length: what was read can be planned with."


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """One file of `recipes/`."""

    slug: str
    file: str
    name: str
    summary: str = ""
    makes: Makes | None = None
    serves: Fraction | None = None
    "Of a range its lower end: there is enough, and the salt of a serving is not told too small."
    serves_most: Fraction | None = None
    "The upper end of a range."
    chapter: str = ""
    chapter_position: Position | None = None
    tags: tuple[str, ...] = ()
    season: tuple[int, ...] = ()
    "Months in which it is made, 1 to 12, in the order of the file."
    origin: str = ""
    "Whose recipe it is, and of which year, as written behind `from`."
    meats: tuple[Meat, ...] = ()
    "The raw meat that it is written for: one kind of piece, or several that go in together."
    cure: Cure | None = None
    ingredients: tuple[Ingredient, ...] = ()
    stages: tuple[Stage, ...] = ()
    eat_after_cooking: bool = False
    keep: tuple[Keep, ...] = ()
    accept: dict[str, str] = field(default_factory=dict)
    "Slugs of rules that the author contradicts on purpose, each with the reason."
    draft: bool = False
    questions: tuple[Question, ...] = ()
    "As long as there is one, it is a draft."
    holes: tuple[Hole, ...] = ()
    "What of the file is not read. Its problems are errors."
    body: Body
    position: Position
    read_course: ReadCourse | None = None
    "None: the stages are the author's own, or there is nothing to read."

    @property
    def meat(self) -> Meat | None:
        """The only meat, or the first of several: for who asks whether there is any, and decides nothing by it."""
        return self.meats[0] if self.meats else None

    @property
    def several_meats(self) -> tuple[Meat, ...]:
        """Each of several meats; none where there is only one."""
        return self.meats if len(self.meats) > 1 else ()

    @property
    def meat_name(self) -> str:
        """Every meat by its name: deer trim, pork shoulder and pork back fat. Empty without meat."""
        *first, last = [meat.name for meat in self.meats] or [""]
        return f"{', '.join(first)} and {last}" if first else last

    def is_open(self, *keys: str) -> bool:
        """True where something under one of these keys is not read, or under a key that may be one of them."""
        return any(hole.key in keys or not hole.is_known for hole in self.holes)

    @property
    def course_read(self) -> bool:
        """True where the stages were read from the method."""
        return self.read_course is not None and bool(self.stages)

    def makes_total(self, kind: Dimension) -> Span | None:
        """What one batch makes, in the base unit of a dimension, or None where it is not told."""
        return None if self.makes is None else self.makes.quantity.total(kind)

    @property
    def scalable_lines(self) -> dict[str, Ingredient]:
        """The lines that have an amount and follow the scale, by id."""
        return {
            line.id: line
            for line in self.ingredients
            if line.quantity is not None and not line.quantity.is_vague and not line.fixed
        }

    @property
    def wholes(self) -> dict[str, Quantity]:
        """What lines are shares of, by id, where that is no line and not the meat."""
        shares = (line.share for line in self.ingredients if line.share is not None and line.share.whole)
        return {self.whole_id(share): share.base for share in shares if share.base is not None}

    def whole_id(self, share: Share) -> str:
        """By which one asks for so much of what it is a share of; a line of that name goes before."""
        id = slugify(share.whole)
        return f"{id}-total" if any(line.id == id for line in self.ingredients) else id

    @property
    def uses(self) -> tuple[Ingredient, ...]:
        """The ingredient lines that link to other recipes."""
        return tuple(line for line in self.ingredients if line.link is not None)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlainPage:
    """One file of `pages/`: prose under a name."""

    slug: str
    file: str
    name: str
    summary: str = ""
    body: Body
    position: Position
