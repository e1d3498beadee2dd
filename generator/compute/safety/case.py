"""One recipe as a rule looks at it: what is known of it, and the three things that a rule can say of it.

A rule says `box` where its hazard is there and the recipe keeps to it, `refuse` where the recipe does what it
forbids, `cannot_tell` where a fact that decides is not told. Severity is decided here and nowhere else, by the
signal word of the slug in `tables/cautions.csv` (ANSI Z535, ISO 3864): a recipe that contradicts a DANGER is an
error; one that contradicts a WARNING is an error unless its author accepts the slug and gives a reason, which the
page shows; CAUTION and NOTICE print.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from generator.compute.safety.facts.gather import Facts, MeatFact, WildMeat
from generator.compute.safety.facts.names import Mention
from generator.compute.safety.facts.plants import PlantFact
from generator.model.recipe import Cure, Hole, Ingredient, Keep, Meat, Recipe, Stage
from generator.model.results import Cause, Caution
from generator.problems import ProblemLog
from generator.tables import Tables

ACCEPTABLE = "WARNING"
"Only rules of this signal word can be accepted."
CERTAIN = frozenset({"canning", "canning-thick"})
"Rules that a method alone can contradict, where it seals one kind of jar and no other."

Met = (
    Cause
    | Mention
    | Stage
    | Ingredient
    | MeatFact
    | WildMeat
    | PlantFact
    | Meat
    | Cure
    | Keep
    | Hole
    | Recipe
)
"What a rule can point at as the cause of a box."

WHATEVER_ELSE = frozenset(
    {"poison-plant", "poison-part", "pokeweed", "elder-leaf", "rhubarb-leaf", "poison-flesh"}
) | {"deadly-mushroom", "grave-mushroom", "poison-mushroom"}
"Rules that nothing else in a recipe can meet: what is not read of it changes nothing. Source: their classes in poisons.csv."


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One hazard: the slugs of its boxes, each a row of cautions.csv that no other rule speaks with, and its look.

    A rule that only reports errors has no slug.
    """

    slugs: tuple[str, ...]
    look: Callable[[Case], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One recipe in front of one rule."""

    facts: Facts
    tables: Tables
    log: ProblemLog
    slugs: tuple[str, ...]
    "Of the rule that looks; it can say nothing under another."
    boxes: list[Caution] = field(default_factory=list)
    "What was said so far, by every rule of this recipe."
    refused: list[str] = field(default_factory=list)
    "Slugs under which it was refused so far."
    refused_unread: Callable[[], frozenset[str]] | None = None
    "Gives those under which it is refused without the stages that were read from a method; None: none was read."
    accept_at: str = "`accept:`"
    "Where an author can accept a rule."

    @property
    def recipe(self) -> Recipe:
        """The recipe as written."""
        return self.facts.recipe

    @property
    def stages(self) -> tuple[Stage, ...]:
        """Its course."""
        return self.facts.recipe.stages

    def constant(self, key: str) -> Fraction:
        """A single published number, in the unit of its row in constants.csv."""
        return self.tables.constant(key)

    def accepted(self, slug: str) -> str:
        """The author's reason to accept a rule, from the recipe or from the book; empty where there is none."""
        return self.recipe.accept.get(slug) or self.facts.config.accept.get(slug) or ""

    def box(
        self,
        slug: str,
        because: str,
        *met: Met,
        stage: int | None = None,
        sources: Sequence[str] | None = None,
    ) -> None:
        """The hazard is there and the recipe keeps to the rule: its box, before the method or beside a stage.

        `sources` stand in place of those of the table.
        """
        self.boxes.append(self._box(slug, because, met, stage, sources))

    def told(self, slug: str, because: str, *met: Met) -> None:
        """Words alone say that the rule is broken: its box, with the author's reason where one accepts it."""
        shown = self._box(slug, because, met, None, None)
        reason = self.accepted(slug) if shown.signal == ACCEPTABLE else ""
        self.boxes.append(replace(shown, accepted=reason))

    def cannot_tell(
        self,
        slug: str,
        because: str,
        missing: Sequence[str],
        *met: Met,
        stage: int | None = None,
        sources: Sequence[str] | None = None,
    ) -> None:
        """The hazard is there, and a fact that decides is not told: the box names the front-matter keys."""
        shown = self._box(slug, because, met, stage, sources)
        self.boxes.append(replace(shown, missing=tuple(missing)))

    def refuse(
        self,
        slug: str,
        *met: Met,
        message: str,
        hint: str,
        because: str,
        stage: int | None = None,
        acceptable: bool = True,
        sources: Sequence[str] | None = None,
    ) -> None:
        """The recipe does what the rule forbids: an error at the first cause, or the box with the author's reason.

        A WARNING that can be accepted only under conditions of its own is not `acceptable` where they are not met.
        """
        shown = self._box(slug, because, met, stage, sources)
        self.refused.append(slug)
        place, told = shown.causes[0].position, f"{message} (rule {slug})"
        reason = self.accepted(slug) if acceptable and shown.signal == ACCEPTABLE else ""
        if reason:
            shown = replace(shown, accepted=reason)
        elif self.facts.holes and slug not in WHATEVER_ELSE:
            shown = replace(shown, missing=tuple(dict.fromkeys(hole.key for hole in self.facts.holes)))
        elif self._is_only_read(slug):
            shown = replace(shown, because=self._as_read(because, shown))
        elif shown.signal == "DANGER":
            self.log.add("contradicts-danger", place, told, hint)
        elif shown.signal == ACCEPTABLE:
            way = f"{hint} Or write {self.accept_at} with `{slug}: your reason`." if acceptable else hint
            self.log.add("contradicts-warning", place, told, way)
        self.boxes.append(shown)

    def _is_only_read(self, slug: str) -> bool:
        """True where only stages that were read from a method contradict a rule: a box says it, and no error."""
        if self.refused_unread is None or slug in self.refused_unread():
            return False
        return slug not in CERTAIN or sum(stage.name == "jar" for stage in self.stages) != 1

    @staticmethod
    def _as_read(because: str, shown: Caution) -> str:
        """The reason with the sentence that makes it; of a component's, or of none, only the reason."""
        said = next((cause.words for cause in shown.causes if cause.kind == "sentence"), "")
        return f"{because}; the method says “{said.rstrip('.!')}”" if said else because

    def _box(
        self, slug: str, because: str, met: Sequence[Met], stage: int | None, sources: Sequence[str] | None
    ) -> Caution:
        """The words of the table. A slug of another rule, or a box that nothing made, is a bug."""
        if slug not in self.slugs:
            raise LookupError(
                f"{slug} is not among the slugs of the rule that looks: {', '.join(self.slugs)}"
            )
        beside = (self.stages[stage],) if stage is not None else ()
        causes = tuple(dict.fromkeys(cause for one in (*met, *beside) for cause in (cause_of(one),)))
        if not causes:
            raise LookupError(f"a box of {slug} does not say what in the recipe made it")
        words = self.tables.cautions[slug]
        return Caution(
            slug=slug,
            signal=words.signal,
            title=words.title,
            text=words.text,
            because=because,
            sources=words.sources if sources is None else tuple(sources),
            stage=stage,
            causes=causes,
        )


def cause_of(met: Met) -> Cause:
    """What a rule met, as written and with its place."""
    match met:
        case Cause():
            return met
        case Mention():
            return met.cause
        case Stage():
            return Cause(
                kind="sentence" if met.is_read else "stage", words=met.written, position=met.position
            )
        case Ingredient():
            return Cause(kind="line", words=met.written, position=met.position)
        case PlantFact():
            return cause_of(met.line)
        case MeatFact() | WildMeat():
            return cause_of(met.written)
        case Meat():
            return Cause(kind="key", words=f"meat: {met.name}", position=met.position)
        case Cure():
            return Cause(kind="key", words=f"cure: {met.method}", position=met.position)
        case Keep():
            return Cause(kind="key", words=f"keep: {met.place}: {met.written}", position=met.position)
        case Hole():
            return Cause(kind="not read", words=met.words, position=met.position)
        case Recipe():
            return Cause(kind="key", words=f"name: {met.name}", position=met.position)
