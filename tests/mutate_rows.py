"""Rows of names and patterns left out one at a time, and which of them the tests miss. Run by hand, never in CI.

    python tests/mutate_rows.py                every table of TABLES
    python tests/mutate_rows.py acts.csv       one table
    python tests/mutate_rows.py names.csv 400  of the names so many, drawn by a seed

The tests are loaded once, and run once to see which of them comes by which row. For each row a child reads the tables
again without it, in place of those that are loaded, and runs the tests that come by it until one fails. Tests that look
at nothing but the file itself are left out: they would miss any row. A row without which the tables cannot be read is
counted apart. Of a name two changes are made: the row is gone, and what it names is food.
"""

from __future__ import annotations

import csv
import gc
import os
import pickle
import random
import resource
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields
from importlib import import_module
from pathlib import Path
from typing import IO

import pytest

TESTS = Path(__file__).parent
ROOT = TESTS.parent
FOLDER = ROOT / "generator" / "tables"
TABLES = (
    *("told_facts.csv", "poisons.csv", "jars.csv", "boiling_water.csv", "canning.csv"),
    *("names.csv", "cautions.csv", "acts.csv"),
)
SEED = 12
KILLERS = (
    "compute/safety/test_cases.py",
    "compute/safety/test_acts.py",
    "compute/safety/test_canning.py",
    "compute/safety/test_plants.py",
    "compute/safety/test_names.py",
    "compute/safety/test_nitrite_listed.py",
    "tables/test_names.py",
    "tables/test_whole_groups.py",
)
OF_THE_FILE = (
    *("every_cell", "there_twice", "slow_way", "some_thousands", "has_a_name", "found_as_itself"),
    *("three_hundred", "is_refused", "plain_word", "key_of_an_animal", "that_is_not_so", "cannot_be_read"),
)
"Tests that ask a row about itself, or whether a table is well made."
UNREADABLE = 4
"What a child says where the tables cannot be read."
JAR_CASES = ("canning:", "pickle:", "acts:", "hostile_garden:", "test_canning")


@dataclass(frozen=True, slots=True)
class Change:
    """A table with one row left out, or another."""

    table: str
    number: int
    "Of the row, from 0."
    row: dict[str, str]
    as_food: bool = False

    def __str__(self) -> str:
        cells = [cell for cell in self.row.values() if cell][:4]
        return f"{self.table}: {'food: ' if self.as_food else ''}{' | '.join(cells)}"[:160]


def rows_of(table: str) -> list[dict[str, str]]:
    """As written."""
    with (FOLDER / table).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def changes(table: str, most: int) -> Iterator[Change]:
    """Each row left out; of more rows than asked for those that the seed draws."""
    rows = list(enumerate(rows_of(table)))
    most = most if table == "names.csv" else len(rows)
    drawn = rows
    if most < len(rows):
        drawn = sorted(random.Random(SEED).sample(rows, most), key=lambda one: one[0])
    for number, row in drawn:
        yield Change(table, number, row)
        if table == "names.csv" and row["kind"] not in ("food", "word"):
            yield Change(table, number, row, as_food=True)


def write(change: Change, folder: Path) -> None:
    """The tables, with the change, into an empty folder."""
    for path in FOLDER.iterdir():
        if path.name != change.table:
            (folder / path.name).symlink_to(path)
    rows = rows_of(change.table)
    if change.as_food:
        rows[change.number] = {**change.row, "kind": "food", "is": ""}
    else:
        del rows[change.number]
    with (folder / change.table).open("w", encoding="utf-8", newline="") as file:
        if change.table == "names.csv":  # its reader takes bare lines
            lines = (FOLDER / change.table).read_text(encoding="utf-8").splitlines()
            line = lines[change.number + 1]
            name, _, rest = line.partition(",")
            behind = rest.split(",", 2)[2]
            lines[change.number + 1 : change.number + 2] = (
                [f"{name},food,,{behind}"] if change.as_food else []
            )
            file.write("\n".join(lines) + "\n")
            return
        writer = csv.DictWriter(file, list(change.row), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def put_in(change: Change, folder: Path) -> None:
    """The changed tables in place of the loaded ones, wherever those are held."""
    load, acts = import_module("generator.tables.load"), import_module("generator.tables.acts")
    tables = load.load_tables()
    known = tables.acts()
    if change.table == "acts.csv":
        rows = [
            row for row in known.rows if (row.slug, row.phrase) != (change.row["slug"], change.row["phrase"])
        ]
        assert len(rows) == len(known.rows) - 1
        _set(known, "acts", acts.finder([(known.notation.phrase(row.phrase), row) for row in rows]))
        return
    write(change, folder)
    changed = load.read_tables(folder)
    if change.table in ("told_facts.csv",):
        _set(known, "facts", changed.acts().facts)
        return
    lexicon = tables.lexicon
    lexicon.__dict__.clear()
    lexicon.__dict__.update(changed.lexicon.__dict__)
    for field in fields(tables):
        if field.name != "acts":
            _set(tables, field.name, getattr(changed, field.name))


def _set(record: object, name: str, value: object) -> None:
    object.__setattr__(record, name, value)


class Loop:
    """Runs the collected tests once for each change, each time in a child that has them loaded already."""

    def __init__(self, changes: Sequence[Change]) -> None:
        self.changes = changes
        self.codes: list[int] | None = None
        self.met: list[set[str]] = []

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """In place of the one run that pytest would make."""
        tables = import_module("generator.build").kitchen().tables
        tables.acts()
        tables.lexicon.find("bear")
        tuple(import_module("tests.tables.test_whole_groups").poisons())
        if self._child(session, None):
            return True
        self.codes = []
        gc.freeze()
        for change in self.changes:
            code = self._child(session, change)
            self.codes.append(code)
            print(f"{'left' if code == 0 else code} {change}", flush=True)
        return True

    def _child(self, session: pytest.Session, change: Change | None) -> int:
        with tempfile.TemporaryDirectory() as folder, tempfile.TemporaryFile() as told:
            child = os.fork()
            if child == 0:
                with open(os.devnull, "wb") as nowhere:
                    os.dup2(nowhere.fileno(), 1)
                    os.dup2(nowhere.fileno(), 2)
                if change is None:
                    self._look(session, told)
                    if not session.testsfailed:
                        pickle.dump(self.met, told)
                    told.flush()
                    os._exit(1 if session.testsfailed else 0)
                _clear()
                try:
                    put_in(change, Path(folder))
                except import_module("generator.tables").TableError:
                    os._exit(UNREADABLE)
                chosen = self._chosen(session, change)
                for index, then in zip(chosen, [*chosen[1:], None], strict=True):
                    _run(session, index, then)
                    if session.testsfailed:
                        os._exit(1)
                os._exit(0)
            code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
            told.seek(0)
            if change is None and code == 0:
                self.met = pickle.load(told)
            elif change is None:
                print("fails without any change:", told.read().decode())
            return code

    def _look(self, session: pytest.Session, told: IO[bytes]) -> None:
        """Runs every test, from cold caches, and notes the rows that each comes by."""
        note: set[str] = set()
        _watch(note)
        for index in range(len(session.items)):
            _clear()
            note.clear()
            _run(session, index, index + 1 if index + 1 < len(session.items) else None)
            self.met.append(set(note))
            if session.testsfailed:
                told.write(session.items[index].nodeid.encode())
                return

    def _chosen(self, session: pytest.Session, change: Change) -> list[int]:
        """Of an act its own sentences; else the tests that come by the row."""
        if change.table in ("jars.csv", "boiling_water.csv", "canning.csv"):
            return [
                index
                for index, item in enumerate(session.items)
                if any(one in item.nodeid for one in JAR_CASES)
            ]
        if change.table == "acts.csv":
            number = f"{change.number + 2} {change.row['slug']} "
            return [index for index, item in enumerate(session.items) if f"[{number}" in item.nodeid]
        column = {
            "told_facts.csv": "fact",
            "poisons.csv": "key",
            "cautions.csv": "slug",
            "names.csv": "name",
        }[change.table]
        key = f"{change.table} {change.row[column]}"
        return [index for index, met in enumerate(self.met) if key in met]


def _run(session: pytest.Session, index: int, following: int | None) -> None:
    item, then = session.items[index], None if following is None else session.items[following]
    item.config.hook.pytest_runtest_protocol(item=item, nextitem=then)


def _clear() -> None:
    for module in [one for name, one in sys.modules.items() if name.startswith("generator.compute.safety")]:
        for one in vars(module).values():
            getattr(one, "cache_clear", lambda: None)()


def _watch(note: set[str]) -> None:
    """Notes what is looked up: names and what they mean, facts that sentences tell, the slugs of boxes."""
    names, phrases = import_module("generator.tables.names"), import_module("generator.tables.phrases")
    case, load = import_module("generator.compute.safety.case"), import_module("generator.tables.load")
    rows, find, box = names.Lexicon.rows, phrases.Finder.find, case.Case._box
    acts = load.load_tables().acts()

    def see_rows(self: object, key: str) -> object:
        found = rows(self, key)
        for row in found:
            note.add(f"names.csv {row.name}")
            note.update(f"poisons.csv {one}" for one in row.means)
        return found

    def see_facts(self: object, *heard: object) -> Iterator[object]:
        for one in find(self, *heard):
            if self is acts.facts:
                note.add(f"told_facts.csv {one[0]}")
            yield one

    def see_box(self: object, slug: str, *rest: object) -> object:
        note.add(f"cautions.csv {slug}")
        return box(self, slug, *rest)

    names.Lexicon.rows, phrases.Finder.find, case.Case._box = see_rows, see_facts, see_box


def main(table: str = "", most: str = "400") -> int:
    """The table, and each row that no test misses."""
    os.environ |= {"CI": "1", "POTHERB_EXAMPLES": "few"}
    sys.path[0] = str(ROOT)
    made = [change for one in TABLES if table in ("", one) for change in changes(one, int(most))]
    loop = Loop(made)
    tests = [str(TESTS / test) for test in KILLERS if (TESTS / test).exists()]
    left_out = " and ".join(f"not {one}" for one in OF_THE_FILE)
    pytest.main(["-q", "-s", "-p", "no:cacheprovider", "-k", left_out, *tests], plugins=[loop])
    if loop.codes is None:
        sys.exit("The tests were not run, or fail without any change: nothing can be told.")
    kinds = Counter[tuple[str, str]]()
    for change, code in zip(made, loop.codes, strict=True):
        kinds[change.table, "left" if code == 0 else "unreadable" if code == UNREADABLE else "killed"] += 1
        kinds[change.table, "made"] += 1
    print(
        "| rows of | changes | killed | tables cannot be read | left |\n| --- | ---: | ---: | ---: | ---: |"
    )
    for one in TABLES:
        if kinds[one, "made"]:
            figures = (kinds[one, kind] for kind in ("made", "killed", "unreadable", "left"))
            print(f"| `{one}` | {' | '.join(map(str, figures))} |")
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    print(f"{children.ru_utime + children.ru_stime:.0f} s of the processor.")
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
