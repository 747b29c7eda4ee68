"""Numbers with bands, chosen sources and aims: kept, undone, refused where they cannot be."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest

from coachdesk.domain.athlete import Athlete, AthleteData
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Sex
from coachdesk.domain.meet import AttemptData, Entry, EntryData, MeetData
from coachdesk.domain.strength.forecast import Source
from coachdesk.domain.text import text
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import Mass, kilograms
from coachdesk.domain.wishes import DayAim, LiftBasis, LiftBasisData, Wishes, WishesData
from coachdesk.services.desk import Desk
from coachdesk.services.entry_editing import delete_entries, save_entry
from coachdesk.services.meet_reading import read_meet
from coachdesk.services.meets import Place, add_meet, enter_athlete, record_attempts
from coachdesk.services.plan_page import open_plan
from coachdesk.services.planning import check_in_reach, plan_entry
from coachdesk.services.print_choice import no_progress
from coachdesk.services.roster import add_athlete, erase_athlete
from coachdesk.services.training import log_sets
from coachdesk.services.undo import redo, undo, undoable
from coachdesk.services.wishes_editing import say_of_lift, wish_for_all

MEET = MeetData(
    name="Harbour Open",
    starts_on=date(2027, 2, 20),
    rulebook="ipf_2021",
    time_zone="Europe/Berlin",
)


class Ana:
    """Ana, entered to a three-lift meet with a set of squats on file that comes to 180."""

    def __init__(
        self,
        desk: Desk,
        event: Event = Event.THREE_LIFT,
        equipment: Equipment = Equipment.CLASSIC,
    ) -> None:
        self.desk = desk
        athlete = AthleteData(
            given_name="Ana",
            family_name="Ruiz",
            sex=Sex.FEMALE,
            birth_date=date(1996, 5, 4),
            meets_before=2,
        )
        self.athlete_id = add_athlete(desk, athlete).value
        data = EntryData(
            athlete_id=self.athlete_id,
            meet_id=add_meet(desk, MEET).value,
            event=event,
            equipment=equipment,
            divisions=("open",),
            expected_bench=kilograms(100),
        )
        self.entry_id = enter_athlete(desk, data).value
        squats = LoggedSetData(
            athlete_id=self.athlete_id,
            on=date(2026, 11, 20),
            lift=Lift.SQUAT,
            weight=kilograms(160),
            reps=5,
            rir=0.0,
        )
        log_sets(desk, [squats])

    def entry(self) -> Entry:
        """The entry on file."""
        with self.desk.reading() as reader:
            return reader.get(Entry, self.entry_id)

    def bases(self) -> dict[Lift, LiftBasis]:
        """What the lifts rest on."""
        with self.desk.reading() as reader:
            return {each.lift: each for each in reader.list(LiftBasis)}

    def wishes(self) -> Wishes | None:
        """What stands on file."""
        with self.desk.reading() as reader:
            return next(iter(reader.list(Wishes)), None)

    def number(self, lift: Lift, number: str, low: str = "", high: str = "") -> None:
        """Set the coach's number, empty for none."""
        number_, low_, high_ = (kilograms(each) if each else None for each in (number, low, high))
        self.say(lift, number_, low=low_, high=high_)

    def source(self, lift: Lift, source: Source | None) -> None:
        """Choose what a lift is planned on."""
        self.say(lift, self.entry().expected(lift), source=source)

    def say(self, lift: Lift, number: Mass | None, **changes: object) -> None:
        """Say something of a lift; the rest stays as it is on file."""
        basis = self.bases().get(lift)
        said = LiftBasisData(entry_id=self.entry_id, lift=lift)
        if basis is not None:
            said = replace(
                said, low=basis.low, high=basis.high, source=basis.source, floor=basis.floor
            )
        said = replace(said, **changes)  # type: ignore[arg-type]
        say_of_lift(self.desk, self.entry(), number, said, basis=basis)

    def wish(self, **wanted: object) -> None:
        """Say what is wanted of the plan."""
        data = WishesData(entry_id=self.entry_id, **wanted)  # type: ignore[arg-type]
        entry = self.entry()
        wish_for_all(self.desk, entry.meet_id, frozenset({entry.id}), data, no_progress)

    def planned(self, lift: Lift) -> float | None:
        """What the plan on file expects of a lift [kg]."""
        with self.desk.reading() as reader:
            plans = read_meet(reader, self.entry().meet_id, self.desk.today()).plans
        plan = plans[self.entry_id].plan.of(lift)
        return None if plan is None else plan.expected.kg


@pytest.fixture
def ana(desk: Desk) -> Ana:
    return Ana(desk)


def test_a_number_with_its_band_is_kept_undone_and_done_again(ana: Ana) -> None:
    ana.number(Lift.SQUAT, "185", "180", "187.5")
    assert ana.entry().expected_squat == kilograms(185)
    basis = ana.bases()[Lift.SQUAT]
    assert (basis.low, basis.high, basis.source) == (kilograms(180), kilograms("187.5"), None)
    label = undoable(ana.desk)
    assert label is not None
    assert label.code == "did.set_number"
    undo(ana.desk)
    assert ana.entry().expected_squat is None
    assert ana.bases() == {}
    redo(ana.desk)
    assert ana.entry().expected_squat == kilograms(185)
    assert ana.bases()[Lift.SQUAT].low == kilograms(180)


@pytest.mark.parametrize("lift", Lift)
def test_every_lift_has_its_own_number(ana: Ana, lift: Lift) -> None:
    ana.number(lift, "185")
    expected = {Lift.SQUAT: None, Lift.BENCH: kilograms(100), Lift.DEADLIFT: None}
    assert {each: ana.entry().expected(each) for each in Lift} == {
        **expected,
        lift: kilograms(185),
    }
    assert ana.bases() == {}  # a number without band or choice rests on nothing more


def test_taking_the_number_away_takes_the_band_and_leaves_the_choice(ana: Ana) -> None:
    ana.number(Lift.SQUAT, "185", "180", "190")
    ana.source(Lift.SQUAT, Source.SETS)
    ana.number(Lift.SQUAT, "")
    basis = ana.bases()[Lift.SQUAT]
    assert (basis.low, basis.high, basis.source) == (None, None, Source.SETS)
    ana.source(Lift.SQUAT, None)
    assert ana.bases() == {}


def test_the_plan_follows_the_number_and_the_source(ana: Ana) -> None:
    plan_entry(ana.desk, ana.entry())
    assert ana.planned(Lift.SQUAT) == 180  # Brzycki 1993: 160 x 36 / 32
    ana.number(Lift.SQUAT, "190", "185", "195")
    assert ana.planned(Lift.SQUAT) == 190
    ana.source(Lift.SQUAT, Source.SETS)
    assert ana.planned(Lift.SQUAT) == 180
    undo(ana.desk)
    assert ana.planned(Lift.SQUAT) == 190


def test_saying_the_same_again_changes_nothing(ana: Ana) -> None:
    ana.number(Lift.SQUAT, "185", "180", "190")
    before = ana.bases()[Lift.SQUAT]
    label = undoable(ana.desk)
    ana.number(Lift.SQUAT, "185", "180", "190")
    assert ana.bases()[Lift.SQUAT] == before
    assert undoable(ana.desk) == label


@pytest.mark.parametrize(
    ("number", "low", "high", "field"),
    [
        ("185", "190", "180", "low"),
        ("185", "186", "190", "low"),
        ("185", "180", "184", "high"),
        ("185", "180", "", "high"),
        ("0", "", "", "number"),
        ("20", "", "", "number"),  # the bar and its collars weigh 25 (IPF Technical Rules)
        ("", "180", "190", "number"),
        ("170", "10", "690", "high"),
        ("170", "10", "171", "low"),
        ("185", "-1", "190", "low"),
    ],
)
def test_a_number_that_cannot_be_is_refused_and_nothing_is_kept(
    ana: Ana, number: str, low: str, high: str, field: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        ana.number(Lift.SQUAT, number, low, high)
    assert refused.value.field == field
    assert (ana.entry().expected_squat, ana.bases()) == (None, {})


def test_a_garments_floor_is_kept_without_a_number_and_must_be_a_weight(ana: Ana) -> None:
    ana.say(Lift.SQUAT, None, floor=kilograms("142.5"))
    assert ana.bases()[Lift.SQUAT].floor == kilograms("142.5")
    with pytest.raises(InvalidInput) as refused:
        ana.say(Lift.SQUAT, None, floor=kilograms(0))
    assert refused.value.field == "floor"


def test_a_garment_that_needs_more_than_the_day_brings_is_refused(desk: Desk) -> None:
    """No opener is above the expected maximum: with such a floor there would be none."""
    ana = Ana(desk, equipment=Equipment.EQUIPPED)
    for number, floor in ((None, 400), (kilograms(200), "202.5")):
        with pytest.raises(InvalidInput) as refused:
            ana.say(Lift.SQUAT, number, floor=kilograms(floor))
        assert refused.value.field == "floor"
    assert (ana.entry().expected_squat, ana.bases()) == (None, {})
    ana.say(Lift.SQUAT, kilograms(200), floor=kilograms(160))
    entry = ana.entry()
    with pytest.raises(InvalidInput) as refused:
        save_entry(ana.desk, entry, replace(entry, expected_squat=kilograms(150)), Place())
    assert refused.value.field == "expected_squat"
    assert ana.entry() == entry


def test_the_form_of_the_entry_takes_no_number_lighter_than_the_bar(ana: Ana) -> None:
    entry = ana.entry()
    with pytest.raises(InvalidInput) as refused:
        save_entry(ana.desk, entry, replace(entry, expected_squat=kilograms(20)), Place())
    assert refused.value.field == "expected_squat"
    assert ana.entry() == entry


def test_a_lift_that_nothing_is_known_of_is_named_in_the_plan_and_there_is_no_total(
    ana: Ana,
) -> None:
    plan_entry(ana.desk, ana.entry())
    with ana.desk.reading() as reader:
        plan = read_meet(reader, ana.entry().meet_id, ana.desk.today()).plans[ana.entry_id].plan
    assert [each.lift for each in plan.lifts] == [Lift.SQUAT, Lift.BENCH]
    assert plan.outlook is None
    assert plan.textbook is None
    (note,) = plan.notes
    assert note.code == "plan.lift_missing"
    assert ("lift", text("lift.deadlift")) in note.values


def test_a_lift_that_is_not_entered_has_no_number(desk: Desk) -> None:
    ana = Ana(desk, Event.BENCH_ONLY)
    with pytest.raises(InvalidInput) as refused:
        ana.number(Lift.SQUAT, "185")
    assert refused.value.field == "lift"
    with pytest.raises(InvalidInput) as refused:
        ana.source(Lift.SQUAT, Source.SETS)
    assert refused.value.field == "lift"


def test_what_was_changed_meanwhile_is_not_overwritten(ana: Ana) -> None:
    seen = ana.entry()
    ana.number(Lift.SQUAT, "185", "180", "190")
    said = LiftBasisData(entry_id=ana.entry_id, lift=Lift.SQUAT, source=Source.SETS)
    stale = replace(ana.bases()[Lift.SQUAT], version=99)
    for entry, basis in ((seen, None), (ana.entry(), None), (ana.entry(), stale)):
        with pytest.raises(Trouble):
            say_of_lift(ana.desk, entry, kilograms(200), said, basis=basis)
    assert ana.entry().expected_squat == kilograms(185)


def test_the_form_of_the_entry_keeps_number_and_band_together(ana: Ana) -> None:
    ana.number(Lift.SQUAT, "185", "180", "190")
    entry = ana.entry()
    with pytest.raises(InvalidInput) as refused:
        save_entry(ana.desk, entry, replace(entry, expected_squat=kilograms(200)), Place())
    assert refused.value.field == "expected_squat"
    assert ana.entry() == entry
    save_entry(ana.desk, entry, replace(entry, expected_squat=kilograms("187.5")), Place())
    assert ana.bases()[Lift.SQUAT].high == kilograms(190)
    save_entry(ana.desk, ana.entry(), replace(ana.entry(), expected_squat=None), Place())
    assert ana.bases() == {}


def test_a_choice_alone_does_not_hold_the_number_back(ana: Ana) -> None:
    ana.source(Lift.SQUAT, Source.SETS)
    entry = ana.entry()
    save_entry(ana.desk, entry, replace(entry, expected_squat=kilograms(200)), Place())
    assert ana.bases()[Lift.SQUAT].source is Source.SETS


def test_wishes_are_kept_changed_taken_back_and_undone(ana: Ana) -> None:
    ana.wish(aim=DayAim.NUMBER, aim_weight=kilograms(250), risk_cap=0.05, largest_jump=0.1)
    kept = ana.wishes()
    assert kept is not None
    assert (kept.aim, kept.aim_weight) == (DayAim.NUMBER, kilograms(250))
    assert (kept.risk_cap, kept.largest_jump) == (0.05, 0.1)
    ana.wish(aim=DayAim.BIGGEST_TOTAL, risk_cap=0.05)
    changed = ana.wishes()
    assert changed is not None
    assert (changed.id, changed.aim, changed.aim_weight) == (
        kept.id,
        DayAim.BIGGEST_TOTAL,
        None,
    )
    ana.wish()
    assert ana.wishes() is None
    undo(ana.desk)
    assert ana.wishes() is not None


def test_a_plan_is_made_with_the_wishes_in_the_same_action(ana: Ana) -> None:
    ana.wish(aim=DayAim.LIFT_NUMBER, aim_lift=Lift.SQUAT, aim_weight=kilograms("182.5"))
    assert ana.planned(Lift.SQUAT) == 180
    undo(ana.desk)
    assert ana.wishes() is None
    with ana.desk.reading() as reader:
        assert read_meet(reader, ana.entry().meet_id, ana.desk.today()).plans == {}


def test_wishes_that_cannot_be_are_refused(ana: Ana) -> None:
    with pytest.raises(InvalidInput) as refused:
        ana.wish(risk_cap=2.0)
    assert refused.value.field == "risk_cap"
    assert ana.wishes() is None


def test_an_aim_that_is_made_on_the_day_is_refused_at_its_field(
    desk_at: Callable[[datetime], Desk],
) -> None:
    ana = Ana(desk_at(datetime(2027, 2, 20, 12, tzinfo=ZoneInfo("Europe/Berlin"))))
    for lift in Lift:
        ana.number(lift, "120")
    plan_entry(ana.desk, ana.entry())
    squat = AttemptData(
        entry_id=ana.entry_id,
        lift=Lift.SQUAT,
        number=1,
        weight=kilograms(170),
        result=Result.GOOD,
    )
    record_attempts(ana.desk, [squat])
    opened = open_plan(ana.desk, ana.entry_id)
    wish = WishesData(
        entry_id=ana.entry_id,
        aim=DayAim.LIFT_NUMBER,
        aim_lift=Lift.SQUAT,
        aim_weight=kilograms(170),
    )
    with pytest.raises(InvalidInput) as refused:
        check_in_reach(opened.known.with_wishes(wish), opened.record, opened.line.entry)
    assert (refused.value.field, refused.value.text.code) == ("aim_weight", "engine.number_made")


def test_deleting_an_entry_takes_its_wishes_along_and_undo_brings_them_back(ana: Ana) -> None:
    ana.number(Lift.SQUAT, "185", "180", "190")
    ana.wish(risk_cap=0.05)
    delete_entries(ana.desk, [ana.entry()])
    assert (ana.bases(), ana.wishes()) == ({}, None)
    undo(ana.desk)
    wishes = ana.wishes()
    assert wishes is not None
    assert wishes.risk_cap == 0.05
    assert ana.bases()[Lift.SQUAT].low == kilograms(180)


def test_erasing_an_athlete_leaves_nothing_behind(ana: Ana) -> None:
    """Neither rows nor what the journal remembers of them."""
    ana.number(Lift.SQUAT, "185", "180", "190")
    ana.source(Lift.SQUAT, Source.SETS)
    with ana.desk.reading() as reader:
        athlete = reader.get(Athlete, ana.athlete_id)
    erase_athlete(ana.desk, athlete)
    assert ana.bases() == {}
    label = undoable(ana.desk)
    assert label is None or "Ana Ruiz" not in dict(label.values).values()
