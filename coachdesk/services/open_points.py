"""What is still open about an entry, in words, most pressing first."""

from __future__ import annotations

from coachdesk.domain.class_fit import Verdict
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry
from coachdesk.domain.text import Text, text
from coachdesk.services.packet_content import LiftCard, WeightPage
from coachdesk.storage.meet_queries import MeetRecord


def open_points(
    record: MeetRecord,
    entry: Entry,
    cards: tuple[LiftCard, ...],
    weight: WeightPage,
    *,
    first_meet: bool,
) -> tuple[Text, ...]:
    """What is missing or does not fit."""
    athlete = record.athletes[entry.athlete_id]
    judged = {logged.lift for logged in record.recent_sets.get(athlete.id, ()) if logged.judged}
    points: list[tuple[bool, Text]] = [
        (weight.present is None, text("open.no_weight")),
        (
            weight.fit is not None and weight.fit.verdict in {Verdict.NOT_IN_TIME, Verdict.NO_PLAN},
            text("open.class"),
        ),
        (entry.weight_class is None, text("open.no_class")),
        (athlete.birth_date is None, text("open.no_birth_date")),
        (
            athlete.member_until is not None and athlete.member_until < record.meet.starts_on,
            text("open.membership", day=athlete.member_until or record.meet.starts_on),
        ),
        (not athlete.member_number, text("open.no_membership")),
        (entry.session_id is None, text("open.no_session")),
        *(
            (card.plan is None, text("open.no_numbers", lift=text(f"lift.{card.lift}")))
            for card in cards
        ),
        *(
            (
                card.plan is not None and not card.opener_chosen,
                text("open.opener", lift=text(f"lift.{card.lift}")),
            )
            for card in cards
        ),
        *(
            (
                card.lift is not Lift.DEADLIFT and not all(rack.setting for rack in card.racks[:1]),
                text("open.rack", lift=text(f"lift.{card.lift}")),
            )
            for card in cards
        ),
        *(
            (
                first_meet and card.lift not in judged,
                text("open.judged_single", lift=text(f"lift.{card.lift}")),
            )
            for card in cards
        ),
        (
            not any(duty.entry_id == entry.id for duty in record.duties),
            text("open.no_handler"),
        ),
    ]
    return tuple(point for is_open, point in points if is_open)
