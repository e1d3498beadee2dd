"""A short cure and its brine in, how much nitrite can have entered by an hour out.

A short cure is taken out before meat and brine are even. Its whole-system figure is the worst case. What is judged
is the most that can have entered by the recipe's own last day: the fast case of the salt transfer, with every face
open, the piece taken as a lump of its thickness (from all sides), times the whole-system figure.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from generator.compute.cure.case import Solved
from generator.compute.transfer import CoverBrine, Parameters, Piece, Pump, ReachInput, nitrite_means
from generator.compute.transfer.course import LONGEST_DAYS
from generator.compute.transfer.reach import FRIDGE_C

HOURS = Fraction(24)
"Source: hours of a day, a definition."


@dataclass(frozen=True, slots=True, kw_only=True)
class Entered:
    """Nitrite that can have entered the meat [ppm], hour by hour from the start to the last hour."""

    ppm_by_hour: tuple[Fraction, ...]

    @property
    def at_last(self) -> Fraction:
        """At the recipe's own last hour."""
        return self.ppm_by_hour[-1]

    def last_hour_within(self, limit_ppm: Fraction) -> int:
        """The last whole hour at which no more than the limit can have entered."""
        return max(hour for hour, ppm in enumerate(self.ppm_by_hour) if ppm <= limit_ppm or hour == 0)


def nitrite_entered(solved: Solved, whole_ppm: Fraction, parameters: Parameters) -> Entered:
    """The fast case [ppm] up to the recipe's own last hour; `whole_ppm` is the figure of the brine left until even.

    Needs thickness and days (the caller has refused without them). Raises OutOfRange where the transfer estimate is
    not valid. The share that has entered never falls with time: a later fall of the mean is not counted on.
    """
    given = solved.given
    assert given.thickness_mm is not None
    assert given.days is not None
    # Up: a part of an hour may let in what the whole one does. The estimate goes no further than its longest time.
    hours = ceil(min(given.days, Fraction(LONGEST_DAYS)) * HOURS)
    means = nitrite_means(
        ReachInput(
            piece=Piece(shape="lump", thickness_mm=float(given.thickness_mm)),
            cure=CoverBrine(
                meat_g=float(solved.setting.meat_g),
                water_g=float(solved.setting.water_g),
                salt_g=float(solved.forms.total_salt.at(solved.setting)),
                sugar_g=float(solved.sugar_g),
            ),
            days=tuple(hour / float(HOURS) for hour in range(hours + 1)),
            pump=None if given.pump_share is None else Pump(share=float(given.pump_share)),
            temperature_c=float(given.temperature_c) if given.temperature_c is not None else FRIDGE_C,
            frozen_before=given.frozen_before,
        ),
        parameters,
    )
    # A mean above all there is would be the numbers' own slip, and one that falls again is not counted on.
    entered, most = [], Fraction(0)
    assert means is not None, "nitrite of one brine moves in one ratio with its salt"
    for mean in means:
        most = max(most, Fraction(min(mean.high, 1.0)).limit_denominator(1_000_000))
        entered.append(most * whole_ppm)
    return Entered(ppm_by_hour=tuple(entered))
