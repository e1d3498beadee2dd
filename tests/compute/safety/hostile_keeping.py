"""Hostile courses of thawing, smoking, cooling and keeping: name, recipe, rule that must speak, error or box."""

from __future__ import annotations

from tests.compute.safety.course import recipe

SHANK = "animal: elk; cut: shank; weight: 6 lb; thickness: 3 in; shape: round"
TROUT = "animal: trout; cut: fillet; weight: 2 lb"
LOIN = "animal: deer; cut: loin; weight: 3 lb"
DRY = "method: dry; salt: 2.5 %; curing salt: 150 ppm"
SMOKED = "hot smoke: 3 h at 225 °F to 160 °F inside until it has held there for half an hour"
ROAST = "roast: 2 h at 325 °F to 165 °F inside"

HOSTILE = (
    ("thaw on the counter", recipe("thaw: 8 h on the counter", ROAST), "thaw-counter", "error"),
    ("thaw in warm water", recipe("thaw: 1 h at 104 °F in warm water", ROAST), "thaw-counter", "error"),
    ("back to the freezer from water", recipe("thaw: 2 h in cold water", "freeze", ROAST), "thaw-cold-water", "error"),
    (
        "vacuum-packed smoked fish at 45 °F",
        recipe(SMOKED, "pack: vacuum", meat=TROUT, keep="fridge: 5 days at 45 °F"),
        "vacuum-fish",
        "error",
    ),
    (
        "vacuum-packed smoked fish for two weeks",
        recipe(SMOKED, "pack: vacuum", meat=TROUT, keep="fridge: 14 days at 36 °F"),
        "vacuum-fish",
        "error",
    ),
    (
        "cured loin on the shelf",
        recipe("cure: 10 days in the fridge", "hot smoke: 4 h at 225 °F to 165 °F inside", meat=LOIN, cure=DRY, keep="shelf: 3 months"),
        "shelf-meat",
        "error",
    ),
    ("raw meat in a lukewarm smoker", recipe("hot smoke: 4 h at 170 °F to 165 °F inside", meat=SHANK), "smoker-air", "error"),
    ("cold smoke and nothing else", recipe("cold smoke: 2 h at 80 °F", meat=LOIN), "cold-smoke-raw", "error"),
    ("smoked trout that is barely warm", recipe("hot smoke: 2 h at 160 °F to 130 °F inside", meat=TROUT), "hot-smoked-fish", "error"),
    ("out of the freezer into the smoke", recipe("freeze", "hot smoke: 4 h at 250 °F to 165 °F inside"), "smoke-frozen", "error"),
    ("a shank in ten minutes", recipe("simmer: 10 min", meat=SHANK), "simmer-too-short", "error"),
    ("stew left on the counter overnight", recipe("simmer: 3 h to 165 °F inside", "cool: 10 h on the counter"), "cool-two-steps", "error"),
    ("a stuffed goose in the freezer", recipe("stuff: 20 min", "freeze", meat="animal: goose; cut: whole"), "frozen-stuffed-bird", "error"),
    (
        "ten inches in slow smoke",
        recipe("hot smoke: 16 h at 180 °F to 165 °F inside", meat="animal: beef; cut: round; thickness: 10 in; shape: round"),
        "come-up-time",
        "error",
    ),
)  # fmt: skip
