"""Mutants of a folder of formulas, and which of them the tests kill. Run by hand, never in CI.

    python tests/mutate.py compute/cure              every module of the folder
    python tests/mutate.py compute/cure/solve.py     one module
    python tests/mutate.py compute/cure 10           every tenth mutant

A mutant is one small change in one place: another comparison, operator, number, direction of rounding. The tests named
for its folder are loaded once; for each mutant a child puts the change in and runs them until one fails: of the tests of
safety, those that come by its line, those first that come by most of its file. Survivors that change nothing that can be
seen are excused, each with its reason, in `mutation_excused.csv`.
"""

from __future__ import annotations

import ast
import csv
import gc
import os
import pickle
import resource
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from importlib import import_module
from itertools import groupby
from pathlib import Path
from types import FrameType, FunctionType, ModuleType

import pytest

TESTS = Path(__file__).parent
ROOT = TESTS.parent
NOT_IN = 3
"What a child says where the change could not be put in."
MOST_SECONDS = 20
"Of the processor for one mutant, beyond twice what its tests take; one that runs on counts as killed."
ENOUGH = 95
"Per cent, killed or excused."
MANY_TESTS = "compute/safety"
"A folder with so many tests that only those are run that come by a mutant; elsewhere all are, in their order."
MOST_TESTS = 250
"For one mutant: what these miss counts as missed, though one of the others may see it."
SAFETY = """
    compute/safety/test_cases.py compute/safety/test_canning.py compute/safety/test_causes.py
    compute/safety/test_game.py compute/safety/test_heat.py compute/safety/test_keep.py compute/safety/test_merge.py
    compute/safety/test_places.py compute/safety/test_plants.py compute/safety/test_quiet.py
    compute/safety/test_salt_by_volume.py compute/test_safety.py compute/test_cure_time.py
"""
CURE = """
    compute/test_cure_by_hand.py compute/test_cure_steps.py compute/test_solve.py compute/test_limits.py
    test_published.py
"""
KILLERS = {
    "compute/cure": CURE,
    "compute/cure/correct": f"{CURE} compute/test_brine.py",
    "compute/cure/days": f"{CURE} compute/test_cure_days.py compute/test_cure_time.py",
    "compute/cure/dose": f"{CURE} compute/test_dose.py",
    "compute/cure/vessel": f"{CURE} compute/test_vessel.py",
    "compute/transfer": "compute/transfer/test_amounts.py compute/transfer/test_transfer_reach.py",
    **dict.fromkeys(
        ("compute/transfer/cells", "compute/transfer/course", "compute/transfer/diffuse"),
        "compute/transfer/test_steps.py compute/transfer/test_transfer_exact.py",
    ),
    **dict.fromkeys(("compute/transfer/heat", "compute/transfer/series"), "compute/transfer/test_heat.py"),
    **dict.fromkeys(("compute/transfer/thaw", "compute/transfer/frozen"), "compute/transfer/test_thaw.py"),
    "compute/safety/rules": f"{SAFETY} compute/safety/test_smoke.py compute/safety/test_thaw.py compute/safety/test_nitrite_listed.py",
    "compute/safety/facts": f"compute/safety/test_facts.py {SAFETY} compute/safety/test_acts.py compute/safety/test_names.py",
}
"The tests of each folder, those that kill most first; the longest name that a module begins with holds."

OPERATORS: dict[type[ast.AST], type[ast.AST]] = {
    **{
        ast.Lt: ast.LtE,
        ast.LtE: ast.Lt,
        ast.Gt: ast.GtE,
        ast.GtE: ast.Gt,
        ast.Eq: ast.NotEq,
        ast.NotEq: ast.Eq,
    },
    **{ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In},
    **{ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult},
    **{ast.Pow: ast.Mult, ast.And: ast.Or, ast.Or: ast.And},
}
FUNCTIONS = (ast.FunctionDef, ast.AsyncFunctionDef)
NAMES = {"min": "max", "round_up": "round_down", "up": "down", "plus": "minus"}
NAMES |= {other: one for one, other in NAMES.items()}
LEFT_ALONE = ("annotation", "returns", "decorator_list")
"What a function takes and gives back is the type checker's; a cache changes no result."


@dataclass(frozen=True)
class Mutant:
    """One change of a module."""

    file: str
    line: int
    last: int
    "Lines of its statement."
    is_inside: bool
    "Of a function; what stands outside is met by every test that has loaded the module."
    was: str
    now: str
    source: str


def mutants(file: str) -> list[Mutant]:
    """Every mutant of a module of the product; imports, types and words stay as they are."""
    tree = ast.parse((ROOT / "generator" / file).read_text(encoding="utf-8"))
    found: list[Mutant] = []

    def note(statement: ast.AST, is_inside: bool, was: str) -> None:
        lines = getattr(statement, "lineno", 0), getattr(statement, "end_lineno", 0)
        now = ast.unparse(statement).partition("\n")[0]
        source = ast.unparse(ast.fix_missing_locations(tree))
        found.append(Mutant(file, *lines, is_inside, was, now, source))

    def walk(node: ast.AST, statement: ast.AST, is_inside: bool) -> None:
        for part, value in ast.iter_fields(node):
            if part in LEFT_ALONE or isinstance(node, (ast.Import, ast.ImportFrom, ast.JoinedStr)):
                continue
            for child in value if isinstance(value, list) else [value]:
                if isinstance(child, ast.AST):
                    inner = child if isinstance(child, ast.stmt) else statement
                    was = ast.unparse(inner).partition("\n")[0]
                    for _ in changes(child, node):
                        note(inner, is_inside, was)
                    walk(child, inner, is_inside or (part == "body" and isinstance(node, FUNCTIONS)))

    walk(tree, tree, False)
    return found


def changes(node: ast.AST, above: ast.AST) -> Iterator[None]:
    """Makes each change of a node in its place, and takes it back when asked for the next."""
    match node:
        case ast.Compare(ops=[*ops]) | ast.BoolOp(op=ops) | ast.BinOp(op=ops):
            name = "ops" if isinstance(node, ast.Compare) else "op"
            for place, op in enumerate(ops if isinstance(ops, list) else [ops]):
                other = OPERATORS.get(type(op))
                if other is not None and not _is_text(node):
                    new = [*node.ops[:place], other(), *node.ops[place + 1 :]] if name == "ops" else other()  # type: ignore[attr-defined]
                    setattr(node, name, new)
                    yield
                    setattr(node, name, ops)
        case ast.Constant(value=int() | float() as number):
            node.value = not number if isinstance(number, bool) else number + 1
            yield
            node.value = number
        case ast.Name(id=name) if name in NAMES:
            node.id = NAMES[name]
            yield
            node.id = name
        case ast.Attribute(attr=name) if name in NAMES:
            node.attr = NAMES[name]
            yield
            node.attr = name
        case ast.IfExp(test=test) | ast.If(test=test):
            node.test = ast.UnaryOp(op=ast.Not(), operand=test)  # type: ignore[attr-defined]
            yield
            node.test = test  # type: ignore[attr-defined]


def _is_text(node: ast.AST) -> bool:
    """Strings that are put together, and types joined by a bar, are no arithmetic."""
    return isinstance(node, ast.BinOp) and any(
        isinstance(side, ast.JoinedStr) or (isinstance(side, ast.Constant) and isinstance(side.value, str))
        for side in (node.left, node.right)
    )


def _module_of(file: str) -> ModuleType:
    return import_module(f"generator.{file.removesuffix('.py').replace('/', '.')}")


def put_in(mutant: Mutant) -> None:
    """The changed module in place of the loaded one: the code of its functions, and its constants wherever they are."""
    module = _module_of(mutant.file)
    name = module.__name__
    changed = ModuleType(name)
    sys.modules[name] = changed  # a dataclass looks its own module up
    exec(compile(mutant.source, str(module.__file__), "exec"), changed.__dict__)
    sys.modules[name] = module
    for key, new in vars(changed).items():
        old = vars(module).get(key)
        if key.startswith("__") or old is new:
            continue
        if callable(old) and getattr(old, "__module__", "") != name:
            continue  # imported: not its own
        if isinstance(old, type):
            for part, of_class in vars(new).items():
                _swap(vars(old).get(part), of_class)
        elif callable(old):
            _swap(old, new)
        elif old != new:
            for other in [one for full, one in sys.modules.items() if full.startswith("generator.")]:
                if vars(other).get(key) is old:
                    setattr(other, key, new)


def _is_in(mutant: Mutant) -> bool:
    """False where the harness itself fails: that is no kill. A module that cannot be loaded any more is one."""
    try:
        put_in(mutant)
    except (AttributeError, KeyError, TypeError):
        return False
    except Exception:
        os._exit(1)
    return True


def _swap(old: object, new: object) -> None:
    """The code of one function into another: a cached one, a property and a method of the class have it inside."""
    for inner in ("fget", "__wrapped__", "__func__"):
        getattr(old, "cache_clear", lambda: None)()
        old, new = getattr(old, inner, old), getattr(new, inner, new)
    if isinstance(old, FunctionType) and isinstance(new, FunctionType):
        old.__code__, old.__defaults__, old.__kwdefaults__ = (
            new.__code__,
            new.__defaults__,
            new.__kwdefaults__,
        )


@dataclass(slots=True)
class Run:
    """One test without any change: what it takes, and the lines of the product that it comes by."""

    seconds: float = 0
    lines: set[tuple[str, int]] = field(default_factory=set)

    def much_of(self, file: str) -> int:
        """How many lines of a file it comes by: who comes by most is most likely to see a change of it."""
        return sum(one == file for one, _ in self.lines)


class Loop:
    """Runs the collected tests once for each mutant, each time in a child that has them loaded already."""

    def __init__(self, mutants: Sequence[Mutant]) -> None:
        self.mutants = mutants
        self.survivors: list[Mutant] | None = None
        self.runs: list[Run] = []

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """In place of the one run that pytest would make. The tables, which no mutant changes, are loaded once for all."""
        kitchen = import_module("generator.build").kitchen()
        kitchen.tables.acts()
        kitchen.tables.lexicon.find("bear")
        if not self._passes(session, None):
            return True
        self.survivors = []
        gc.freeze()  # so that a child need not copy what it only counts
        for mutant in self.mutants:
            if self._passes(session, mutant):
                self.survivors.append(mutant)
                print(f"{mutant.file}:{mutant.line} survives: {mutant.now}", flush=True)
        return True

    def _passes(self, session: pytest.Session, mutant: Mutant | None) -> bool:
        chosen = self._meets(mutant) if mutant is not None else range(len(session.items))
        seconds = MOST_SECONDS + int(2 * sum(self.runs[index].seconds for index in chosen if self.runs))
        with tempfile.TemporaryFile() as told:
            child = os.fork()
            if child == 0:
                with open(os.devnull, "wb") as nowhere:
                    os.dup2(nowhere.fileno(), 1)
                    os.dup2(nowhere.fileno(), 2)
                if mutant is None:
                    self._look(session)
                    pickle.dump(self.runs, told)
                    told.flush()
                    os._exit(0 if session.testsfailed == 0 else 1)
                resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 1))
                if not _is_in(mutant):
                    os._exit(NOT_IN)
                for index, following in zip(chosen, [*chosen[1:], None], strict=True):
                    self._run(session, index, following)
                    if session.testsfailed:
                        os._exit(1)
                os._exit(0)
            code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
            assert code != NOT_IN, f"this change cannot be put in: {mutant}"
            if mutant is None and code == 0:
                told.seek(0)
                self.runs = pickle.load(told)
            return code == 0

    @staticmethod
    def _run(session: pytest.Session, index: int, following: int | None) -> None:
        item, then = session.items[index], None if following is None else session.items[following]
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=then)

    def _look(self, session: pytest.Session) -> None:
        """Runs every test, from cold caches of the changed modules, and notes the lines that each comes by."""
        places = {str(ROOT / "generator" / one.file): one.file for one in self.mutants}
        caches = [one for file in places.values() for one in vars(_module_of(file)).values()]
        for index in range(len(session.items)):
            for one in caches:
                getattr(one, "cache_clear", lambda: None)()
            run = Run()

            def line(frame: FrameType, event: str, _: object, run: Run = run) -> object:
                run.lines.add((places[frame.f_code.co_filename], frame.f_lineno))
                return line

            def call(frame: FrameType, event: str, _: object) -> object:
                return line(frame, event, _) if frame.f_code.co_filename in places else None

            started = time.process_time()
            if any(one.file.startswith(MANY_TESTS) for one in self.mutants):
                sys.settrace(call)  # type: ignore[arg-type]
            self._run(session, index, index + 1 if index + 1 < len(session.items) else None)
            sys.settrace(None)
            run.seconds = time.process_time() - started
            self.runs.append(run)

    def _meets(self, mutant: Mutant) -> list[int]:
        """The tests that come by a mutant; of one outside of any function all, those of its file first."""
        if not mutant.file.startswith(MANY_TESTS):
            return list(range(len(self.runs)))
        lines = {(mutant.file, line) for line in range(mutant.line, mutant.last + 1)}
        known = list(enumerate(self.runs))
        if mutant.is_inside:
            known = [(index, run) for index, run in known if run.lines & lines]
        known.sort(key=lambda one: (-one[1].much_of(mutant.file), one[1].seconds))
        return [index for index, _ in known[:MOST_TESTS]]


def survivors(found: Sequence[Mutant], tests: Sequence[str]) -> list[Mutant]:
    """Those with which all tests pass."""
    loop = Loop(found)
    words = ["-q", "-s", "-p", "no:cacheprovider", "-k", "not audited_again"]
    pytest.main([*words, *(str(TESTS / test) for test in tests)], plugins=[loop])
    if loop.survivors is None:
        sys.exit("The tests were not run, or fail without any change: nothing can be told.")
    return loop.survivors


def excused() -> set[tuple[str, str, str]]:
    """Survivors by file, the line as it was and as it is changed."""
    with (TESTS / "mutation_excused.csv").open(encoding="utf-8", newline="") as file:
        return {(row["file"], row["was"], row["now"]) for row in csv.DictReader(file)}


def killers(mutant: Mutant) -> list[str]:
    """The tests that a mutant is to be seen by."""
    return KILLERS[max((name for name in KILLERS if mutant.file.startswith(name)), key=len)].split()


def run(files: Sequence[str], every: int) -> int:
    """The table, and each survivor that is not excused; 1 where too many are left."""
    known, made, killed, forgiven = excused(), Counter[str](), Counter[str](), Counter[str]()
    found = [one for file in files for one in mutants(file)][::every]
    left = [one for tests, some in groupby(found, killers) for one in survivors(list(some), tests)]
    for mutant in found:
        made[mutant.file] += 1
        if mutant not in left:
            killed[mutant.file] += 1
        elif (mutant.file, mutant.was, mutant.now) in known:
            forgiven[mutant.file] += 1
        else:
            print(f"{mutant.file}:{mutant.line}\n  - {mutant.was}\n  + {mutant.now}")
    print("\n| module | mutants | killed | excused | left |\n| --- | ---: | ---: | ---: | ---: |")
    for file in made:
        rest = made[file] - killed[file] - forgiven[file]
        print(f"| `{file}` | {made[file]} | {killed[file]} | {forgiven[file]} | {rest} |")
    share = 100 * (killed.total() + forgiven.total()) / max(made.total(), 1)
    print(f"{made.total()} mutants, {share:.1f} % killed or excused.")
    return 0 if share >= ENOUGH else 1


def main(target: str, every: str = "1") -> int:
    """A folder or a module of the product, and which part of its mutants."""
    os.environ |= {"CI": "1", "POTHERB_EXAMPLES": "few"}
    sys.path[0] = str(ROOT)  # in place of the folder of the tests
    path = ROOT / "generator" / target
    files = [path] if path.suffix else sorted(path.glob("*.py"))
    started = time.process_time()
    found = run([file.relative_to(ROOT / "generator").as_posix() for file in files], int(every))
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    print(f"{time.process_time() - started + children.ru_utime + children.ru_stime:.0f} s of the processor.")
    return found


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
