"""Which rule stands where, as given values, so that a part can be left out; and a sentence for each that is missing."""

from __future__ import annotations

import ast
import inspect
from collections import Counter
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from types import ModuleType

from generator.compute.safety import quiet, rules
from generator.compute.safety.case import Case, Rule
from generator.compute.safety.rules.named import named
from generator.tables import Tables
from tests.compute.safety.case_rows import read_cases

Look = Callable[[Case], None]
SPEAKS = ("error", "box", "asks")
"Outcomes of a row in which the rule says something."


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """All places of which a caution rule needs several."""

    files: Mapping[str, tuple[Look, ...]]
    "Every file of the folder `rules/` by its name, with its public functions that look at a case."
    hazards: Mapping[str, tuple[Rule, ...]]
    "The files that stand in HAZARDS, with their RULES."
    cautions: Collection[str]
    "Slugs of the rows of cautions.csv."
    named: Collection[str]
    "Slugs of the rows of named_boxes.csv."
    cases: Collection[str]
    "Slugs of the rows of cases/*.txt in which something is said."
    asking: Collection[str]
    "Slugs that a rule asks a missing fact for, where its code has them as a word or a name of its file."
    asked: Collection[str]
    "Slugs of the rows in which a missing fact is asked for."
    quiet: Collection[str]
    "Slugs of those in which nothing is."
    quiet_lines: Mapping[str, bool]
    "The public functions of the folder `quiet/`, and whether each stands in QUIET."


def places(tables: Tables) -> Places:
    """As they are."""
    folder = Path(rules.__file__).parent
    hazards = {hazard.__name__.rpartition(".")[2]: hazard for hazard in rules.HAZARDS}
    names = [path.stem for path in sorted(folder.glob("*.py")) if path.stem != "__init__"]
    rows = [row for case in read_cases() for row in case.rows]
    return Places(
        files={name: tuple(_looks(hazards[name])) if name in hazards else () for name in names},
        hazards={name: hazard.RULES for name, hazard in hazards.items()},
        cautions=tuple(tables.cautions),
        named=tuple(row.slug for row in tables.named_boxes),
        cases={row.slug for row in rows if row.outcome in SPEAKS},
        asking={slug for name in names for slug in _asking(folder / f"{name}.py")},
        asked={row.slug for row in rows if row.outcome == "asks"},
        quiet={row.slug for row in rows if row.outcome == "quiet"},
        quiet_lines={tell.__name__: tell in quiet.QUIET for tell in _quiet()},
    )


def _looks(hazard: ModuleType) -> Iterator[Look]:
    for name, found in vars(hazard).items():
        if name.startswith("_") or not inspect.isfunction(found) or found.__module__ != hazard.__name__:
            continue
        if list(inspect.signature(found).parameters) == ["case"]:
            yield found


def _asking(file: Path) -> Iterator[str]:
    """The slugs of a module's calls of `cannot_tell` that name what is missing; one that is worked out is not seen."""
    module = import_module(f"{rules.__name__}.{file.stem}")
    for call in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if not isinstance(call, ast.Call) or getattr(call.func, "attr", "") != "cannot_tell":
            continue
        slug, _, missing, *_ = call.args
        found = slug.value if isinstance(slug, ast.Constant) else vars(module).get(ast.unparse(slug))
        if isinstance(found, str) and ast.unparse(missing) != "()":
            yield found


def _quiet() -> Iterator[Callable[..., object]]:
    for path in sorted(Path(quiet.__file__).parent.glob("*.py")):
        module = import_module(f"{quiet.__name__}.{path.stem}") if path.stem != "__init__" else None
        for name, found in vars(module).items() if module else ():
            if not name.startswith("_") and inspect.isfunction(found) and found.__module__ == module.__name__:
                yield found


def gaps(of: Places) -> list[str]:
    """A sentence for each part that stands in one place and is missing in another."""
    return [*_unseen(of), *_unowned(of), *_unread(of), *_untested(of)]


def _unseen(of: Places) -> Iterator[str]:
    for name in of.files.keys() - of.hazards.keys():
        yield f"rules/{name}.py is not in HAZARDS of rules/__init__.py, so none of its rules ever looks"
    for name, told in of.quiet_lines.items():
        if not told:
            yield f"compute/safety/quiet: {name} is not in QUIET, so its line is on no page"
    listed = {rule.look for found in of.hazards.values() for rule in found}
    for name, looks in of.files.items():
        for look in looks:
            if name in of.hazards and look not in listed:
                yield f"rules/{name}.py: {look.__name__} looks at a case and is not in RULES, so it never does"


def _unowned(of: Places) -> Iterator[str]:
    owned = Counter(slug for found in of.hazards.values() for rule in found for slug in rule.slugs)
    for slug in of.cautions:
        if not owned[slug]:
            yield f"{slug} is a row of cautions.csv, and no rule has it among its slugs"
    for slug, count in owned.items():
        if count > 1:
            yield f"{slug} is among the slugs of {count} rules; one box has one owner"
        if slug not in of.cautions:
            yield f"{slug} is among the slugs of a rule, and has no row in cautions.csv"


def _unread(of: Places) -> Iterator[str]:
    read = {
        slug for found in of.hazards.values() for rule in found if rule.look is named for slug in rule.slugs
    }
    for slug in sorted(set(of.named) - read):
        yield f"{slug} is a row of named_boxes.csv, and no rule that looks by name has it among its slugs"
    for slug in sorted(read - set(of.named)):
        yield f"{slug} is a slug of a rule that looks by name, and has no row in named_boxes.csv"


def _untested(of: Places) -> Iterator[str]:
    for slug in sorted(set(of.cautions) - set(of.cases)):
        yield f"{slug} has no case in tests/compute/safety/cases/*.txt in which its rule speaks"
    for slug in sorted(set(of.asking) - set(of.asked)):
        yield f"{slug} can ask for a missing fact, and has no case in tests/compute/safety/cases/*.txt in which it asks"
    for slug in sorted(set(of.cautions) - set(of.quiet)):
        yield f"{slug} has no case in tests/compute/safety/cases/*.txt in which its rule is quiet"
