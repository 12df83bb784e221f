"""Why a setup must be shot within certain hours, in the crew's words.

The facts give each window a reason in the words of the plan; here it is said as one says it on set.
"""

from __future__ import annotations

from .say import Say


def reasons(say: Say, setup: str, why: str) -> str:
    """Every reason of `why` (joined by "; " in the facts) in words, each once."""
    said = (_reason(say, setup, part) for part in why.split("; ") if part)
    return ", ".join(dict.fromkeys(said))


def _reason(say: Say, setup: str, part: str) -> str:
    _ = say.words
    words, plan = part.split(), say.plan
    name = part.split("'")[1] if part.count("'") >= 2 else ""
    if words[0] == "needs":
        return sky_words(say, words[-1], setup)
    if name and words[:2] == ["sun", "on"]:
        return _("sun on {windows}", windows=say.opening(name))
    if name and words[:3] == ["no", "sun", "on"]:
        return _("no sun on {windows}", windows=say.opening(name))
    if words[:2] == ["out", "by"]:
        return _("everybody is out by {time}", time=words[-1])
    if words[0] == "for" and name:
        return _("{setup} must keep its hours", setup=say.setup(name))
    if words == ["between"]:
        hours = plan.setups[setup].between if setup in plan.setups else None
        return _("its own hours {hours}", hours=say.value("clock-range", hours)) if hours else _("its own hours")
    if words == ["pinned"]:
        return _("its agreed time")
    if words[0] == "access":
        return _("{place} is open to us", place=say.location(name))
    if words[0] == "rigged":
        return _("rigged ahead by {time}", time=words[-1])
    if name and words[-1] == "here":
        return _("{person} is here", person=say.person(name))
    if name and words[-1] == "hands":
        return _("{thing} is in our hands", thing=say.thing(name))
    return _("the meal") if words[-1] == "meal" else part


def sky_words(say: Say, need: str, setup: str) -> str:
    """What the sky must be; the sun together with the window that it is to come through."""
    _ = say.words
    windows = say.plan.setups[setup].sun_on if setup in say.plan.setups else ()
    if need == "sun" and windows:
        return _("sun on {windows}", windows=", ".join(say.opening(name) for name in windows))
    skies = {
        "dark": _("darkness outside"), "dusk": _("dusk"), "golden": _("low sun"), "daylight": _("daylight"),
        "sun": _("sun"),
    }  # fmt: skip
    return skies.get(need, need)
