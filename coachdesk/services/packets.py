"""Gathering what goes on paper for a meet, from stored plans: printing never replans."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from zoneinfo import ZoneInfo

from coachdesk.domain.kit import team_bag
from coachdesk.domain.kit_rounds import kit_status
from coachdesk.domain.meet import Entry
from coachdesk.domain.readiness import KitCheck
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import Text, text
from coachdesk.domain.weight_plan import WeightPlanData
from coachdesk.services.class_standing import is_minor, weigh_in_times
from coachdesk.services.desk import Desk
from coachdesk.services.meet_day_texts import food, timetable
from coachdesk.services.meet_reading import is_first_meet, read_meet
from coachdesk.services.open_points import open_points
from coachdesk.services.packet_content import (
    Duty,
    EntryPacket,
    MeetHead,
    PrintMark,
    TeamLine,
    TeamSheet,
    WeightPage,
)
from coachdesk.services.packet_kit import after_last_lift, check_rounds, kit_inspection, kit_lines
from coachdesk.services.packet_lifts import expected_line, lift_cards, scores
from coachdesk.services.packet_warm_ups import warm_up_page
from coachdesk.services.packet_weight import coming_down, weight_page
from coachdesk.services.rulebooks import kit_list_for
from coachdesk.services.weight_history import entry_picture, weighed_lately
from coachdesk.storage.meet_queries import MeetRecord
from coachdesk.storage.printings import add_printing, last_printed
from coachdesk.storage.readiness_queries import kit_checks
from coachdesk.storage.weight_queries import Weighed

BRIEFING_PARAGRAPHS = 7
_OWN_MATTER = "kit.medicines_list"
"""Kit that the team sheet is silent about: what an athlete takes is nobody else's to ask."""


@dataclass(frozen=True)
class PrintJob:
    """A meet as read for printing, and when."""

    record: MeetRecord
    rulebook: Rulebook
    printed_at: datetime
    printed_before: dict[int | None, datetime]
    weighed: dict[int, Weighed]
    kit_checks: dict[int, tuple[KitCheck, ...]]

    def mark(self, entry_id: int | None) -> PrintMark:
        """When this is printed and which print it replaces, in the meet's own time."""
        zone = ZoneInfo(self.record.meet.time_zone)
        before = self.printed_before.get(entry_id)
        return PrintMark(
            self.printed_at.astimezone(zone), None if before is None else before.astimezone(zone)
        )

    @property
    def head(self) -> MeetHead:
        """What every sheet says about the meet."""
        meet = self.record.meet
        return MeetHead(
            name=meet.name,
            place=meet.place,
            starts_on=meet.starts_on,
            time_zone=meet.time_zone,
            rulebook=self.rulebook.name,
            edition=self.rulebook.edition,
            unit=self.rulebook.unit,
        )

    @property
    def entries(self) -> tuple[Entry, ...]:
        """The entries that are not withdrawn, by athlete's name."""
        names = self.record.athletes
        present = (entry for entry in self.record.entries if not entry.withdrawn)
        return tuple(
            sorted(
                present,
                key=lambda entry: (
                    names[entry.athlete_id].family_name.casefold(),
                    names[entry.athlete_id].given_name.casefold(),
                    entry.id,
                ),
            )
        )

    def name_of(self, entry: Entry) -> str:
        """The athlete's name."""
        return self.record.athletes[entry.athlete_id].name


def print_job(desk: Desk, meet_id: int) -> PrintJob:
    """Read a meet for printing."""
    with desk.reading() as reader:
        record = read_meet(reader, meet_id, desk.today())
        before = last_printed(reader, meet_id)
        weighed = weighed_lately(reader, record.entries, desk.today())
        checks = kit_checks(reader, [entry.id for entry in record.entries])
    rulebook = desk.rulebooks.get(record.meet.rulebook)
    return PrintJob(record, rulebook, desk.now(), before, weighed, checks)


def entry_packet(desk: Desk, job: PrintJob, entry: Entry) -> EntryPacket:
    """All that is printed for one entry; raises CoachdeskError when something is amiss."""
    record, rulebook = job.record, job.rulebook
    athlete = record.athletes[entry.athlete_id]
    session = record.sessions.get(entry.session_id or 0)
    first_meet = is_first_meet(record, entry)
    minor = is_minor(athlete, record.meet)
    kit_list = kit_list_for(desk.kit, entry.equipment)
    kit = kit_status(
        kit_list,
        entry.event,
        record.meet.starts_on,
        job.kit_checks.get(entry.id, ()),
        job.printed_at.date(),
    )
    cards = lift_cards(record, rulebook, entry)
    weight = _with_picture(
        job,
        entry,
        weight_page(record, rulebook, entry, today=job.printed_at.date(), first_meet=first_meet),
    )
    snapshot = record.plans.get(entry.id)
    plan = None if snapshot is None else snapshot.plan
    return EntryPacket(
        meet=job.head,
        mark=job.mark(entry.id),
        athlete=athlete.name,
        unit=athlete.unit,
        event=entry.event,
        equipment=entry.equipment,
        divisions=tuple(rulebook.division(key).name for key in entry.divisions),
        weight_class=entry.weight_class,
        lot=entry.lot,
        session="" if session is None else session.name,
        platform="" if session is None else session.platform,
        first_meet=first_meet,
        minor=minor,
        timetable=timetable(rulebook, entry, session),
        food=food(rulebook, entry, session),
        lifts=cards,
        duties=_duties(record, entry),
        weight=weight,
        kit=kit_lines(kit, rulebook, entry),
        check_rounds=check_rounds(kit_list, record.meet.starts_on),
        kit_inspection=kit_inspection(rulebook, record.meet),
        missing_kit=tuple(item.label for item in kit.missing),
        briefing=_briefing() if first_meet else (),
        after_last_lift=after_last_lift(rulebook, minor=minor),
        scores=scores(rulebook, athlete, entry, cards, weight.present),
        open_points=open_points(record, entry, cards, weight, first_meet=first_meet),
        coach_note=entry.note,
        warm_up=warm_up_page(record, rulebook, entry, cards),
        plan=plan,
        expected=expected_line(rulebook, athlete, entry, plan, weight.present),
    )


def team_sheet(
    desk: Desk, job: PrintJob, packets: Iterable[tuple[Entry, EntryPacket]], failed: Iterable[str]
) -> TeamSheet:
    """The team on one page; `failed` names those whose packet could not be made."""
    pairs = list(packets)
    return TeamSheet(
        meet=job.head,
        mark=job.mark(None),
        lines=tuple(_team_line(job, entry, packet) for entry, packet in pairs),
        coming_down=tuple(
            each for _, packet in pairs for each in coming_down(packet, job.printed_at.date())
        ),
        spares=tuple(
            item.label
            for item in team_bag(
                kit_list_for(desk.kit, equipment)
                for equipment in sorted({entry.equipment for entry, _ in pairs})
            )
        ),
        failed=tuple(failed),
    )


def note_printed(desk: Desk, job: PrintJob, entry_ids: Iterable[int | None]) -> None:
    """Remember what was printed, so that the next print says what it replaces."""
    with desk.store.raw_writing() as connection:
        add_printing(connection, job.record.meet.id, list(entry_ids), job.printed_at)


def _team_line(job: PrintJob, entry: Entry, packet: EntryPacket) -> TeamLine:
    session = job.record.sessions.get(entry.session_id or 0)
    opens, _closes = weigh_in_times(job.rulebook, session)
    return TeamLine(
        athlete=packet.athlete,
        weight_class=packet.weight_class,
        equipment=packet.equipment,
        event=packet.event,
        session=packet.session,
        flights=tuple((card.lift, card.flight) for card in packet.lifts),
        lot=packet.lot,
        weigh_in=opens,
        starts_at=None if session is None else session.starts_at,
        openers=tuple((card.lift, card.opener, card.opener_chosen) for card in packet.lifts),
        duties=packet.duties,
        open_points=len(packet.open_points),
        missing_kit=tuple(each for each in packet.missing_kit if each.code != _OWN_MATTER),
    )


def _with_picture(job: PrintJob, entry: Entry, page: WeightPage) -> WeightPage:
    """The weight page with its picture, where there is a way down to draw: that of the marks."""
    present, fit, found = page.present, page.fit, job.weighed.get(entry.athlete_id)
    limit = None if fit is None else fit.weight_class.limit
    if present is None or fit is None or limit is None or found is None or not page.marks:
        return page
    record, today = job.record, job.printed_at.date()
    plan = WeightPlanData(
        entry_id=entry.id,
        agreed_on=today,
        from_weight=present.mass,
        to_weight=limit,
        weight_class=fit.weight_class.name,
        arrive_on=fit.arrive_on,
    )
    picture = entry_picture(
        found,
        entry,
        record.meet,
        record.athletes[entry.athlete_id],
        job.rulebook,
        record.sessions.get(entry.session_id or 0),
        today=today,
        plan=plan,
    )
    return replace(page, picture=picture)


def _duties(record: MeetRecord, entry: Entry) -> tuple[Duty, ...]:
    return tuple(
        Duty(record.handlers[duty.handler_id].name, duty.role)
        for duty in record.duties
        if duty.entry_id == entry.id
    )


def _briefing() -> tuple[Text, ...]:
    return tuple(text(f"briefing.{number}") for number in range(1, BRIEFING_PARAGRAPHS + 1))
