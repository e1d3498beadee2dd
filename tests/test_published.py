"""Every formula against examples from print: one CSV a formula, found by its name."""

from __future__ import annotations

import csv
import inspect
import json
import shlex
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from types import ModuleType

import pytest
from click.testing import CliRunner

import generator
from generator.cli import main
from generator.compute.cure import days, formulas
from generator.compute.weight import yields
from tests import second_opinion

PUBLISHED = Path(__file__).parent / "published"
GRADES = {"published", "derived", "from memory"}
MEASURED = (
    ("whole_system_ppm", lambda d: d["ingoing_nitrite_ppm"]["whole_system"]),
    ("dry_ppm", lambda d: d["ingoing_nitrite_ppm"]["dry"]),
    ("pick_up_ppm", lambda d: d["ingoing_nitrite_ppm"]["pick_up"]),
    ("nitrate_ppm", lambda d: d["ingoing_nitrate_ppm"]),
    ("strength_percent", lambda d: d["brine_strength_percent"]),
    ("salt_percent", lambda d: d["salt_percent"]),
    ("degrees", lambda d: d["salometer_degrees"]),
)


def formulas_of(module: ModuleType) -> dict[str, Callable[..., Fraction]]:
    """The public functions that a module defines."""
    return {
        name: function
        for name, function in inspect.getmembers(module, inspect.isfunction)
        if not name.startswith("_") and function.__module__ == module.__name__
    }


CALLED = {name: module for module in (formulas, days, yields) for name in formulas_of(module)}
"Formulas of the product, with the module that each stands in."
FORMULAS = {
    name: function
    for module in (formulas, days, yields, second_opinion)
    for name, function in formulas_of(module).items()
}


def rows(name: str) -> list[dict[str, str]]:
    with (PUBLISHED / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


CASES = [(name, number, row) for name in FORMULAS for number, row in enumerate(rows(name), 2)]


def test_every_formula_has_examples() -> None:
    assert len(FORMULAS) >= 14
    for name in FORMULAS:
        assert len(rows(name)) >= 1, name


@pytest.mark.parametrize(("name", "line", "row"), CASES, ids=[f"{n}:{i}" for n, i, _ in CASES])
def test_published_example(name: str, line: int, row: dict[str, str]) -> None:
    arguments = {key: Fraction(row[key]) for key in inspect.signature(FORMULAS[name]).parameters}
    result = FORMULAS[name](**arguments)
    assert row["grade"] in GRADES
    assert row["source"]
    assert row["locator"]
    assert abs(result - Fraction(row["expected"])) <= Fraction(row["tolerance"]), float(result)


@pytest.mark.parametrize("row", rows("cure_audits"), ids=lambda row: row["id"])
def test_audit_of_a_published_cure(row: dict[str, str]) -> None:
    words = ["cure", row["method"], *shlex.split(row["options"]), "--json"]
    answer = json.loads(CliRunner().invoke(main, words).stdout)
    checked = 0
    for column, measured in MEASURED:
        if row[column]:
            checked += 1
            assert abs(Fraction(str(measured(answer))) - Fraction(row[column])) <= Fraction(
                row["tolerance"]
            ), (column, measured(answer))
    assert checked > 0


def test_w1_total_of_the_worked_example() -> None:
    # 9 CFR 318.10(c)(3)(i) prints 127.872 lb for these parts.
    parts = ("120", "3.56", "2", "0.5", "1", "0.8", "0.012")
    assert sum(map(Fraction, parts)) == Fraction("127.872")


@pytest.mark.parametrize("name", CALLED)
def test_every_formula_of_the_product_is_called_by_it(name: str) -> None:
    """A formula that nothing calls is checked in vain; it belongs to the second opinion."""
    own = Path(str(CALLED[name].__file__))
    files = (path for path in Path(generator.__file__).parent.rglob("*.py") if path != own)
    within = own.read_text(encoding="utf-8").count(f" {name}(") > 1
    assert within or any(f"{name}(" in path.read_text(encoding="utf-8") for path in files), name


def test_every_published_file_is_read() -> None:
    """A file that no test names looks like coverage and is none."""
    known = {*FORMULAS, "cure_audits"}
    tests = "\n".join(path.read_text(encoding="utf-8") for path in Path(__file__).parent.rglob("test_*.py"))
    for path in PUBLISHED.glob("*.csv"):
        assert path.stem in known or path.stem in tests, f"{path.name} is read by no test"
