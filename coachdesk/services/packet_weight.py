"""The weight page: present weight, class, way down, plan B and the cautions that always stand."""

from __future__ import annotations

from datetime import date

from coachdesk.domain.class_fit import weekly_marks
from coachdesk.domain.meet import Entry
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import Text, text
from coachdesk.domain.weight_class import WeightClass
from coachdesk.domain.weight_plan import standing_to
from coachdesk.services.class_standing import standing_to_class
from coachdesk.services.packet_content import ComingDown, EntryPacket, WeightPage
from coachdesk.services.weight_board import plan_in_force
from coachdesk.storage.meet_queries import MeetRecord


def weight_page(
    record: MeetRecord, rulebook: Rulebook, entry: Entry, *, today: date, first_meet: bool
) -> WeightPage:
    """What is printed about weight and class for an entry of a meet."""
    athlete = record.athletes[entry.athlete_id]
    weight = record.weights.get(athlete.id)
    standing = standing_to_class(
        entry,
        record.meet,
        athlete,
        rulebook,
        session=record.sessions.get(entry.session_id or 0),
        weight=weight,
        today=today,
        first_meet=first_meet,
    )
    present, fit = standing.present, standing.fit
    if present is None or fit is None:
        return WeightPage(present, None, (), None, standing.cautions)
    plan = plan_in_force(record.weight_plans.get(entry.id), standing)
    return WeightPage(
        present=present,
        fit=fit,
        marks=weekly_marks(fit, present, today),
        plan_b=plan_b(rulebook, standing.classes, fit.weight_class),
        cautions=standing.cautions,
        plan=plan,
        line=None if plan is None or weight is None else standing_to(plan, weight, today),
        change=standing.change,
        scale=standing.scale,
        chance=standing.chance,
    )


def coming_down(packet: EntryPacket, today: date) -> tuple[ComingDown, ...]:
    """The athlete as one who comes down in weight; empty for all others."""
    fit, plan = packet.weight.fit, packet.weight.plan
    if fit is None or not fit.verdict.has_way_down:
        return ()
    name = fit.weight_class.name
    if plan is not None:
        return (ComingDown(packet.athlete, name, plan.arrive_on, None),)
    starts = [(pace, day) for pace, day in fit.latest_starts if day >= today]
    return tuple(ComingDown(packet.athlete, name, day, pace) for pace, day in starts[:1])


def plan_b(
    rulebook: Rulebook, classes: tuple[WeightClass, ...], wanted: WeightClass
) -> Text | None:
    """What happens when the weight is missed on the day; None in the class without a limit."""
    if wanted.limit is None:
        return None
    above = classes[classes.index(wanted) + 1 :]
    again = text("plan_b.reweigh" if rulebook.weigh_in.reweighs else "plan_b.no_reweigh")
    return text(
        f"plan_b.{rulebook.weigh_in.out_of_class}",
        limit=wanted.limit,
        next_class=above[0].name if above else wanted.name,
        again=again,
    )
