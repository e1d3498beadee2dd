"""A cure in, each of its figures out, told once: key, label, sentence, note and JSON key.

Page, smoker's sheet, terminal and JSON take the numbers of the result; the page's script takes the same sentences over
the forms of the contract, so that they follow batches, meat and water. `tests/pages/test_bench.py` holds one against
the other. The figures stand in the order of the JSON; a reader that needs another order asks by what they are of.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, TypeAlias

from generator.model.contract import (
    Blend,
    CureContract,
    Decimal,
    Either,
    Least,
    Stepped,
    Sum,
    Text,
    Value,
    Weight,
    constant,
    down,
    up,
)
from generator.model.form import MEAT, WATER, Figure, Form, Setting
from generator.model.quantity import Span
from generator.model.reader import Reader
from generator.model.recipe import Cure
from generator.model.results import ComputedRecipe, CureEnds, CureForms, CureResult
from generator.model.rounding import round_up
from generator.model.shown import Shower, show_decimal

ONE = Fraction(1)
"Source: house choice, figures in ppm are printed to 1 ppm."
TENTH = Fraction(1, 10)
"Source: house choice, curing salt is printed to 0.1 g, and a step of the scale to 0.1 ppm."
PER_CENT = Fraction(100)
"Source: per cent, a definition."
BLENDED = 50
"[g] Curing salt in a blend; its carrier is nine times that. Source: house choice, as the cure is worked out."

SHARES, NITRITE, METHOD, SCALE = range(4)
"What a figure is of."
BLEND = "Or as a blend"
FINER = "Use a scale that reads 0.1 g: 1 g is more than a tenth of the dose."
FINER_OR_BLEND = f"{FINER} Or weigh it in a blend."
BLEND_NOTE = "What is left of the blend is curing salt too: label it, and keep it from the table."
BASES = {
    "whole system": "over meat and brine together (whole-system figure: the cure is left until it is even)",
    "pick-up": "carried in by the brine that the meat takes up (pick-up figure)",
    "dry": "of green weight",
}
"What an ingoing nitrite figure is counted over. No figure stands without it."

Words: TypeAlias = tuple[str, str, str]
"Label, value, note; the note may be empty."


Sentence: TypeAlias = Callable[..., Text]
"Of the result and its amounts."
Follows: TypeAlias = Callable[[CureResult, CureForms, CureContract], Value | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """A figure from its least to its most."""

    name: str
    "Of its range in the result."
    says: Callable[[CureResult, Value, Value], Text]
    least: Callable[[CureResult, CureEnds], Value]
    most: Callable[[CureResult, CureEnds], Value]


@dataclass(frozen=True, slots=True, kw_only=True)
class CureFigure:
    """One figure of a cure, wherever it is told."""

    label: str = ""
    "Empty where it stands in JSON alone."
    key: str = ""
    "By which a page's script finds it; its label where empty."
    of: int = SHARES
    amounts: tuple[tuple[str, Follows], ...] = ()
    "Numbers of the result, by their names, with the values of the contract that they follow."
    says: Sentence | None = None
    "None where the words are told elsewhere."
    note: Callable[[CureResult], str] = lambda cure: ""
    spread: Spread | None = None
    "How it is told where cups or spoons leave it open; None where it is one number all the same."
    or_none: bool = False
    "An amount of nothing is no figure."
    stands: Callable[[CureResult], Any] = lambda cure: True
    "Whether it is told where its amounts are known; a script knows it all the same."
    follows: Callable[[CureResult], Text] | None = None
    "In place of `says`, for a script, where the sentence itself depends on the scale."
    note_follows: Callable[[CureResult], Text] = lambda cure: ()
    "In place of `note`, for a script; empty where the note stays as it is."
    at_table: tuple[str, Callable[[CureResult], str]] | None = None
    "Label and words at a terminal, where they are its own."
    json: tuple[str, ...] = ()
    "`key` or `key = name`: a key in JSON and the name in the result; a dot goes down a step."

    def _numbers(self, cure: CureResult) -> list[Fraction] | None:
        """Its amounts; None where one is not known."""
        numbers = [named(cure, name) for name, _ in self.amounts]
        return None if None in numbers or (self.or_none and 0 in numbers) else numbers

    def told(self, cure: CureResult) -> Text:
        """The figure as worked out; empty where it is not known or does not stand."""
        numbers = self._numbers(cure)
        if self.says is None or numbers is None or not self.stands(cure):
            return ()
        span = self.spread and range_of(cure, self.spread.name)
        if self.spread and span:
            return self.spread.says(cure, constant(span.low), constant(span.high))
        return self.says(cure, *map(constant, numbers))

    def following(self, cure: CureResult) -> Text:
        """The figure over the forms; empty where it does not follow the scale."""
        forms, contract = cure.forms, cure.contract
        if forms is None or contract is None or cure.setting is None or self.says is None:
            return ()
        if self.follows is not None:
            return self.follows(cure)
        if not self.amounts or self._numbers(cure) is None:
            return ()
        span = self.spread and range_of(cure, self.spread.name)
        if self.spread and span and cure.ends:
            return self.spread.says(
                cure, self.spread.least(cure, cure.ends), self.spread.most(cure, cure.ends)
            )
        values = [follows(cure, forms, contract) for _, follows in self.amounts]
        return () if None in values else self.says(cure, *values)


def range_of(cure: CureResult, name: str) -> Span | None:
    """The range of a figure that cups or spoons leave open; None where it is one number."""
    span = named(cure, f"spans.{name}")
    return span if isinstance(span, Span) and span.is_range else None


def from_to(low: Value, high: Value, places: int) -> Text:
    """`3.1 to 6.9`; one number where both ends read alike."""
    step = Fraction(1, 10**places)
    least, most = (Stepped(value=end, step=step, direction="nearest") for end in (low, high))
    one = Decimal(value=high, places=places)
    return (
        Either(
            value=most, above=least, then=(Decimal(value=low, places=places), " to ", one), otherwise=(one,)
        ),
    )


def named(cure: CureResult, name: str) -> Any:
    """What a result holds under a name; None where a part on the way is not there."""
    found: Any = cure
    for part in name.split("."):
        found = None if found is None else getattr(found, part)
    return found


def _ppm(value: Value) -> Text:
    """Rounded up: what is judged against a greatest value is never shown as less than it is."""
    return (up(value, ONE), " ppm")


def _to(value: Fraction | None, places: int) -> str:
    return show_decimal(value or Fraction(0), places=places)


def _form(name: str) -> Follows:
    return lambda cure, forms, contract: getattr(forms, name)


def _ingoing(basis: str, form: str) -> CureFigure:
    """Ingoing nitrite on one basis."""
    name = basis.replace(" ", "_").replace("-", "_")
    return CureFigure(
        label="Ingoing nitrite",
        key=f"Ingoing nitrite, {basis}",
        of=NITRITE,
        amounts=((f"{name}_ppm", _form(form)),),
        says=lambda cure, ppm: _ppm(ppm),
        note=lambda cure: BASES[basis],
        json=(f"ingoing_nitrite_ppm.{name} = {name}_ppm",),
    )


def _sugar_share(cure: CureResult, forms: CureForms, _: object) -> Value:
    base = MEAT.plus(WATER) if cure.method == "brine" else MEAT
    return Figure(factor=PER_CENT, over=forms.sugar, under=base)


def _percent_of(cure: CureResult, percent: Value) -> Text:
    return (Decimal(value=percent, places=2), _of_base(cure))


def _percent_range(cure: CureResult, low: Value, high: Value) -> Text:
    return (*from_to(low, high, 2), _of_base(cure))


def _of_base(cure: CureResult) -> str:
    return f" % of {_by_method(cure, 'meat and water', 'the meat')}"


def _pump(cure: CureResult, *_: object) -> Value | None:
    taken, meat = cure.pump_g, cure.green_weight_g
    return MEAT.times(taken / meat) if taken is not None and meat else None


def _by_method(cure: CureResult, in_brine: str, in_dry: str) -> str:
    return in_brine if cure.method == "brine" else in_dry


def _degrees(cure: CureResult) -> Text:
    """Degrees salometer over the forms: what the strength is of a saturated brine, which holds at any scale."""
    forms, percent, degrees = cure.forms, cure.strength_percent, cure.salometer_degrees
    if forms is None or forms.strength_percent is None or not percent or degrees is None:
        return ()

    def of(strength: Value) -> Value:
        return Sum(terms=((degrees / percent, strength),))

    span = range_of(cure, "salometer_degrees")
    if span and cure.ends:
        low, high = of(_least_strength(cure, cure.ends)), of(_most_strength(cure, cure.ends))
        return (*from_to(low, high, 0), " degrees salometer")
    return (Decimal(value=of(forms.strength_percent), places=0), " degrees salometer")


def _least_strength(cure: CureResult, ends: CureEnds) -> Value:
    return _dissolved(cure, ends.weakest)


def _most_strength(cure: CureResult, ends: CureEnds) -> Value:
    return _dissolved(cure, ends.strongest)


def _dissolved(cure: CureResult, forms: CureForms) -> Value:
    """A strength, but no more than water can hold: the rest lies on the bottom."""
    assert forms.strength_percent is not None, "only a brine has a strength"
    assert cure.strength_percent
    assert cure.salometer_degrees
    saturated = PER_CENT * cure.strength_percent / cure.salometer_degrees
    return Least(of=(forms.strength_percent, constant(saturated)))


def _amount(cure: CureResult, name: str, places: int) -> str:
    """A figure, or its range, as it stands in a sentence at a terminal."""
    span = range_of(cure, name)
    if span is None:
        return _to(named(cure, name), places)
    low, high = _to(span.low, places), _to(span.high, places)
    return high if low == high else f"{low} to {high}"


def _salt_in_all(cure: CureResult) -> str:
    return f"{_amount(cure, 'salt_percent', 2)} % of {_by_method(cure, 'meat + water', 'the meat')}"


def _strength_at_60_f(cure: CureResult) -> str:
    degrees = _amount(cure, "salometer_degrees", 1)
    return f"{_amount(cure, 'strength_percent', 2)} % by weight, {degrees} degrees salometer at 60 °F"


def _needle(cure: CureResult) -> str:
    return "this brine" if cure.pump_brine is None else "the pump brine"


def _pump_brine(cure: CureResult) -> Text:
    """Down: what is weighed of a brine that is mixed apart never brings more than its figure says."""
    brine, batches = cure.pump_brine, cure.setting.batches if cure.setting else ONE
    assert brine is not None
    weights = (
        ("water", brine.water_g),
        ("salt", brine.salt_g),
        ("sugar", brine.sugar_g),
        (brine.kind.title, brine.curing_salt_g),
    )
    named = [(down(Form(cb=grams / batches), TENTH), f" g {name}") for name, grams in weights if grams]
    return tuple(part for number, one in enumerate(named) for part in ((", ", *one) if number else one))


def _pump_note(cure: CureResult) -> str:
    brine = cure.pump_brine
    assert brine is not None
    needle = _to(round_up(brine.nitrite_ppm, ONE), 0)
    return f"{_to(brine.strength_percent, 1)} % salt by weight; {needle} ppm nitrite by the needle alone"


def _nitrate(cure: CureResult, ppm: Value) -> Text:
    return (*_nitrate_grams(cure), *_ppm(ppm))


def _nitrate_range(cure: CureResult, low: Value, high: Value) -> Text:
    return (*_nitrate_grams(cure), Decimal(value=low, places=0), " to ", *_ppm(high))


def _nitrate_grams(cure: CureResult) -> Text:
    grams = cure.contract.shown["nitrate"] if cure.contract and cure.shown.get("nitrate") else ()
    return (*grams, ", ") if grams else ()


def _nitrate_note(cure: CureResult) -> str:
    basis = _by_method(cure, "over meat and brine together", "of green weight")
    if not cure.nitrate_limit_ppm:
        return f"{basis}; none is allowed"
    return f"{basis}; limit {_to(cure.nitrate_limit_ppm, 0)} ppm (21 CFR 172.170)"


def _above_when_even(cure: CureResult) -> bool:
    """A short cure whose brine would pass the limit if it were left."""
    whole, limit = cure.whole_system_ppm, cure.limit
    short = cure.whole_limit_is_worst_case and limit is not None
    return short and whole is not None and limit is not None and whole > limit.limit_ppm


def _entered(cure: CureResult, forms: CureForms, _: CureContract) -> Value | None:
    whole, judged = cure.whole_system_ppm, cure.judged_ppm
    return Sum(terms=((judged / whole, forms.nitrite_ppm),)) if whole and judged else None


def _steps(cure: CureResult, tenth: Value, gram: Value) -> Text:
    """A step of the scale is named no smaller than it is."""
    return ("0.1 g of curing salt is ", up(tenth, TENTH), " ppm, 1 g is ", up(gram, TENTH), " ppm")


def _scale(cure: CureResult) -> Text:
    dose = cure.contract.dose if cure.contract else None
    tenth = None if dose is None else Sum(terms=((TENTH, dose.per_gram),))
    return () if dose is None or tenth is None else _steps(cure, tenth, dose.per_gram)


def _finer(cure: CureResult) -> str:
    if cure.dose is None or not cure.dose.use_finer_scale:
        return ""
    return FINER if cure.dose.pre_blend is None else FINER_OR_BLEND


def _where_coarse(cure: CureResult, says: Callable[[Blend], Text], neither: Text) -> Text:
    """Over the forms: the sentence of the first blend whose carrier is enough, where the scale is too coarse."""
    dose = cure.contract.dose if cure.contract else None
    if dose is None:
        return ()
    for one in reversed(dose.blends):
        neither = (Either(value=one.taken, above=one.there, then=neither, otherwise=says(one)),)
    return (Either(value=dose.per_gram, above=dose.coarse_from, then=neither),)


def _blend(carrier: str, weigh: Value, left: Value) -> Text:
    return (
        f"mix {BLENDED} g of curing salt evenly with {9 * BLENDED} g of {carrier}; weigh ",
        Decimal(value=weigh, places=0),
        " g of that instead of the curing salt, and ",
        Decimal(value=left, places=1),
        f" g of {carrier} besides",
    )


def _pre_blend(cure: CureResult) -> Text:
    blend = cure.dose.pre_blend if cure.dose else None
    return (
        ()
        if blend is None
        else _blend(blend.carrier, constant(blend.weigh_g), constant(blend.carrier_left_g))
    )


def _by_the_spoon(cure: CureResult) -> str:
    """What leaves the nitrite open."""
    open_lines = cure.ends.open if cure.ends else frozenset()
    if open_lines <= {"curing_salt"}:
        return "from the lightest to the heaviest published spoon"
    spoon = "the lightest spoon" if "curing_salt" in open_lines else "the curing salt"
    return f"from {spoon} beside the heaviest cups to the most that may be beside the lightest"


def _cups(cure: CureResult, ends: Sequence[tuple[str, Value, Value]]) -> Text:
    """What the cups of a cure can weigh; empty where all of it is weighed."""
    open_lines = cure.ends.open if cure.ends else frozenset()
    told: list[Text] = [
        (f"{name} ", Weight(value=low, high=high, use="cure weight"))
        for name, low, high in ends
        if name in open_lines
    ]
    return tuple(part for number, one in enumerate(told) for part in ((", ", *one) if number else one))


def _by_the_cup(cure: CureResult) -> Text:
    spans = cure.spans
    if spans is None:
        return ()
    ends = (("salt", spans.salt_g), ("sugar", spans.sugar_g))
    return _cups(cure, [(name, constant(span.low), constant(span.high)) for name, span in ends])


def _cups_following(cure: CureResult) -> Text:
    contract = cure.contract
    if contract is None:
        return ()
    weigh, most = contract.weigh, contract.heaviest
    return _cups(cure, [(name, weigh[name], most[name]) for name in ("salt", "sugar") if name in most])


FIGURES: tuple[CureFigure, ...] = (
    _ingoing("whole system", "nitrite_ppm"),
    _ingoing("pick-up", "pick_up_ppm"),
    _ingoing("dry", "nitrite_ppm"),
    CureFigure(
        label="By the spoon",
        of=NITRITE,
        amounts=(
            ("ppm_range.low", lambda cure, forms, contract: contract.lightest),
            ("ppm_range.high", _form("nitrite_ppm")),
        ),
        says=lambda cure, low, high: (Decimal(value=low, places=0), " to ", *_ppm(high)),
        note=_by_the_spoon,
        json=("ingoing_nitrite_range_ppm = ppm_range", "limit_ppm = limit.limit_ppm"),
    ),
    CureFigure(
        label="Salt",
        amounts=(("salt_percent", _form("salt_percent")),),
        says=_percent_of,
        spread=Spread(
            name="salt_percent",
            says=_percent_range,
            least=lambda cure, ends: ends.weakest.salt_percent,
            most=lambda cure, ends: ends.strongest.salt_percent,
        ),
        at_table=("salt in all", _salt_in_all),
        json=("salt_percent",),
    ),
    CureFigure(
        label="Sugar",
        amounts=(("sugar_percent", _sugar_share),),
        says=_percent_of,
        spread=Spread(
            name="sugar_percent",
            says=_percent_range,
            least=lambda cure, ends: _sugar_share(cure, ends.strongest, ends),
            most=lambda cure, ends: _sugar_share(cure, ends.weakest, ends),
        ),
        or_none=True,
        json=("sugar_percent",),
    ),
    CureFigure(
        label="Brine strength",
        amounts=(("strength_percent", _form("strength_percent")),),
        says=lambda cure, percent: (Decimal(value=percent, places=2), " % salt by weight"),
        spread=Spread(
            name="strength_percent",
            says=lambda cure, low, high: (*from_to(low, high, 2), " % salt by weight"),
            least=_least_strength,
            most=_most_strength,
        ),
        note=lambda cure: f"{_amount(cure, 'salometer_degrees', 0)} degrees salometer",
        note_follows=_degrees,
        at_table=("brine strength", _strength_at_60_f),
        json=("brine_strength_percent = strength_percent", "salometer_degrees"),
    ),
    CureFigure(
        label="Pump",
        amounts=(("pump_g", _pump),),
        says=lambda cure, grams: (Weight(value=grams, use="cure base"), f" of {_needle(cure)}"),
        note=lambda cure: (
            "by the needle, all over the piece" if cure.pump_brine else "drawn before the meat goes in"
        ),
        at_table=("to inject", lambda cure: f"{_to(cure.pump_g, 0)} g of {_needle(cure)}"),
        json=("pump_g",),
    ),
    CureFigure(
        label="Pump brine, mixed apart",
        of=METHOD,
        says=_pump_brine,
        note=_pump_note,
        stands=lambda cure: cure.pump_brine and cure.weigh,
        follows=lambda cure: _pump_brine(cure) if cure.pump_brine else (),
        json=("pump_brine", "salt_carried"),
    ),
    CureFigure(
        label="If left until even",
        of=METHOD,
        amounts=(("whole_system_ppm", _form("nitrite_ppm")),),
        says=lambda cure, ppm: _ppm(ppm),
        note=lambda cure: "the worst case; this cure must be taken out in time",
        stands=_above_when_even,
    ),
    CureFigure(
        label="Entered by the last day",
        of=METHOD,
        amounts=(("judged_ppm", _entered),),
        says=lambda cure, ppm: ("at most ", *_ppm(ppm)),
        note=lambda cure: (
            "the fast case of the salt estimate, from all sides; this is held against the limit"
        ),
        stands=lambda cure: (
            cure.whole_limit_is_worst_case and cure.limit and cure.judged_ppm != cure.whole_system_ppm
        ),
        json=("judged_ppm", "last_hour"),
    ),
    CureFigure(
        label="Ingoing nitrate",
        of=METHOD,
        amounts=(("nitrate_ppm", _form("nitrate_ppm")),),
        says=_nitrate,
        spread=Spread(
            name="nitrate_ppm",
            says=_nitrate_range,
            least=lambda cure, ends: ends.least_nitrate.nitrate_ppm,
            most=lambda cure, ends: ends.most_nitrate.nitrate_ppm,
        ),
        note=_nitrate_note,
        or_none=True,
        json=("ingoing_nitrate_ppm = nitrate_ppm", "nitrate_limit_ppm"),
    ),
    CureFigure(
        label="Accelerator",
        of=METHOD,
        amounts=(("accelerator_g", _form("accelerator")), ("accelerator_ppm", _form("accelerator_ppm"))),
        says=lambda cure, grams, ppm: (down(grams, TENTH), " g, ", *_ppm(ppm)),
        note=lambda cure: "ascorbate or erythorbate",
        json=("accelerator_g", "accelerator_ppm"),
    ),
    CureFigure(
        label="By the cup",
        of=METHOD,
        says=_by_the_cup,
        follows=_cups_following,
        note=lambda cure: (
            "weigh it once and write the grams into the recipe: then every figure is one number"
        ),
    ),
    CureFigure(
        label="Ice",
        of=METHOD,
        says=lambda cure: ("not weighed: the strength is at most what is printed",),
        note=lambda cure: "the limit was judged without the ice; weigh it, and the strength can be told",
        stands=lambda cure: cure.ice_unmeasured,
        json=("reach", "brine"),
    ),
    CureFigure(
        label="The scale",
        of=SCALE,
        amounts=(("dose.tenth_gram_ppm", lambda *_: None), ("dose.gram_ppm", lambda *_: None)),
        says=_steps,
        note=_finer,
        follows=_scale,
        note_follows=lambda cure: _where_coarse(cure, lambda one: (FINER_OR_BLEND,), (FINER,)),
        json=("dose",),
    ),
    CureFigure(
        label=BLEND,
        of=SCALE,
        says=_pre_blend,
        note=lambda cure: BLEND_NOTE,
        follows=lambda cure: _where_coarse(cure, lambda one: _blend(one.carrier, one.weigh, one.left), ()),
        note_follows=lambda cure: (BLEND_NOTE,),
        json=("vessel", "ice"),
    ),
)
"In the order of the JSON; a key whose words stand elsewhere is with the figure before it."


def rubbed_on(written: Cure, cure: CureResult) -> CureFigure:
    """A dry cure rubbed on in equal parts: how much each time, curing salt and all."""
    forms = cure.forms

    def says(_: CureResult) -> Text:
        if written.applications < 2 or forms is None or cure.setting is None:
            return ()
        each = [
            one.salt.plus(other.sugar).plus(forms.curing_salt).times(ONE / written.applications)
            for one, other in _both_ends(cure, forms)
        ]
        grams = from_to(each[0], each[-1], 1) if len(each) > 1 else (Decimal(value=each[0], places=1),)
        return (f"{written.applications} equal parts, ", *grams, " g of the mix each time")

    return CureFigure(
        label="Rubbed on in",
        of=METHOD,
        says=says,
        follows=says,
        note=lambda cure: "mixed well first, so that each part is alike",
    )


def _both_ends(cure: CureResult, forms: CureForms) -> list[tuple[CureForms, CureForms]]:
    """The forms that have the salt, and the sugar, at its lightest and at its heaviest; one where both are weighed."""
    if cure.ends is None or not cure.ends.open & {"salt", "sugar"}:
        return [(forms, forms)]
    return [(cure.ends.weakest, cure.ends.strongest), (cure.ends.strongest, cure.ends.weakest)]


def figures_of(*kinds: int) -> Iterator[CureFigure]:
    """The figures that have words, kind by kind."""
    return (figure for kind in kinds for figure in FIGURES if figure.of == kind)


def meat_weights(recipe: ComputedRecipe, *, system: str = "metric") -> dict[str, Text]:
    """Each of several meats, by id: its written share of what lies on the scale, up, as all of it is rounded."""
    return {
        id: (Weight(value=MEAT.times(share), use="cure base", system=system),)
        for id, share in recipe.meat_shares.items()
    }


def cure_reader(cure: CureResult, shower: Shower) -> Reader:
    """Reads the sentences of a cure at its own setting; where that is not known they hold no forms."""
    none = Setting(batches=ONE, meat_g=Fraction(0), water_g=Fraction(0))
    return Reader(setting=cure.setting or none, shower=shower)


def figure_words(cure: CureResult, shower: Shower, *kinds: int) -> list[Words]:
    """Label, value and note of each figure of some kinds that can be told."""
    reader = cure_reader(cure, shower)
    told = ((figure, reader.text(figure.told(cure))) for figure in figures_of(*kinds))
    return [(figure.label, value, figure.note(cure)) for figure, value in told if value]
