"""A solved cure and its limits in, every comparison out that empties its weights, with the sentences that say so."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.compute.cure.case import CureInput, NitriteForms
from generator.compute.cure.formulas import PER_CENT
from generator.compute.cure.limits import (
    HUNDREDTH_G,
    TEN_G,
    TENTH_G,
    most_nitrate,
    refusal,
    ways_out,
    ways_out_of_pick_up,
)
from generator.compute.cure.pump_guards import needle_over_target, pump_brine_guards
from generator.model.contract import Decimal, Either, Guard, Text, constant, down, up
from generator.model.form import MEAT, NOTHING, WATER, Figure, Form
from generator.model.published import NitriteLimit
from generator.model.recipe import CureLine
from generator.model.results import CureForms, PumpBrineResult
from generator.model.rounding import round_down
from generator.model.shown import show_decimal
from generator.problems import Position
from generator.tables import Tables

HUNDREDTH = Fraction(1, 100)
"Source: house choice, the step in which a least percentage is named."

NEEDLE_ROOM = Fraction(99, 100)
"Source: house choice; less curing salt makes the pump brine a little lighter, which this leaves room for."

BASIS = {"brine": "on meat and brine together", "dry": "on the green weight"}
NO_SOLUTION: tuple[str, str] = (
    "No weights reach all the targets of this cure: together they ask for more than there can be.",
    "Change one target to an amount.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Guarded:
    """What the guards of one cure are made of."""

    given: CureInput
    forms: CureForms
    case: NitriteForms
    limit: NitriteLimit | None
    pump_brine: PumpBrineResult | None
    "Of one batch."
    tables: Tables


def make_guards(cure: Guarded) -> tuple[Guard, ...]:
    """Every comparison, in the order in which they are looked at."""
    return (
        *_no_solution(cure),
        *_pump_brine(cure),
        *_nitrate(cure),
        *_nitrite(cure),
        *_accelerator(cure),
        *_negative_salt(cure),
        *_saturation(cure),
        *_too_little(cure),
        *_pump(cure),
    )


def _at(line: CureLine | None, given: CureInput) -> Position | None:
    return line.position if line is not None else given.position


def _no_solution(cure: Guarded) -> Iterator[Guard]:
    """The targets contradict each other: salt and sugar together would be more than the whole brine."""
    pairs: list[tuple[Form, Form]] = [(NOTHING, cure.forms.nitrate)]
    if cure.given.is_brine:
        pairs.insert(0, (WATER, cure.forms.brine))
    for value, limit in pairs:
        yield Guard(
            slug="no-solution",
            group="no-solution",
            value=value,
            limit=limit,
            message=NO_SOLUTION[:1],
            hint=NO_SOLUTION[1:],
            position=cure.given.position,
            stops=True,
        )


def _nitrate(cure: Guarded) -> Iterator[Guard]:
    given = cure.given
    pumped = given.pump_brine.curing_salt if given.pump_brine else None
    line = given.nitrate or given.curing_salt or pumped
    if line is None or cure.forms.nitrate_ppm.over == NOTHING:
        return
    limit, message, hint, slug = _nitrate_words(cure)
    yield Guard(
        slug=slug,
        group="nitrate",
        value=cure.forms.nitrate_ppm,
        limit=constant(limit),
        message=message,
        hint=hint,
        position=line.position,
    )


def _nitrate_words(cure: Guarded) -> tuple[Fraction, Text, Text, str]:
    """Limit [ppm], sentence, hint and slug: none at all in belly and in most fish."""
    given, none = cure.given, Fraction(0)
    if given.cut == "belly":
        return (
            none,
            ("Nitrate is never allowed in belly (9 CFR 424.22(b)), and this cure brings some.",),
            ("Use a curing salt with nitrite alone.",),
            "nitrate-in-belly",
        )
    if given.fish is not None and not given.fish_nitrate_ppm:
        return (
            none,
            (
                f"Nitrate is not allowed in {given.fish}: 21 CFR 172.170(a)(1) lists sablefish, salmon and shad.",
            ),
            ("Leave it out and cure with salt alone, kept cold and cooked through.",),
            "fish-nitrite",
        )
    limit = cure.tables.constant("nitrate_limit_ppm")
    return limit, _nitrate_message(cure, limit), _nitrate_hint(cure, limit), "nitrate-above-limit"


def _nitrate_message(cure: Guarded, limit: Fraction) -> Text:
    return (
        Decimal(value=cure.forms.nitrate_ppm, places=1),
        f" ppm ingoing nitrate {BASIS[cure.given.method]} is above "
        f"the limit of {show_decimal(limit, places=0)} ppm for home cures (21 CFR 172.170(a)(2)).",
    )


def _nitrate_hint(cure: Guarded, limit: Fraction) -> Text:
    given = cure.given
    by_itself = given.nitrate is not None
    kind = given.nitrate_kind if by_itself else given.kind
    share = kind.nitrate if kind is not None else Fraction(1)
    if not share:
        return ("Pump less, or mix the pump brine with a curing salt that has no nitrate.",)
    most = most_nitrate(
        cure.forms.nitrate if by_itself else cure.forms.curing_salt,
        share,
        cure.forms,
        limit,
        is_brine=given.is_brine,
    )
    return (
        "At most ",
        Either(value=most, above=NOTHING, then=(down(most, TENTH_G, 1),), otherwise=("0",)),
        " g of it for this meat, or more meat, or nitrite alone, which works without months of waiting.",
    )


def _nitrite(cure: Guarded) -> Iterator[Guard]:
    """The needle by itself, then the figure that the method is judged by; what enters by a last day is not here."""
    given, limit = cure.given, cure.limit
    line = given.curing_salt or (given.pump_brine.curing_salt if given.pump_brine else None)
    if line is None or limit is None:
        return
    source = cure.tables.sources[limit.source].citation.partition(",")[0]
    yield from _needle(cure, limit, source)
    figure, basis = cure.forms.nitrite_ppm, BASIS[given.method]
    hint = ways_out(cure.case, limit)
    if given.pick_up is not None and cure.forms.pick_up_ppm is not None:
        figure = cure.forms.pick_up_ppm
        basis = f"by a pick-up of {show_decimal(given.pick_up_percent or Fraction(0), places=1)} %"
        hint = ways_out_of_pick_up(cure.case, given.pick_up, limit)
    yield Guard(
        slug="above-limit",
        group="nitrite",
        value=figure,
        limit=constant(limit.limit_ppm),
        message=refusal(figure, limit, basis, source),
        hint=hint,
        position=line.position,
    )


def _needle(cure: Guarded, limit: NitriteLimit, source: str) -> Iterator[Guard]:
    """What the needle brings is in the meat at once: it is held against the limit by itself, too."""
    brine, pump = cure.pump_brine, cure.given.pump_brine
    if brine is None or pump is None or pump.curing_salt is None:
        return
    ppm = brine.nitrite_ppm / cure.given.lean_share
    if not ppm:
        return
    grams = Form(cb=brine.curing_salt_g * limit.limit_ppm / ppm * NEEDLE_ROOM)
    yield Guard(
        slug="above-limit",
        group="nitrite",
        value=constant(ppm),
        limit=constant(limit.limit_ppm),
        message=refusal(constant(ppm), limit, "by the needle alone", source),
        hint=(
            "At most ",
            down(grams, HUNDREDTH_G, 2),
            " g of curing salt in that pump brine, or pump less of it, or write a target under `pump brine:`, "
            f"curing salt: {show_decimal(limit.limit_ppm, places=0)} ppm or less.",
        ),
        position=pump.curing_salt.position,
    )


def _accelerator(cure: Guarded) -> Iterator[Guard]:
    line, figure = cure.given.accelerator, cure.forms.accelerator_ppm
    if line is None:
        return
    acid = "acid" in line.name.lower()
    key = "ascorbic_acid_limit_ppm" if acid or not line.name else "ascorbate_limit_ppm"
    if cure.given.cut == "belly" and not acid:
        key = "belly_ascorbate_ppm"
    limit = cure.tables.constant(key)
    yield Guard(
        slug="accelerator-above-limit",
        group="accelerator",
        value=figure,
        limit=constant(limit),
        message=(
            Decimal(value=figure, places=1),
            f" ppm of {line.name or 'it'} is above the limit "
            f"of {show_decimal(limit, places=3)} ppm (9 CFR 424.21(c), 424.22(b)).",
        ),
        hint=(f"Write a target: {show_decimal(round_down(limit, TEN_G), places=0)} ppm or less.",),
        position=line.position,
    )


def _negative_salt(cure: Guarded) -> Iterator[Guard]:
    given, forms = cure.given, cure.forms
    own = forms.curing_salt.times(given.kind.salt)
    base = MEAT.plus(WATER) if given.is_brine else MEAT
    least = up(Figure(factor=PER_CENT, over=own, under=base), HUNDREDTH, 2)
    yield Guard(
        slug="negative-salt",
        group="negative salt",
        value=NOTHING,
        limit=forms.salt,
        message=(
            "The curing salt alone brings ",
            Decimal(value=own, places=1),
            " g of salt, more than the target asks for.",
        ),
        hint=("Ask for at least ", least, " % salt, or for less curing salt."),
        position=_at(given.salt, given),
    )


def _saturation(cure: Guarded) -> Iterator[Guard]:
    strength = cure.forms.strength_percent
    if strength is None:
        return
    saturated = cure.tables.constant("saturated_brine_percent")
    yield Guard(
        slug="salt-beyond-saturation",
        group="saturation",
        value=strength,
        limit=constant(saturated),
        message=(
            Decimal(value=strength, places=2),
            f" % salt is more than water can hold ({show_decimal(saturated, places=3)} % at 60 °F).",
        ),
        hint=("Use less salt or more water.",),
        position=_at(cure.given.salt, cure.given),
    )


def _too_little(cure: Guarded) -> Iterator[Guard]:
    """Less curing salt than a scale shows: rounded down it would be none, beside a figure that says there is some."""
    given = cure.given
    if given.curing_salt is None or cure.forms.curing_salt == NOTHING:
        return
    yield Guard(
        slug="too-little-to-weigh",
        group="too little",
        value=constant(HUNDREDTH_G),
        limit=cure.forms.curing_salt,
        message=("There is too little curing salt in this to be weighed: less than 0.01 g.",),
        hint=("Make more of it, and keep or freeze what is not needed.",),
        position=given.curing_salt.position,
    )


def _pump_brine(cure: Guarded) -> Iterator[Guard]:
    brine, pump = cure.pump_brine, cure.given.pump_brine
    if brine is None or pump is None:
        return
    yield from pump_brine_guards(brine, pump, cure.tables)
    line = cure.given.curing_salt
    if line is not None and line.target is not None and pump.curing_salt is not None:
        yield needle_over_target(cure.forms, brine, line, line.target)


def _pump(cure: Guarded) -> Iterator[Guard]:
    share, pump = cure.given.pump_share, cure.pump_brine
    if share is None:
        return
    taken = MEAT.times(share)
    mixed = cure.forms.brine if pump is None else Form(cb=pump.whole_g)
    yield Guard(
        slug="pump-over-brine",
        group="pump",
        value=taken,
        limit=mixed,
        message=(
            "The pump takes ",
            Decimal(value=taken, places=0),
            " g, and the brine it comes from is ",
            Decimal(value=mixed, places=0),
            " g.",
        ),
        hint=("Mix more brine or pump less.",),
        position=cure.given.position,
    )
