"""One lift at a time as the handler needs it, and the totals the openers and the plan come to."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import lru_cache

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.attempts import AttemptPlan, LiftPlan, Turn
from coachdesk.domain.bodyweight import Bodyweight
from coachdesk.domain.class_fit import PresentWeight, present_weight
from coachdesk.domain.history import standing
from coachdesk.domain.lifting import Lift
from coachdesk.domain.loading import BarSet, Loading, load
from coachdesk.domain.meet import Entry, EntryData
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.scoring import score
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, from_grams
from coachdesk.services.disc_sets import rulebook_bar_set
from coachdesk.services.packet_content import LiftCard, Rack, ScoreLine, Weight
from coachdesk.storage.meet_queries import MeetRecord


def lift_cards(record: MeetRecord, rulebook: Rulebook, entry: Entry) -> tuple[LiftCard, ...]:
    """The cards of an entry's lifts, in the meet's order."""
    return tuple(
        _lift_card(record, rulebook, entry, lift)
        for lift in rulebook.lift_order
        if lift in entry.event.lifts
    )


def scores(
    rulebook: Rulebook,
    athlete: Athlete,
    entry: Entry,
    cards: tuple[LiftCard, ...],
    present: PresentWeight | None,
) -> tuple[ScoreLine, ...]:
    """The totals of the openers and of the plan with nine good lifts, and their scores."""
    totals = [
        (text("score.openers"), sum_of_all(card.opener for card in cards)),
        (text("score.all_good"), sum_of_all(card.third for card in cards)),
    ]
    return tuple(
        _score_line(rulebook, athlete, entry, what, total, present) for what, total in totals
    )


def expected_line(
    rulebook: Rulebook,
    athlete: Athlete,
    entry: Entry,
    plan: AttemptPlan | None,
    present: PresentWeight | None,
) -> ScoreLine | None:
    """The expected total of a plan and its score; None where no chances were worked out."""
    if plan is None or plan.outlook is None:
        return None
    total = plan.outlook.expected_total
    return _score_line(rulebook, athlete, entry, text("score.expected"), total, present)


def _score_line(
    rulebook: Rulebook,
    athlete: Athlete,
    entry: Entry,
    what: Text,
    total: Mass | None,
    present: PresentWeight | None,
) -> ScoreLine:
    bodyweight = entry.bodyweight or (None if present is None else present.mass)
    score = None if total is None else score_of(rulebook, athlete, entry, total, bodyweight)
    return ScoreLine(what, total, rulebook.best_lifter, score)


def sum_of_all(masses: Iterable[Mass | None]) -> Mass | None:
    """The sum, None where one is not known."""
    listed = list(masses)
    known = [mass for mass in listed if mass is not None]
    if not known or len(known) < len(listed):
        return None
    return from_grams(sum(mass.grams for mass in known), known[0].unit)


def score_of(
    rulebook: Rulebook, athlete: Athlete, entry: EntryData, total: Mass, bodyweight: Mass | None
) -> float | None:
    """What a total scores by the rulebook's formula for the best lifter."""
    return score(
        rulebook.best_lifter,
        sex=athlete.sex,
        bodyweight_kg=None if bodyweight is None else bodyweight.kg,
        total_kg=total.kg,
        event=entry.event,
        equipment=entry.equipment,
    )


def weight_to_score(entry: EntryData, state: Bodyweight | None, today: date) -> Mass | None:
    """The bodyweight that a score counts: the official one, else the present one."""
    present = present_weight(state, today)
    return entry.bodyweight or (None if present is None else present.mass)


def _lift_card(record: MeetRecord, rulebook: Rulebook, entry: Entry, lift: Lift) -> LiftCard:
    athlete = record.athletes[entry.athlete_id]
    snapshot = record.plans.get(entry.id)
    plan = None if snapshot is None else snapshot.plan.of(lift)
    chosen = standing(record.attempts.get(entry.id, ()), lift)
    flights = [record.flights[number] for number in record.flights_of_entry[entry.id]]
    rules = rulebook.lift_rules(lift)
    bar = rulebook_bar_set(rulebook, for_records=False)
    opener = None if plan is None else plan.opener.weight
    third = None if plan is None else plan.when_all_good
    if 1 in chosen:
        opener = chosen[1].weight
    if 3 in chosen:
        third = chosen[3].weight
    return LiftCard(
        lift=lift,
        flight=next((flight.name for flight in flights if flight.lift is lift), ""),
        opener=opener,
        opener_chosen=1 in chosen,
        plan=plan,
        weights=tuple(Weight(mass, exact_loading(mass, bar)) for mass in _weights(plan, opener)),
        racks=_racks(athlete, lift),
        cue=_cue(athlete, lift),
        commands=rules.commands,
        causes=tuple(cause.label for cause in rules.causes if not cause.strength),
        latest_moments=_latest_moments(rulebook, entry, lift),
        third=third,
    )


@lru_cache(maxsize=4096)
def exact_loading(weight: Mass, bar: BarSet) -> Loading | None:
    """How `weight` is loaded; None where the discs do not make it. A meet's weights recur."""
    return load(weight, bar).exact


def _weights(plan: LiftPlan | None, opener: Mass | None) -> list[Mass]:
    """Every weight of the plan, and the opener handed in, once each, lightest first."""
    found = {} if opener is None else {opener.grams: opener}

    def walk(turn: Turn) -> None:
        found.setdefault(turn.weight.grams, turn.weight)
        for branch in turn.branches:
            walk(branch.turn)

    if plan is not None:
        walk(plan.opener)
    return [found[grams] for grams in sorted(found)]


def _racks(athlete: Athlete, lift: Lift) -> tuple[Rack, ...]:
    """The settings to hand in for a lift, those not on file left open."""
    if lift is Lift.SQUAT:
        return (Rack(text("rack.squat"), athlete.squat_rack),)
    if lift is Lift.BENCH:
        extra = (
            (Rack(text("rack.foot_blocks"), athlete.bench_foot_blocks),)
            if athlete.bench_foot_blocks
            else ()
        )
        lift_off = (Rack(text("rack.lift_off"), None),) if athlete.bench_lift_off else ()
        return (
            Rack(text("rack.bench"), athlete.bench_rack),
            Rack(text("rack.safety"), athlete.bench_safety),
            *extra,
            *lift_off,
        )
    return ()


def _cue(athlete: Athlete, lift: Lift) -> str:
    return {
        Lift.SQUAT: athlete.squat_cue,
        Lift.BENCH: athlete.bench_cue,
        Lift.DEADLIFT: athlete.deadlift_cue,
    }[lift]


def _latest_moments(rulebook: Rulebook, entry: Entry, lift: Lift) -> tuple[Text, ...]:
    change = rulebook.opener_change
    later = (
        text("latest.opener_later_minutes", minutes=change.later_group_minutes)
        if change.later_group_minutes is not None
        else text("latest.opener_later_attempts", count=change.later_group_attempts_left or 0)
    )
    thirds = rulebook.attempts.third_changes.allowed(lift, entry.event)
    return (
        text("latest.opener", minutes=change.first_group_minutes, later=later),
        text(
            "latest.next",
            seconds=rulebook.attempts.next_weight_seconds,
            good=text(f"latest.after_good.{rulebook.attempts.after_good}"),
            miss=text(f"latest.after_miss.{rulebook.attempts.after_miss}"),
        ),
        text("latest.thirds", count=thirds) if thirds else text("latest.no_third_change"),
    )
