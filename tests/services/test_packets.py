"""What ends up in a packet: weight page, plans, times, kit and what is still open."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import date, datetime, timedelta

import pytest

from coachdesk.domain.athlete import AthleteData, LossBar, ReadingData
from coachdesk.domain.class_fit import Verdict
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Sex
from coachdesk.domain.meet import AttemptData, EntryData, MeetData, SessionData
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import kilograms, pounds
from coachdesk.services.desk import Desk
from coachdesk.services.meets import (
    add_meet,
    add_session,
    choose_opener,
    enter_athlete,
    record_attempts,
)
from coachdesk.services.packet_content import EntryPacket
from coachdesk.services.packets import entry_packet, note_printed, print_job, team_sheet
from coachdesk.services.planning import plan_meet
from coachdesk.services.roster import add_athlete, add_readings
from coachdesk.services.training import log_sets

ANA = AthleteData(
    given_name="Ana",
    family_name="Ruiz",
    sex=Sex.FEMALE,
    birth_date=date(1996, 5, 4),
    height_cm=168,
    meets_before=2,
)
START = datetime(2027, 2, 27, 10, 0)  # noqa: DTZ001 - a meet's local time


class Team:
    """A meet under one rulebook, entered by one athlete."""

    def __init__(self, desk: Desk, rulebook: str = "ipf_2021") -> None:
        self.desk = desk
        self.meet_id = add_meet(
            desk,
            MeetData(
                name="Harbour Open",
                starts_on=START.date(),
                rulebook=rulebook,
                time_zone="Europe/Berlin",
            ),
        ).value
        self.session_id = add_session(
            desk, SessionData(meet_id=self.meet_id, name="Women", starts_at=START)
        ).value

    def enter(self, athlete: AthleteData = ANA, **changes: object) -> int:
        """Enter an athlete and answer the entry's id."""
        self.athlete_id = add_athlete(self.desk, athlete).value
        entry = EntryData(
            athlete_id=self.athlete_id,
            meet_id=self.meet_id,
            event=Event.THREE_LIFT,
            equipment=Equipment.CLASSIC,
            divisions=("open",),
            weight_class="63",
            session_id=self.session_id,
        )
        return enter_athlete(self.desk, replace(entry, **changes)).value  # type: ignore[arg-type]

    def weigh(self, kg: str) -> None:
        """A week of equal readings up to today."""
        today = self.desk.today()
        add_readings(
            self.desk,
            [
                ReadingData(
                    athlete_id=self.athlete_id, on=today - timedelta(days=day), weight=kilograms(kg)
                )
                for day in range(7)
            ],
        )

    def packet(self) -> EntryPacket:
        """The packet of the one entry."""
        job = print_job(self.desk, self.meet_id)
        return entry_packet(self.desk, job, job.entries[0])


@pytest.fixture
def team(desk: Desk) -> Team:
    return Team(desk)


def _codes(packet: EntryPacket) -> set[str]:
    return {point.code for point in packet.open_points}


def test_four_percent_above_on_25_november_has_a_comfortable_way_down_to_27_february(
    team: Team,
) -> None:
    """By hand: 2.6 kg of 65.6 is 3.96 %; 87 days to 20 February are 12.43 weeks: 0.32 % a week."""
    team.enter()
    team.weigh("65.6")
    weight = team.packet().weight
    assert weight.fit is not None
    assert weight.fit.verdict is Verdict.COMFORTABLE
    assert weight.fit.rate is not None
    assert weight.fit.rate.value == pytest.approx(2.6 / 65.6 * 100 / (87 / 7))
    assert weight.marks[-1] == (date(2027, 2, 20), kilograms(63))
    assert weight.plan_b is not None
    assert [caution.code for caution in weight.cautions] == ["caution.weight", "caution.drink"]


def test_a_minor_gets_no_way_down_and_one_caution_more(team: Team) -> None:
    team.enter(replace(ANA, birth_date=date(2010, 3, 1)), divisions=("sub_junior",))
    team.weigh("65.6")
    packet = team.packet()
    assert packet.minor
    assert packet.weight.marks == ()
    assert "caution.minor" in {caution.code for caution in packet.weight.cautions}
    assert "open.class" in _codes(packet)
    assert "after.minor" in {line.code for line in packet.after_last_lift}


def test_a_barred_athlete_gets_no_way_down(team: Team) -> None:
    team.enter(replace(ANA, loss_bar=LossBar.PREGNANCY))
    team.weigh("65.6")
    weight = team.packet().weight
    assert weight.fit is not None
    assert weight.fit.verdict is Verdict.NO_PLAN


def test_without_a_class_the_one_weighed_now_counts(team: Team) -> None:
    team.enter(weight_class=None)
    team.weigh("65.6")
    packet = team.packet()
    assert packet.weight.fit is not None
    assert packet.weight.fit.weight_class.name == "69"
    assert "open.no_class" in _codes(packet)


def test_nothing_known_is_said_and_prints_all_the_same(team: Team) -> None:
    team.enter(
        replace(ANA, birth_date=date(1996, 5, 4), height_cm=None, meets_before=0),
        weight_class=None,
        session_id=None,
    )
    packet = team.packet()
    assert packet.weight.fit is None
    assert packet.first_meet
    assert len(packet.briefing) == 7
    assert {line.at for line in packet.timetable} == {None}
    assert _codes(packet) >= {
        "open.no_weight",
        "open.no_class",
        "open.no_session",
        "open.no_numbers",
        "open.judged_single",
        "open.rack",
        "open.no_handler",
        "open.no_membership",
    }
    assert [line.score for line in packet.scores] == [None, None]


def test_a_two_hour_weigh_in_gives_the_times_of_the_morning(team: Team) -> None:
    """IPF family: opens two hours before the start, lasts one and a half."""
    team.enter()
    times = {line.what.code: line.at for line in team.packet().timetable}
    assert times["day.weigh_in_opens"] == START - timedelta(hours=2)
    assert times["day.weigh_in_closes"] == START - timedelta(minutes=30)
    assert times["day.opener_change"] == START - timedelta(minutes=3)
    assert times["day.start"] == START


def test_food_goes_by_the_clock(team: Team) -> None:
    team.enter()
    given = [line.at for line in team.packet().food if line.at is not None]
    assert given == sorted(given)


def test_the_evening_before_counts_where_the_weigh_in_is_the_day_before(desk: Desk) -> None:
    team = Team(desk, "traditional_day_before")
    team.enter(weight_class="60")
    team.weigh("61")
    packet = team.packet()
    assert {line.what.code for line in packet.food} >= {"food.evening", "food.breakfast"}
    assert packet.weight.fit is not None
    assert packet.weight.fit.arrive_on == START.date() - timedelta(days=8)


def test_plans_come_from_sets_results_or_the_coach_and_are_kept(team: Team) -> None:
    entry_id = team.enter(expected_squat=kilograms(120))
    past = add_meet(
        team.desk,
        MeetData(
            name="Spring Cup",
            starts_on=date(2026, 4, 11),
            rulebook="ipf_2021",
            time_zone="Europe/Berlin",
        ),
    ).value
    past_id = enter_athlete(
        team.desk,
        EntryData(
            athlete_id=team.athlete_id,
            meet_id=past,
            event=Event.THREE_LIFT,
            equipment=Equipment.CLASSIC,
            divisions=("open",),
        ),
    ).value
    record_attempts(
        team.desk,
        [
            AttemptData(
                entry_id=past_id,
                lift=Lift.DEADLIFT,
                number=1,
                weight=kilograms(150),
                result=Result.GOOD,
            )
        ],
    )
    log_sets(
        team.desk,
        [
            LoggedSetData(
                athlete_id=team.athlete_id,
                on=date(2026, 11, 20),
                lift=Lift.BENCH,
                weight=kilograms(64),
                reps=5,
            )
        ],
    )
    done = plan_meet(team.desk, team.meet_id)
    assert done.value == ()
    plans = {card.lift: card.plan for card in team.packet().lifts}
    sources = {lift: plan and plan.source.code for lift, plan in plans.items()}
    assert sources == {
        Lift.SQUAT: "expected_max.coach",
        Lift.BENCH: "expected_max.set",
        Lift.DEADLIFT: "expected_max.last_meet",
    }
    bench = plans[Lift.BENCH]
    assert bench is not None
    assert bench.expected.kg == 72  # Brzycki 1993: 64 x 36 / 32
    choose_opener(team.desk, entry_id, Lift.SQUAT, kilograms(100))
    assert plan_meet(team.desk, team.meet_id, only_missing=True).changes == frozenset()
    card = team.packet().lifts[0]
    assert (card.opener, card.opener_chosen) == (kilograms(100), True)
    assert plans[Lift.SQUAT] is not None
    assert card.plan is not None
    assert card.plan == plans[Lift.SQUAT]  # the kept plan; printing never replans
    shown = [weight.mass.kg for weight in card.weights]
    assert shown == sorted(set(shown))
    assert {100.0, *(weight.kg for weight in card.plan.good_path)} <= set(shown)


def test_what_cannot_be_planned_is_said_and_the_rest_is_planned(team: Team) -> None:
    entry_id = team.enter(expected_squat=kilograms(100), expected_bench=kilograms(70))
    choose_opener(team.desk, entry_id, Lift.SQUAT, kilograms(110))
    done = plan_meet(team.desk, team.meet_id)
    assert [fault.code for fault in done.value] == ["plan.fault", "plan.fault"]
    plans = {card.lift: card.plan for card in team.packet().lifts}
    assert plans[Lift.SQUAT] is None
    assert {"open.no_numbers", "open.opener"} <= _codes(team.packet())
    assert plans[Lift.BENCH] is not None


def test_every_weight_of_a_plan_is_loadable(team: Team) -> None:
    team.enter(expected_squat=kilograms(123), expected_bench=kilograms(71))
    plan_meet(team.desk, team.meet_id)
    for card in team.packet().lifts:
        for weight in card.weights:
            assert weight.loading is not None
            per_side = sum(disc.weight.grams for disc in weight.loading.discs_per_side)
            assert 25_000 + 2 * per_side == weight.mass.grams


def test_withdrawn_entries_are_left_out_and_prints_are_remembered(
    desk: Desk,
) -> None:
    team = Team(desk)
    team.enter(replace(ANA, given_name="Zed"), withdrawn=True)
    entry_id = team.enter()
    job = print_job(desk, team.meet_id)
    assert [entry.id for entry in job.entries] == [entry_id]
    note_printed(desk, job, [None, entry_id])
    again = print_job(desk, team.meet_id)
    assert again.mark(entry_id).replaces == job.printed_at
    sheet = team_sheet(
        desk, again, [(again.entries[0], entry_packet(desk, again, again.entries[0]))], ["Zed"]
    )
    assert [line.athlete for line in sheet.lines] == ["Ana Ruiz"]
    assert sheet.lines[0].weigh_in == START - timedelta(hours=2)
    assert sheet.spares
    assert sheet.failed == ("Zed",)


def test_personal_matters_have_no_place_on_paper(team: Team) -> None:
    """Contacts and health notes stay at the desk."""
    private = "0171-private"
    team.enter(
        replace(
            ANA,
            email=private,
            phone=private,
            emergency_contact=private,
            health_note=private,
            note=private,
        )
    )
    packet = team.packet()
    assert private not in repr(packet)
    assert not {field.name for field in fields(packet)} & {"email", "phone", "health_note"}


def test_bench_settings_are_handed_in(team: Team) -> None:
    team.enter(
        replace(ANA, bench_rack="5", bench_safety="3", bench_foot_blocks="low", bench_lift_off=True)
    )
    (bench,) = [card for card in team.packet().lifts if card.lift is Lift.BENCH]
    assert [(rack.what.code, rack.setting) for rack in bench.racks] == [
        ("rack.bench", "5"),
        ("rack.safety", "3"),
        ("rack.foot_blocks", "low"),
        ("rack.lift_off", None),
    ]


def test_a_pound_thinker_keeps_pounds(team: Team) -> None:
    expected = pounds(405)
    team.enter(expected_squat=expected)
    plan_meet(team.desk, team.meet_id)
    plan = team.packet().lifts[0].plan
    assert plan is not None
    assert plan.expected == expected


def test_the_picture_of_a_way_down_has_the_marks_of_the_page(team: Team) -> None:
    team.enter()
    team.weigh("65.5")
    page = team.packet().weight
    assert page.marks
    assert page.picture is not None
    assert page.picture.plan_marks == page.marks
    assert page.picture.last == START.date()


def test_without_a_way_down_there_is_no_picture(team: Team) -> None:
    team.enter(replace(ANA, birth_date=date(2010, 5, 4)))
    team.weigh("65.5")
    assert team.packet().weight.picture is None
