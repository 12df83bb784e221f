"""The setup order: which setups, in which order, with which piece for which need, and why.

`plan_day` puts a day of a plan in order and proves it, or says why it cannot be shot; `plan_days` shares setups out
among several days first; `speak` and `speak_days` say it in words;
`written` puts it into the plan's text. The search knows nothing of plans: it works on `facts.numbers.Day`.
"""

from .dayorder import DayOrder, order_day, plan_day
from .many import ManyDays, plan_days
from .solve import LIMIT
from .speak import speak
from .speak_many import speak_days
from .write import written

__all__ = ["LIMIT", "DayOrder", "ManyDays", "order_day", "plan_day", "plan_days", "speak", "speak_days", "written"]
