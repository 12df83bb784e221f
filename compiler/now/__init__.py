"""On the day: what is left, from where everything really stands, in the order of least disturbance.

plan + log + time --rest--> a day of its own --onward--> an order that fits --ways--> what to give up when late
"""

from .answer import Answer, answer
from .speak import lines

__all__ = ["Answer", "answer", "lines"]
