"""Records for rows of the published tables: each value with its unit, source and place in the source.

A field is a column of the table, its type says how a cell is read, and what has a default may be empty: `tables/csvfile.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.model.quantity import Span

CARRIERS = frozenset({"bear", "wild pig", "carnivore"})
"Groups of animals that carry Trichinella. Source: CDC, Trichinellosis, prevention page, meats at risk."

PORK_FAT = frozenset({"back fat", "backfat", "fatback", "fat back", "leaf fat", "leaf lard"})
"Fat that is called so of a pig alone. Source: words of the trade."


@dataclass(frozen=True, slots=True, kw_only=True)
class Sourced:
    """A row of one source."""

    source: str
    locator: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Cited:
    """A row of one or more sources; the locator speaks of all."""

    sources: tuple[str, ...]
    locator: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A publication, cited once and named by its key everywhere else."""

    key: str
    citation: str
    "Author or agency, title, edition, year."
    certainty: str
    "seen, second-hand, from memory, common practice"
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoodWeight(Sourced):
    """Grams in one measure of one food."""

    food: str
    "Key: lower case words."
    names: tuple[str, ...]
    "Every spelling that finds the row, lower case, the key among them."
    unit: str
    "Unit key of the measure: us_cup, us_tbsp, us_tsp, millilitre."
    grams: Fraction
    note: str = ""
    liquid: bool = False
    "Measured by volume in a metric kitchen too."


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceWeight(Sourced):
    """Grams of one piece of a food (edible part), and its refuse as bought."""

    food: str
    names: tuple[str, ...]
    size: str = ""
    "small, medium, large, or empty."
    grams: Fraction
    refuse_percent: Fraction | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SpoonWeight(Sourced):
    """The published range of what one measure of curing salt weighs."""

    unit: str
    low_g: Fraction
    high_g: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class CuringSalt(Sourced):
    """A curing salt by its composition, shares by weight (1/16 = 6.25 %)."""

    key: str
    names: tuple[str, ...]
    title: str
    "How a page names it, composition included."
    nitrite: Fraction
    "Sodium nitrite, share."
    nitrate: Fraction
    "Sodium nitrate, share."
    salt: Fraction
    "Sodium chloride, share."
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NitriteLimit(Sourced):
    """The most ingoing nitrite allowed, for one cut and one method."""

    cut: str
    "whole, ground, belly"
    method: str
    "brine, dry"
    limit_ppm: Fraction
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Animal(Sourced):
    """An animal a recipe can name, by names of names.csv."""

    key: str
    group: str
    "One of GROUPS in tables/words.py: deer family, wild pig, bear, carnivore, waterfowl, fish, domestic ..."
    wild: bool
    "What is taken where the recipe does not say: wild species are wild."
    water: str = ""
    "fresh, salt or both for fish and shellfish, else nothing."
    title: str
    "How the index names it: Elk."


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionText(Cited):
    """One caution rule's words and sources; when it applies is in `compute/safety/`."""

    slug: str
    signal: str
    "DANGER, WARNING, CAUTION, NOTICE"
    title: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedBox:
    """A name that is enough for a box of cautions.csv, whatever the recipe does with it."""

    slug: str
    by: str
    "plant: a rule of plants.csv; animal: a key of animals.csv; group: a group of animals"
    name: str
    in_lines: bool
    "False: only the recipe's own `meat:`; a line of ingredients is as likely bought."
    wild: bool
    "Only what is wild or foraged."
    message: str = ""
    "Of the refusal, with {name} where it stands; empty: nothing is refused."
    hint: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference(Cited):
    """One matter on which sources differ, and which of them this book follows."""

    topic: str
    says: str
    "What the sources say, side by side."
    takes: str
    "What this book goes by."
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DayRule(Sourced):
    """One published cure time: what it asks for of which product, and what its days count."""

    key: str
    title: str
    "How a box names it: USDA Farmers' Bulletin 2265, sweet pickle."
    products: tuple[str, ...]
    "ham, picnic, shoulder, belly, loin, capocollo, coppa, or general: any heavy piece"
    method: str
    "brine, dry"
    pumped: str
    "yes, no, any"
    days_per_lb: Fraction | None
    "For each pound of the heaviest piece; the longer end of a published range."
    days_per_inch: Fraction | None
    "For each inch of the thickest part."
    least_days: Fraction | None
    "Whatever the piece weighs."
    above_lb: Fraction | None
    "The rule speaks of pieces above this weight only."
    to_lb: Fraction | None
    "The rule speaks of pieces up to this weight only."
    shorter_share: Fraction | None
    "The shorter end of a published range over the longer; None: one figure. Days within the range keep to the rule."
    counts: str
    "contact (with the cure), equalise, cure + equalise"
    low_f: Fraction | None
    high_f: Fraction | None
    cold_days_count: bool
    "False: days below `low_f` do not count."
    says: str
    "The rule in its own figures: 3 1/2 to 4 days for each pound."
    certainty: str
    "seen, second-hand, from memory"
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BrineRow(Sourced):
    """One row of the brine table at 60 °F: salt and water alone."""

    degrees: Fraction
    "Salometer."
    percent: Fraction
    "Salt by weight."
    lb_salt_per_us_gal_water: Fraction
    specific_gravity: Fraction
    published: tuple[str, ...] = ()
    "Columns that are printed in the source; the others are worked out from what is printed."


@dataclass(frozen=True, slots=True, kw_only=True)
class TransferRow(Sourced):
    """One value of how salt and nitrite move in meat, in three cases."""

    key: str
    low: Fraction
    "The slow case: the least salt."
    central: Fraction
    high: Fraction | None
    "The fast case; None is endless."
    unit: str
    certainty: str
    "seen, second-hand, from memory, judgement"
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedRange(Cited):
    """A share or a concentration that is known from low to high."""

    low: Fraction
    high: Fraction
    note: str = ""

    @property
    def span(self) -> Span:
        """From low to high."""
        return Span(self.low, self.high)
