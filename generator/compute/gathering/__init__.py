"""Gatherings: who comes, when and what is on hand in; what is made, what is fetched and what is done when out."""

from generator.compute.gathering.plan import plan_gathering

__all__ = ["plan_gathering"]
