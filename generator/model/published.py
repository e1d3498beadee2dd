"""Records for rows of the published tables: each value with its unit, source and place in the source.

A field is a column of the table, its type says how a cell is read, and what has a default may be empty: `tables/csvfile.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


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
class FoodWeight:
    """Grams in one measure of one food."""

    food: str
    "Key: lower case words."
    names: tuple[str, ...]
    "Every spelling that finds the row, lower case, the key among them."
    unit: str
    "Unit key of the measure: us_cup, us_tbsp, us_tsp, millilitre."
    grams: Fraction
    source: str
    locator: str
    note: str = ""
    liquid: bool = False
    "Measured by volume in a metric kitchen too."


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceWeight:
    """Grams of one piece of a food (edible part), and its refuse as bought."""

    food: str
    names: tuple[str, ...]
    size: str = ""
    "small, medium, large, or empty."
    grams: Fraction
    refuse_percent: Fraction | None
    source: str
    locator: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SpoonWeight:
    """The published range of what one measure of curing salt weighs."""

    unit: str
    low_g: Fraction
    high_g: Fraction
    source: str
    locator: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CuringSalt:
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
    source: str
    locator: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NitriteLimit:
    """The most ingoing nitrite allowed, for one cut and one method."""

    cut: str
    "whole, ground, belly"
    method: str
    "brine, dry"
    limit_ppm: Fraction
    source: str
    locator: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Animal:
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
    source: str
    locator: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionText:
    """One caution rule's words and sources; when it applies is in `compute/safety/`."""

    slug: str
    signal: str
    "DANGER, WARNING, CAUTION, NOTICE"
    title: str
    text: str
    sources: tuple[str, ...]
    locator: str


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
class Difference:
    """One matter on which sources differ, and which of them this book follows."""

    topic: str
    says: str
    "What the sources say, side by side."
    takes: str
    "What this book goes by."
    why: str
    sources: tuple[str, ...]
    locator: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DayRule:
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
    source: str
    locator: str
    certainty: str
    "seen, second-hand, from memory"
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BrineRow:
    """One row of the brine table at 60 °F: salt and water alone."""

    degrees: Fraction
    "Salometer."
    percent: Fraction
    "Salt by weight."
    lb_salt_per_us_gal_water: Fraction
    specific_gravity: Fraction
    published: tuple[str, ...] = ()
    "Columns that are printed in the source; the others are worked out from what is printed."
    source: str
    locator: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TransferRow:
    """One value of how salt and nitrite move in meat, in three cases."""

    key: str
    low: Fraction
    "The slow case: the least salt."
    central: Fraction
    high: Fraction | None
    "The fast case; None is endless."
    unit: str
    source: str
    locator: str
    certainty: str
    "seen, second-hand, from memory, judgement"
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedRange:
    """A share or a concentration that is known from low to high."""

    low: Fraction
    high: Fraction
    sources: tuple[str, ...]
    locator: str
    note: str = ""
