"""Every way an editor saves is one change; reading, and what editors leave behind, is none."""

from __future__ import annotations

import os
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from generator.preview.watch import Watcher, is_of_the_book

SOON_S = 10.0
"Generous: an event comes within a thousandth of a second on a quiet machine."
DEBOUNCE_S = 0.2
"Longer than in use, so that a busy machine does not tear one save in two."
QUIET_S = 0.3
"Had there been an event, it would be here."


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A book with one recipe, beside a folder that is not watched."""
    (tmp_path / "book" / "recipes").mkdir(parents=True)
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "book" / "recipes" / "shank.md").write_text("old")
    return tmp_path / "book"


@pytest.fixture
def watcher(folder: Path) -> Iterator[Watcher]:
    with Watcher([folder], debounce_s=DEBOUNCE_S) as running:
        yield running


def write(folder: Path) -> None:
    (folder / "recipes" / "shank.md").write_text("new")


def replace_in_the_folder(folder: Path) -> None:
    (folder / "recipes" / ".shank.md.tmp").write_text("new")
    os.replace(folder / "recipes" / ".shank.md.tmp", folder / "recipes" / "shank.md")


def replace_from_elsewhere(folder: Path) -> None:
    (folder.parent / "elsewhere" / "shank.md").write_text("new")
    os.replace(folder.parent / "elsewhere" / "shank.md", folder / "recipes" / "shank.md")


def keep_a_backup(folder: Path) -> None:
    recipe, backup = folder / "recipes" / "shank.md", folder / "recipes" / "shank.md~"
    os.replace(recipe, backup)
    recipe.write_text("new")
    backup.unlink()


def truncate_then_write(folder: Path) -> None:
    with (folder / "recipes" / "shank.md").open("w") as file:
        file.flush()
        time.sleep(0.01)
        file.write("new")


def delete(folder: Path) -> None:
    (folder / "recipes" / "shank.md").unlink()


def rename(folder: Path) -> None:
    (folder / "recipes" / "shank.md").rename(folder / "recipes" / "hock.md")


def move_out(folder: Path) -> None:
    (folder / "recipes" / "shank.md").rename(folder.parent / "elsewhere" / "shank.md")


def add_in_a_new_folder(folder: Path) -> None:
    (folder / "gatherings").mkdir()
    time.sleep(0.1)
    (folder / "gatherings" / "feast.md").write_text("new")


@pytest.mark.parametrize(
    "save",
    [
        write,
        replace_in_the_folder,
        replace_from_elsewhere,
        keep_a_backup,
        truncate_then_write,
        delete,
        rename,
        move_out,
        add_in_a_new_folder,
    ],
)
def test_every_way_to_save_is_one_change(
    watcher: Watcher, folder: Path, save: Callable[[Path], None]
) -> None:
    save(folder)
    assert watcher.wait(SOON_S)
    assert not watcher.wait(QUIET_S)


def read(folder: Path) -> None:
    assert (folder / "recipes" / "shank.md").read_text() == "old"


def list_it(folder: Path) -> None:
    assert os.listdir(folder / "recipes") == ["shank.md"]


def make_an_empty_folder(folder: Path) -> None:
    (folder / "gatherings").mkdir()


def leave_droppings(folder: Path) -> None:
    for name in ("shank.md~", ".shank.md.swp", ".#shank.md", "#shank.md#", "4913", "shank.tmp", ".DS_Store"):
        (folder / "recipes" / name).write_text("")
        (folder / "recipes" / name).unlink()


def commit(folder: Path) -> None:
    (folder / ".git").mkdir()
    (folder / ".git" / "index").write_text("")


def change_elsewhere(folder: Path) -> None:
    (folder.parent / "elsewhere" / "shank.md").write_text("new")


@pytest.mark.parametrize(
    "act", [read, list_it, make_an_empty_folder, leave_droppings, commit, change_elsewhere]
)
def test_what_is_no_change(watcher: Watcher, folder: Path, act: Callable[[Path], None]) -> None:
    act(folder)
    assert not watcher.wait(QUIET_S)
    write(folder)
    assert watcher.wait(SOON_S), "and the watcher is still awake"


def test_many_saves_at_once_are_one_change(watcher: Watcher, folder: Path) -> None:
    for number in range(100):
        (folder / "recipes" / f"{number}.md").write_text("new")
    assert watcher.wait(SOON_S)
    assert not watcher.wait(QUIET_S)


def test_a_change_during_a_build_is_not_lost(watcher: Watcher, folder: Path) -> None:
    write(folder)
    assert watcher.wait(SOON_S)
    write(folder)
    time.sleep(0.3)  # a long build
    assert watcher.wait(0)
    assert not watcher.wait(QUIET_S)


def test_an_endless_burst_is_built_in_the_middle_of(watcher: Watcher, folder: Path) -> None:
    stop = threading.Event()

    def keep_saving() -> None:
        while not stop.is_set() and time.monotonic() < began + SOON_S:
            write(folder)
            time.sleep(0.01)

    began = time.monotonic()
    saving = threading.Thread(target=keep_saving)
    saving.start()
    try:
        assert watcher.wait(SOON_S)
        assert time.monotonic() < began + SOON_S, "it waited for the end of the burst"
    finally:
        stop.set()
        saving.join()


def test_a_folder_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        Watcher([tmp_path / "nowhere"])


def test_whose_files_count(tmp_path: Path) -> None:
    for name in ("recipes/shank.md", "book.yaml", "photos/a b.jpg", "temporary.md"):
        assert is_of_the_book(str(tmp_path / name), tmp_path)
    for name in (".git/HEAD", "recipes/.shank.md.swp", "recipes/shank.md~", "../other/shank.md"):
        assert not is_of_the_book(str(tmp_path / name), tmp_path)
