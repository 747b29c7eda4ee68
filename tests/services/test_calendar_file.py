"""The calendar file, read back with a library made for it and line by line (RFC 5545)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from icalendar import Calendar, Event

from coachdesk.domain.athlete import Athlete, AthleteData, LossBar, ReadingData
from coachdesk.domain.errors import Trouble
from coachdesk.domain.kit_rounds import Sight
from coachdesk.domain.lifting import Equipment, Sex
from coachdesk.domain.lifting import Event as Lifts
from coachdesk.domain.meet import EntryData, MeetData, SessionData
from coachdesk.domain.units import kilograms
from coachdesk.services.calendar_file import CalendarChoice, write_calendar
from coachdesk.services.desk import Desk
from coachdesk.services.kit_ticking import tick_all_kit
from coachdesk.services.meet_editing import delete_meet
from coachdesk.services.meet_reading import is_first_meet, read_meet
from coachdesk.services.meets import add_meet, add_session, enter_athlete, upcoming_meets
from coachdesk.services.packet_weight import weight_page
from coachdesk.services.roster import add_athlete, add_readings, edit_athlete
from coachdesk.services.task_editing import UsualTasks, add_tasks, tick_usual
from coachdesk.services.undo import undo
from coachdesk.services.weight_plans import agree_on_way_down
from coachdesk.wording.wording import Wording

TODAY = date(2026, 11, 25)
MEET_DAY = date(2027, 3, 27)
"""The day before clocks go forward in Berlin: the meet's second day is an hour shorter."""
NASTY = "<b>Ana</b>; O'Hara, \\n & 🏋️\u200d♀️"


class Season:
    """A meet of two days with one entry, and the file made of it."""

    def __init__(self, desk: Desk, words: Wording, folder: Path) -> None:
        self.desk, self.words, self.file = desk, words, folder / "meets.ics"
        self.meet_id = self.add_meet("Harbour Open")
        self.entry_id = self.enter("Ana", "Ruiz")

    def add_meet(self, name: str, place: str = "Northport") -> int:
        meet_id = add_meet(
            self.desk,
            MeetData(
                name=name,
                starts_on=MEET_DAY,
                place=place,
                rulebook="ipf_2021",
                time_zone="Europe/Berlin",
                entry_deadline=date(2027, 2, 20),
                kit_inspection_on=date(2027, 3, 26),
            ),
        ).value
        for session, day in (("Women", 27), ("Men", 28)):
            starts_at = datetime(2027, 3, day, 10)  # noqa: DTZ001 - a meet's local time
            add_session(self.desk, SessionData(meet_id=meet_id, name=session, starts_at=starts_at))
        return meet_id

    def enter(self, given: str, family: str, meet_id: int | None = None) -> int:
        athlete = AthleteData(
            given_name=given,
            family_name=family,
            sex=Sex.MALE,
            birth_date=date(1995, 3, 1),
            height_cm=175,
            meets_before=3,
        )
        self.athlete_id = add_athlete(self.desk, athlete).value
        entry = EntryData(
            athlete_id=self.athlete_id,
            meet_id=meet_id or self.meet_id,
            event=Lifts.THREE_LIFT,
            equipment=Equipment.CLASSIC,
            divisions=("open",),
            weight_class="83",
        )
        return enter_athlete(self.desk, entry).value

    def delete_meet(self, meet_id: int) -> None:
        (meet,) = [meet for meet in upcoming_meets(self.desk) if meet.id == meet_id]
        delete_meet(self.desk, meet)

    def weigh(self, kg: str, desk: Desk | None = None) -> None:
        """Five days of equal readings up to today."""
        desk = desk or self.desk
        readings = [
            ReadingData(
                athlete_id=self.athlete_id,
                on=desk.today() - timedelta(days=day),
                weight=kilograms(kg),
            )
            for day in range(5)
        ]
        add_readings(desk, readings)

    def write(self, *, with_weights: bool = False, desk: Desk | None = None) -> dict[str, Event]:
        """Write the file, and what holds in it by the first part of their names; what is called off
        stands in `off`."""
        desk = desk or self.desk
        meets = frozenset(meet.id for meet in upcoming_meets(desk))
        write_calendar(desk, self.words, CalendarChoice(meets, with_weights), self.file)
        calendar = Calendar.from_ical(self.file.read_bytes())
        assert isinstance(calendar, Calendar)
        events = {str(each["uid"]).partition("@")[0]: each for each in calendar.events}
        assert len(events) == len(calendar.events)
        self.off = {key: each for key, each in events.items() if "status" in each}
        return {key: each for key, each in events.items() if key not in self.off}


@pytest.fixture
def season(desk: Desk, wording: Wording, tmp_path: Path) -> Season:
    return Season(desk, wording, tmp_path)


def lines_of(file: Path) -> list[bytes]:
    """The raw lines, before they are unfolded."""
    data = file.read_bytes()
    assert data.endswith(b"\r\n")
    return data[:-2].split(b"\r\n")


def at(moment: date | datetime | None) -> datetime:
    assert isinstance(moment, datetime)
    return moment.astimezone(ZoneInfo("Europe/Berlin"))


def moved_on(desk: Desk, by: timedelta) -> Desk:
    return replace(desk, now=lambda: desk.now() + by)


def test_a_meet_lasts_its_days_and_what_leads_to_it_stands_on_its_own_days(season: Season) -> None:
    """Days by hand; rounds and tasks from the lists that come along, 14 and 7 days before."""
    events = season.write()
    meet = events[f"meet.{season.meet_id}"]
    assert meet["summary"] == "Harbour Open"
    assert meet["location"] == "Northport"
    assert (meet.start, meet.end) == (MEET_DAY, date(2027, 3, 29))  # the end is not a part of it
    assert events[f"entry_deadline.{season.meet_id}"].start == date(2027, 2, 20)
    assert events[f"kit_inspection.{season.meet_id}"].start == date(2027, 3, 26)
    kit = events[f"kit_round.{season.meet_id}.two_weeks.14"]
    assert kit.start == date(2027, 3, 13)
    assert kit["description"] == "Ana Ruiz"
    openers = events[f"usual_task.{season.meet_id}.openers_chosen"]
    assert (openers.start, openers.end) == (date(2027, 3, 20), date(2027, 3, 21))


def test_weigh_in_is_two_hours_before_on_both_sides_of_the_clocks_going_forward(
    season: Season,
) -> None:
    """IPF: weigh-in lasts an hour and a half, from two hours before the session (rulebook)."""
    events = [event for key, event in season.write().items() if key.startswith("weigh_in.")]
    local = [(at(each.DTSTART), at(each.DTEND)) for each in events]
    assert [(f"{start:%d %H:%M}", f"{end:%H:%M}") for start, end in local] == [
        ("27 08:00", "09:30"),
        ("28 08:00", "09:30"),
    ]
    first, second = (start.astimezone(UTC) for start, _ in local)
    assert (first.hour, second.hour) == (7, 6)  # Berlin: UTC+1, then UTC+2
    assert second - first == timedelta(hours=23)


def test_every_line_is_as_the_standard_asks(season: Season) -> None:
    long = "Maximiliane Ümläut " * 11
    meet_id = season.add_meet(NASTY, place="Hall 1;\r\nSide, door\x07\u0085 🏟️")
    season.enter(long[:200], NASTY, meet_id)
    events = season.write()
    lines = lines_of(season.file)
    assert max(map(len, lines)) <= 75
    for line in lines:
        line.decode()  # folded between letters, never within one
        assert not any(byte < 32 and byte != 9 for byte in line)
    assert lines[0] == b"BEGIN:VCALENDAR"
    assert lines[-1] == b"END:VCALENDAR"
    assert lines.count(b"VERSION:2.0") == 1
    assert sum(line.startswith(b"PRODID:") for line in lines) == 1
    for event in events.values():
        assert {"UID", "DTSTAMP", "DTSTART", "SUMMARY", "SEQUENCE"} <= set(event)
        assert event.get("dtend") is None or event.end > event.start
    meet = events[f"meet.{meet_id}"]
    assert meet["summary"] == NASTY
    assert str(meet["location"]).split() == ["Hall", "1;", "Side,", "door", "🏟️"]
    raw = season.file.read_bytes().replace(b"\r\n ", b"").decode()
    assert r"SUMMARY:<b>Ana</b>\; O'Hara\, \\n & 🏋️" in raw  # escaped: 3.3.11 of the standard
    kit = events[f"kit_round.{meet_id}.two_weeks.14"]
    assert str(kit["description"]) == " ".join(f"{long[:200]} {NASTY}".split())


def test_a_second_file_updates_what_the_first_one_brought(season: Season) -> None:
    first = season.write()
    season.enter("Bo", "Lind")
    second = season.write(desk=moved_on(season.desk, timedelta(seconds=20)))
    assert set(second) == set(first)
    for key, event in second.items():
        assert event["uid"] == first[key]["uid"]
        assert event.sequence > first[key].sequence
        assert event.DTSTAMP is not None
        before = first[key].DTSTAMP
        assert before is not None
        assert event.DTSTAMP - before == timedelta(seconds=20)
    key = f"kit_round.{season.meet_id}.two_weeks.14"
    assert second[key]["description"] == "Bo Lind, Ana Ruiz"


def test_two_data_files_never_share_a_name_of_an_event(
    season: Season, desk_at: Callable[[datetime], Desk], wording: Wording, tmp_path: Path
) -> None:
    other = Season(desk_at(season.desk.now()), wording, tmp_path / "other")
    ours, theirs = season.write(), other.write()
    assert set(ours) == set(theirs)
    assert not {str(each["uid"]) for each in ours.values()} & {
        str(each["uid"]) for each in theirs.values()
    }


def test_what_is_done_or_deleted_is_not_in_the_next_file(season: Season) -> None:
    gone = season.add_meet("Quellmark Cup")
    add_tasks(season.desk, [season.entry_id], "Ring the hall", date(2027, 3, 1))
    before = season.write()
    assert before["task.1"]["summary"] == "Ring the hall: Harbour Open"
    season.delete_meet(gone)
    tick_usual(season.desk, UsualTasks((season.entry_id,), "travel_and_bed"), done=True)
    tick_all_kit(season.desk, [season.entry_id], "two_weeks", Sight.PRESENT)
    after = season.write()
    assert f"entry_deadline.{gone}" in before
    assert {f"meet.{gone}", f"entry_deadline.{gone}"} <= set(season.off)
    assert "Quellmark" not in season.file.read_text(encoding="utf-8")
    assert f"usual_task.{season.meet_id}.travel_and_bed" in before
    assert f"usual_task.{season.meet_id}.travel_and_bed" not in after
    assert f"kit_round.{season.meet_id}.two_weeks.14" in before
    assert f"kit_round.{season.meet_id}.two_weeks.14" not in after


def test_what_an_earlier_file_brought_and_holds_no_more_is_called_off(season: Season) -> None:
    """STATUS:CANCELLED in a later revision of the same event (RFC 5545, 3.8.1.11 and 3.8.7.4)."""
    season.weigh("85.5")
    agree_on_way_down(season.desk, season.entry_id)
    gone = season.add_meet("Quellmark Cup")
    before = season.write(with_weights=True)
    assert season.off == {}
    season.delete_meet(gone)
    tick_usual(season.desk, UsualTasks((season.entry_id,), "travel_and_bed"), done=True)
    with season.desk.reading() as reader:
        seen = reader.get(Athlete, season.athlete_id)
    data = {name: getattr(seen, name) for name in AthleteData.__dataclass_fields__}
    barred = AthleteData(**{**data, "loss_bar": LossBar.ILLNESS})
    edit_athlete(season.desk, seen.id, seen.version, barred)
    later = moved_on(season.desk, timedelta(minutes=2))
    season.write(desk=later)
    assert not [key for key in season.off if key.startswith("weight")], "not asked for"
    after = season.write(with_weights=True, desk=later)
    assert set(season.off) == set(before) - set(after)
    assert {f"meet.{gone}", f"usual_task.{season.meet_id}.travel_and_bed"} < set(season.off)
    assert [key for key in before if key.startswith("weight")] == [
        key for key in sorted(season.off, key=list(before).index) if key.startswith("weight")
    ]
    for key, event in season.off.items():
        assert (event["status"], event["summary"]) == ("CANCELLED", "No longer holds")
        assert event["uid"] == before[key]["uid"]
        assert event.sequence > before[key].sequence
        assert "description" not in event
    undo(season.desk)
    back = season.write(with_weights=True, desk=moved_on(season.desk, timedelta(minutes=3)))
    assert [key for key in back if key.startswith("weight")], "agreed on again"
    assert not [key for key in season.off if key.startswith("weight")]


def test_the_coachs_own_words_are_private_and_medicines_name_nobody(season: Season) -> None:
    """CLASS of the standard (3.8.1.3): calendars that are shared show no more than a time."""
    add_tasks(season.desk, [season.entry_id], "See the physio", date(2027, 3, 1))
    events = season.write()
    assert events["task.1"]["class"] == "PRIVATE"
    assert events["task.1"]["description"] == "Ana Ruiz"
    usual = f"usual_task.{season.meet_id}"
    assert "description" not in events[f"{usual}.medicines_checked"]
    assert events[f"{usual}.travel_and_bed"]["description"] == "Ana Ruiz"


def test_nothing_about_weight_is_in_the_file_without_being_asked_for(season: Season) -> None:
    season.weigh("85.5")
    agree_on_way_down(season.desk, season.entry_id)
    without = season.write()
    assert not [key for key in without if key.startswith("weight")]
    raw = season.file.read_text(encoding="utf-8")
    assert "kg" not in raw
    told = [
        line
        for line in raw.replace("\n ", "").splitlines()
        if line.startswith(("SUMMARY", "DESCRIPTION"))
    ]
    assert told
    assert not [line for line in told if "85" in line]
    assert set(season.write(with_weights=True)) > set(without)


def test_weekly_marks_are_the_printed_ones_private_and_end_at_the_limit(season: Season) -> None:
    season.weigh("85.5")
    agree_on_way_down(season.desk, season.entry_id)
    marks = marks_in(season.write(with_weights=True))
    with season.desk.reading() as reader:
        record = read_meet(reader, season.meet_id, TODAY)
    (entry,) = record.entries
    page = weight_page(
        record,
        season.desk.rulebooks.get("ipf_2021"),
        entry,
        today=TODAY,
        first_meet=is_first_meet(record, entry),
    )
    printed = [(on, f"Weekly weight, Ana Ruiz: {season.words.mass(kg)}") for on, kg in page.marks]
    assert [(each.start, str(each["summary"])) for each in marks] == printed
    assert printed[-1][1].endswith(": 83 kg")
    assert {str(each["class"]) for each in marks} == {"PRIVATE"}


def test_nobody_behind_is_asked_to_catch_up_faster_than_one_percent_a_week(season: Season) -> None:
    """Above the line agreed on, the marks start from today's level instead of leaping to it."""
    season.weigh("85.5")
    agree_on_way_down(season.desk, season.entry_id)
    later = moved_on(season.desk, timedelta(weeks=8))
    season.weigh("86", later)
    marks = marks_in(season.write(with_weights=True, desk=later))
    days = [later.today(), *(each.start for each in marks)]
    weights = [86.0, *(float(str(each["summary"]).split()[-2]) for each in marks)]
    assert len(marks) > 3
    for day, then, kg, less in zip(days, days[1:], weights, weights[1:], strict=False):
        allowed = 0.01 * kg * (then - day).days / 7
        assert kg - less <= allowed + 0.1  # marks are rounded to a tenth


def test_a_week_later_the_same_marks_keep_their_names(season: Season) -> None:
    season.weigh("85.5")
    agree_on_way_down(season.desk, season.entry_id)
    first = season.write(with_weights=True)
    second = season.write(with_weights=True, desk=moved_on(season.desk, timedelta(weeks=1)))
    names = [
        {key: each.start for key, each in events.items() if key.startswith("weight_mark")}
        for events in (first, second)
    ]
    assert len(names[0]) == len(names[1]) + 1
    assert names[1].items() <= names[0].items()


def test_without_a_way_down_agreed_on_there_are_no_marks(season: Season) -> None:
    season.weigh("85.5")
    assert not marks_in(season.write(with_weights=True))


def marks_in(events: dict[str, Event]) -> list[Event]:
    found = [each for key, each in events.items() if key.startswith("weight_mark")]
    return sorted(found, key=lambda each: each.start)


def test_a_file_that_cannot_be_written_is_trouble_and_the_old_one_stays(season: Season) -> None:
    season.write()
    before = season.file.read_bytes()
    blocked = season.file / "below a file.ics"
    with pytest.raises(Trouble):
        write_calendar(
            season.desk, season.words, CalendarChoice(frozenset({season.meet_id})), blocked
        )
    assert season.file.read_bytes() == before


def test_a_meet_that_is_gone_writes_no_empty_file(season: Season) -> None:
    undone = season.add_meet("Quellmark Cup")
    season.delete_meet(undone)
    with pytest.raises(Trouble) as trouble:
        write_calendar(season.desk, season.words, CalendarChoice(frozenset({undone})), season.file)
    assert trouble.value.text.code == "calendar.nothing"
    assert not season.file.exists()
    undo(season.desk)
    write_calendar(season.desk, season.words, CalendarChoice(frozenset({undone})), season.file)
