"""Mutants of a folder of formulas, and which of them the tests kill. Run by hand, never in CI.

    python tests/mutate.py compute/cure              every module of the folder
    python tests/mutate.py compute/cure/solve.py     one module
    python tests/mutate.py compute/cure 10           every tenth mutant

A mutant is one small change in one place: another comparison, operator, number, direction of rounding. The tests named
for its folder are loaded once; for each mutant a child puts the change in and runs them until the first fails. Survivors that change nothing that can be seen are excused, each with its reason, in `mutation_excused.csv`.
"""

from __future__ import annotations

import ast
import csv
import os
import resource
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from types import FunctionType, ModuleType

import pytest

TESTS = Path(__file__).parent
ROOT = TESTS.parent
NOT_IN = 3
"What a child says where the change could not be put in."
MOST_SECONDS = 20
"Of the processor for one mutant; one that runs on counts as killed."
ENOUGH = 95
"Per cent, killed or excused."
KILLERS = {
    "compute/cure": """
        compute/test_limits.py test_published.py compute/test_cure.py compute/test_cure_days.py compute/test_dose.py
        compute/test_brine.py compute/test_vessel.py compute/test_hazards.py test_vessel_water.py test_cure_command.py
        compute/test_methods.py
    """,
    "compute/transfer": "compute/transfer/test_amounts.py compute/transfer/test_transfer_reach.py",
    **dict.fromkeys(
        ("compute/transfer/cells", "compute/transfer/course", "compute/transfer/diffuse"),
        "compute/transfer/test_steps.py compute/transfer/test_transfer_exact.py",
    ),
    **dict.fromkeys(("compute/transfer/heat", "compute/transfer/series"), "compute/transfer/test_heat.py"),
    **dict.fromkeys(("compute/transfer/thaw", "compute/transfer/frozen"), "compute/transfer/test_thaw.py"),
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
NAMES = {"min": "max", "round_up": "round_down", "up": "down", "plus": "minus"}
NAMES |= {other: one for one, other in NAMES.items()}
LEFT_ALONE = ("annotation", "returns", "decorator_list")
"What a function takes and gives back is the type checker's; a cache changes no result."


@dataclass(frozen=True)
class Mutant:
    """One change of a module."""

    file: str
    line: int
    was: str
    now: str
    source: str


def mutants(file: str) -> list[Mutant]:
    """Every mutant of a module of the product; imports, types and words stay as they are."""
    tree = ast.parse((ROOT / "generator" / file).read_text(encoding="utf-8"))
    found: list[Mutant] = []

    def note(line: int, was: str, now: str) -> None:
        found.append(Mutant(file, line, was, now, ast.unparse(ast.fix_missing_locations(tree))))

    def walk(node: ast.AST, statement: ast.AST) -> None:
        for field, value in ast.iter_fields(node):
            if field in LEFT_ALONE or isinstance(node, (ast.Import, ast.ImportFrom, ast.JoinedStr)):
                continue
            for child in value if isinstance(value, list) else [value]:
                if isinstance(child, ast.AST):
                    inner = child if isinstance(child, ast.stmt) else statement
                    was = ast.unparse(inner).partition("\n")[0]
                    for _ in changes(child, node):
                        note(getattr(inner, "lineno", 0), was, ast.unparse(inner).partition("\n")[0])
                    walk(child, inner)

    walk(tree, tree)
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


def put_in(mutant: Mutant) -> None:
    """The changed module in place of the loaded one: the code of its functions, and its constants wherever they are."""
    name = f"generator.{mutant.file.removesuffix('.py').replace('/', '.')}"
    module, changed = sys.modules[name], ModuleType(name)
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
    return True


def _swap(old: object, new: object) -> None:
    """The code of one function into another: a cached one, a property and a method of the class have it inside."""
    for inner in ("fget", "__wrapped__", "__func__"):
        old, new = getattr(old, inner, old), getattr(new, inner, new)
    if isinstance(old, FunctionType) and isinstance(new, FunctionType):
        old.__code__, old.__defaults__, old.__kwdefaults__ = (
            new.__code__,
            new.__defaults__,
            new.__kwdefaults__,
        )


class Loop:
    """Runs the collected tests once for each mutant, each time in a child that has them loaded already."""

    def __init__(self, mutants: Sequence[Mutant]) -> None:
        self.mutants = mutants
        self.survivors: list[Mutant] | None = None

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """In place of the one run that pytest would make."""
        if not self._passes(session, None):
            return True
        self.survivors = [mutant for mutant in self.mutants if self._passes(session, mutant)]
        return True

    def _passes(self, session: pytest.Session, mutant: Mutant | None) -> bool:
        child = os.fork()
        if child == 0:
            with open(os.devnull, "wb") as nowhere:
                os.dup2(nowhere.fileno(), 1)
                os.dup2(nowhere.fileno(), 2)
            resource.setrlimit(resource.RLIMIT_CPU, (MOST_SECONDS, MOST_SECONDS + 1))
            if mutant is not None and not _is_in(mutant):
                os._exit(NOT_IN)
            for item, following in zip(session.items, [*session.items[1:], None], strict=True):
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
                if session.testsfailed:
                    os._exit(1)
            os._exit(0)
        code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
        assert code != NOT_IN, f"this change cannot be put in: {mutant}"
        return code == 0


def survivors(found: Sequence[Mutant], tests: Sequence[str]) -> list[Mutant]:
    """Those with which all tests pass."""
    loop = Loop(found)
    words = ["-q", "-p", "no:cacheprovider", "-k", "not audited_again"]
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
