"""One page of every kind, for the browser to look at: what is not named here is seen by no accessibility engine."""

from __future__ import annotations

from generator.render import PAGE_KINDS
from tests.render.plan_sample import SHANK

OF_THE_BOOK = {
    **{kind.name: kind.path for kind in PAGE_KINDS if kind.path},
    "chapter": "chapters/smokehouse/index.html",
    "cured component": "recipes/smoked-elk-shank/index.html",
    "dry-cured component": "recipes/smoked-boar-belly/index.html",
    "smoker's sheet": "smoker/smoked-elk-shank/index.html",
    "dish": "recipes/collards-in-smoked-stock/index.html",
    "plain page": "pages/about/index.html",
}
"In the demo book: every page that is the only one of its kind, and one of each other kind."

OF_A_GATHERING = {
    "gathering": "gatherings/supper/index.html",
    "wall sheet": "gatherings/supper/wall/index.html",
    "list": "gatherings/supper/list/index.html",
    "card": f"gatherings/supper/{SHANK}/index.html",
}
"In the demo book with a gathering."
