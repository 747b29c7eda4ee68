"""Reading the roster: the right row of many, and a cost that does not grow with the records."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date, time, timedelta
from itertools import count
from typing import Any

import pytest
from sqlalchemy import event

from coachdesk.domain.athlete import Athlete, AthleteData, HandlerData, Reading, ReadingData
from coachdesk.domain.history import total_grams
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Sex
from coachdesk.domain.meet import AttemptData, Entry, EntryData, HandlerDuty, Meet, MeetData, Role
from coachdesk.domain.roster import Belongings, BestTotal, LatestWeight, NextMeet
from coachdesk.domain.training import BlockData, LoggedSetData, Purpose
from coachdesk.domain.units import kilograms, pounds
from coachdesk.services.desk import Desk
from coachdesk.storage import roster_queries as queries
from coachdesk.storage.store import Reader, Work

TODAY = date(2026, 11, 25)
LINA = AthleteData(given_name="Lina", family_name="Brandt", sex=Sex.FEMALE)


@contextmanager
def writing(desk: Desk) -> Iterator[Work]:
    from coachdesk.domain.text import text

    with desk.action(text("did.add_athlete", name="somebody")) as work:
        yield work


def _meet(work: Work, on: date, name: str = "Spring Cup") -> int:
    data = MeetData(name=name, starts_on=on, rulebook="ipf_2021", time_zone="Europe/Berlin")
    return work.insert(data)


def _entry(work: Work, athlete_id: int, meet_id: int, **more: Any) -> int:
    data = EntryData(
        athlete_id=athlete_id,
        meet_id=meet_id,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
        weight_class="63",
    )
    return work.insert(replace(data, **more))


def _nine(work: Work, entry_id: int, *weights: str, **more: Any) -> None:
    """The opener, second or third of each lift that was good: one weight a lift."""
    for lift, weight in zip(Lift, weights, strict=True):
        attempt = AttemptData(
            entry_id=entry_id, lift=lift, number=1, weight=kilograms(weight), result=Result.GOOD
        )
        work.insert(replace(attempt, **more))


@contextmanager
def statements(reader: Reader) -> Iterator[list[tuple[str, Any]]]:
    """The statements that reach the database."""
    seen: list[tuple[str, Any]] = []

    def note(_c: object, _cursor: object, sql: str, values: Any, *_: object) -> None:
        if not sql.startswith("BEGIN"):
            seen.append((sql, values))

    event.listen(reader.connection, "before_cursor_execute", note)
    yield seen
    event.remove(reader.connection, "before_cursor_execute", note)


def test_the_latest_weight_is_the_latest_by_day_and_hour_not_the_last_typed(desk: Desk) -> None:
    with writing(desk) as work:
        lina = work.insert(LINA)
        for on, at, weight in (
            (date(2026, 11, 24), time(7, 0), "63.2"),
            (date(2026, 11, 24), time(19, 30), "64.4"),
            (date(2026, 11, 24), None, "63.9"),
            (date(2026, 10, 1), time(23, 0), "66"),
        ):
            work.insert(ReadingData(athlete_id=lina, on=on, at=at, weight=kilograms(weight)))
    with desk.reading() as reader:
        (line,) = queries.roster(reader, TODAY)
    assert line.latest == LatestWeight(kilograms("64.4"), date(2026, 11, 24))


def test_a_weight_in_pounds_reads_back_in_pounds(desk: Desk) -> None:
    with writing(desk) as work:
        lina = work.insert(LINA)
        work.insert(ReadingData(athlete_id=lina, on=TODAY, weight=pounds("141.2")))
    with desk.reading() as reader:
        (line,) = queries.roster(reader, TODAY)
    assert line.latest == LatestWeight(pounds("141.2"), TODAY)


def test_the_next_meet_is_the_soonest_one_not_withdrawn_from(desk: Desk) -> None:
    with writing(desk) as work:
        lina = work.insert(LINA)
        work.insert(replace(LINA, family_name="Zander"))
        for days, more in (
            (-30, {}),
            (3, {"withdrawn": True}),
            (90, {"weight_class": "69"}),
            (10, {"weight_class": None}),
        ):
            _entry(work, lina, _meet(work, TODAY + timedelta(days), f"In {days} days"), **more)
    with desk.reading() as reader:
        first, second = queries.roster(reader, TODAY)
    assert first.next_meet == NextMeet("In 10 days", date(2026, 12, 5), None)
    assert second.next_meet is None
    assert second.latest is None


def test_a_meet_of_today_is_still_ahead(desk: Desk) -> None:
    with writing(desk) as work:
        _entry(work, work.insert(LINA), _meet(work, TODAY))
    with desk.reading() as reader:
        (line,) = queries.roster(reader, TODAY)
    assert line.next_meet == NextMeet("Spring Cup", TODAY, "63")


def test_the_roster_goes_by_family_name_whatever_the_case(desk: Desk) -> None:
    with writing(desk) as work:
        for given, family in (("A", "zorn"), ("B", "Adler"), ("A", "adler"), ("C", "Maier")):
            work.insert(replace(LINA, given_name=given, family_name=family))
    with desk.reading() as reader:
        lines = queries.roster(reader, TODAY)
    assert [f"{line.given_name} {line.family_name}" for line in lines] == [
        "A adler",
        "B Adler",
        "C Maier",
        "A zorn",
    ]


def test_a_total_needs_a_good_lift_of_every_lift_and_fourths_do_not_count(desk: Desk) -> None:
    """Common practice: a fourth attempt is for records, a bombed lift costs the total."""
    with writing(desk) as work:
        lina = work.insert(LINA)
        bombed = _entry(work, lina, _meet(work, TODAY - timedelta(10)))
        _nine(work, bombed, "140", "75", "170")
        whole = _entry(work, lina, _meet(work, TODAY - timedelta(100)))
        _nine(work, whole, "110", "60", "130")
        _nine(work, whole, "150", "90", "180", number=4)
        _nine(work, whole, "151", "91", "181", number=2, result=Result.NO_LIFT)
        for attempt in work.list(Entry):
            assert attempt.athlete_id == lina
        work.connection.exec_driver_sql(
            "UPDATE attempt SET result = 'no_lift' WHERE entry_id = ? AND lift = 'bench'",
            (bombed,),
        )
    with desk.reading() as reader:
        best = queries.best_totals(reader, [lina])
    assert best == {
        lina: BestTotal(300_000, TODAY - timedelta(100), Event.THREE_LIFT, Equipment.CLASSIC)
    }


def test_three_lifts_in_the_athletes_own_equipment_come_before_a_heavier_total(desk: Desk) -> None:
    with writing(desk) as work:
        lina = work.insert(LINA)
        meet = _meet(work, TODAY - timedelta(50))
        _nine(work, _entry(work, lina, meet, equipment=Equipment.EQUIPPED), "200", "120", "200")
        _nine(work, _entry(work, lina, meet), "140", "75", "170")
        only_bench = work.insert(replace(LINA, family_name="Cordes"))
        bench = _entry(work, only_bench, meet, event=Event.BENCH_ONLY)
        _nine(work, bench, "500", "80", "500")
    with desk.reading() as reader:
        best = queries.best_totals(reader, [lina, only_bench])
    assert best[lina].grams == 385_000
    assert only_bench not in best  # lifts of another event make no total


@pytest.mark.parametrize("seed", range(5))
def test_the_best_total_is_the_one_the_attempts_add_up_to(desk: Desk, seed: int) -> None:
    """Against `domain.history.total_grams`, which reads the attempts one by one."""
    drawn = (n * n * 7919 + n * 104729 + seed * 1299709 for n in count())
    outcomes = [*Result, None]
    with writing(desk) as work:
        lina = work.insert(LINA)
        for _ in range(6):
            event_lifted = list(Event)[next(drawn) % len(Event)]
            meet = _meet(work, TODAY - timedelta(next(drawn) % 900 + 1))
            entry = _entry(work, lina, meet, event=event_lifted)
            for lift in event_lifted.lifts:
                for number in (1, 2, 3, 4):
                    work.insert(
                        AttemptData(
                            entry_id=entry,
                            lift=lift,
                            number=number,
                            weight=kilograms((next(drawn) % 60 + 20) * 2.5),
                            result=outcomes[next(drawn) % 11 % len(outcomes)],
                        )
                    )
    with desk.reading() as reader:
        found = queries.best_totals(reader, [lina]).get(lina)
        results = queries.results_of(reader, lina, TODAY)
    totals = [
        (past.entry.event is Event.THREE_LIFT, total_grams(past.attempts, past.entry.event))
        for past in results
    ]
    made = [(three, grams) for three, grams in totals if grams is not None]
    assert made, "nothing to compare"
    assert found is not None
    assert found.grams == max(made)[1]


def test_what_goes_with_an_athlete_is_counted_kind_by_kind(desk: Desk) -> None:
    with writing(desk) as work:
        for name in ("Brandt", "Other"):
            owner = work.insert(replace(LINA, family_name=name))
            _nine(work, _entry(work, owner, _meet(work, TODAY)), "100", "50", "120")
            _entry(work, owner, _meet(work, TODAY + timedelta(7)))
            block = BlockData(
                athlete_id=owner, name="Volume", purpose=Purpose.VOLUME, starts_on=TODAY, weeks=4
            )
            work.insert(block)
            for _ in range(4):
                work.insert(ReadingData(athlete_id=owner, on=TODAY, weight=kilograms(63)))
            for _ in range(5):
                work.insert(_set(owner, TODAY))
        first = work.list(Athlete)[0].id
    with desk.reading() as reader:
        assert queries.belongings(reader, first) == Belongings(
            readings=4, logged_sets=5, blocks=1, entries=2, attempts=3
        )


def _set(athlete_id: int, on: date, reps: int = 5) -> LoggedSetData:
    return LoggedSetData(
        athlete_id=athlete_id, on=on, lift=Lift.SQUAT, weight=kilograms(100), reps=reps
    )


def test_readings_come_latest_first_and_no_more_than_asked_for(desk: Desk) -> None:
    with writing(desk) as work:
        lina = work.insert(LINA)
        for days in (5, 1, 9, 3, 7):
            on = TODAY - timedelta(days)
            work.insert(ReadingData(athlete_id=lina, on=on, weight=kilograms(60 + days)))
    with desk.reading() as reader:
        some, of = queries.readings_of(reader, lina, 2)
        all_of_them, _ = queries.readings_of(reader, lina)
    assert ([reading.weight for reading in some], of) == ([kilograms(61), kilograms(63)], 5)
    assert [reading.weight.number for reading in all_of_them] == [61, 63, 65, 67, 69]


def test_sets_come_latest_day_first_and_in_the_order_they_were_lifted(desk: Desk) -> None:
    with writing(desk) as work:
        lina = work.insert(LINA)
        for days, reps in ((9, 1), (2, 8), (2, 6), (5, 3)):
            work.insert(_set(lina, TODAY - timedelta(days), reps))
    with desk.reading() as reader:
        assert [each.reps for each in queries.sets_of(reader, lina)[0]] == [8, 6, 3, 1]
        limited, of = queries.sets_of(reader, lina, 3)
    assert ([each.reps for each in limited], of) == ([8, 6, 3], 4)


def test_a_result_is_past_once_the_meet_is_over_or_an_attempt_was_called(desk: Desk) -> None:
    with writing(desk) as work:
        lina = work.insert(LINA)
        ahead = _entry(work, lina, _meet(work, TODAY + timedelta(1)))
        _nine(work, ahead, "100", "50", "120", result=None)
        today = _entry(work, lina, _meet(work, TODAY, "Today, lifting"))
        _nine(work, today, "100", "50", "120")
        waiting = _entry(work, lina, _meet(work, TODAY, "Today, waiting"))
        _nine(work, waiting, "100", "50", "120", result=None)
        _entry(work, lina, _meet(work, TODAY - timedelta(1), "Yesterday"))
        _entry(work, lina, _meet(work, TODAY - timedelta(2), "Withdrawn"), withdrawn=True)
    with desk.reading() as reader:
        found = queries.results_of(reader, lina, TODAY)
    assert [past.meet.name for past in found] == ["Today, lifting", "Yesterday"]
    assert len(found[0].attempts) == 3


def test_a_meet_has_nothing_once_its_only_entry_is_gone(desk: Desk) -> None:
    with writing(desk) as work:
        lina = work.insert(LINA)
        meet = _meet(work, TODAY)
        _entry(work, lina, meet)
        (entry,) = work.list(Entry)
        assert queries.is_alone(work, entry)
        assert not queries.has_nothing(work, meet)
        other = work.insert(replace(LINA, family_name="Other"))
        _entry(work, other, meet)
        assert not queries.is_alone(work, entry)
        for each in work.list(Entry):
            work.delete(Entry, each.id, each.version)
        assert queries.has_nothing(work, meet)
        (empty,) = work.list(Meet)
        work.delete(Meet, empty.id, empty.version)


def test_handlers_come_by_name_with_their_duties_counted(desk: Desk) -> None:
    with writing(desk) as work:
        ida = work.insert(HandlerData(name="ida"))
        work.insert(HandlerData(name="Bo"))
        entry = _entry(work, work.insert(LINA), _meet(work, TODAY))
        for role in (Role.HANDLING, Role.WRAPS):
            work.insert_many([HandlerDuty(entry_id=entry, handler_id=ida, role=role)])
    with desk.reading() as reader:
        found = queries.handlers(reader)
    assert [(handler.name, duties) for handler, duties in found] == [("Bo", 0), ("ida", 2)]


def _fill(desk: Desk, athletes: int) -> int:
    """Athletes with readings, sets and a result each; answers an id."""
    with writing(desk) as work:
        for at in range(athletes):
            owner = work.insert(replace(LINA, family_name=f"No {at}"))
            work.insert_many(
                ReadingData(athlete_id=owner, on=TODAY - timedelta(n), weight=kilograms(63))
                for n in range(5)
            )
            work.insert_many(_set(owner, TODAY - timedelta(n)) for n in range(5))
            _nine(work, _entry(work, owner, _meet(work, TODAY - timedelta(9))), "99", "50", "120")
            _entry(work, owner, _meet(work, TODAY + timedelta(9)))
        return work.list(Athlete)[0].id


READS: dict[str, Callable[[Reader, int], object]] = {
    "roster": lambda reader, _: queries.roster(reader, TODAY),
    "best_totals": lambda reader, _: queries.best_totals(
        reader, [athlete.id for athlete in reader.list(Athlete)]
    ),
    "readings": lambda reader, owner: queries.readings_of(reader, owner, 60),
    "sets": lambda reader, owner: queries.sets_of(reader, owner, 60),
    "results": lambda reader, owner: queries.results_of(reader, owner, TODAY),
    "belongings": queries.belongings,
    "handlers": lambda reader, _: queries.handlers(reader),
}


@pytest.mark.parametrize("name", READS)
def test_the_number_of_statements_does_not_grow_with_the_roster(desk: Desk, name: str) -> None:
    counts = []
    for more in (3, 20):
        owner = _fill(desk, more)
        with desk.reading() as reader, statements(reader) as seen:
            READS[name](reader, owner)
        counts.append(len(seen))
    assert counts[0] == counts[1]
    assert counts[0] <= 3


@pytest.mark.parametrize("name", READS)
def test_no_query_walks_all_readings_or_all_sets(desk: Desk, name: str) -> None:
    owner = _fill(desk, 3)
    with desk.reading() as reader:
        with statements(reader) as seen:
            READS[name](reader, owner)
        plans = [
            step.detail
            for sql, values in seen
            for step in reader.connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {sql}", values)
        ]
        assert len(reader.list(Reading)) == 15
    walked = [step for step in plans if step.startswith("SCAN")]
    assert not [step for step in walked if "reading" in step or "logged_set" in step]
    if name in {"roster", "readings"}:
        assert any("ix_reading_athlete_id_on" in step for step in plans)
