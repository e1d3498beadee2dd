"""Hand-made computed records for the tests of pages: a smoked shank, the beans that take it, and a plain page.

The numbers are set by hand, not worked out: pages only print what they are given.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from generator.model.book import Book, BookConfig, Use
from generator.model.form import Setting
from generator.model.quantity import COUNT, Measure, Quantity, Span, Temperature, TemperatureRange, Unit
from generator.model.recipe import (
    Body,
    Cure,
    CureLine,
    Ingredient,
    Keep,
    Link,
    Makes,
    Meat,
    PlainPage,
    Recipe,
    Stage,
    Target,
    TargetKind,
)
from generator.model.results import (
    Caution,
    ComponentNeed,
    ComputedBook,
    ComputedLine,
    ComputedRecipe,
    CureResult,
    CureWeights,
    Scale,
    Shown,
    UsedBy,
)
from generator.model.shown import Shower
from generator.problems import Position, Problem
from generator.render import Theme, make_context
from generator.render.context import Context
from generator.tables import load_tables

TABLES = load_tables()
SHOWER = Shower(TABLES.rounding, TABLES.units)
AT = Position("recipes/x.md")


def amount(number: int | Fraction, unit: str = "", *, written: str = "x") -> Quantity:
    """`amount(6, "pound")`; no unit is a count."""
    found: Unit = TABLES.units[unit] if unit else COUNT
    return Quantity(measures=(Measure(Span.of(number), found),), written=written)


def line(id: str, name: str, quantity: Quantity | None, **rest: Any) -> ComputedLine:
    """A computed ingredient line; `preparation`, `group` and `link` go to the ingredient."""
    kept = {key: rest.pop(key) for key in ("preparation", "group", "link", "fixed") if key in rest}
    one = Ingredient(id=id, name=name, quantity=quantity, written=name, position=AT, **kept)
    shown = SHOWER.everywhere(quantity) if quantity is not None else None
    fields = {"grams": None, "millilitres": None, "shown": shown, **rest}
    return ComputedLine(ingredient=one, scaled=quantity, **fields)


def body(text: str, *photos: str) -> Body:
    """A body with its photos listed, as reading would."""
    links = tuple(Link(text="", target=photo, position=AT) for photo in photos)
    return Body(text=text, first_line=9, photos=links)


SHANK_TEXT = """\
My mother pulled two out of the tub. See [how we weigh](../pages/weighing.md).

1. Stir the [salt](#salt), half of the [sugar](#sugar:1/2) and the [curing salt](#curing-salt) into the [water](#water).
2. When the brine is below 40 °F, sink the [shanks](#meat) with the [bay leaves](#bay-leaves).
3. Prick every 3/4 inch. It needs <b>no</b> *more than*
   a week.

![Shanks on the rack](../photos/shank.jpg)

Everything goes to 165 °F inside; see [the beans](beans.md) and [elsewhere](https://example.org/?a=1&b=2).
"""

SHANK = Recipe(
    slug="smoked-elk-shank",
    file="recipes/smoked-elk-shank.md",
    name="Smoked elk shank",
    summary="Fore shanks, brined by weight and hot-smoked.",
    makes=Makes(
        quantity=replace(amount(4), alternative=(Measure(Span.of(Fraction(19, 4)), TABLES.units["pound"]),)),
        noun="shanks",
        position=AT,
    ),
    chapter="Smokehouse",
    tags=("smoked", "keeps"),
    meats=(
        Meat(
            animal="elk",
            animal_written="elk",
            cut="fore shank",
            weight=amount(6, "pound"),
            pieces=4,
            thickness=amount(3, "inch"),
            shape="round",
            bone="in",
            position=AT,
        ),
    ),
    cure=Cure(
        method="brine",
        water=amount(3, "us_quart"),
        salt=CureLine(target=Target(kind=TargetKind.PERCENT, value=Fraction(3)), written="3 %", position=AT),
        sugar=CureLine(
            target=Target(kind=TargetKind.PERCENT, value=Fraction(3, 2)), written="1.5 %", position=AT
        ),
        curing_salt=CureLine(
            target=Target(kind=TargetKind.PPM, value=Fraction(150)), written="150 ppm", position=AT
        ),
        position=AT,
    ),
    stages=(
        Stage(name="thaw", place="fridge", place_written="in the fridge", written="", position=AT),
        Stage(
            name="cure",
            minutes=Span.of(6 * 1440),
            length_written="6 days",
            place="fridge",
            place_written="in the fridge",
            written="",
            position=AT,
        ),
        Stage(name="dry", minutes=Span.of(120), length_written="2 h", until="tacky", written="", position=AT),
        Stage(
            name="hot smoke",
            minutes=Span(Fraction(300), Fraction(360)),
            length_written="5–6 h",
            at=TemperatureRange(Temperature(Fraction(200), "F"), Temperature(Fraction(225), "F")),
            inside=Temperature(Fraction(145), "F"),
            written="",
            position=AT,
        ),
    ),
    eat_after_cooking=True,
    keep=(Keep(place="fridge", days=Span.of(4), written="4 days", position=AT),),
    body=body(SHANK_TEXT, "../photos/shank.jpg"),
    position=AT,
)

CAUTIONS = (
    Caution(
        slug="nitrite-handling",
        signal="DANGER",
        title="Weigh the curing salt",
        text="Never measure it by the spoon.",
        because="the cure uses curing salt no. 1",
        sources=("21cfr172.175",),
    ),
    Caution(
        slug="cure-cold",
        signal="WARNING",
        title="Keep the cure cold",
        text="Keep it at 40 °F (4 °C) or colder.",
        because="raw meat lies in the brine",
        sources=("nchfp-2002", "practice"),
        stage=1,
    ),
    Caution(
        slug="grey-middle",
        signal="CAUTION",
        title="Cut the thickest",
        text="Grey: cook now.",
        because="",
        sources=(),
        missing=("meat.thickness", "shot"),
    ),
    Caution(
        slug="fish-advice",
        signal="NOTICE",
        title="Check the rules",
        text="Look them up.",
        because="they differ",
        sources=("cdc-cwd",),
        stage=99,
        accepted="We asked the warden.",
    ),
)

KIND = TABLES.curing_salts[0]
LIMIT = TABLES.limit("whole", "brine")

CURE = CureResult(
    method="brine",
    cut="whole",
    kind=KIND,
    setting=Setting(batches=Fraction(1), meat_g=Fraction(2722), water_g=Fraction(2839)),
    green_weight_g=Fraction(2722),
    water_g=Fraction(2839),
    weigh=CureWeights(
        salt_g=Fraction(15312, 100), sugar_g=Fraction(8342, 100), curing_salt_g=Fraction(1397, 100)
    ),
    shown={
        "green_weight": "2.725 kg",
        "water": "2.84 kg",
        "salt": "153 g",
        "sugar": "83.4 g",
        "curing_salt": "13.9 g",
    },
    whole_system_ppm=Fraction(1499, 10),
    limit=LIMIT,
    salt_percent=Fraction(3),
    sugar_percent=Fraction(3, 2),
    strength_percent=Fraction(54, 10),
    salometer_degrees=Fraction(204, 10),
    pump_g=Fraction(218),
)

REFUSED = replace(
    CURE,
    weigh=None,
    shown={},
    problems=(
        Problem(
            slug="above-limit",
            message="The ingoing nitrite is 312 ppm; the limit is 200 ppm.",
            hint="Use at most 12.3 g of curing salt.",
        ),
    ),
)


def all_systems(us: str, metric: str) -> Shown:
    """The same amount in every system."""
    return Shown(us=us, metric=metric, imperial=us)


def shank(**changes: Any) -> ComputedRecipe:
    """The smoked shank, computed by hand."""
    computed = ComputedRecipe(
        recipe=SHANK,
        scale=Scale(batches=Fraction(1)),
        serves=None,
        makes=SHANK.makes.quantity if SHANK.makes else None,
        makes_shown=None,
        meat_line=line("meat", "elk fore shank", amount(6, "pound")),
        lines=(
            line("bay-leaves", "bay leaves", amount(4), fixed=True),
            line(
                "juniper-berries",
                "juniper berries",
                amount(1, "us_tbsp"),
                preparation="crushed",
                grams=Span.of(6),
                weight_source="sr28",
            ),
        ),
        cure=CURE,
        cure_lines={
            "salt": all_systems("153 g", "153 g"),
            "sugar": all_systems("83.4 g", "83.4 g"),
            "curing-salt": all_systems("13.9 g", "13.9 g"),
            "water": all_systems("3 qt", "2.84 kg"),
        },
        needs=(),
        used_by=(UsedBy(dish="beans", batches=Fraction(1, 4)),),
        cautions=CAUTIONS,
        facts=("Keeps 4 days in the fridge.", "Contains no milk."),
    )
    return replace(computed, **changes)


USE = Ingredient(
    id="smoked-elk-shank",
    name="smoked elk shank",
    quantity=amount(1),
    preparation="sawn in two",
    link=Link(text="smoked elk shank", target="smoked-elk-shank.md", position=AT),
    written="1 smoked elk shank",
    position=AT,
)

BEANS = Recipe(
    slug="beans",
    file="recipes/beans.md",
    name="Beans & <shank>",
    serves=Fraction(12),
    chapter="Pots",
    tags=("beans", "keeps"),
    ingredients=(USE,),
    body=body("Drain the [beans](#beans), then simmer to 165 °F with the [shank](#smoked-elk-shank)."),
    position=AT,
)


def beans(**changes: Any) -> ComputedRecipe:
    """The beans that take one shank."""
    computed = ComputedRecipe(
        recipe=BEANS,
        scale=Scale(batches=Fraction(1)),
        serves=Fraction(12),
        makes=None,
        makes_shown=None,
        meat_line=None,
        lines=(
            line("beans", "dry pinto beans", amount(Fraction(3, 2), "pound"), group="For the pot"),
            ComputedLine(
                ingredient=USE,
                scaled=USE.quantity,
                grams=None,
                millilitres=None,
                shown=all_systems("1", "1"),
            ),
            line("salt", "salt", Quantity(vague="to taste")),
        ),
        cure=None,
        cure_lines={},
        needs=(
            ComponentNeed(
                recipe="smoked-elk-shank",
                path=("beans", "smoked-elk-shank"),
                batches=Fraction(1, 4),
                amount_g=Fraction(540),
                amount_shown=all_systems("1 shank", "1 shank"),
                green_weight_g=Fraction(680),
                green_weight_shown=all_systems("1 lb 8 oz", "680 g"),
                meat_name="elk fore shank",
            ),
        ),
        used_by=(),
        cautions=(),
        facts=(),
    )
    return replace(computed, **changes)


PAGE = PlainPage(
    slug="weighing",
    file="pages/weighing.md",
    name="How we weigh",
    summary="On the scale, always.",
    body=body(
        "## The scale\n\nWeigh 5 lb of meat. Back to [the shanks](../recipes/smoked-elk-shank.md#method)."
    ),
    position=AT,
)


def book(*computed: ComputedRecipe, **config: Any) -> ComputedBook:
    """A book of these recipes; without any, of the shank and the beans."""
    chosen = computed or (shank(), beans())
    recipes = {one.recipe.slug: one for one in chosen}
    uses = (Use(dish="beans", component="smoked-elk-shank", line=USE, batches=Fraction(1, 4)),)
    both = {"smoked-elk-shank", "beans"} <= recipes.keys()
    settings = {
        "title": "The Larder",
        "family": "The Wetherings",
        "chapters": ("Smokehouse", "Pots"),
        **config,
    }
    return ComputedBook(
        book=Book(
            config=BookConfig(**settings),
            recipes={"beans": BEANS, "smoked-elk-shank": SHANK}
            | {s: one.recipe for s, one in recipes.items()},
            uses=uses if both else (),
            order=tuple(sorted(recipes)),
            pages=(PAGE,),
        ),
        recipes=recipes,
    )


def sheet(theme: Theme, computed: ComputedBook | None = None, units: str = "us") -> Context:
    """What a page that stands alone is made from."""
    return make_context(computed or book(), tables=TABLES, theme=theme, sheet_units=units)
