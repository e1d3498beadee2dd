"""A solved cure and what its cups and spoons can weigh in, the same cure at the ends of that out.

The weights that a scale gives stay as the cure has them at its heaviest nitrite, which is what is judged; only what is
measured by volume goes from its lightest to its heaviest. Of each figure the two ends that it can come to are kept.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from generator.compute.cure.formulas import PER_CENT
from generator.compute.cure.solve import CureProblem, Part, solve_cure
from generator.model.form import Form, Setting
from generator.model.quantity import Span
from generator.model.results import CureEnds, CureForms, CureSpans

SALT, SUGAR, CURING_SALT, NITRATE = "salt", "sugar", "curing_salt", "nitrate"
Spans = Mapping[str, Span]
"What a line that is measured by volume can weigh [g], one batch; what is weighed is not there."


def ends_of(problem: CureProblem, forms: CureForms, spans: Spans) -> CureEnds | None:
    """The ends of a cure; None where everything in it is weighed.

    Nitrite is the most with the heaviest curing salt in the least of everything else: that are `forms` themselves.
    Salt is the strongest with the least sugar beside it.
    """
    if not spans:
        return None
    # A curing salt without nitrate only thins the nitrate of another line.
    with_nitrate = {NITRATE, *([CURING_SALT] if problem.kind.nitrate else [])}
    weighed = _as_weighed(problem, forms)
    return CureEnds(
        least_nitrite=_at(weighed, spans, {SALT, SUGAR, NITRATE}),
        most_nitrate=_at(weighed, spans, with_nitrate),
        least_nitrate=_at(weighed, spans, {SALT, SUGAR, NITRATE, CURING_SALT} - with_nitrate),
        strongest=_at(weighed, spans, {SALT, CURING_SALT}),
        weakest=_at(weighed, spans, {SUGAR, NITRATE}),
        lightest=_at(weighed, spans, set()),
        open=frozenset(spans),
    )


def _as_weighed(problem: CureProblem, forms: CureForms) -> CureProblem:
    """Every target as the weight that it came to: that is what goes on the scale, whatever the cups weigh."""
    return replace(
        problem,
        salt=Part(weight=forms.salt),
        sugar=Part(weight=forms.sugar),
        curing_salt=Part(weight=forms.curing_salt),
        nitrate=Part(weight=forms.nitrate),
        accelerator=Part(weight=forms.accelerator),
    )


def _at(weighed: CureProblem, spans: Spans, heavy: set[str]) -> CureForms:
    """The forms with some of the measured lines at their heaviest and the others at their lightest."""

    def end(name: str, as_weighed: Part) -> Part:
        span = spans.get(name)
        return as_weighed if span is None else Part(weight=Form(cb=span.high if name in heavy else span.low))

    return solve_cure(
        replace(
            weighed,
            salt=end(SALT, weighed.salt),
            sugar=end(SUGAR, weighed.sugar),
            curing_salt=end(CURING_SALT, weighed.curing_salt),
            nitrate=end(NITRATE, weighed.nitrate),
        )
    )


def spans_at(
    ends: CureEnds | None, setting: Setting, saturated_percent: Fraction, *, is_brine: bool
) -> CureSpans | None:
    """The ranges of the figures at a setting; None where everything is weighed.

    No brine is stronger than a saturated one: what is beyond lies on the bottom.
    """
    if ends is None:
        return None
    weak, strong = ends.weakest, ends.strongest
    base = setting.meat_g + (setting.water_g if is_brine else 0)
    strength = _between(weak.strength_at(setting), strong.strength_at(setting))
    if strength is not None:
        strength = Span(min(strength.low, saturated_percent), min(strength.high, saturated_percent))
    sugar = Span(strong.sugar.at(setting), weak.sugar.at(setting))
    return CureSpans(
        salt_g=Span(weak.salt.at(setting), strong.salt.at(setting)),
        sugar_g=sugar,
        salt_percent=_between(weak.salt_percent.at(setting), strong.salt_percent.at(setting)),
        sugar_percent=sugar.times(PER_CENT / base) if base else None,
        strength_percent=strength,
        salometer_degrees=None if strength is None else strength.times(PER_CENT / saturated_percent),
        nitrate_ppm=_between(
            ends.least_nitrate.nitrate_ppm.at(setting), ends.most_nitrate.nitrate_ppm.at(setting)
        ),
    )


def _between(low: Fraction | None, high: Fraction | None) -> Span | None:
    return None if low is None or high is None else Span(low, high)
