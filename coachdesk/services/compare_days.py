"""Everybody's days of lifting, behind and ahead, as performances that can be compared."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.attempts import LiftPlan
from coachdesk.domain.class_fit import present_weight
from coachdesk.domain.division import age_in_year, age_on
from coachdesk.domain.history import standing
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Attempt
from coachdesk.domain.performance import Performance
from coachdesk.domain.rulebook import AgeRule
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass
from coachdesk.services.desk import Desk
from coachdesk.services.rulebooks import Rulebooks
from coachdesk.storage.compare_queries import (
    ComparedAthlete,
    EntryDay,
    PlannedDays,
    compared_athletes,
    entry_count,
    lifted_days,
    planned_days,
)


@dataclass(frozen=True, slots=True)
class Day:
    """A day of lifting: the meet, its rulebook's key, what was lifted or is planned, and why there
    is no total where there is none."""

    meet: str
    rulebook: str
    on: date
    performance: Performance
    why_no_total: Text | None

    def why_not(self, lift: Lift | None) -> Text:
        """Why there is nothing to compare, on the total or on one lift."""
        if lift is None and self.why_no_total is not None:
            return self.why_no_total
        return text("compare.no_score.no_lift")


LARGE = 1000
"""Reading more entries than this takes longer than a window may stand still."""

DaysByAthlete = Mapping[int, tuple[Day, ...]]


@dataclass(frozen=True, slots=True)
class CompareData:
    """What is compared: the days lifted, latest first, and the days ahead, soonest first, as the
    plans have them with nothing but good lifts and as the openers have them; by athlete."""

    athletes: tuple[ComparedAthlete, ...]
    lifted: DaysByAthlete
    all_good: DaysByAthlete
    openers: DaysByAthlete


def is_large(desk: Desk) -> bool:
    """Whether there is so much on file that it takes a while to read."""
    with desk.reading() as reader:
        return entry_count(reader) > LARGE


def read_compare_data(desk: Desk) -> CompareData:
    """Read all that is compared, in a constant number of statements."""
    with desk.reading() as reader:
        athletes = compared_athletes(reader)
        lifted = lifted_days(reader)
        planned = planned_days(reader, desk.today())
    maker = _DayMaker({athlete.id: athlete for athlete in athletes}, desk.rulebooks)
    return CompareData(
        athletes=athletes,
        lifted=_by_athlete(
            (day.entry.athlete_id, maker.lifted(day.entry, day.best_g, day.bombed))
            for day in lifted
        ),
        all_good=_planned(planned, maker, desk.today(), _third),
        openers=_planned(planned, maker, desk.today(), _opener),
    )


class _DayMaker:
    """Makes days of entries; the age that counts is a matter of the rulebook's divisions."""

    def __init__(self, athletes: Mapping[int, ComparedAthlete], rulebooks: Rulebooks) -> None:
        self._athletes = athletes
        self._rules = {
            (key, division.key): division.age_rule
            for key, rulebook in rulebooks.books.items()
            for division in rulebook.divisions
        }

    def lifted(self, entry: EntryDay, best_g: Mapping[Lift, int], bombed: Lift | None) -> Day:
        """The day of an entry that was lifted."""
        why = None
        if bombed is not None:
            why = text("compare.no_total.bombed", lift=text(f"lift.{bombed}"))
        elif any(lift not in best_g for lift in entry.event.lifts):
            why = text("compare.no_total.unfinished")
        bodyweight_g = entry.bodyweight_g
        bodyweight_kg = None if bodyweight_g is None else bodyweight_g / 1000
        return self.day(entry, best_g, bodyweight_kg, why)

    def day(
        self,
        entry: EntryDay,
        weights_g: Mapping[Lift, int],
        bodyweight_kg: float | None,
        why_no_total: Text | None,
    ) -> Day:
        """The day of an entry with these weights."""
        athlete = self._athletes[entry.athlete_id]
        performance = Performance(
            sex=athlete.sex,
            event=entry.event,
            equipment=entry.equipment,
            bodyweight_kg=bodyweight_kg,
            age_years=self._age(athlete.birth_date, entry),
            best_g=weights_g,
        )
        return Day(entry.meet, entry.rulebook, entry.on, performance, why_no_total)

    def _age(self, birth_date: date | None, entry: EntryDay) -> int | None:
        """By the rule of the division entered; on the day where that division is not on file."""
        if birth_date is None or birth_date > entry.on:
            return None
        rule = self._rules.get((entry.rulebook, entry.division), AgeRule.ON_THE_DAY)
        age = age_in_year if rule is AgeRule.CALENDAR_YEAR else age_on
        return age(birth_date, entry.on)


_Weight = Callable[[Mapping[int, Attempt], LiftPlan | None], Mass | None]


def _planned(planned: PlannedDays, maker: _DayMaker, today: date, weight: _Weight) -> DaysByAthlete:
    def day(entry: EntryDay) -> Day:
        snapshot = planned.plans.get(entry.entry_id)
        chosen = planned.chosen.get(entry.entry_id, ())
        weights_g = {}
        for lift in entry.event.lifts:
            plan = None if snapshot is None else snapshot.plan.of(lift)
            found = weight(standing(chosen, lift), plan)
            if found is not None:
                weights_g[lift] = found.grams
        missing = [lift for lift in entry.event.lifts if lift not in weights_g]
        names = tuple(text(f"lift.{lift}") for lift in missing)
        why = text("compare.no_total.not_planned", lifts=names) if missing else None
        return maker.day(entry, weights_g, _bodyweight_kg(planned, entry, today), why)

    return _by_athlete((entry.athlete_id, day(entry)) for entry in planned.entries)


def _third(chosen: Mapping[int, Attempt], plan: LiftPlan | None) -> Mass | None:
    """The third attempt chosen, or the plan's last weight when every attempt is good."""
    if 3 in chosen:
        return chosen[3].weight
    return None if plan is None else plan.when_all_good


def _opener(chosen: Mapping[int, Attempt], plan: LiftPlan | None) -> Mass | None:
    """The opener chosen, or the plan's."""
    if 1 in chosen:
        return chosen[1].weight
    return None if plan is None else plan.opener.weight


def _bodyweight_kg(planned: PlannedDays, entry: EntryDay, today: date) -> float | None:
    """The official weigh-in where there is one already, else the present level."""
    if entry.bodyweight_g is not None:
        return entry.bodyweight_g / 1000
    present = present_weight(planned.weights.get(entry.athlete_id), today)
    return None if present is None else present.mass.kg


def _by_athlete(days: Iterable[tuple[int, Day]]) -> DaysByAthlete:
    grouped: defaultdict[int, list[Day]] = defaultdict(list)
    for athlete_id, day in days:
        grouped[athlete_id].append(day)
    return {athlete_id: tuple(each) for athlete_id, each in grouped.items()}
