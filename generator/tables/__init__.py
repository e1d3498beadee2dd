"""Published values as CSV in, one frozen `Tables` of records out; every row with its unit and its source."""

from __future__ import annotations

from generator.tables.csvfile import TableError
from generator.tables.load import Tables, load_tables, read_tables
from generator.tables.measures import AmbiguousUnit

__all__ = ["AmbiguousUnit", "TableError", "Tables", "load_tables", "read_tables"]
