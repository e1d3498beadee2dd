"""Cautions in, boxes out for a page, a terminal and machine readers: every word of theirs, and the sentences behind them.

Behind the words of a rule stands why it is met here, what is not told, and what its author accepts. For whoever checks a
book: how much of it could be judged.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass

from generator.model.results import Caution, ComputedRecipe, JudgedText
from generator.tables import Tables
from generator.tables.stems import stem

BOOK_FACTS = frozenset({"altitude", "deer disease area", "poison help", "shot"})
"Keys that stand in book.yaml, where they are told once for all recipes; every other key is the recipe's."

BOOK_FILE = "book.yaml"
MERGED = "NOTICE"
"No harm to people is meant by it (ANSI Z535), so that one box of them hides none of the others."


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleView:
    """What one rule says in a box."""

    caution: Caution
    reason: str
    missing: tuple[tuple[str, str], ...]
    "What must be written before it can be told whether the recipe keeps to the rule, with its file."
    accepted: str
    "Empty where the author need not have given a reason to go against the rule."


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxView:
    """One caution box: one signal word over one rule, or over all the NOTICEs of a recipe."""

    id: str
    signal: str
    rules: tuple[RuleView, ...]


def boxes_of(judged: ComputedRecipe | JudgedText) -> list[tuple[Caution, ...]]:
    """The cautions of each box, in order. What warns of harm stands alone; the NOTICEs of a recipe are one box."""
    alone: list[tuple[Caution, ...]] = [(one,) for one in judged.cautions if one.signal != MERGED]
    notices = tuple(one for one in judged.cautions if one.signal == MERGED)
    return [*alone, notices] if notices else alone


def box_views(recipe: ComputedRecipe, stage: int | None) -> tuple[BoxView, ...]:
    """The boxes before the method (None), or those beside one stage."""
    return tuple(
        _box(number, box)
        for number, box in enumerate(boxes_of(recipe), start=1)
        if _stage_of(box, recipe) == stage
    )


def text_box_views(text: JudgedText) -> tuple[BoxView, ...]:
    """The boxes of a gathering's text."""
    return tuple(_box(number, box) for number, box in enumerate(boxes_of(text), start=1))


def box_ids(judged: ComputedRecipe | JudgedText) -> frozenset[str]:
    """The ids that boxes can have on a page."""
    return frozenset(f"box-{number}" for number in range(1, len(judged.cautions) + 1))


def _box(number: int, box: Sequence[Caution]) -> BoxView:
    return BoxView(id=f"box-{number}", signal=box[0].signal, rules=tuple(map(_rule, box)))


def _rule(caution: Caution) -> RuleView:
    return RuleView(
        caution=caution, reason=_reason(caution), missing=_missing(caution), accepted=_accepted(caution)
    )


def _stage_of(box: Sequence[Caution], recipe: ComputedRecipe) -> int | None:
    """Where the earliest is needed. A box whose stage does not exist stands before the method rather than nowhere."""
    stages = [one.stage for one in box if one.stage is not None and one.stage < len(recipe.recipe.stages)]
    return min(stages) if len(stages) == len(box) else None


def _reason(caution: Caution) -> str:
    """Because the meat is elk shank."""
    return f"Because {caution.because.rstrip('.')}." if caution.because else ""


def _missing(caution: Caution) -> tuple[tuple[str, str], ...]:
    """Each key that decides and is not told, with the file it belongs into where that is not the recipe's own."""
    return tuple((key, BOOK_FILE if key in BOOK_FACTS else "") for key in caution.missing)


def _missing_words(caution: Caution) -> str:
    """Cannot be told: write `keep`, `shot` in book.yaml."""
    keys = [f"`{key}`" + (f" in {file}" if file else "") for key, file in _missing(caution)]
    return f"Cannot be told: write {', '.join(keys)}." if keys else ""


def _accepted(caution: Caution) -> str:
    """Accepted by the author: the reason."""
    return f"Accepted by the author: {caution.accepted.rstrip('.')}." if caution.accepted else ""


def words_behind(caution: Caution) -> str:
    """Everything that stands behind the words of a rule, as plain text."""
    return " ".join(filter(None, (_reason(caution), _missing_words(caution), _accepted(caution))))


def box_sentences(recipe: ComputedRecipe, stage: int | None) -> tuple[str, ...]:
    """The boxes of one place as plain sentences, for machine readers."""
    return tuple(
        f"{one.signal}: {_stop(one.title)} {_stop(one.text)} {words_behind(one)}".rstrip()
        for box in boxes_of(recipe)
        if _stage_of(box, recipe) == stage
        for one in box
    )


def _stop(sentence: str) -> str:
    return sentence if sentence.endswith((".", "!", "?")) else f"{sentence}."


def caution_lines(judged: Iterable[ComputedRecipe | JudgedText]) -> Iterator[str]:
    """Each box that a book would print: file, signal, rule, title, and why; then a line for what made it, with its place."""
    for page in judged:
        file = page.gathering.file if isinstance(page, JudgedText) else page.recipe.file
        for one in page.cautions:
            title = one.title.rstrip(".")
            yield f"{file}: {one.signal} [{one.slug}] {title}. {words_behind(one)}".rstrip()
            for cause in one.causes:
                yield f"  {cause.position}: {cause.kind}: {cause.words}"


def judged_lines(
    recipes: Sequence[ComputedRecipe],
    texts: Sequence[JudgedText],
    tables: Tables,
    *,
    is_read: bool,
    listed: bool,
) -> Iterator[str]:
    """Names that are known and not known, with their places where they are listed, and the sentences that were read."""
    lines = [
        line for one in recipes for line in one.recipe.ingredients if line.link is None and not line.is_water
    ]
    foods = _foods(tables)
    unknown = [line for line in lines if not is_known(line.name, tables, foods)]
    for line in unknown if listed else ():
        yield f"{line.position}: '{line.name}' is a name that is not known, so nothing is judged by it."
    bodies = (*(one.recipe.body for one in recipes), *(one.gathering.body for one in texts))
    sentences = sum(len(body.sentences) for body in bodies) if is_read else 0
    yield (
        f"Of {len(lines)} names of ingredients {len(unknown)} {'is' if len(unknown) == 1 else 'are'} not known"
        f"{'' if listed or not unknown else ' (--cautions lists them)'}; {sentences} sentences were read. "
        "Pages and makings are never read."
    )


def is_known(name: str, tables: Tables, foods: Collection[str]) -> bool:
    """Something is known of it: an animal, plant, fungus or food, a salt, a weight, or a word by which a rule looks."""
    words, garden = name.lower(), tables.garden
    return (
        bool(tables.lexicon.find(words, whole=True) or tables.nitrite_names.all_in(words))
        or tables.is_bare_salt(words)
        or any(one.first_in(words) for one in garden.words.values())
        or bool(garden.blanched(words) or garden.allergens_in(words))
        or (bool(words.split()) and _last(words) in foods)
    )


def _foods(tables: Tables) -> frozenset[str]:
    """The last words of foods with a weight: green onions are onions."""
    pieces = (food for food, _ in tables.piece_names)
    return frozenset(map(_last, (*tables.food_names, *tables.produce, *pieces)))


def _last(name: str) -> str:
    return stem(name.split()[-1])
