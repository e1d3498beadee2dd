"""What an author got wrong: place, slug, sentence and hint; collected over a whole book and shown together.

Only authors' mistakes live here. A bug in the program raises and keeps its traceback.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import islice

__all__ = [
    "SLUGS",
    "UNSEEN",
    "BookError",
    "OutOfRange",
    "Position",
    "Problem",
    "ProblemLog",
    "Severity",
    "name_of_sign",
    "nearest",
    "visible",
]

UNSEEN = re.compile(
    "["
    "\x00-\x08\x0b-\x1f\x7f-\x9f"  # controls; tab and line feed are text
    "\u2028-\u202e\u2066-\u206f"  # separators of lines; embeddings, overrides and isolates of direction
    "\ufff9-\ufffb\ufdd0-\ufdef\ud800-\udfff"  # annotation marks; no characters; halves of one
    + "".join(chr(plane << 16 | last) for plane in range(17) for last in (0xFFFE, 0xFFFF))
    + "]"
)
"""Signs that no text holds: nobody sees them, and they hide, reorder or command what stands around them.

Source: The Unicode Standard, chapter 23 (control codes, explicit directional formatting, deprecated format characters,
surrogates, noncharacters).
"""


def name_of_sign(sign: str) -> str:
    """`U+202E`; a byte of a file's name that is not UTF-8 as `byte E4`."""
    code = ord(sign)
    is_byte = 0xDC80 <= code <= 0xDCFF  # how the system hands over such a byte
    return f"byte {code - 0xDC00:02X}" if is_byte else f"U+{code:04X}"


def visible(text: str) -> str:
    """The text with the name of every unseen sign in its place: safe for a terminal, a page, any encoding of UTF-8."""
    return UNSEEN.sub(lambda found: f"[{name_of_sign(found[0])}]", text)


class Severity(StrEnum):
    """How bad a problem is: an error stops the site from being written, a warning does not."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True, slots=True, order=True)
class Position:
    """A place in a source file."""

    file: str
    "Path as shown to the author, relative to the book, with forward slashes."
    line: int = 1
    "First line is 1."
    column: int = 1
    "First column is 1, counted in characters."

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Something wrong in a book, or in what was typed at a command."""

    slug: str
    message: str
    "One sentence that says what is wrong, with the word that was read."
    hint: str = ""
    "What to do about it."
    position: Position | None = None
    "None where there is no file: an option of `potherb cure`."

    def __post_init__(self) -> None:
        """What was read is quoted, so no unseen sign of it may reach whoever is told."""
        object.__setattr__(self, "message", visible(self.message))
        object.__setattr__(self, "hint", visible(self.hint))
        if self.position is not None and UNSEEN.search(self.position.file):
            place = replace(self.position, file=visible(self.position.file))
            object.__setattr__(self, "position", place)

    @property
    def severity(self) -> Severity:
        """The severity of a slug is decided in `SLUGS` alone."""
        return SLUGS[self.slug][0]

    @property
    def is_error(self) -> bool:
        """True where the problem stops the site from being written."""
        return self.severity is Severity.ERROR


class ProblemLog:
    """Gathers problems in the order they are met; `sorted()` gives them by file and line."""

    def __init__(self) -> None:
        # A dict for its order: each problem once, and finding it again takes no longer where there are many.
        self._problems: dict[Problem, None] = {}

    def add(self, slug: str, position: Position | None, message: str, hint: str = "") -> None:
        """Note one problem; an unknown slug is a bug and raises KeyError."""
        SLUGS[slug]
        self._problems[Problem(slug=slug, message=message, hint=hint, position=position)] = None

    def extend(self, problems: Iterable[Problem]) -> None:
        """Take over problems found elsewhere, each once."""
        self._problems.update(dict.fromkeys(problems))

    def __iter__(self) -> Iterator[Problem]:
        return iter(self._problems)

    def __len__(self) -> int:
        return len(self._problems)

    def sorted(self) -> tuple[Problem, ...]:
        """Problems by file, line and column; those without a place first."""
        return tuple(
            sorted(
                self._problems,
                key=lambda problem: (problem.position or Position("", 0, 0), problem.slug),
            )
        )

    @property
    def has_errors(self) -> bool:
        """True where at least one problem is an error."""
        return any(problem.is_error for problem in self._problems)


class BookError(Exception):
    """A book cannot be built; carries every problem found. Raised once, by `build.py`."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__(f"{len(problems)} problems")
        self.problems = problems


class OutOfRange(ValueError):
    """A formula was asked outside the range it is valid for; it gives no number."""


LONGEST_NAME = 100
"Characters. Source: house; a longer word is no slip of the finger, and comparing takes the square of its length."
MOST_NAMES = 500
"Source: house; more names than a book has of one kind are not compared with every wrong one."


def nearest(word: str, known: Iterable[str]) -> str:
    """A hint that names the nearest known word, or the empty string. Never applied, only printed."""
    if len(word) > LONGEST_NAME:
        return ""
    names = [name for name in islice(known, MOST_NAMES) if len(name) <= LONGEST_NAME]
    found = difflib.get_close_matches(word.lower(), names, n=1, cutoff=0.7)
    return f"Did you mean '{found[0]}'?" if found else ""


ERROR, WARNING = Severity.ERROR, Severity.WARNING

SLUGS: dict[str, tuple[Severity, str]] = {
    # reading files and front matter
    "no-book": (ERROR, "There is no book.yaml here."),
    "not-utf8": (ERROR, "The file is not UTF-8 text."),
    "file-too-large": (ERROR, "The file is larger than a recipe can be."),
    "bad-slug": (ERROR, "The file's name cannot become an address."),
    "same-slug": (ERROR, "Two files would have the same address."),
    "no-front-matter": (ERROR, "The file does not begin with front matter between two lines of ---."),
    "yaml-syntax": (ERROR, "The front matter is not YAML."),
    "yaml-duplicate-key": (ERROR, "A key stands twice; YAML would keep only the last."),
    "yaml-alias": (ERROR, "YAML anchors and aliases are not read."),
    "yaml-tag": (ERROR, "YAML tags are not read."),
    "yaml-tab": (ERROR, "A tab stands where YAML wants spaces."),
    "yaml-comment": (ERROR, "YAML cuts the text off at a ' #'."),
    "yaml-not-text": (ERROR, "A line was read by YAML as something other than text."),
    "yaml-too-deep": (ERROR, "The front matter is nested too deeply."),
    "unknown-key": (ERROR, "The key is not known."),
    "missing-key": (ERROR, "A required key is missing."),
    "wrong-value": (ERROR, "The value is not one that this key takes."),
    # amounts, lines, stages
    "unreadable-amount": (ERROR, "The amount cannot be read for certain."),
    "unknown-unit": (ERROR, "The unit is not known."),
    "ambiguous-unit": (ERROR, "The unit means different sizes in different kitchens."),
    "wrong-dimension": (
        ERROR,
        "The amount is of the wrong kind: a weight, a volume, a length or a count is wanted.",
    ),
    "alternatives-disagree": (WARNING, "The amount and the one in brackets are not the same."),
    "missing-name": (ERROR, "An ingredient line has no name."),
    "same-id": (ERROR, "Two ingredients of one recipe have the same name."),
    "taken-id": (ERROR, "The name is taken by the cure."),
    "meat-listed-again": (WARNING, "The meat is an ingredient already and counts once."),
    "meat-not-counted": (WARNING, "A ground cure counts only what stands under `meat:`."),
    "unknown-stage": (ERROR, "The stage is not one of the trade's words that Potherb knows."),
    "unknown-place": (ERROR, "The place is not known."),
    "unreadable-stage": (ERROR, "The stage cannot be read."),
    "unreadable-time": (ERROR, "The length of time cannot be read."),
    "unreadable-temperature": (ERROR, "The temperature cannot be read."),
    "unknown-crystal": (
        ERROR,
        "Where salt keeps the food, its volume needs its crystal: a cup can weigh twice as much as another.",
    ),
    "unknown-curing-salt": (ERROR, "The curing salt is not known."),
    "unknown-animal": (ERROR, "The animal is not known."),
    # body and links
    "unknown-ingredient": (ERROR, "The link names no ingredient of this recipe."),
    "shares-over-whole": (ERROR, "The shares of an ingredient add up to more than the whole."),
    "unknown-base": (ERROR, "Nothing says of what a line is a share, or that has no weight."),
    "shares-not-whole": (ERROR, "The shares of a total do not come to all of it."),
    "unlinked-amount": (WARNING, "An amount in the text is not linked and would not scale."),
    "link-scheme": (ERROR, "The link is of a kind that is not allowed."),
    "unknown-link": (ERROR, "The link leads nowhere."),
    "cycle": (ERROR, "A recipe needs itself."),
    "unknown-chapter": (ERROR, "The chapter is not in book.yaml."),
    "not-scalable": (ERROR, "The recipe cannot be scaled that way."),
    "missing-photo": (ERROR, "The photo is not there."),
    "unreadable-photo": (ERROR, "The photo cannot be read."),
    # cures
    "meat-unknown": (ERROR, "The weight of the meat is not known, so the cure cannot be worked out."),
    "water-unknown": (ERROR, "The water of the brine is not known, so the cure cannot be worked out."),
    "above-limit": (ERROR, "The ingoing nitrite is above its limit."),
    "below-120": (WARNING, "The ingoing nitrite is below 120 ppm."),
    "below-40": (WARNING, "The ingoing nitrite is below 40 ppm: it colours and no more."),
    "negative-salt": (ERROR, "The curing salt alone brings more salt than the target asks for."),
    "salt-beyond-saturation": (ERROR, "The salt is more than the water can dissolve."),
    "too-little-to-weigh": (ERROR, "The curing salt is less than a scale shows."),
    "no-solution": (ERROR, "The targets contradict each other."),
    "fish-nitrite": (ERROR, "Nitrite is not allowed in this fish."),
    "nitrate-in-belly": (ERROR, "Nitrate is never allowed in belly."),
    "nitrate-above-limit": (ERROR, "The ingoing nitrate is above its limit."),
    "accelerator-above-limit": (ERROR, "The ascorbate or erythorbate is above its limit."),
    "short-cure-unknown": (ERROR, "A short cure cannot be judged, because a fact is missing."),
    "short-cure-too-long": (ERROR, "By the last day of a short cure too much nitrite can have entered."),
    "short-cure-pumped": (ERROR, "A short cure with a separately mixed pump brine is not worked out."),
    "skin-assumed": (WARNING, "The weight of a belly was taken as without its skin."),
    "pump-unknown": (ERROR, "A pump brine without the share of it that is injected."),
    "curing-salt-not-weighed": (ERROR, "The curing salt cannot be turned into a weight."),
    "skin-unknown": (ERROR, "The limit for belly counts it without its skin, and the skin was not told."),
    "pump-over-brine": (ERROR, "The pump asks for more brine than there is."),
    "near-name": (WARNING, "A word is one letter off the name of something that poisons."),
    "nitrite-listed": (
        ERROR,
        "A nitrite or nitrate salt stands among the ingredients, where nothing works out how much is too much.",
    ),
    "curing-salt-by-spoon": (WARNING, "A spoon of curing salt is not a weight."),
    "cure-by-volume": (WARNING, "A cup of salt or sugar in a cure is not a weight: its figures are ranges."),
    "out-of-range": (ERROR, "The estimate of how far salt has reached is not valid for this."),
    "warm-cure": (ERROR, "Meat lies in its cure where it is not cold."),
    "cold-smoke-sealed": (ERROR, "Meat that was cold-smoked without a curing salt is sealed from the air."),
    "nitrate-quick-cure": (ERROR, "Nitrate is used in a cure that is over before it can work."),
    "pot-too-small": (ERROR, "The pot has no room for the meat and its brine."),
    "ice-over-water": (ERROR, "The hot water needs more ice than there is cold water to take the place of."),
    "reused-brine": (ERROR, "Brine that has held meat is not used again."),
    "open-question": (WARNING, "A question of the front matter waits for its answer."),
    # gatherings
    "unreadable-moment": (ERROR, "The date and time cannot be read."),
    "unreadable-dish": (ERROR, "The dish of a gathering cannot be read."),
    "same-dish": (ERROR, "A dish stands twice in one gathering."),
    # dishes that use components
    "uncooked-component": (ERROR, "A dish uses a piece that is not ready to eat and does not cook it."),
    # caution rules that a recipe contradicts
    "contradicts-danger": (ERROR, "The recipe does what a DANGER rule forbids."),
    "contradicts-warning": (
        ERROR,
        "The recipe does what a WARNING rule forbids, and does not accept it with a reason.",
    ),
    "unknown-rule": (ERROR, "The rule that is accepted is not one that can be."),
    # gatherings: told on the plan, and no site waits for them
    "too-late": (ERROR, "Something of a gathering would have to start before anybody does."),
    "kept-too-long": (ERROR, "A component of a gathering waits longer in the cold than it keeps."),
    "kit-conflict": (WARNING, "More is planned for one place at one time than it takes."),
    "length-unknown": (ERROR, "A stage that takes long has no length, so nobody can say when to start."),
    # output
    "foreign-file": (ERROR, "A file that Potherb did not write is in the way."),
    "foreign-folder": (ERROR, "The folder to write to is not ours."),
    "build-running": (ERROR, "Another build is writing to this folder."),
    "unknown-theme": (ERROR, "The theme is not known."),
    "broken-theme": (ERROR, "The theme is not whole."),
    "cannot-write": (ERROR, "The system does not let us write the site there."),
    # reading files, later found
    "unreadable-file": (
        ERROR,
        "A file or a folder cannot be opened, is a link to another place, or is of another kind.",
    ),
    "not-read": (WARNING, "A file or a folder lies in the book and is not read."),
    "invisible-character": (ERROR, "A character that nobody sees stands in the text."),
    "html-comment": (WARNING, "A comment in the text is left out of the page."),
    "open-comment": (ERROR, "A comment in the text has no end."),
    "half-link": (WARNING, "A bracket too many, or one too few, keeps words from being a link."),
    "curly-quotes": (WARNING, "Curly quotation marks are kept as part of what stands in them."),
    "same-name": (WARNING, "Two recipes have the same name."),
    "accents-apart": (WARNING, "Two ingredients' names differ by an accent alone."),
}
"Every slug with its severity and the sentence that explains it."
