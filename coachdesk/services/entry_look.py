"""One entry looked at while it is edited: what it would come to, by the calculators that decide
once it is saved. Nothing is written here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from coachdesk.domain.athlete import Athlete, Handler
from coachdesk.domain.attempts import Steps
from coachdesk.domain.class_fit import present_weight
from coachdesk.domain.division import divisions_open_to
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.history import standing
from coachdesk.domain.lifting import Lift
from coachdesk.domain.loading import Loading
from coachdesk.domain.meet import Attempt, Entry, Flight, HandlerDuty, Meet, Session
from coachdesk.domain.rulebook import Division, Rulebook
from coachdesk.domain.strength.forecast import Forecast
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass
from coachdesk.domain.weight_class import WeightClass
from coachdesk.domain.wishes import DayAim
from coachdesk.services.attempt_editing import check_choice
from coachdesk.services.desk import Desk
from coachdesk.services.disc_sets import rulebook_bar_set
from coachdesk.services.entry_editing import moves_plan
from coachdesk.services.lift_sources import KnownLifts, read_known
from coachdesk.services.meet_page import made_total
from coachdesk.services.meet_reading import is_first_meet, is_over, read_meet
from coachdesk.services.meets import Place, steps_of
from coachdesk.services.open_points import open_points
from coachdesk.services.packet_content import LiftCard, ScoreLine, WeightPage
from coachdesk.services.packet_lifts import exact_loading, lift_cards, score_of, scores
from coachdesk.services.packet_weight import weight_page
from coachdesk.services.planning import expected_of, planned
from coachdesk.storage.meet_queries import MeetRecord
from coachdesk.storage.plans import Snapshot

AttemptKey = tuple[Lift, int]


@dataclass(frozen=True)
class EntryLook:
    """What an entry comes to as it is typed.

    `faults` say, by attempt, why a weight cannot be chosen; `plan_faults` why a lift could not be
    planned. `expected` holds what each lift is planned on.
    """

    cards: tuple[LiftCard, ...]
    expected: Mapping[Lift, Forecast]
    faults: Mapping[AttemptKey, Text]
    plan_faults: Mapping[Lift, Text]
    weight: WeightPage
    scores: tuple[ScoreLine, ...]
    points: tuple[Text, ...]
    classes: tuple[WeightClass, ...]


@dataclass(frozen=True)
class OpenEntry:
    """An entry as it is on file, with all that is needed to look at changes to it."""

    record: MeetRecord
    known: KnownLifts
    rulebook: Rulebook
    today: date

    @property
    def entry(self) -> Entry:
        """The entry on file."""
        return self.record.entries[0]

    @property
    def athlete(self) -> Athlete:
        """The athlete."""
        return self.record.athletes[self.entry.athlete_id]

    @property
    def meet(self) -> Meet:
        """The meet."""
        return self.record.meet

    @property
    def steps(self) -> Steps:
        """The rulebook's steps and lightest bar."""
        return steps_of(self.rulebook)

    @property
    def has_begun(self) -> bool:
        """Whether the meet's first day has come, so that there can be results."""
        return self.meet.starts_on <= self.today

    @property
    def is_over(self) -> bool:
        """Whether the meet is over, so that there is nothing left to plan."""
        return is_over(self.record, self.today)

    @property
    def has_plan(self) -> bool:
        """Whether a plan is on file."""
        return self.entry.id in self.record.plans

    @property
    def place(self) -> Place:
        """Flights and handlers on file."""
        duties = ((duty.handler_id, duty.role) for duty in self.record.duties)
        return Place(self.record.flights_of_entry[self.entry.id], tuple(duties))

    @property
    def chosen(self) -> dict[AttemptKey, Attempt]:
        """The attempts on file, by lift and number."""
        attempts = self.record.attempts.get(self.entry.id, ())
        return {
            (lift, number): attempt
            for lift in Lift
            for number, attempt in standing(attempts, lift).items()
        }

    @property
    def sessions(self) -> tuple[Session, ...]:
        """The meet's sessions."""
        return tuple(self.record.sessions.values())

    @property
    def flights(self) -> tuple[Flight, ...]:
        """The meet's flights, in their order."""
        return tuple(self.record.flights.values())

    @property
    def handlers(self) -> tuple[Handler, ...]:
        """All handlers on file."""
        return tuple(self.record.handlers.values())

    def divisions(self) -> tuple[Division, ...]:
        """The divisions the athlete may enter by age, and those entered already."""
        open_to = divisions_open_to(self.athlete.birth_date, self.meet.starts_on, self.rulebook)
        return tuple(
            division
            for division in self.rulebook.divisions
            if division in open_to or division.key in self.entry.divisions
        )

    def loading(self, weight: Mass) -> Loading | None:
        """How the meet's bar is loaded with a weight; None where its discs do not make it."""
        return exact_loading(weight, rulebook_bar_set(self.rulebook, for_records=False))

    def made(self) -> tuple[Mass, float | None] | None:
        """The total made and its score; None without results."""
        attempts = self.record.attempts.get(self.entry.id, ())
        total = made_total(attempts, self.entry, self.rulebook)
        if total is None:
            return None
        present = present_weight(self.record.weights.get(self.athlete.id), self.today)
        now = None if present is None or self.is_over else present.mass
        bodyweight = self.entry.bodyweight or now
        return total, score_of(self.rulebook, self.athlete, self.entry, total, bodyweight)

    def look(self, entry: Entry, place: Place, weights: Mapping[AttemptKey, Mass]) -> EntryLook:
        """What `entry` would come to with these flights, handlers and attempts.

        Where the entry has a plan, it is made anew around what differs from what is on file.
        """
        record, faults = self._as_typed(entry, place, weights)
        first_meet = is_first_meet(record, entry)
        expected = expected_of(self.known, entry)
        plan_faults: Mapping[Lift, Text] = {}
        if not self.is_over and self._is_planned_anew(entry, record, expected):
            plan, plan_faults = planned(self.known, record, entry)
            if self.has_plan:
                made_at = self.record.plans[entry.id].made_at
                record = replace(record, plans={entry.id: Snapshot(made_at, plan)})
        cards = lift_cards(record, self.rulebook, entry)
        weight, fault = self._weight(record, entry, first_meet=first_meet)
        points = open_points(record, entry, cards, weight, first_meet=first_meet)
        return EntryLook(
            cards=cards,
            expected=expected,
            faults=faults,
            plan_faults=plan_faults,
            weight=weight,
            scores=scores(
                self.rulebook, self.athlete, entry, cards, None if self.is_over else weight.present
            ),
            points=(*fault, *(_told_apart(point, expected) for point in points)),
            classes=self.rulebook.classes(self.athlete.sex, self.meet.starts_on, entry.divisions),
        )

    def _weight(
        self, record: MeetRecord, entry: Entry, *, first_meet: bool
    ) -> tuple[WeightPage, tuple[Text, ...]]:
        """The weight page, and why it is empty where the rulebook has no class for the athlete."""
        try:
            page = weight_page(
                record, self.rulebook, entry, today=self.today, first_meet=first_meet
            )
        except InvalidInput as error:
            present = present_weight(record.weights.get(entry.athlete_id), self.today)
            return WeightPage(present, None, (), None, ()), (error.text,)
        return page, ()

    def _as_typed(
        self, entry: Entry, place: Place, weights: Mapping[AttemptKey, Mass]
    ) -> tuple[MeetRecord, dict[AttemptKey, Text]]:
        """The record as it would be, without the attempts that cannot be chosen, and why not."""
        on_file = self.chosen
        as_typed = {
            key: replace(on_file[key], weight=weight)
            if key in on_file
            else _new_attempt(entry.id, key, weight)
            for key, weight in weights.items()
            if key[0] in entry.event.lifts
        }
        faults: dict[AttemptKey, Text] = {}
        for key, attempt in as_typed.items():
            if key in on_file and on_file[key].weight == attempt.weight:
                continue
            try:
                check_choice(self.rulebook, entry, as_typed.values(), *key, attempt.weight)
            except InvalidInput as error:
                faults[key] = error.text
        kept = tuple(each for key, each in as_typed.items() if key not in faults)
        duties = tuple(
            HandlerDuty(entry_id=entry.id, handler_id=handler_id, role=role)
            for handler_id, role in place.duties
        )
        record = replace(
            self.record,
            entries=(entry,),
            attempts={entry.id: kept},
            duties=duties,
            flights_of_entry={entry.id: place.flight_ids},
        )
        return record, faults

    def _is_planned_anew(
        self, entry: Entry, record: MeetRecord, expected: Mapping[Lift, Forecast]
    ) -> bool:
        """Whether the plan on file does not hold for what is typed, or leaves a lift out.

        A plan for a number on the total takes too long to be made at each letter: it follows when
        what is typed is kept.
        """
        if not self.has_plan:
            return True
        wishes = self.known.training.wishes.get(entry.id)
        if wishes is not None and wishes.aim is DayAim.NUMBER:
            return False
        plan = self.record.plans[entry.id].plan
        before = {key: attempt.weight for key, attempt in self.chosen.items()}
        after = {(each.lift, each.number): each.weight for each in record.attempts[entry.id]}
        is_short = any(plan.of(lift) is None for lift in expected)
        return is_short or before != after or moves_plan(self.entry, entry)


def open_entry(desk: Desk, entry_id: int) -> OpenEntry:
    """Read an entry to look at and edit it; Trouble when it or its rulebook is not there."""
    today = desk.today()
    with desk.reading() as reader:
        entry = reader.get(Entry, entry_id)
        record = read_meet(reader, entry.meet_id, today, only=frozenset({entry_id}))
        rulebook = desk.rulebooks.get(record.meet.rulebook)
        known = read_known(reader, rulebook, record, today)
    return OpenEntry(record, known, rulebook, today)


def _told_apart(point: Text, expected: Mapping[Lift, Forecast]) -> Text:
    """A lift without a plan lacks numbers, or has not been planned yet."""
    has_numbers = any(("lift", text(f"lift.{lift}")) in point.values for lift in expected)
    is_waiting = point.code == "open.no_numbers" and has_numbers
    return Text("open.not_planned", point.values) if is_waiting else point


def _new_attempt(entry_id: int, key: AttemptKey, weight: Mass) -> Attempt:
    """An attempt that is not on file yet."""
    lift, number = key
    return Attempt(id=0, version=0, entry_id=entry_id, lift=lift, number=number, weight=weight)
