"""How an athlete stands to the class entered: one answer for screens and paper."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.bodyweight import Bodyweight
from coachdesk.domain.class_fit import (
    ADULT_YEARS,
    ClassFit,
    Person,
    PresentWeight,
    class_fit,
    present_weight,
)
from coachdesk.domain.division import age_on
from coachdesk.domain.meet import Entry, Meet, Session
from coachdesk.domain.rulebook import Rulebook, WeighInKind
from coachdesk.domain.text import Text, text
from coachdesk.domain.weight_class import WeightClass, class_for


@dataclass(frozen=True, slots=True)
class ClassStanding:
    """How an athlete stands to the class entered, or to the class weighed now where none is.

    No `present` weight without a reading, and no `fit` without one; `cautions` always stand.
    """

    present: PresentWeight | None
    fit: ClassFit | None
    cautions: tuple[Text, ...]


def standing_to_class(
    entry: Entry,
    meet: Meet,
    athlete: Athlete,
    rulebook: Rulebook,
    *,
    session: Session | None,
    weight: Bodyweight | None,
    today: date,
    first_meet: bool,
) -> ClassStanding:
    """How an athlete stands to a class, with every guard.

    Raises Trouble when the rulebook has no classes that day, InvalidInput when the athlete is
    heavier than the last of them.
    """
    present = present_weight(weight, today)
    classes = rulebook.classes(athlete.sex, meet.starts_on, entry.divisions)
    wanted = _wanted(classes, entry, present)
    cautions = [text("caution.weight"), text("caution.drink")]
    if is_minor(athlete, meet):
        cautions.append(text("caution.minor"))
    if present is None or wanted is None:
        return ClassStanding(present, None, tuple(cautions))
    fit = class_fit(
        wanted,
        present=present,
        today=today,
        weigh_in_on=weigh_in_day(rulebook, meet, session),
        person=Person(athlete.birth_date, athlete.height_cm, athlete.loss_bar, first_meet),
        chosen=entry.comes_down,
    )
    return ClassStanding(present, fit, tuple(cautions))


def is_minor(athlete: Athlete, meet: Meet) -> bool:
    """Whether the athlete is under 18 on the meet's first day, or might be."""
    return athlete.birth_date is None or age_on(athlete.birth_date, meet.starts_on) < ADULT_YEARS


def weigh_in_times(
    rulebook: Rulebook, session: Session | None
) -> tuple[datetime | None, datetime | None]:
    """When the weigh-in opens and closes: as the session says, else by the rulebook."""
    if session is None:
        return None, None
    window = rulebook.weigh_in_window(session.starts_at) or (None, None)
    return session.weigh_in_opens or window[0], session.weigh_in_closes or window[1]


def weigh_in_day(rulebook: Rulebook, meet: Meet, session: Session | None) -> date:
    """The day of the weigh-in, as far as it is known."""
    opens, _closes = weigh_in_times(rulebook, session)
    if opens is not None:
        return opens.date()
    starts_on = meet.starts_on if session is None else session.starts_at.date()
    day_before = rulebook.weigh_in.kind is WeighInKind.DAY_BEFORE
    return starts_on - timedelta(days=1) if day_before else starts_on


def _wanted(
    classes: tuple[WeightClass, ...], entry: Entry, present: PresentWeight | None
) -> WeightClass | None:
    if entry.weight_class is not None:
        return next((each for each in classes if each.name == entry.weight_class), None)
    return None if present is None else class_for(present.mass, classes)
