"""A pot and the pieces in it in; the refusal of a time that cannot bring the thickest middle to 165 °F, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.heat import WET_STAGES
from generator.compute.safety.facts.pieces import MeatPiece, inches, thickest
from generator.compute.safety.facts.pot import from_thawed, pot_minutes, to_cook
from generator.compute.safety.facts.times import last_stage
from generator.compute.safety.words import minutes_words

SHORT = "simmer-too-short"

SHORT_POT_MIN = Fraction(60)
"[min] A whole piece of unknown thickness may not be done in a shorter pot. Source: 3 in take 45 min at the soonest."
STEP_MIN = 5
"[min] The soonest is shown in steps, rounded down: no less is refused than what is said. Source: house choice."


def simmer(case: Case) -> None:
    """Not met: shorter than the fast case of the thickest piece. Cannot be told: thickness or length. Else no box."""
    index, whole = last_stage(case.recipe, WET_STAGES), to_cook(case.facts, case.tables)
    if index is None or not whole:
        return
    total, thick = pot_minutes(case.recipe, case.tables), thickest(whole)
    if total is None:
        _untold_length(case, index, whole[0])
    elif not (thick is not None and _is_refused(case, index, total.high, thick)):
        untold = next((piece for piece in whole if not piece.thickness_mm), None)
        if untold is not None and total.high < SHORT_POT_MIN:
            length = minutes_words(int(total.high))
            because = f"{untold.name} cooks for {length}, and how thick it is is not told"
            case.cannot_tell(SHORT, because, ("meat.thickness",), untold.written, stage=index)


def _untold_length(case: Case, index: int, piece: MeatPiece) -> None:
    """A stage that goes on to a temperature inside needs no length."""
    if case.stages[index].inside is None:
        because = f"{piece.name} cooks in the pot, and nothing says for how long"
        case.cannot_tell(SHORT, because, ("course",), piece.written, stage=index)


def _is_refused(case: Case, index: int, most: Fraction, piece: MeatPiece) -> bool:
    fast, _ = from_thawed(piece, case.tables)
    if fast is None or most >= fast:
        return False
    length, least = minutes_words(int(most)), minutes_words(int(fast // STEP_MIN * STEP_MIN))
    thick = inches(piece.thickness_mm or 0)
    case.refuse(
        SHORT,
        case.stages[index],
        piece.written,
        message=f"{piece.name} is {thick} thick and cooks for {length}; by an estimate its middle comes to 165 °F "
        f"(74 °C) in {least} at the soonest.",
        hint="Give it longer, or cut it smaller and write that in its line: 1 [shank](shank.md), diced.",
        because=f"{piece.name} is {thick} thick, and {length} are less than the {least} of the fast case",
        stage=index,
    )
    return True


RULES = (Rule(slugs=(SHORT,), look=simmer),)
