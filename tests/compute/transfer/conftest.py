"""The transfer table as the program reads it."""

from __future__ import annotations

import pytest

from generator.compute.transfer import Parameters, parameters_from
from generator.tables import load_tables


@pytest.fixture(scope="session")
def parameters() -> Parameters:
    return parameters_from(load_tables().transfer)
