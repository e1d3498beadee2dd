"""One small book for the tests of gatherings."""

from __future__ import annotations

import pytest

from generator.compute import Kitchen
from generator.model.book import Book
from tests.compute.gathering.invite import book_of, recipe

SHANK = recipe(
    "Smoked shank",
    """
makes: 4 shanks (1.5 kg)
meat:
  animal: elk
  cut: fore shank
  weight: 2 kg
  pieces: 4
  thickness: 3 in
  shape: round
  bone: in
cure:
  method: brine
  water: 3 L
  salt: 3 %
  sugar: 1 %
  curing salt: 150 ppm
ingredients:
  - 2 bay leaves (fixed)
course:
  - cure: 6 days in the fridge
  - hot smoke: 6 h at 200 °F to 150 °F inside
eat: after cooking
keep:
  fridge: 4 days
""",
    "Brine the [meat](#meat).",
)
STOCK = recipe(
    "Smoked stock",
    """
makes: 4 L
ingredients:
  - 2 [smoked shanks](shank.md)
  - 5 L water
  - 1 onion, halved
  - 60 g honey
course:
  - simmer: 4 h to 165 °F inside in the pot
""",
)
GREENS = recipe(
    "Greens",
    """
serves: 6
ingredients:
  - 2 L [smoked stock](stock.md)
  - 570 g collard leaves, in ribbons
  - 2 tbsp cider vinegar
course:
  - simmer: 75 min to 165 °F inside in the pot
""",
)
BEANS = recipe(
    "Beans",
    """
serves: 8
ingredients:
  - 1 [smoked shank](shank.md), sawn in two
  - 500 g dry pinto beans, soaked
  - 2 onions, chopped
  - 1 tbsp honey
  - salt, to taste
course:
  - simmer: 3 h to 165 °F inside in the pot
""",
)
RECIPES = {"shank": SHANK, "stock": STOCK, "greens": GREENS, "beans": BEANS}


@pytest.fixture(scope="session")
def book(tmp_path_factory: pytest.TempPathFactory, kitchen: Kitchen) -> Book:
    """Greens take stock, stock and beans take shanks."""
    return book_of(tmp_path_factory.mktemp("gathering") / "content", RECIPES, kitchen)
