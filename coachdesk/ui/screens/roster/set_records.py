"""An athlete's logged sets without Qt: shown by day, typed, mended, deleted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.text import text
from coachdesk.domain.training import LoggedSet, LoggedSetData
from coachdesk.services import roster_reading, training, typed
from coachdesk.services.desk import Desk, Done
from coachdesk.ui.athletes.profile_values import Values
from coachdesk.ui.weights.day_words import short_day
from coachdesk.wording.wording import Wording

FIRST_SHOWN = 100
MOST_AT_ONCE = 20
JUDGED = (Result.GOOD, Result.NO_LIFT)


@dataclass(frozen=True, slots=True)
class SetRow:
    """A logged set in words."""

    logged: LoggedSet
    day: str
    lift: str
    weight: str
    reps: str
    rir: str
    call: str
    note: str


class SetRecords:
    """The logged sets of one athlete. `words` shows masses in the athlete's own unit."""

    def __init__(self, desk: Desk, words: Wording, athlete: Athlete) -> None:
        self._desk = desk
        self._words = words
        self._athlete = athlete
        self._cause_words = {
            cause.code: words.say(cause.label)
            for lift in Lift
            for cause in training.causes_of(desk, lift)
        }

    @property
    def unit(self) -> str:
        """The unit weights are shown in, and taken for where none is typed."""
        return self._athlete.unit

    def rows(self, *, everything: bool) -> tuple[tuple[SetRow, ...], int]:
        """The latest sets, or all of them; and how many there are."""
        limit = None if everything else FIRST_SHOWN
        found, of = roster_reading.logged_sets(self._desk, self._athlete.id, limit)
        return tuple(self._row(logged) for logged in found), of

    def causes(self, lift: str) -> tuple[tuple[str, str], ...]:
        """The causes of no lift to choose from, each with its words; none first."""
        if lift not in set(Lift):
            return (("", self._words("roster.cause.none")),)
        found = training.causes_of(self._desk, Lift(lift))
        return (
            ("", self._words("roster.cause.none")),
            *((cause.code, self._words.say(cause.label)) for cause in found),
        )

    def new_values(self) -> Values:
        """What a new set begins with: today, one set, not judged."""
        return {
            "on": typed.shown_day(self._desk.today()),
            "lift": Lift.SQUAT,
            "variation": "",
            "weight": "",
            "reps": "",
            "sets": "1",
            "rir": "",
            "result": "",
            "cause": "",
            "note": "",
        }

    def values(self, logged: LoggedSet) -> Values:
        """A set as the strings of its form."""
        return {
            "on": typed.shown_day(logged.on),
            "lift": logged.lift,
            "variation": logged.variation,
            "weight": typed.shown_mass(logged.weight),
            "reps": typed.shown_whole(logged.reps),
            "rir": "" if logged.rir is None else f"{logged.rir:g}",
            "result": logged.result or "" if logged.judged else "",
            "cause": logged.cause,
            "note": logged.note,
        }

    def add(self, values: Mapping[str, str]) -> Done[None]:
        """Log what was typed, as many equal sets as were done."""
        many = typed.whole("sets", values["sets"])
        if many is None or not 1 <= many <= MOST_AT_ONCE:
            raise InvalidInput("sets", text("roster.sets.how_many", most=MOST_AT_ONCE))
        data = self._data(values)
        if data.judged and many > 1:
            raise InvalidInput("sets", text("roster.sets.one_judged"))
        return training.log_sets(self._desk, [data] * many)

    def edit(self, seen: LoggedSet, values: Mapping[str, str]) -> Done[None]:
        """Change a set to what was typed; its block stays."""
        return training.edit_set(self._desk, seen, self._data(values, seen.block_id))

    def delete(self, many: Sequence[LoggedSet]) -> Done[None]:
        """Delete sets."""
        return training.delete_sets(self._desk, many)

    def _data(self, values: Mapping[str, str], block_id: int | None = None) -> LoggedSetData:
        reps = typed.whole("reps", values["reps"])
        if reps is None:
            raise InvalidInput("reps", text("check.required"))
        rir = typed.number("rir", values["rir"])
        result = typed.choice("result", values["result"], Result) if values["result"] else None
        return LoggedSetData(
            athlete_id=self._athlete.id,
            on=typed.required_day("on", values["on"]),
            lift=typed.choice("lift", values["lift"], Lift),
            variation=values["variation"],
            weight=typed.required_mass("weight", values["weight"], self._athlete.unit),
            reps=reps,
            rir=None if rir is None else float(rir),
            judged=result is not None,
            result=result,
            cause=values["cause"],
            block_id=block_id,
            note=values["note"],
        )

    def _row(self, logged: LoggedSet) -> SetRow:
        words = self._words
        lift = words(f"lift.{logged.lift}")
        if logged.variation:
            lift = words("roster.lift_variation", lift=lift, variation=logged.variation)
        return SetRow(
            logged=logged,
            day=short_day(words, logged.on),
            lift=lift,
            weight=words.bare_mass(logged.weight),
            reps=str(logged.reps),
            rir="" if logged.rir is None else words.number(logged.rir, 1),
            call=self._call(logged),
            note=logged.note,
        )

    def _call(self, logged: LoggedSet) -> str:
        if logged.result not in JUDGED:
            return ""
        called = self._words(f"outcome.{logged.result}")
        if not logged.cause:
            return called
        cause = self._cause_words.get(logged.cause, logged.cause)
        return self._words("roster.call", called=called, cause=cause)
