"""The generated run-up to a meet, against the surveys that it is laid out by.

Pritchard et al. 2016 (11 lifters) and Grgic and Mikulic 2017 (10 lifters), surveys of practice,
mean and standard deviation.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise, product

import pytest

from coachdesk.domain.blocks.generator import Wanted, lay_out, meet_week_start
from coachdesk.domain.blocks.notation import Prescription, read_prescriptions, show_prescription
from coachdesk.domain.blocks.plan import PlannedWork, work_of
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Event, Lift
from coachdesk.domain.training import Purpose
from coachdesk.domain.units import Mass, Unit, kilograms

LIGHT = {Lift.SQUAT: kilograms(70), Lift.BENCH: kilograms(42.5), Lift.DEADLIFT: kilograms(95)}
HEAVY = {Lift.SQUAT: kilograms(290), Lift.BENCH: kilograms(195), Lift.DEADLIFT: kilograms(330)}
MEETS = [date(2027, 3, 1) + timedelta(days=day) for day in range(7)]
DAYS = range(2, 7)
RUNS = (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 16, 18, 20, 24, 30, 36)


def wanted(weeks: int, **other: object) -> Wanted:
    meet_on = other.pop("meet_on", date(2027, 3, 6))
    assert isinstance(meet_on, date)
    today = meet_week_start(meet_on) - timedelta(weeks=weeks - 1)
    values = {"days_a_week": 4, "lifts": Event.THREE_LIFT.lifts, "maxima": HEAVY} | other
    return Wanted(today=today, meet_on=meet_on, **values)  # type: ignore[arg-type]


def every_run(
    *, least_weeks: int = 1, events: tuple[Event, ...] = tuple(Event)
) -> Iterator[Wanted]:
    runs = [weeks for weeks in RUNS if weeks >= least_weeks]
    for meet_on, days, event, weeks in product(MEETS, DAYS, events, runs):
        for careful, maxima in ((False, HEAVY), (True, LIGHT)):
            yield wanted(
                weeks, meet_on=meet_on, days_a_week=days, lifts=event.lifts, careful=careful,
                maxima=maxima,
            )  # fmt: skip


def work(run: Wanted) -> list[PlannedWork]:
    return [each for block in lay_out(run) for each in work_of(block)]


def before(run: Wanted, each: PlannedWork) -> int:
    return (run.meet_on - each.on).days


def volume(maxima: dict[Lift, Mass], each: PlannedWork) -> float:
    maximum = maxima[each.exercise.lift].kg * each.exercise.share
    assert each.sets.percent is not None
    return each.sets.sets * each.sets.reps * maximum * each.sets.percent / 100


def volumes(run: Wanted) -> dict[int, float]:
    """Volume load [kg] by whole weeks before the meet week."""
    found: dict[int, float] = defaultdict(float)
    start = meet_week_start(run.meet_on)
    for each in work(run):
        found[-((each.on - start).days // 7)] += volume(dict(run.maxima), each)
    return found


def heaviest(run: Wanted, lift: Lift) -> PlannedWork:
    own = [each for each in work(run) if each.exercise.lift is lift]
    return max(own, key=lambda each: (each.sets.percent or 0, each.on))


def test_whole_weeks_without_a_gap_the_last_one_with_the_meet() -> None:
    for run in every_run(events=(Event.THREE_LIFT,)):
        blocks = lay_out(run)
        assert blocks[0].starts_on == run.today
        for earlier, later in pairwise(blocks):
            assert later.starts_on == earlier.ends_on + timedelta(days=1)
        assert 0 <= (blocks[-1].ends_on - run.meet_on).days <= 1
        assert blocks[-1].purpose is Purpose.TAPER


def test_volume_is_cut_as_both_surveys_found() -> None:
    """58.9 +/- 8.4 % and 50.5 +/- 11.7 %: both hold from 50.5 to 62.2 %."""
    for run in every_run(least_weeks=3):
        by_week = volumes(run)
        usual = [by_week[week] for week in (2, 3) if week in by_week]
        cut = 100 * (1 - (by_week[0] + by_week[1]) / 2 / (sum(usual) / len(usual)))
        assert 50.5 <= cut <= 62.2, run


def test_the_last_session_is_three_days_before_the_meet() -> None:
    """3.7 +/- 1.6 and 3 +/- 1 days."""
    for run in every_run():
        assert min(before(run, each) for each in work(run)) == 3, run


def test_squat_and_bench_press_are_heaviest_where_both_surveys_meet() -> None:
    """1.9 +/- 0.8 weeks and 8 +/- 3 days out: both hold from 7.7 to 11 days."""
    for run in every_run(least_weeks=2):
        for lift in set(run.lifts) - {Lift.DEADLIFT}:
            assert 7.7 <= before(run, heaviest(run, lift)) <= 11, run


def test_the_deadlift_is_heaviest_earlier_and_within_the_longer_survey() -> None:
    """1.9 +/- 0.8 weeks, 7.7 to 18.9 days; it recovers slowest."""
    for run in every_run(least_weeks=2, events=(Event.THREE_LIFT, Event.PUSH_PULL)):
        deadlift = before(run, heaviest(run, Lift.DEADLIFT))
        assert deadlift <= 18.9
        others = set(run.lifts) - {Lift.DEADLIFT}
        assert all(deadlift > before(run, heaviest(run, lift)) for lift in others), run


def test_sessions_of_the_meet_week_are_about_halved() -> None:
    """-47.9 % sessions in the last week."""
    cuts = []
    for days in DAYS:
        run = wanted(12, days_a_week=days)
        last = {each.on for each in work(run) if before(run, each) < 7}
        cuts.append(1 - len(last) / days)
    assert 0.4 <= sum(cuts) / len(cuts) <= 0.55


def test_volume_is_highest_about_five_weeks_out() -> None:
    """5.2 weeks out; whole weeks and whole sets leave two weeks either way."""
    for run in every_run(least_weeks=8):
        by_week = volumes(run)
        assert 4 <= max(by_week, key=lambda week: by_week[week]) <= 7, run


def test_weights_stay_heavy_in_the_taper() -> None:
    """Both surveys keep intensity."""
    for run in every_run(least_weeks=3, events=(Event.THREE_LIFT,)):
        blocks = {each.purpose: each for each in lay_out(run)}
        peak, taper = (
            [each.sets for each in work_of(blocks[purpose]) if not each.exercise.variation]
            for purpose in (Purpose.PEAK, Purpose.TAPER)
        )
        assert mean_percent(taper) > 0.92 * mean_percent(peak), run


def mean_percent(sets: list[Prescription]) -> float:
    reps = sum(each.sets * each.reps for each in sets)
    return sum((each.percent or 0) * each.sets * each.reps for each in sets) / reps


def test_variations_are_out_two_weeks_before() -> None:
    """Accessories out about 2 weeks before."""
    for run in every_run(events=(Event.THREE_LIFT,)):
        late = [each for each in work(run) if before(run, each) < 13]
        assert not any(each.exercise.variation for each in late), run


def test_judged_singles_stand_in_the_last_weeks_only() -> None:
    run = wanted(16)
    judged = [before(run, each) for each in work(run) if each.sets.judged]
    assert len(judged) == 8
    assert 7 < min(judged) <= max(judged) < 35


def test_nothing_grinds_for_the_careful() -> None:
    """A first meet and a minor: two repetitions in reserve in every single (our own caution)."""
    for run in every_run():
        if run.careful:
            assert max(each.sets.percent or 0 for each in work(run)) < 90
            singles = [each.sets for each in work(run) if each.sets.judged]
            assert all((single.rir or 0) >= 2 for single in singles)


def test_two_sessions_never_fall_together_on_more_days_than_asked() -> None:
    for run in every_run(events=(Event.THREE_LIFT,)):
        by_week: dict[int, set[date]] = defaultdict(set)
        for each in work(run):
            by_week[(each.on - run.today).days // 7].add(each.on)
        assert all(len(days) <= run.days_a_week for days in by_week.values()), run


def test_what_is_made_reads_back_the_same() -> None:
    for each in work(wanted(20)):
        shown = show_prescription(each.sets, None)
        assert read_prescriptions(shown, Unit.KG) == (each.sets,)


def test_a_run_begins_with_the_first_whole_week() -> None:
    saturday = date(2027, 3, 6)
    thursday = date(2027, 2, 11)
    blocks = lay_out(
        Wanted(today=thursday, meet_on=saturday, days_a_week=3, lifts=tuple(Lift), maxima=LIGHT)
    )
    assert blocks[0].starts_on == date(2027, 2, 15)
    assert [(each.purpose, each.weeks) for each in blocks] == [
        (Purpose.PEAK, 1),
        (Purpose.TAPER, 2),
    ]


def test_too_near_and_too_many_days_are_said() -> None:
    meet_on = date(2027, 3, 6)
    with pytest.raises(InvalidInput, match="too_near"):
        lay_out(Wanted(today=date(2027, 3, 2), meet_on=meet_on, days_a_week=3, lifts=tuple(Lift)))
    with pytest.raises(InvalidInput, match="days_range"):
        lay_out(wanted(8, days_a_week=7))


def test_a_year_away_begins_thirty_six_weeks_before() -> None:
    run = wanted(52)
    blocks = lay_out(run)
    assert sum(each.weeks for each in blocks) == 36
    assert blocks[0].starts_on == run.today + timedelta(weeks=16)
    assert [each.purpose for each in blocks] == [
        Purpose.GENERAL, Purpose.VOLUME, Purpose.INTENSITY, Purpose.PEAK, Purpose.TAPER,
    ]  # fmt: skip
