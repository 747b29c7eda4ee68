"""What is still open about an entry, in words, most pressing first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.class_fit import ClassFit, PresentWeight, Verdict
from coachdesk.domain.lifting import Lift, lift_name
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.text import Text, text

if TYPE_CHECKING:
    from coachdesk.services.packet_content import LiftCard, WeightPage
    from coachdesk.storage.meet_queries import MeetRecord


@dataclass(frozen=True, slots=True)
class LiftReady:
    """How far one lift of an entry is prepared."""

    lift: Lift
    is_planned: bool
    opener_chosen: bool


def open_points(
    record: MeetRecord,
    entry: Entry,
    cards: tuple[LiftCard, ...],
    weight: WeightPage,
    *,
    first_meet: bool,
) -> tuple[Text, ...]:
    """What is missing or does not fit, for an entry of a meet that was read as a whole."""
    return points_of(
        entry,
        record.meet,
        record.athletes[entry.athlete_id],
        present=weight.present,
        fit=weight.fit,
        lifts=[
            LiftReady(card.lift, is_planned=card.plan is not None, opener_chosen=card.opener_chosen)
            for card in cards
        ],
        judged=record.judged.get(entry.athlete_id, frozenset()),
        first_meet=first_meet,
        has_handler=any(duty.entry_id == entry.id for duty in record.duties),
    )


def points_of(
    entry: Entry,
    meet: Meet,
    athlete: Athlete,
    *,
    present: PresentWeight | None,
    fit: ClassFit | None,
    lifts: Sequence[LiftReady],
    judged: frozenset[Lift],
    first_meet: bool,
    has_handler: bool,
) -> tuple[Text, ...]:
    """What is missing or does not fit; `judged` are the lifts with a judged single of late."""
    cannot_be_reached = fit is not None and fit.verdict in {Verdict.NOT_IN_TIME, Verdict.NO_PLAN}
    until, entered = athlete.member_until, entry.weight_class
    racks = {Lift.SQUAT: athlete.squat_rack, Lift.BENCH: athlete.bench_rack}
    return (
        *_said("open.no_weight", present is None),
        *_said("open.class", cannot_be_reached),
        *_said("open.no_class", entry.weight_class is None),
        *([text("open.class_unknown", name=entered)] if entered and present and not fit else []),
        *_said("open.no_birth_date", athlete.birth_date is None),
        *([text("open.membership", day=until)] if until and until < meet.starts_on else []),
        *_said("open.no_membership", not athlete.member_number),
        *_said("open.no_session", entry.session_id is None),
        *_by_lift("open.no_numbers", lifts, lambda ready: not ready.is_planned),
        *_by_lift("open.opener", lifts, lambda ready: ready.is_planned and not ready.opener_chosen),
        *_by_lift("open.rack", lifts, lambda ready: not racks.get(ready.lift, True)),
        *_by_lift(
            "open.judged_single", lifts, lambda ready: first_meet and ready.lift not in judged
        ),
        *_said("open.no_handler", not has_handler),
    )


def _said(code: str, is_open: bool) -> tuple[Text, ...]:
    return (_point(code),) if is_open else ()


def _by_lift(
    code: str, lifts: Sequence[LiftReady], is_open: Callable[[LiftReady], bool]
) -> list[Text]:
    return [_point(code, ready.lift) for ready in lifts if is_open(ready)]


@cache
def _point(code: str, lift: Lift | None = None) -> Text:
    """The same few are said of entry after entry."""
    return text(code) if lift is None else text(code, lift=lift_name(lift))
