"""The classes in reach for an entry: what each takes, and entering in one of them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from coachdesk.domain.class_fit import ClassFit, PresentWeight, Verdict, present_weight
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.meet import Entry
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.weight_class import WeightClass, class_for
from coachdesk.domain.weight_limits import LARGEST_LOSS
from coachdesk.services.desk import Desk, Done
from coachdesk.services.meets import edit_entry
from coachdesk.services.weight_board import standing_of
from coachdesk.storage.today_queries import EntryState


@dataclass(frozen=True, slots=True)
class ClassChoice:
    """A class and how the athlete stands to it, with every guard.

    `chance`, 0 to 1, that the scale shows no more than the limit at the weigh-in is for the coach
    alone, None where there is no telling. `is_asked` says that nobody comes down to it without the
    coach's explicit choice, and `if_chosen` how the athlete stands once that is made. `may_enter`:
    in the class already, or with a way down to it then.
    """

    fit: ClassFit
    chance: float | None
    is_entered: bool
    is_weighed_now: bool
    is_asked: bool
    if_chosen: ClassFit
    may_enter: bool


def class_choices(state: EntryState, rulebook: Rulebook, today: date) -> tuple[ClassChoice, ...]:
    """The classes in reach, ascending, and the one entered; none without a recent weight.

    They reach from the largest loss that is ever planned up to one class above the one weighed now.
    Raises Trouble when the rulebook has no classes that day.
    """
    entry, athlete = state.entry, state.athlete
    present = present_weight(state.weight, today)
    classes = rulebook.classes(athlete.sex, state.meet.starts_on, entry.divisions)
    if present is None:
        return ()
    now = _weighed_now(classes, present)
    highest = len(classes) if now is None else classes.index(now) + 1
    choices = (
        _choice(state, each, rulebook, today, is_weighed_now=each is now)
        for at, each in enumerate(classes)
        if each.name == entry.weight_class or (at <= highest and _can_be_reached(each, present))
    )
    return tuple(choice for choice in choices if choice is not None)


def enter_in_class(desk: Desk, seen: Entry, choice: ClassChoice) -> Done[None]:
    """Enter an athlete in a class; where it is asked for, that is the choice to come down to it."""
    is_above = choice.fit.verdict is not Verdict.IN_CLASS
    data = replace(
        seen,
        weight_class=choice.fit.weight_class.name,
        comes_down=is_above and (choice.is_asked or seen.comes_down),
    )
    return edit_entry(desk, seen.id, seen.version, data)


def _choice(
    state: EntryState, each: WeightClass, rulebook: Rulebook, today: date, *, is_weighed_now: bool
) -> ClassChoice | None:
    entry = replace(state.entry, weight_class=each.name)
    standing = standing_of(state, entry, rulebook, today)
    chosen = standing_of(state, replace(entry, comes_down=True), rulebook, today).fit
    if standing.fit is None or chosen is None:
        return None
    is_entered = each.name == state.entry.weight_class
    is_above = standing.fit.verdict is not Verdict.IN_CLASS
    is_asked = state.first_meet and is_above
    is_news = not is_entered or (is_asked and not entry.comes_down)
    return ClassChoice(
        fit=standing.fit,
        chance=standing.chance,
        is_entered=is_entered,
        is_weighed_now=is_weighed_now,
        is_asked=is_asked,
        if_chosen=chosen,
        may_enter=is_news and (not is_above or chosen.verdict.has_way_down),
    )


def _weighed_now(classes: tuple[WeightClass, ...], present: PresentWeight) -> WeightClass | None:
    """The class of the present weight; None above all of them."""
    try:
        return class_for(present.mass, classes)
    except InvalidInput:
        return None


def _can_be_reached(weight_class: WeightClass, present: PresentWeight) -> bool:
    """Whether no more than the largest loss lies between."""
    limit = weight_class.limit
    return limit is None or present.mass.kg - limit.kg <= present.kg * LARGEST_LOSS.value / 100
