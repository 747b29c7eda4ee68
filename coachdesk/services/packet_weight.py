"""The weight page: present weight, class, way down, plan B and the cautions that always stand."""

from __future__ import annotations

from datetime import date, timedelta

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.class_fit import (
    ADULT_YEARS,
    Person,
    PresentWeight,
    class_fit,
    present_weight,
    weekly_marks,
)
from coachdesk.domain.division import age_on
from coachdesk.domain.meet import Entry, Meet, Session
from coachdesk.domain.rulebook import Rulebook, WeighInKind
from coachdesk.domain.text import Text, text
from coachdesk.domain.weight_class import WeightClass, class_for
from coachdesk.services.meet_day_texts import weigh_in_times
from coachdesk.services.packet_content import WeightPage
from coachdesk.storage.meet_queries import MeetRecord


def is_minor(athlete: Athlete, meet: Meet) -> bool:
    """Whether the athlete is under 18 on the meet's first day, or might be."""
    return athlete.birth_date is None or age_on(athlete.birth_date, meet.starts_on) < ADULT_YEARS


def weight_page(
    record: MeetRecord, rulebook: Rulebook, entry: Entry, *, today: date, first_meet: bool
) -> WeightPage:
    """Where the athlete stands to the class entered, or to the class weighed now."""
    athlete = record.athletes[entry.athlete_id]
    present = present_weight(record.readings.get(athlete.id, ()), today)
    classes = rulebook.classes(athlete.sex, record.meet.starts_on, entry.divisions)
    wanted = _wanted(classes, entry, present)
    cautions = [text("caution.weight"), text("caution.drink")]
    if is_minor(athlete, record.meet):
        cautions.append(text("caution.minor"))
    if present is None or wanted is None:
        return WeightPage(present, None, (), None, tuple(cautions))
    fit = class_fit(
        wanted,
        present=present,
        today=today,
        weigh_in_on=weigh_in_day(rulebook, record.meet, record.sessions.get(entry.session_id or 0)),
        person=Person(athlete.birth_date, athlete.height_cm, athlete.loss_bar, first_meet),
        chosen=entry.comes_down,
    )
    return WeightPage(
        present=present,
        fit=fit,
        marks=weekly_marks(fit, present, today),
        plan_b=_plan_b(rulebook, classes, wanted),
        cautions=tuple(cautions),
    )


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


def _plan_b(
    rulebook: Rulebook, classes: tuple[WeightClass, ...], wanted: WeightClass
) -> Text | None:
    """What happens when the weight is missed on the day; None in the class without a limit."""
    if wanted.limit is None:
        return None
    above = classes[classes.index(wanted) + 1 :]
    again = text("plan_b.reweigh" if rulebook.weigh_in.reweighs else "plan_b.no_reweigh")
    return text(
        f"plan_b.{rulebook.weigh_in.out_of_class}",
        limit=wanted.limit,
        next_class=above[0].name if above else wanted.name,
        again=again,
    )
