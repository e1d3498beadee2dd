"""What was worked out: scaled lines, cures, needs of components, cautions. Exact until shown."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from generator.model.book import Book
from generator.model.form import Figure, Form, Setting
from generator.model.published import CuringSalt, NitriteLimit
from generator.model.quantity import Quantity, Span
from generator.model.recipe import Ingredient, Recipe
from generator.problems import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """An amount as a reader sees it, rounded once, in each system of units."""

    us: str
    metric: str
    imperial: str

    def in_units(self, system: str) -> str:
        """The string for us, metric or imperial."""
        return str(getattr(self, system))


@dataclass(frozen=True, slots=True, kw_only=True)
class ComputedLine:
    """An ingredient line at the present scale."""

    ingredient: Ingredient
    scaled: Quantity | None
    "Exact."
    grams: Span | None
    "Known weight [g], from the line itself or through a sourced weight per measure."
    millilitres: Span | None
    "Known volume [mL]."
    shown: Shown | None
    "None where the line has no amount."
    check: str = ""
    "Beyond twice the recipe: why this line wants a second look."
    weight_source: str = ""
    "Source key of the weight per measure or per piece used, if one was."


@dataclass(frozen=True, slots=True, kw_only=True)
class CureWeights:
    """What to put on the scale [g], to 0.01 g; the curing salt rounded down."""

    salt_g: Fraction
    sugar_g: Fraction
    curing_salt_g: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class CureForms:
    """The cure as forms: what a page needs to weigh again without a second arithmetic."""

    salt: Form
    "To weigh, without the salt that comes with the curing salt."
    sugar: Form
    curing_salt: Form
    total_salt: Form
    brine: Form
    "Water, salt, sugar, curing salt together; nothing in a dry cure."
    nitrite_ppm: Figure
    salt_percent: Figure
    "Of meat + water in a brine, of meat in a dry cure."
    strength_percent: Figure | None
    "Salt by weight of the whole brine."


@dataclass(frozen=True, slots=True, kw_only=True)
class CureResult:
    """One cure worked out at one setting, or the reasons why it was not."""

    method: str
    cut: str
    kind: CuringSalt
    setting: Setting | None
    "None where meat or water are unknown."
    green_weight_g: Fraction | None
    water_g: Fraction | None
    weigh: CureWeights | None
    "None above a limit, and where a fact is missing."
    shown: dict[str, str] = field(default_factory=dict)
    "Strings for green_weight, water, salt, sugar, curing_salt; empty strings where there is none."
    whole_system_ppm: Fraction | None = None
    dry_ppm: Fraction | None = None
    pick_up_ppm: Fraction | None = None
    ppm_range: Span | None = None
    "Where the curing salt was given by the spoon."
    limit: NitriteLimit | None = None
    salt_percent: Fraction | None = None
    sugar_percent: Fraction | None = None
    strength_percent: Fraction | None = None
    salometer_degrees: Fraction | None = None
    pump_g: Fraction | None = None
    "Brine to inject, drawn from the cover brine."
    forms: CureForms | None = None
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ComponentNeed:
    """How much of one component a dish needs at the present scale, deeper components included."""

    recipe: str
    path: tuple[str, ...]
    "From the dish down to this component, both ends included."
    batches: Fraction
    amount_g: Fraction | None
    "None where the component does not say what it weighs."
    amount_shown: Shown | None
    green_weight_g: Fraction | None
    "Raw meat for that share of the component, None where it has none."
    green_weight_shown: Shown | None
    meat_name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class UsedBy:
    """A dish that takes some of this component."""

    dish: str
    batches: Fraction
    "Of this component, for one batch of the dish."


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A caution box: signal word of ANSI Z535, what to do, why it stands here, where it comes from."""

    slug: str
    signal: str
    title: str
    text: str
    because: str
    sources: tuple[str, ...]
    stage: int | None = None
    "Index of the stage it stands beside; None: before the method."


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """How a recipe was scaled."""

    batches: Fraction
    by: str = "as written"
    "as written, serves, makes, batches, meat"


@dataclass(frozen=True, slots=True, kw_only=True)
class ComputedRecipe:
    """A recipe at one scale with everything that follows from it."""

    recipe: Recipe
    scale: Scale
    serves: Fraction | None
    makes: Quantity | None
    makes_shown: Shown | None
    meat_line: ComputedLine | None
    "The raw meat as an ingredient (#meat)."
    lines: tuple[ComputedLine, ...]
    cure: CureResult | None
    cure_lines: dict[str, Shown]
    "Amounts of water, salt, sugar, curing-salt for links of the body; absent where unknown or refused."
    needs: tuple[ComponentNeed, ...]
    used_by: tuple[UsedBy, ...]
    cautions: tuple[Caution, ...]
    facts: tuple[str, ...]
    "Quiet lines: keeps 4 days in the fridge."
    stage_checks: tuple[str, ...] = ()
    "For each stage, why its time or pan wants a second look beyond twice the recipe; empty strings for the rest."
    problems: tuple[Problem, ...] = ()

    def amount(self, id: str) -> Quantity | None:
        """The scaled, exact amount of an ingredient id, for links with a share."""
        for line in (*([self.meat_line] if self.meat_line else []), *self.lines):
            if line.ingredient.id == id:
                return line.scaled
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class ComputedBook:
    """Every recipe of the book, computed as written (one batch)."""

    book: Book
    recipes: dict[str, ComputedRecipe]
