"""How often a day is wrapped in time: its order lived through many times, with good and bad luck in every task.

plan --model--> stretches with three-point durations --simulate--> many days --risk--> chances and what drives them
"""

from .answer import Risk, risk
from .speak import lines

__all__ = ["Risk", "lines", "risk"]
