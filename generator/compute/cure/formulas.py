"""The published formulas of brine, salometer and ice, one function each, exact on exact input.

What is weighed for a cure is solved in `solve.py`; the closed formulas of that stand in `tests/second_opinion.py`.
"""

from __future__ import annotations

from fractions import Fraction

from generator.problems import OutOfRange

PER_MILLION = Fraction(1_000_000)
"Source: parts per million, a definition."
PER_CENT = Fraction(100)
"Source: per cent, a definition."


def _positive(name: str, value: Fraction) -> None:
    if value <= 0:
        raise OutOfRange(f"{name} must be more than nothing, not {value}")


def brine_strength_percent(*, salt_g: Fraction, brine_g: Fraction) -> Fraction:
    """Salt by weight of the whole brine [%].

    percent = 100 x salt / brine

    Parameters: salt_g [g], brine_g [g], all that is in the brine together. Raises OutOfRange for no brine.
    Example (published): 60 degrees salometer is 15.8 % (Fish Safety Notes, Canada).
    Source: the definition behind the salometer tables of Oregon State University, SG 22.
    """
    _positive("brine_g", brine_g)
    return PER_CENT * salt_g / brine_g


def salometer_degrees(*, strength_percent: Fraction, saturated_percent: Fraction) -> Fraction:
    """Brine strength in degrees salometer at 60 F: per cent of saturation.

    degrees = 100 x strength / strength of saturated brine

    Parameters: strength_percent [%], saturated_percent [%], 26.395 at 60 F. Returns degrees.
    Valid for: strengths up to saturation; a stronger one raises OutOfRange.

    >>> salometer_degrees(
    ...     strength_percent=Fraction(26395, 2000), saturated_percent=Fraction(26395, 1000))
    Fraction(50, 1)

    Source: salometer sheet of the industry; 100 degrees at 60 F is 26.395 % by weight.
    """
    if strength_percent > saturated_percent:
        raise OutOfRange(f"a brine of {strength_percent} % is beyond saturation ({saturated_percent} %)")
    return PER_CENT * strength_percent / saturated_percent


def salt_for_water_g(*, strength_percent: Fraction, water_g: Fraction) -> Fraction:
    """Salt [g] that makes water a brine of a strength: water x p / (100 - p).

    Parameters: strength_percent [%], water_g [g]. Valid for: 0 <= strength < 100. Raises OutOfRange outside.

    >>> salt_for_water_g(strength_percent=Fraction(20), water_g=Fraction(400))
    Fraction(100, 1)

    Source: the identity that every row of the US brine table holds to 0.001 lb per gallon.
    """
    if not 0 <= strength_percent < PER_CENT:
        raise OutOfRange(f"a strength of {strength_percent} % is no brine")
    return water_g * strength_percent / (PER_CENT - strength_percent)


def salt_in_brine(*, strength_percent: Fraction, specific_gravity: Fraction, water: Fraction) -> Fraction:
    """Salt in a gallon or a litre of brine, in the unit of weight that `water` is given in.

    salt = strength / 100 x specific gravity x weight of the same volume of water

    Parameters: strength_percent [%], specific_gravity [1], water [lb per gal, g per L]. Returns lb or g.
    Valid for: 0 <= strength < 100. Raises OutOfRange outside.
    Example (published): 60 degrees, 15.84 %, 1115.7 g a litre, holds 176.7 g of salt a litre.

    Source: UK training material on smoking fish (seafoodacademy.org), brine table.
    """
    if not 0 <= strength_percent < PER_CENT:
        raise OutOfRange(f"a strength of {strength_percent} % is no brine")
    return strength_percent / PER_CENT * specific_gravity * water


SALOMETER_F = Fraction(60)
"[degF] Source: salometer sheet of the industry: 100 degrees is 26.395 % at 60 F."
DEGREE_PER_F = Fraction(1, 10)
"[degrees salometer per degF] Source: Fish Safety Notes (Canada): +1 degree for each 10 F above 60 F."
WARMEST_F = Fraction(100)
"[degF] Source: house choice, how far above 60 F the rule is followed; it is not printed how far it holds."


def _salometer_temperature(temperature_f: Fraction) -> None:
    if not SALOMETER_F <= temperature_f <= WARMEST_F:
        raise OutOfRange(f"a salometer is corrected from 60 to 100 °F, not at {float(temperature_f):g} °F")


def degrees_at_60_f(*, reading_degrees: Fraction, temperature_f: Fraction) -> Fraction:
    """Brine strength in degrees salometer at 60 F, from a reading in warmer brine.

    degrees = reading + (T - 60) / 10: warm brine is lighter, so the float sinks and reads low.

    Parameters: reading_degrees [degrees], temperature_f [degF]. Returns degrees.
    Valid for: 60 to 100 F; the rule speaks of brine above 60 F only. Raises OutOfRange outside.

    >>> degrees_at_60_f(reading_degrees=Fraction(58), temperature_f=Fraction(80))
    Fraction(60, 1)

    Source: Fish Safety Notes (Canada).
    """
    _salometer_temperature(temperature_f)
    return reading_degrees + (temperature_f - SALOMETER_F) * DEGREE_PER_F


def salometer_reading(*, degrees: Fraction, temperature_f: Fraction) -> Fraction:
    """What a salometer made for 60 F reads in a warmer brine: degrees - (T - 60) / 10.

    Parameters: degrees [degrees at 60 F], temperature_f [degF]. Returns degrees.
    Valid for: 60 to 100 F, as `degrees_at_60_f`, which it undoes, and readings on the scale. Else OutOfRange.

    >>> salometer_reading(degrees=Fraction(60), temperature_f=Fraction(80))
    Fraction(58, 1)

    Source: Fish Safety Notes (Canada).
    """
    _salometer_temperature(temperature_f)
    reading = degrees - (temperature_f - SALOMETER_F) * DEGREE_PER_F
    if reading < 0:
        raise OutOfRange("the brine is too weak and too warm for the scale of a salometer")
    return reading


LATENT_HEAT_J_G = Fraction(334)
"[J/g] Source: latent heat of melting of ice, standard physical constant (from memory)."
SPECIFIC_HEAT_J_GK = Fraction(4186, 1000)
"[J/(g K)] Source: specific heat of water, standard physical constant (from memory)."
BOILING_C = Fraction(100)
"[degC] Source: boiling point of water, definition of the Celsius scale."


def _liquid(name: str, celsius: Fraction) -> None:
    if not 0 <= celsius <= BOILING_C:
        raise OutOfRange(f"{name} must be from 0 to 100 °C (32 to 212 °F), not {float(celsius):.1f} °C")


def ice_within(
    *, total_g: Fraction, hot_g: Fraction, hot_c: Fraction, cold_c: Fraction, target_c: Fraction
) -> Fraction:
    """Ice [g] as a part of a total of water: hot + cold + ice = total, so that the brine stays as strong as wanted.

    ice = c (hot (Th - t) + (total - hot)(Tc - t)) / (L + c Tc); the heat of hot and
    cold water melts the ice and warms its water, with cold = total - hot - ice.

    Parameters: weights [g], temperatures [degC]. Returns g.
    Valid for: 0 to 100 degC, and as long as no more ice is needed than there is cold water to take the place of.
    Raises OutOfRange outside.

    The ice counts as ice at 0 degC: from a freezer it is colder, so the water ends no warmer. Salt is left out: it
    lowers the heat of the water and takes up heat as it dissolves, both on the cold side. So is the pot.

    Source: heat balance; 334 J/g and 4.186 J/(g K) are standard physical constants (from memory).
    """
    for name, celsius in (("hot water", hot_c), ("cold water", cold_c), ("the target", target_c)):
        _liquid(name, celsius)
    rest = total_g - hot_g
    heat = hot_g * (hot_c - target_c) + rest * (cold_c - target_c)
    ice = max(heat * SPECIFIC_HEAT_J_GK / (LATENT_HEAT_J_G + SPECIFIC_HEAT_J_GK * cold_c), Fraction(0))
    if ice > rest:
        raise OutOfRange(f"{float(hot_g):.0f} g of hot water needs more ice than {float(rest):.0f} g")
    return ice


def salt_to_add_g(*, is_percent: Fraction, want_percent: Fraction, brine_g: Fraction) -> Fraction:
    """Salt [g] that makes a weak brine stronger: its water stays, so salt is added for the water alone.

    add = water x want / (100 - want) - salt, with salt = brine x is / 100 and water the rest

    Parameters: is_percent, want_percent [% of the brine], brine_g [g]. Returns g.
    Valid for: 0 <= is <= want < 100. Raises OutOfRange outside.

    >>> salt_to_add_g(is_percent=Fraction(10), want_percent=Fraction(20), brine_g=Fraction(1000))
    Fraction(125, 1)

    Source: UK training material on smoking fish (seafoodacademy.org): add salt per litre of water.
    """
    if not 0 <= is_percent <= want_percent < PER_CENT:
        raise OutOfRange(f"salt brings no brine from {float(is_percent):g} to {float(want_percent):g} %")
    salt_g = brine_g * is_percent / PER_CENT
    return salt_for_water_g(strength_percent=want_percent, water_g=brine_g - salt_g) - salt_g


def water_to_add_g(*, is_percent: Fraction, want_percent: Fraction, brine_g: Fraction) -> Fraction:
    """Water [g] that makes a strong brine weaker: its salt stays.

    add = brine x is / want - brine

    Parameters: is_percent, want_percent [% of the brine], brine_g [g]. Returns g.
    Valid for: 0 < want <= is < 100. Raises OutOfRange outside.

    >>> water_to_add_g(is_percent=Fraction(20), want_percent=Fraction(10), brine_g=Fraction(1000))
    Fraction(1000, 1)

    Source: UK training material on smoking fish (seafoodacademy.org): add water, the salt constant.
    """
    if not 0 < want_percent <= is_percent < PER_CENT:
        raise OutOfRange(f"water brings no brine from {float(is_percent):g} to {float(want_percent):g} %")
    return brine_g * is_percent / want_percent - brine_g
