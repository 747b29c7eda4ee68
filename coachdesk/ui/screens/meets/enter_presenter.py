"""Entering several athletes at once, without Qt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Event
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import text
from coachdesk.services import meets
from coachdesk.services.desk import Desk, Done
from coachdesk.services.entry_defaults import Default, candidates_of, default_entries
from coachdesk.services.roster import add_athlete
from coachdesk.ui.athletes.profile_values import Values, profile_data
from coachdesk.ui.screens.meets.entry_rows import division_name
from coachdesk.wording.folding import folded
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class CandidateRow:
    """An athlete who can be entered."""

    id: int
    words: str
    folded: str


@dataclass(frozen=True, slots=True)
class EnteringLine:
    """How an athlete would be entered, or why that cannot be."""

    words: str
    can_be: bool


class EnterPresenter:
    """Who can be entered to a meet, and with what."""

    def __init__(self, desk: Desk, words: Wording, meet_id: int, rulebook: Rulebook) -> None:
        self._desk = desk
        self._words = words
        self._meet_id = meet_id
        self._rulebook = rulebook
        self._candidates: tuple[CandidateRow, ...] = ()
        self._read()

    def add(self, values: Values) -> Done[int]:
        """Put somebody new on the roster; answers the id."""
        added = add_athlete(self._desk, profile_data(values))
        self._read()
        return added

    def _read(self) -> None:
        words = self._words
        self._candidates = tuple(
            CandidateRow(
                each.athlete.id,
                words("meets.enter.again", name=each.athlete.name)
                if each.is_entered
                else each.athlete.name,
                folded(each.athlete.name),
            )
            for each in candidates_of(self._desk, self._meet_id)
        )

    def found(self, looked_for: str) -> tuple[CandidateRow, ...]:
        """The athletes whose names hold all words looked for, by name."""
        wanted = folded(looked_for).split()
        return tuple(
            each for each in self._candidates if all(word in each.folded for word in wanted)
        )

    def event_choices(self) -> list[tuple[str, str]]:
        """The events the meet's rulebook has, after the one each athlete lifted last."""
        last = ("", self._words("meets.enter.event_last"))
        events = self._rulebook.events
        return [last, *((event.value, self._words(f"event.{event}")) for event in events)]

    def lines(self, athlete_ids: Sequence[int], event: str) -> tuple[EnteringLine, ...]:
        """How these athletes would be entered, a line each."""
        return tuple(self._line(each) for each in self._defaults(athlete_ids, event))

    def enter(self, athlete_ids: Sequence[int], event: str) -> Done[tuple[int, ...]]:
        """Enter these athletes, all of them or none; answers the entries' ids."""
        if not athlete_ids:
            raise InvalidInput("athletes", text("meets.enter.nobody"))
        defaults = self._defaults(athlete_ids, event)
        for each in defaults:
            if each.fault is not None:
                raise InvalidInput("athletes", each.fault)
        return meets.enter_athletes(self._desk, [each.data for each in defaults])

    def _defaults(self, athlete_ids: Sequence[int], event: str) -> tuple[Default, ...]:
        chosen = Event(event) if event else None
        return default_entries(self._desk, self._meet_id, athlete_ids, chosen)

    def _line(self, default: Default) -> EnteringLine:
        words, data = self._words, default.data
        if default.fault is not None:
            return EnteringLine(words.say(default.fault), can_be=False)
        weight_class = (
            words("sheet.class_open")
            if data.weight_class is None
            else words("sheet.class", name=data.weight_class)
        )
        parts = (
            words(f"event.{data.event}"),
            words(f"equipment.{data.equipment}"),
            *(division_name(key, self._rulebook) for key in data.divisions),
            weight_class,
        )
        line = words("meets.enter.line", name=default.athlete.name, parts=parts)
        return EnteringLine(line, can_be=True)
