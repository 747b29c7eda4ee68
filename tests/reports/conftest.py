"""Packets made up for the tests of what is printed; nobody in them is real."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date, datetime, time, timedelta

import pytest

from coachdesk.app import paths
from coachdesk.domain.athlete import LossBar
from coachdesk.domain.attempts import LiftPlan, Steps, Turn, textbook_plan
from coachdesk.domain.class_fit import Person, PresentWeight, class_fit, weekly_marks
from coachdesk.domain.kit_rounds import Sight
from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.loading import BarSet, Disc, load
from coachdesk.domain.meet import Role
from coachdesk.domain.scoring import Formula
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Unit, kilograms, pounds
from coachdesk.domain.warmup import warm_ups
from coachdesk.domain.weight_class import WeightClass
from coachdesk.reports.theme import load_fonts
from coachdesk.services.packet_content import (
    CheckRound,
    DayTime,
    Duty,
    EntryPacket,
    KitLine,
    LiftCard,
    LiftWarmUps,
    MeetHead,
    PrintMark,
    Rack,
    ScoreLine,
    TeamLine,
    TeamSheet,
    WarmUpPage,
    Weight,
    WeightPage,
)

MEET_DAY = date(2026, 12, 12)
KG_BAR = BarSet(
    kilograms(20),
    kilograms("2.5"),
    tuple(Disc(kilograms(disc)) for disc in ("25", "20", "15", "10", "5", "2.5", "1.25")),
)
LB_BAR = BarSet(
    pounds(45),
    pounds(0),
    tuple(Disc(pounds(disc)) for disc in ("45", "35", "25", "10", "5", "2.5")),
)
LOOKS = {"Wrist wraps": Sight.MISSING, "Food and water": Sight.NOT_LOOKED}
"""What the first look at the kit came to, where the piece was not there."""
EXPECTED = {Lift.SQUAT: "207.5", Lift.BENCH: "132.5", Lift.DEADLIFT: "241"}


def own(words: str) -> Text:
    """Somebody's own words as a text."""
    return text("kit.own", words=words)


def at(hour: int, minute: int = 0, day: date = MEET_DAY) -> datetime:
    return datetime.combine(day, time(hour, minute))


def meet_head(unit: Unit = Unit.KG) -> MeetHead:
    return MeetHead(
        "Harbour Open", "Northport", MEET_DAY, "Europe/Berlin", "Sample rules", "2026", unit
    )


def print_mark() -> PrintMark:
    earlier = date(2026, 11, 20)
    return PrintMark(at(10, 52, date(2026, 11, 25)), at(18, 5, earlier))


def lift_card(lift: Lift, unit: Unit = Unit.KG) -> LiftCard:
    """A lift with a textbook plan and its discs."""
    bar = KG_BAR if unit is Unit.KG else LB_BAR
    step = kilograms("2.5") if unit is Unit.KG else pounds(5)
    expected = kilograms(EXPECTED[lift])
    plan = textbook_plan(
        lift,
        expected=expected,
        source=own("best set of the last eight weeks"),
        steps=Steps(step, kilograms(25) if unit is Unit.KG else pounds(45)),
        first_meet=False,
    )
    weights = sorted(_weights(plan), key=lambda mass: mass.grams)
    return LiftCard(
        lift=lift,
        flight="B",
        opener=plan.opener.weight,
        opener_chosen=lift is Lift.SQUAT,
        plan=plan,
        weights=tuple(Weight(mass, load(mass, bar).exact) for mass in weights),
        racks=(Rack(own("Rack height"), "12 in"), Rack(own("Safeties"), "4"))
        if lift is not Lift.DEADLIFT
        else (),
        cue="Big air, spread the floor",
        commands=("Squat", "Rack") if lift is Lift.SQUAT else ("Start", "Press", "Rack"),
        causes=tuple(
            own(words)
            for words in (
                "Hip crease not below the top of the knee (red card)",
                "Stepping back or forward after the signal (yellow card)",
                "Not waiting for the referee's signal at the start or at the end (yellow card)",
            )
        ),
        latest_moments=(own("Second attempt: within one minute of the lights"),),
    )


def _weights(plan: LiftPlan) -> list[Mass]:
    found: dict[int, Mass] = {}

    def walk(turn: Turn) -> None:
        found[turn.weight.grams] = turn.weight
        for branch in turn.branches:
            walk(branch.turn)

    walk(plan.opener)
    return list(found.values())


def weight_page() -> WeightPage:
    """A way down at a steady pace."""
    present = PresentWeight(85.0, 5, date(2026, 10, 24))
    fit = class_fit(
        WeightClass(name="83", limit=kilograms(83)),
        present=present,
        today=date(2026, 10, 24),
        weigh_in_on=MEET_DAY,
        person=Person(date(1998, 4, 2), 176, LossBar.NONE, False),
        chosen=True,
    )
    return WeightPage(
        present,
        fit,
        weekly_marks(fit, present, date(2026, 10, 24)),
        own("Lift in the class above: tell the table at once."),
        (own("Do not cut water or food before weigh-in."),),
    )


def warm_up_page(
    cards: Sequence[LiftCard], unit: Unit, equipment: Equipment = Equipment.CLASSIC
) -> WarmUpPage:
    """Warm-ups for the openers on the cards; the first lift begins at half past nine."""
    room = KG_BAR if unit is Unit.KG else LB_BAR
    return WarmUpPage(
        room,
        tuple(
            LiftWarmUps(
                card.lift,
                card.opener,
                card.opener_chosen,
                None
                if card.opener is None
                else warm_ups(card.lift, opener=card.opener, room=room, equipment=equipment),
                at(9, 30) if card.lift is Lift.SQUAT else None,
            )
            for card in cards
        ),
    )


def entry_packet(
    *,
    meet_unit: Unit = Unit.KG,
) -> EntryPacket:
    """Everything a packet can hold."""
    times = (
        "Wake up",
        "Kit check",
        "Weigh-in",
        "Rules briefing",
        "Warm-up squat",
        "Session starts",
    )
    cards = tuple(lift_card(lift, meet_unit) for lift in Lift)
    food = ("Breakfast: rice, eggs, water", "Small sweet drink", "Banana and water", "Half a roll")
    return EntryPacket(
        meet=meet_head(meet_unit),
        mark=print_mark(),
        athlete="Mara Lindqvist",
        unit=Unit.KG,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("Open",),
        weight_class="83",
        lot=17,
        session="1",
        platform="A",
        first_meet=True,
        minor=False,
        timetable=tuple(DayTime(at(6 + hour, 30), own(what)) for hour, what in enumerate(times))
        + tuple(
            DayTime(at(13, 10 * turn), own(f"Bench press flight B, round {turn}"))
            for turn in (1, 2, 3)
        )
        + (DayTime(None, own("Prize giving")),),
        food=tuple(DayTime(at(7 + 2 * hour), own(what)) for hour, what in enumerate(food)),
        lifts=cards,
        duties=(Duty("Jonas Feld", Role.HANDLING), Duty("Ines Okafor", Role.TABLE)),
        weight=weight_page(),
        kit=kit(),
        check_rounds=rounds(),
        kit_inspection=own("Kit check is at weigh-in: bring every piece you will wear."),
        missing_kit=(own("Wrist wraps"),),
        briefing=tuple(
            own(words)
            for words in (
                "The day is long: there is time between attempts, so sit down and keep warm.",
                "Being nervous is normal. The opener is a weight you know.",
                "A miss is not the end: the next attempt comes in about ten minutes.",
                "If something is unclear, ask your handler or any referee.",
            )
        ),
        after_last_lift=(own("Stay near: you may be called to a drug test."),),
        scores=(
            ScoreLine(own("Three openers"), kilograms("527.5"), Formula.IPF_GL, 71.234),
            ScoreLine(own("All nine good"), None, Formula.IPF_GL, None),
        ),
        open_points=(own("Membership ends before the meet."),),
        coach_note="Watch the left knee.\nKeep talking between attempts.",
        warm_up=warm_up_page(cards, meet_unit),
    )


def kit() -> tuple[KitLine, ...]:
    items = (
        "Singlet",
        "Belt",
        "Knee sleeves",
        "Wrist wraps",
        "Long socks",
        "T-shirt",
        "Shoes",
        "Deadlift shoes",
        "Chalk",
        "Membership card",
        "Passport",
        "Food and water",
    )
    return tuple(
        KitLine(
            own(item),
            2 if item == "Long socks" else 1,
            (Lift.DEADLIFT,) if item in {"Long socks", "Deadlift shoes"} else (),
            item in {"Singlet", "Belt"},
            (own("At most 10 cm wide and 13 mm thick."),) if item == "Belt" else (),
            (LOOKS.get(item, Sight.PRESENT), *[Sight.NOT_LOOKED] * 3),
        )
        for item in items
    )


def rounds() -> tuple[CheckRound, ...]:
    names = {14: "Two weeks", 7: "One week", 1: "Evening before", 0: "Morning"}
    return tuple(
        CheckRound(MEET_DAY - timedelta(days=days), own(name)) for days, name in names.items()
    )


def team_sheet(names: Sequence[str]) -> TeamSheet:
    """A team of lifters, one line each."""
    lines = tuple(
        TeamLine(
            athlete=name,
            weight_class="83",
            equipment=Equipment.CLASSIC,
            event=Event.THREE_LIFT,
            session=str(1 + number % 3),
            flights=((Lift.SQUAT, "A"), (Lift.BENCH, "A"), (Lift.DEADLIFT, "B")),
            lot=number + 1,
            weigh_in=at(8),
            starts_at=at(10),
            openers=(
                (Lift.SQUAT, kilograms("182.5"), True),
                (Lift.BENCH, kilograms("120"), False),
                (Lift.DEADLIFT, None, False),
            ),
            duties=(Duty("Jonas Feld", Role.HANDLING), Duty("Ines Okafor", Role.TABLE)),
            open_points=number % 4,
            missing_kit=(own("Belt"), own("Chalk")) if number % 3 == 1 else (),
        )
        for number, name in enumerate(names)
    )
    return TeamSheet(
        meet_head(),
        print_mark(),
        lines,
        coming_down=(),
        spares=(own("2 belts"), own("3 pairs of laces")),
        failed=(),
    )


def without_plan(packet: EntryPacket) -> EntryPacket:
    """The same packet for somebody the program makes no way down for."""
    present = packet.weight.present
    assert present is not None
    fit = class_fit(
        WeightClass(name="83", limit=kilograms(83)),
        present=present,
        today=date(2026, 10, 24),
        weigh_in_on=MEET_DAY,
        person=Person(date(2010, 4, 2), 176, LossBar.NONE, False),
        chosen=True,
    )
    return replace(packet, weight=replace(packet.weight, fit=fit, marks=()))


@pytest.fixture(scope="session", autouse=True)
def fonts() -> None:
    load_fonts(paths.resources() / "fonts")


@pytest.fixture(scope="session")
def packet() -> EntryPacket:
    """A first meet in kilograms with everything a packet can hold."""
    return entry_packet()


@pytest.fixture(scope="session")
def pound_packet() -> EntryPacket:
    """The same at a meet in pounds."""
    return entry_packet(meet_unit=Unit.LB)


@pytest.fixture(scope="session")
def equipped_packet() -> EntryPacket:
    """The same for an equipped lifter."""
    packet = entry_packet()
    warm_up = warm_up_page(packet.lifts, Unit.KG, Equipment.EQUIPPED)
    return replace(packet, equipment=Equipment.EQUIPPED, warm_up=warm_up)


@pytest.fixture(scope="session")
def packet_without_plan() -> EntryPacket:
    """The same for a minor above the class."""
    return without_plan(entry_packet())


@pytest.fixture(scope="session")
def team_of() -> Callable[[Sequence[str]], TeamSheet]:
    """Makes the sheet of a team with the given names."""
    return team_sheet
