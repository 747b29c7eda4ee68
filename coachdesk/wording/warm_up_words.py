"""Warm-ups in words: the same on the handler's cards and on screen."""

from __future__ import annotations

from coachdesk.domain.warmup import WarmUps, WarmUpSet
from coachdesk.wording.wording import Wording


def set_in_words(one: WarmUpSet, words: Wording) -> str:
    """A set as weight and repetitions, the unit left to the head of the column."""
    return words("sheet.warm_up.set", weight=words.bare_mass(one.weight), reps=one.reps)


def short_of_time(found: WarmUps, words: Wording) -> str:
    """What to leave out when time is short, and when to take the rest."""
    first, last = found.late[0].attempts_out, found.late[-1].attempts_out
    if not found.left_out:
        return words("sheet.warm_up.hurry", first=first, last=last)
    weights = tuple(words.bare_mass(one.weight) for one in found.left_out)
    return words("sheet.warm_up.short_of_time", weights=weights, first=first, last=last)


def delayed(found: WarmUps, words: Wording) -> str:
    """What to put in when the flight is delayed."""
    *warm, last = found.early
    again, last_out = set_in_words(last, words), last.attempts_out
    if not warm:
        return words("sheet.warm_up.delayed_light", last=again, last_out=last_out)
    return words(
        "sheet.warm_up.delayed",
        warm=set_in_words(warm[0], words),
        out=warm[0].attempts_out,
        last=again,
        last_out=last_out,
    )
