"""Gatherings: who comes and what is on hand in, what is made and what is fetched out."""

from generator.compute.gathering.demand import make_demand
from generator.compute.gathering.shopping import make_list

__all__ = ["make_demand", "make_list"]
