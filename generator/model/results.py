"""What was worked out: scaled lines, cures, needs of components, cautions. Exact until shown."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from generator.model.book import Book
from generator.model.contract import CureContract
from generator.model.form import Figure, Form, Setting
from generator.model.gathering import Gathering
from generator.model.published import CuringSalt, NitriteLimit
from generator.model.quantity import Quantity, Span
from generator.model.recipe import Ingredient, Recipe
from generator.problems import Position, Problem

CHECK_BEYOND = Fraction(2)
"Source: published advice differs only beyond doubling; trade handbook and textbook pages (quantity cooking)."


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
    second: tuple[tuple[Quantity, Shown], ...] = ()
    "The second amounts of the line in their order, scaled and shown."
    check: str = ""
    "Beyond twice the recipe: why this line wants a second look."
    check_beyond: str = ""
    "What `check` is at any scale beyond that."
    weighed_in_metric: bool = False
    "Written by volume, but a metric kitchen weighs it."
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
    nitrate: Form
    "Sodium or potassium nitrate weighed by itself."
    accelerator: Form
    "Ascorbate or erythorbate."
    total_salt: Form
    brine: Form
    "Water, salt, sugar, curing salt together; nothing in a dry cure."
    nitrite_ppm: Figure
    "Over the whole system in a brine, on the green weight in a dry cure."
    pick_up_ppm: Figure | None
    "Of a short cure: by the brine taken up."
    nitrate_ppm: Figure
    accelerator_ppm: Figure
    salt_percent: Figure
    "Of meat + water in a brine, of meat in a dry cure."
    strength_percent: Figure | None
    "Salt by weight of the whole brine."

    def strength_at(self, setting: Setting) -> Fraction | None:
        """Salt by weight of the whole brine [%]; None in a dry cure."""
        return None if self.strength_percent is None else self.strength_percent.at(setting)


@dataclass(frozen=True, slots=True, kw_only=True)
class CureEnds:
    """A cure whose cups and spoons leave weights open: its forms where each figure is the least and the most."""

    least_nitrite: CureForms
    most_nitrate: CureForms
    least_nitrate: CureForms
    strongest: CureForms
    weakest: CureForms
    lightest: CureForms
    "Everything at its lightest: what is spread over it is the most."
    open: frozenset[str]
    "Which lines are measured by volume: salt, sugar, curing_salt, nitrate."


@dataclass(frozen=True, slots=True, kw_only=True)
class CureSpans:
    """The least and the most that the figures of such a cure can be at one setting."""

    salt_g: Span
    "To put in, without the salt that comes with the curing salt."
    sugar_g: Span
    salt_percent: Span | None
    sugar_percent: Span | None
    strength_percent: Span | None
    salometer_degrees: Span | None
    nitrate_ppm: Span | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PumpBrineResult:
    """A separately mixed brine for the needle: its weights [g] and strength; all of it is mixed, `pump_g` goes in."""

    water_g: Fraction
    salt_g: Fraction
    sugar_g: Fraction
    curing_salt_g: Fraction
    strength_percent: Fraction
    nitrite_ppm: Fraction
    "Ingoing by the needle alone, on the green weight: nitrite x pump / pump brine."
    kind: CuringSalt
    "Of its curing salt."

    @property
    def whole_g(self) -> Fraction:
        """All of it [g]."""
        return self.water_g + self.salt_g + self.sugar_g + self.curing_salt_g


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachResult:
    """How far salt has probably reached by the recipe's own last day: shares of the even level, and the words."""

    day: Fraction
    low: float
    central: float
    high: float
    words: str
    nitrite_low: float | None
    nitrite_high: float | None
    nitrite_words: str
    day_even_low: int | None
    day_even_high: int | None
    series: tuple[tuple[int, float, float, float], ...]
    "(day, low, central, high) at the middle, whole days."
    series_without_pump: tuple[tuple[int, float, float, float], ...] | None
    caveats: tuple[str, ...]
    worked_out_for: str
    "In words: the weight and the ratio of meat to water, the thickness and the shape."
    sources: tuple[str, ...] = ()
    "Keys of the publications behind the rates at which salt and nitrite move."


@dataclass(frozen=True, slots=True, kw_only=True)
class SaltInPiece:
    """Salt in the finished pieces of a cure: per cent of their lean as it leaves the recipe, and in all."""

    low_percent: Fraction | None
    "None where too little is known of bone or of the finished weight."
    high_percent: Fraction | None
    lean_share_low: Fraction
    "Share of the finished piece that is lean meat (bone left out)."
    lean_share_high: Fraction
    assumption: str
    "Sentences."
    water_phase_low_percent: Fraction | None = None
    water_phase_high_percent: Fraction | None = None
    low_g: Fraction
    "Salt in all that the recipe makes at this scale [g]."
    high_g: Fraction
    sources: tuple[str, ...] = ()
    "Keys of the publications behind it."


@dataclass(frozen=True, slots=True, kw_only=True)
class BrineFigures:
    """A brine as the brine tables have it: strength of the whole, the rest of salt and water before the sugar."""

    percent: Fraction
    "Salt by weight of the whole brine, sugar counted."
    degrees_60f: Fraction
    plain_percent: Fraction
    "Salt by weight of salt and water alone: what the next figures are of."
    specific_gravity: Fraction
    "At 60 °F, between rows of the brine table."
    lb_salt_per_us_gal_water: Fraction
    lb_salt_per_us_gal_brine: Fraction
    g_salt_per_l_water: Fraction
    g_salt_per_l_brine: Fraction
    at_f: Fraction | None = None
    "Asked for: the temperature of the brine [°F] that a salometer made for 60 °F floats in."
    reading_at: Fraction | None = None
    "What it then reads [degrees]."


@dataclass(frozen=True, slots=True, kw_only=True)
class PreBlend:
    """Curing salt weighed as ten times its weight: one part mixed with nine of the recipe's own salt or sugar."""

    carrier: str
    "salt or sugar"
    curing_salt_g: Fraction
    "To mix, for this cure and others."
    carrier_g: Fraction
    weigh_g: Fraction
    "Of the blend, for this cure; whole grams, down."
    carrier_left_g: Fraction
    "Of the salt or sugar, to weigh besides the blend."


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose:
    """What a step of the scale does to the ingoing nitrite."""

    tenth_gram_ppm: Fraction
    gram_ppm: Fraction
    use_finer_scale: bool
    "A step of 1 g moves the figure by more than a tenth."
    pre_blend: PreBlend | None = None
    "None where the scale of 1 g will do, and where the cure has not enough salt or sugar to take."


@dataclass(frozen=True, slots=True, kw_only=True)
class Vessel:
    """Meat and brine in a pot [mL]."""

    pot_ml: Fraction
    "To the brim."
    meat_ml: Fraction
    brine_ml: Fraction | None
    "None where the brine is not known."
    cover_g: Fraction
    "The least brine [g] to cover the meat."
    left_for_pump_g: Fraction | None
    "Brine [g] beyond what covers."
    water_from_pot: bool
    "The water was worked out from the pot."


@dataclass(frozen=True, slots=True, kw_only=True)
class IceShare:
    """How the water of a brine is poured so that it comes to a temperature: ice is water."""

    ice_g: Fraction
    hot_g: Fraction
    cold_g: Fraction
    target_f: Fraction

    @property
    def water_g(self) -> Fraction:
        """All the water, ice counted."""
        return self.ice_g + self.hot_g + self.cold_g


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """A measured brine brought to another strength: salt or water to add [g], one of the two nothing."""

    brine_g: Fraction
    water_g: Fraction
    "In the brine as it is."
    is_percent: Fraction
    want_percent: Fraction
    is_degrees: Fraction
    want_degrees: Fraction
    add_salt_g: Fraction
    add_water_g: Fraction


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
    "Ingoing nitrite, where cups or spoons leave it open."
    ends: CureEnds | None = None
    "Where cups or spoons leave weights open; the plain figures are then those of the most nitrite."
    spans: CureSpans | None = None
    "The figures at those ends; None where everything is weighed."
    limit: NitriteLimit | None = None
    salt_percent: Fraction | None = None
    sugar_percent: Fraction | None = None
    strength_percent: Fraction | None = None
    salometer_degrees: Fraction | None = None
    pump_g: Fraction | None = None
    "Brine to inject [g], drawn from the cover brine or mixed separately."
    forms: CureForms | None = None
    contract: CureContract | None = None
    "What the weights and the refusals are read from; None where a fact is missing."
    problems: tuple[Problem, ...] = ()
    whole_limit_is_worst_case: bool = False
    "A short cure: the whole-system figure is the worst case, what can have entered by the last day is judged."
    judged_ppm: Fraction | None = None
    "The figure that was held against the limit."
    last_hour: int | None = None
    "Of a short cure above its limit when even: the last whole hour at which the fast case is within it."
    nitrate_ppm: Fraction | None = None
    "Ingoing nitrate, on the same basis as the nitrite; as the sodium or potassium salt weighed."
    nitrate_limit_ppm: Fraction | None = None
    accelerator_g: Fraction | None = None
    "Ascorbate or erythorbate [g]."
    accelerator_ppm: Fraction | None = None
    pump_brine: PumpBrineResult | None = None
    ice_unmeasured: bool = False
    "Ice was thrown in unweighed: the limit was judged without it, so the strength is at most what is printed."
    reach: ReachResult | None = None
    salt_carried: SaltInPiece | None = None
    brine: BrineFigures | None = None
    "None in a dry cure, and beyond saturation."
    dose: Dose | None = None
    "None without weights or without curing salt."
    vessel: Vessel | None = None
    "None where no pot was named."
    ice: IceShare | None = None
    "None where no temperatures were named."


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
    fixed: bool = False
    "A line on the way does not scale, and so this does not."


@dataclass(frozen=True, slots=True, kw_only=True)
class UsedBy:
    """A dish that takes some of this component."""

    dish: str
    batches: Fraction
    "Of this component, for one batch of the dish."


@dataclass(frozen=True, slots=True, kw_only=True)
class SaltShare:
    """The salt that one component brings into a dish [g]."""

    recipe: str
    name: str
    grams: Span | None
    "None: it is not known."


@dataclass(frozen=True, slots=True, kw_only=True)
class DishSalt:
    """The salt of a dish at its scale, in all servings together; salted foods count as the salt of their sodium."""

    serves: Fraction | None
    "None: the dish does not say, and everything is told for the batch."
    own_g: Span
    "By its own lines, as far as they can be counted."
    shares: tuple[SaltShare, ...]
    "By its components, in the order of its lines; one without any salt is left out."
    not_counted: tuple[str, ...]
    "Its own salty lines of unknown salt."
    adds_salt: bool
    "One of its own lines is salt."
    sodium_share: Fraction
    "Of salt."
    sources: tuple[str, ...] = ()
    "Keys of the publications behind it and its limits."

    @property
    def carried_g(self) -> Span | None:
        """By all components together; None where that of one is not known."""
        told = [share.grams for share in self.shares if share.grams is not None]
        return Span.total(told) if len(told) == len(self.shares) else None

    @property
    def total_g(self) -> Span | None:
        """By components and own lines."""
        carried = self.carried_g
        return None if carried is None else carried.plus(self.own_g)

    def portion(self, grams: Span | None) -> Span | None:
        """Per serving, or as it is where the dish does not say how many it serves."""
        return None if grams is None else grams.times(1 / (self.serves or Fraction(1)))

    def sodium_mg(self, grams: Span | None) -> Span | None:
        """[mg] sodium in salt."""
        return None if grams is None else grams.times(1000 * self.sodium_share)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """What in the book made a box: the words as they are written, and where."""

    kind: str
    "stage, line, sentence, key"
    words: str
    position: Position


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
    missing: tuple[str, ...] = ()
    "Front-matter keys that a rule needs and that are not told: it cannot be told whether the rule is met."
    accepted: str = ""
    "The author's reason, where a WARNING is contradicted and accepted."
    causes: tuple[Cause, ...] = ()
    "In the order in which the rule met them; a rule gives at least one."


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """How a recipe was scaled."""

    batches: Fraction
    by: str = "as written"
    "as written, serves, makes, batches, meat"
    water_g: Fraction | None = None
    "Water of the brine in the vessel [g]; None: the written water times the batches."


@dataclass(frozen=True, slots=True, kw_only=True)
class ComputedRecipe:
    """A recipe at one scale with everything that follows from it."""

    recipe: Recipe
    scale: Scale
    serves: Fraction | None
    makes: Quantity | None
    makes_shown: Shown | None
    meat_line: ComputedLine | None
    "The raw meat as an ingredient (#meat); several are added up."
    meat_lines: tuple[ComputedLine, ...] = ()
    "Each of several meats, by its own name."
    meat_shares: dict[str, Fraction] = field(default_factory=dict)
    "Of several meats, by id: the share of all of it that each is."
    green_weight_g: Fraction | None = None
    "Of the raw meat; of two writings the lighter."
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
    stage_checks_beyond: tuple[str, ...] = ()
    "The same at any scale beyond twice the recipe."
    problems: tuple[Problem, ...] = ()
    salt: DishSalt | None = None
    "None for a cure (whose salt stands there), and where nothing is known to be salted."

    @property
    def all_lines(self) -> tuple[ComputedLine, ...]:
        """The raw meat first, each of several by itself, then the ingredient lines."""
        return (*(self.meat_lines or ((self.meat_line,) if self.meat_line else ())), *self.lines)

    @property
    def named_lines(self) -> tuple[ComputedLine, ...]:
        """Every line that a link of the body can name: these, and several meats together."""
        whole = (self.meat_line,) if self.meat_line and self.meat_lines else ()
        return (*whole, *self.all_lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedText:
    """What the name, the summary and the sentences of a gathering were found to say."""

    gathering: Gathering
    cautions: tuple[Caution, ...] = ()
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ComputedBook:
    """Every recipe of the book, computed as written (one batch)."""

    book: Book
    recipes: dict[str, ComputedRecipe]
    texts: dict[str, JudgedText] = field(default_factory=dict)
    "Of each gathering by its slug."
