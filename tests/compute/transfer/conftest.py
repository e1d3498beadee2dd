"""The transfer table as the program reads it."""

from __future__ import annotations

import pytest

from generator.compute.transfer import Parameters, parameters_from
from generator.tables import load_tables

ROWS = load_tables().transfer
"Read when the tests are collected, once for all the children of a mutation run."


@pytest.fixture(scope="session")
def parameters() -> Parameters:
    return parameters_from(ROWS)
