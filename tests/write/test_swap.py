"""Old site or new site, whole, at every moment; one build at a time; the same bytes for the same input."""

from __future__ import annotations

import subprocess
import sys
import textwrap
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

import pytest

from generator.model.page import Site
from generator.problems import ProblemLog
from generator.write import swap
from generator.write.lock import BuildRunningError, only_build
from generator.write.manifest import MANIFEST_NAME
from generator.write.output import WriteReport, write_site

Make = Callable[..., Site]
Write = Callable[..., tuple[WriteReport, ProblemLog]]
Contents = Callable[[Path], Mapping[str, str]]


class Crash(BaseException):
    """Stands for whatever ends a build in the middle."""


def leftovers(into: Path) -> list[str]:
    return sorted(path.name for path in into.parent.glob(".*potherb*"))


def test_two_builds_of_one_input_are_byte_identical(
    make_site: Make, write: Write, into: Path, tmp_path: Path, contents: Contents
) -> None:
    write(make_site("0", "index.html", "gone.html"))
    write(make_site("1"))
    write(make_site("1"), tmp_path / "other")
    assert contents(into) == contents(tmp_path / "other")
    assert MANIFEST_NAME in contents(into)


def test_an_unchanged_site_is_not_written_again(make_site: Make, write: Write, into: Path) -> None:
    write(make_site("1"))
    before = into.stat().st_ino
    report, _ = write(make_site("1"))
    assert report.done
    assert report.added == report.rewritten == report.removed == ()
    assert report.changed == 0
    assert into.stat().st_ino == before


def test_a_deleted_page_comes_back(make_site: Make, write: Write, into: Path) -> None:
    write(make_site("1"))
    (into / "index.html").unlink()
    report, _ = write(make_site("1"))
    assert report.added == ("index.html",)
    assert (into / "index.html").is_file()


def test_nothing_is_written_after_an_error_in_the_book(make_site: Make, into: Path, book: Path) -> None:
    log = ProblemLog()
    log.add("cycle", None, "A recipe needs itself.")
    assert not write_site(make_site(), into=into, book=book, log=log).done
    assert not into.exists()
    assert leftovers(into) == []


@pytest.mark.parametrize("exchanges", [True, False])
@pytest.mark.parametrize("step", ["stage", "write_bytes", "swap"])
def test_a_crash_before_the_exchange_leaves_the_old_site_whole(
    monkeypatch: pytest.MonkeyPatch,
    make_site: Make,
    write: Write,
    into: Path,
    contents: Contents,
    step: str,
    exchanges: bool,
) -> None:
    write(make_site("1"))
    (into / "CNAME").write_text("book.example")
    before = contents(into)

    def crash(*_: object) -> None:
        raise Crash

    with monkeypatch.context() as patch:
        if not exchanges:
            patch.setattr(swap, "exchange", lambda one, other: False)
        if step == "write_bytes":
            patch.setattr(Path, "write_bytes", crash)
        else:
            patch.setattr(f"generator.write.output.{step}", crash)
        with pytest.raises(Crash):
            write(make_site("2"))
    assert contents(into) == before
    assert leftovers(into) == []


def test_a_crash_between_the_two_renames_puts_the_old_site_back(
    monkeypatch: pytest.MonkeyPatch, make_site: Make, write: Write, into: Path, contents: Contents
) -> None:
    write(make_site("1"))
    before = contents(into)
    real = Path.rename

    def rename(self: Path, target: Path) -> Path:
        if self == swap.new_folder(into):
            raise Crash
        return real(self, target)

    with monkeypatch.context() as patch:
        patch.setattr(swap, "exchange", lambda one, other: False)
        patch.setattr(Path, "rename", rename)
        with pytest.raises(Crash):
            write(make_site("2"))
    assert contents(into) == before
    assert leftovers(into) == []


KILLED = """
    import os, sys
    from pathlib import Path
    from generator.model.page import Page, Site
    from generator.problems import ProblemLog
    from generator.write import output, swap

    into, point = Path(sys.argv[1]), sys.argv[2]

    def die(*_):
        os._exit(9)

    real_rename, real_write = Path.rename, Path.write_bytes

    def rename(self, target):
        if point == "between renames" and self == swap.new_folder(into):
            die()
        return real_rename(self, target)

    def write_bytes(self, content):
        if point == "half a manifest":
            content = content[:20]
        done = real_write(self, content)
        if point == "half a manifest" or (point == "half staged" and self.name == "index.html"):
            die()
        return done

    Path.rename, Path.write_bytes = rename, write_bytes
    if point == "between renames":
        swap.exchange = lambda one, other: False
    if point == "staged":
        output.swap = die
    if point == "swapped":
        swap.shutil.rmtree = die
    pages = [Page(path=p, html=p + " 2") for p in ("index.html", "new.html")]
    output.write_site(Site(pages=tuple(pages)), into=into, book=into.parent / "content", log=ProblemLog())
"""


@pytest.mark.parametrize(
    ("point", "stands"),
    [
        ("half staged", "1"),
        ("half a manifest", "1"),
        ("staged", "1"),
        ("between renames", None),
        ("swapped", "2"),
    ],
)
def test_the_build_after_a_killed_one_repairs_and_loses_nothing(
    make_site: Make, write: Write, into: Path, contents: Contents, point: str, stands: str | None
) -> None:
    write(make_site("1"))
    (into / "CNAME").write_text("book.example")
    command = [sys.executable, "-c", textwrap.dedent(KILLED), str(into), point]
    assert subprocess.run(command, check=False).returncode == 9
    if stands is None:
        assert not into.exists(), "the documented gap of the two renames"
    else:
        assert (into / "index.html").read_text().removesuffix("</p>").endswith(stands)
        assert (into / "CNAME").read_text() == "book.example"
    assert leftovers(into) != []
    report, log = write(make_site("3"))
    assert report.done, list(log)
    assert set(contents(into)) == {"CNAME", MANIFEST_NAME, "index.html", "recipes/shank/index.html"}
    assert (into / "CNAME").read_text() == "book.example"
    assert leftovers(into) == []


@pytest.mark.parametrize("first", [True, False])
def test_a_foreign_file_changed_while_the_site_is_built_is_not_lost(
    monkeypatch: pytest.MonkeyPatch, make_site: Make, write: Write, into: Path, first: bool
) -> None:
    into.mkdir()
    (into / ".gitignore").write_text("old")
    if not first:
        write(make_site("1"))
    real = swap.swap

    def edit_then_swap(folder: Path) -> None:
        (into / "edited").write_text("new")
        (into / "edited").replace(into / ".gitignore")
        (into / "late.txt").write_text("late")
        if not first:
            (into / "index.html").write_text("by hand")
        real(folder)

    monkeypatch.setattr("generator.write.output.swap", edit_then_swap)
    report, log = write(make_site("2"))
    assert report.done, list(log)
    assert (into / ".gitignore").read_text() == "new"
    assert (into / "late.txt").read_text() == "late"
    assert (into / "index.html").read_text() == ("<p>index.html 2</p>" if first else "by hand")
    assert leftovers(into) == []


def test_copies_stand_in_for_second_names(
    monkeypatch: pytest.MonkeyPatch, make_site: Make, write: Write, into: Path
) -> None:
    write(make_site("1"))
    (into / "CNAME").write_text("book.example")

    def no_links(*_: object, **__: object) -> None:
        raise OSError("this file system knows no second names")

    monkeypatch.setattr("os.link", no_links)
    assert write(make_site("2"))[0].done
    assert (into / "CNAME").read_text() == "book.example"


FOLDERS = pytest.mark.parametrize("folder", [swap.new_folder, swap.old_folder])
"Where a build works beside the site."


@FOLDERS
@pytest.mark.parametrize("built", [True, False])
def test_a_foreign_folder_of_our_name_is_told_and_not_touched(
    make_site: Make, write: Write, into: Path, contents: Contents, folder: Callable[[Path], Path], built: bool
) -> None:
    if built:
        write(make_site("1"))
    mine = folder(into)
    (mine / "letters").mkdir(parents=True)
    for name in ("diary.txt", "letters/one.txt", "index.html", "will.txt"):
        (mine / name).write_text("mine")
    before = contents(into.parent)
    report, log = write(make_site("2"))
    assert not report.done
    (problem,) = log
    assert problem.slug == "foreign-folder"
    assert problem.message == (
        f"'{mine}' holds what Potherb did not write: 'diary.txt', 'index.html', 'letters/one.txt' and 1 more."
    )
    assert (
        problem.hint
        == "Potherb needs that name while it builds. Move it elsewhere or delete it, then build again."
    )
    assert contents(into.parent) == before
    mine.rename(into.parent / "elsewhere")
    assert write(make_site("2"))[0].done


@FOLDERS
def test_a_file_of_our_name_is_told_and_not_touched(
    make_site: Make, write: Write, into: Path, folder: Callable[[Path], Path]
) -> None:
    folder(into).write_text("mine")
    report, log = write(make_site("1"))
    assert not report.done
    assert [problem.message for problem in log] == [f"'{folder(into)}' is not a folder that Potherb made."]
    assert folder(into).read_text() == "mine"


@FOLDERS
def test_links_beside_the_folder_are_not_followed_and_stay(
    make_site: Make, write: Write, into: Path, tmp_path: Path, folder: Callable[[Path], Path]
) -> None:
    (tmp_path / "treasure").mkdir()
    (tmp_path / "treasure" / "gold").write_text("mine")
    folder(into).symlink_to(tmp_path / "treasure")
    report, log = write(make_site("1"))
    assert not report.done
    assert [problem.slug for problem in log] == ["foreign-folder"]
    assert (folder(into) / "gold").read_text() == "mine"


def test_a_file_put_into_what_a_killed_build_left_is_not_lost(
    make_site: Make, write: Write, into: Path
) -> None:
    command = [sys.executable, "-c", textwrap.dedent(KILLED), str(into), "half staged"]
    assert subprocess.run(command, check=False).returncode == 9
    mine = swap.new_folder(into) / "diary.txt"
    mine.write_text("mine")
    report, log = write(make_site("3"))
    assert not report.done
    assert [problem.message for problem in log] == [
        f"'{mine.parent}' holds what Potherb did not write: 'diary.txt'."
    ]
    assert mine.read_text() == "mine"
    mine.rename(into.parent / "diary.txt")
    assert write(make_site("3"))[0].done


def killed_first_build(into: Path, point: str) -> Path:
    """A build among an author's hidden files, killed; the folder where those stand now."""
    into.mkdir()
    (into / ".gitignore").write_text("old")
    command = [sys.executable, "-c", textwrap.dedent(KILLED), str(into), point]
    assert subprocess.run(command, check=False).returncode == 9
    return into if into.exists() else swap.old_folder(into)


@pytest.mark.parametrize("point", ["half staged", "between renames", "swapped"])
def test_the_first_build_killed_among_hidden_files_is_repaired(
    make_site: Make, write: Write, into: Path, point: str
) -> None:
    """The old folder has no manifest; all of it is in the site too, so it may go."""
    killed_first_build(into, point)
    report, log = write(make_site("3"))
    assert report.done, list(log)
    assert leftovers(into) == []
    assert (into / ".gitignore").read_text() == "old"


@pytest.mark.parametrize("point", ["between renames", "swapped"])
def test_a_hidden_file_edited_after_the_first_build_was_killed_is_not_lost(
    make_site: Make, write: Write, into: Path, point: str
) -> None:
    """Without a manifest nobody can tell which of the two is the author's: it is told, and both stay."""
    holder = killed_first_build(into, point)
    (holder / ".edit").write_text("new")
    (holder / ".edit").replace(holder / ".gitignore")
    report, log = write(make_site("3"))
    assert not report.done
    assert [problem.slug for problem in log] == ["foreign-folder"] * len(log)
    assert all(problem.message.endswith("did not write: '.gitignore'.") for problem in log)
    assert (holder / ".gitignore").read_text() == "new"


@contextmanager
def reading(into: Path, seen: list[tuple[str, str, str]], missing: list[str]) -> Iterator[None]:
    """Read two pages in turn, on and on, in another thread: first page, second page, first page again."""
    stop = threading.Event()

    def version(name: str) -> str:
        try:
            return (into / name).read_text()
        except FileNotFoundError:
            missing.append(name)
            return ""

    def loop() -> None:
        while not stop.is_set():
            seen.append((version("index.html"), version("other.html"), version("index.html")))

    reader = threading.Thread(target=loop)
    reader.start()
    try:
        yield
    finally:
        stop.set()
        reader.join()


def is_mixed(triple: tuple[str, str, str]) -> bool:
    """With the same first page before and after, the second page must be of the same site."""
    before, between, after = (text.rpartition(" ")[2] for text in triple)
    return before == after and between != before


def test_a_reader_during_200_exchanges_sees_one_whole_site(make_site: Make, write: Write, into: Path) -> None:
    """On Linux, where folders can be exchanged in one step."""
    write(make_site("0", "index.html", "other.html"))
    one, other = into.with_name("one"), into.with_name("other")
    one.mkdir()
    other.mkdir()
    assert swap.exchange(one, other), "this file system cannot exchange folders"
    seen: list[tuple[str, str, str]] = []
    missing: list[str] = []
    with reading(into, seen, missing):
        for version in range(1, 201):
            assert write(make_site(str(version), "index.html", "other.html"))[0].done
    assert len({triple[0] for triple in seen}) > 20, "the reader saw too few of the sites"
    assert missing == []
    assert [triple for triple in seen if is_mixed(triple)] == []


def test_a_reader_during_two_renames_sees_no_mixed_site(
    monkeypatch: pytest.MonkeyPatch, make_site: Make, write: Write, into: Path
) -> None:
    """The documented stand-in: the folder may be missing for a moment, a half site is never there."""
    monkeypatch.setattr(swap, "exchange", lambda one, other: False)
    write(make_site("0", "index.html", "other.html"))
    seen: list[tuple[str, str, str]] = []
    with reading(into, seen, []):
        for version in range(1, 101):
            assert write(make_site(str(version), "index.html", "other.html"))[0].done
    assert len({triple[0] for triple in seen}) > 10
    assert [triple for triple in seen if "" not in triple and is_mixed(triple)] == []


def test_a_second_build_is_refused_while_one_runs(make_site: Make, write: Write, into: Path) -> None:
    with only_build(into):
        report, log = write(make_site())
    assert not report.done
    problem = next(iter(log))
    assert problem.slug == "build-running"
    assert problem.message == f"Another build is writing to '{into}'."
    assert problem.hint == "Wait until it is done, then build again."
    assert not into.exists()
    assert write(make_site())[0].done
    assert leftovers(into) == []


def test_a_build_for_another_folder_is_not_refused(make_site: Make, write: Write, into: Path) -> None:
    with only_build(into.with_name("elsewhere")):
        assert write(make_site())[0].done


def test_the_lock_of_a_killed_build_does_not_stick(make_site: Make, write: Write, into: Path) -> None:
    script = """
        import os, sys
        from pathlib import Path
        from generator.write.lock import BuildRunningError, only_build
        with only_build(Path(sys.argv[1])):
            os._exit(9)
    """
    assert (
        subprocess.run([sys.executable, "-c", textwrap.dedent(script), str(into)], check=False).returncode
        == 9
    )
    assert leftovers(into) == [f".{into.name}.potherb-lock"]
    assert write(make_site())[0].done
    assert leftovers(into) == []


def test_many_threads_never_hold_the_lock_together(into: Path) -> None:
    holders, together = [0], [0]

    def build() -> None:
        mine = 0
        while mine < 50:
            try:
                with only_build(into):
                    holders[0] += 1
                    together[0] = max(together[0], holders[0])
                    time.sleep(0)  # let the others try
                    holders[0] -= 1
                    mine += 1
            except BuildRunningError:
                continue

    threads = [threading.Thread(target=build) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert together[0] == 1


def test_impossible_paths_are_a_bug(make_site: Make, write: Write) -> None:
    for paths in (
        ("../a.html",),
        ("/a.html",),
        ("a.html", "A.html"),
        ("a", "a/b.html"),
        (MANIFEST_NAME,),
    ):
        with pytest.raises(ValueError, match=r"leave the site|one place|a folder is needed"):
            write(make_site("1", *paths))
