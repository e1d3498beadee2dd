"""What tests share: settings of the property tests, one build of the demo book, a tiny book, a browser."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import hypothesis
import pytest

from generator.build import kitchen as make_kitchen
from generator.compute import Kitchen
from generator.tables import Tables

hypothesis.settings.register_profile("ci", derandomize=True, deadline=None, print_blob=True)
hypothesis.settings.register_profile("here", deadline=None)
hypothesis.settings.register_profile(
    "few",
    derandomize=True,
    deadline=None,
    max_examples=20,
    database=None,
    phases=(hypothesis.Phase.explicit, hypothesis.Phase.generate),  # a failure is not made smaller
)
FEW = os.environ.get("POTHERB_EXAMPLES") == "few"
"Of `mutate.py`: a mutant that is killed at all is killed soon."
hypothesis.settings.load_profile("few" if FEW else "ci" if os.environ.get("CI") else "here")

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="session")
def kitchen() -> Kitchen:
    return make_kitchen()


@pytest.fixture(scope="session")
def tables(kitchen: Kitchen) -> Tables:
    return kitchen.tables


@pytest.fixture
def make_book(tmp_path: Path) -> Callable[..., Path]:
    """Write a book from texts: make_book({'recipes/a.md': '...'}); a minimal book.yaml unless given."""

    def make(files: dict[str, str]) -> Path:
        folder = tmp_path / "content"
        for name, text in {"book.yaml": "title: A tiny book\nchapters: [Pots]\n", **files}.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        return folder

    return make
