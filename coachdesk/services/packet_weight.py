"""The weight page: present weight, class, way down, plan B and the cautions that always stand."""

from __future__ import annotations

from datetime import date

from coachdesk.domain.class_fit import weekly_marks
from coachdesk.domain.meet import Entry
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import Text, text
from coachdesk.domain.weight_class import WeightClass
from coachdesk.services.class_standing import standing_to_class
from coachdesk.services.packet_content import WeightPage
from coachdesk.storage.meet_queries import MeetRecord


def weight_page(
    record: MeetRecord, rulebook: Rulebook, entry: Entry, *, today: date, first_meet: bool
) -> WeightPage:
    """What is printed about weight and class for an entry of a meet."""
    athlete = record.athletes[entry.athlete_id]
    standing = standing_to_class(
        entry,
        record.meet,
        athlete,
        rulebook,
        session=record.sessions.get(entry.session_id or 0),
        weight=record.weights.get(athlete.id),
        today=today,
        first_meet=first_meet,
    )
    present, fit = standing.present, standing.fit
    if present is None or fit is None:
        return WeightPage(present, None, (), None, standing.cautions)
    classes = rulebook.classes(athlete.sex, record.meet.starts_on, entry.divisions)
    return WeightPage(
        present=present,
        fit=fit,
        marks=weekly_marks(fit, present, today),
        plan_b=_plan_b(rulebook, classes, fit.weight_class),
        cautions=standing.cautions,
    )


def _plan_b(
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
