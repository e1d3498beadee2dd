"""Cures: what was written in, weights, figures and refusals out."""

from generator.compute.cure.amounts import Scales
from generator.compute.cure.case import CureInput
from generator.compute.cure.result import unread_cure, work_out_cure

__all__ = ["CureInput", "Scales", "unread_cure", "work_out_cure"]
