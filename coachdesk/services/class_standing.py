"""How an athlete stands to the class entered: one answer for screens and paper."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.bodyweight import Bodyweight, ScaleForecast
from coachdesk.domain.bodyweight.parameters import FARTHEST
from coachdesk.domain.class_fit import (
    ADULT_YEARS,
    ClassFit,
    Person,
    PresentWeight,
    WeekChange,
    class_fit,
    present_weight,
)
from coachdesk.domain.division import age_on
from coachdesk.domain.meet import Entry, Meet, Session
from coachdesk.domain.rulebook import Rulebook, WeighInKind
from coachdesk.domain.text import Text, text
from coachdesk.domain.weight_class import WeightClass, class_for

A_WEEK = timedelta(weeks=1)


@dataclass(frozen=True, slots=True)
class ClassStanding:
    """How an athlete stands on the day `on` to the class entered, or to the class weighed now where
    none is.

    No `present` weight without a recent reading, and no `fit` without one; `classes` are those the
    athlete may enter, ascending; `cautions` always stand. `change` needs a reading within the week.
    """

    on: date
    weight: Bodyweight | None
    present: PresentWeight | None
    fit: ClassFit | None
    classes: tuple[WeightClass, ...]
    cautions: tuple[Text, ...]
    weigh_in_on: date
    weigh_in_at: time | None
    change: WeekChange | None = None

    @property
    def scale(self) -> ScaleForecast | None:
        """What the meet's scale will show, for the coach alone.

        None without a recent weight, once the day is over, or too far off to say.
        """
        weight, day = self.weight, self.weigh_in_on
        if weight is None or self.present is None or day < self.on:
            return None
        if day - weight.latest_on > FARTHEST:
            return None
        outlook = weight.outlook.carried_to(self.on)
        return outlook.forecast(day, at=self.weigh_in_at, other_scale=True)

    @property
    def chance(self) -> float | None:
        """The chance, 0 to 1, of being in the class at weigh-in if the trend fades as usual, for
        the coach alone; None where `scale` is."""
        scale = self.scale
        if scale is None or self.fit is None:
            return None
        limit = self.fit.weight_class.limit
        return 1.0 if limit is None else scale.chance_at_most(limit.kg)


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
    opens, _ = weigh_in_times(rulebook, session)
    weigh_in_on = weigh_in_day(rulebook, meet, session)
    fit = change = None
    if present is not None and weight is not None and wanted is not None:
        person = Person(athlete.birth_date, athlete.height_cm, athlete.loss_bar, first_meet)

        def fit_on(day: date, then: PresentWeight) -> ClassFit:
            return class_fit(
                wanted,
                present=then,
                today=day,
                weigh_in_on=weigh_in_on,
                person=person,
                chosen=entry.comes_down,
            )

        fit = fit_on(today, present)
        change = _change(weight, present, today, fit_on)
    return ClassStanding(
        on=today,
        weight=weight,
        present=present,
        fit=fit,
        classes=classes,
        cautions=tuple(cautions),
        weigh_in_on=weigh_in_on,
        weigh_in_at=None if opens is None else opens.time(),
        change=change,
    )


def _change(
    weight: Bodyweight,
    present: PresentWeight,
    today: date,
    fit_on: Callable[[date, PresentWeight], ClassFit],
) -> WeekChange | None:
    then = today - A_WEEK
    level_kg = weight.level_kg(then)
    if level_kg is None or weight.latest_on <= then:
        return None
    fit = fit_on(then, PresentWeight(level_kg, present.readings, then))
    return WeekChange(present.kg - level_kg, fit.verdict, fit.rate)


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
