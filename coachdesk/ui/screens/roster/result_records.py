"""An athlete's past results without Qt: shown as a result sheet has them, typed and mended."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.history import bombed_lift, total_grams
from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.scoring import Formula
from coachdesk.domain.text import text
from coachdesk.domain.units import Unit, from_grams
from coachdesk.services import results, roster_reading, typed
from coachdesk.services.attempt_notation import read_attempts, write_attempts
from coachdesk.services.desk import Desk, Done
from coachdesk.services.entry_defaults import default_divisions
from coachdesk.services.results import PastResult, ResultData
from coachdesk.ui.athletes.profile_values import Values
from coachdesk.ui.weights.day_words import short_day
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class ResultRow:
    """A result in words; weights in the meet's unit."""

    result: PastResult
    day: str
    meet: str
    total: str
    points: str
    squat: str
    bench: str
    deadlift: str
    bodyweight: str
    weight_class: str
    place: str
    by_total: int | None
    by_points: Decimal | None


class ResultRecords:
    """The results of one athlete, scored by the coach's formula."""

    def __init__(self, desk: Desk, words: Wording, athlete: Athlete, formula: Formula) -> None:
        self._desk = desk
        self._words = words
        self._athlete = athlete
        self._formula = formula

    @property
    def formula(self) -> str:
        """The name of the formula."""
        return self._words(f"formula.{self._formula}")

    def rows(self) -> tuple[ResultRow, ...]:
        """All results, latest first."""
        found = roster_reading.past_results(self._desk, self._athlete.id)
        return tuple(self._row(result) for result in found)

    def rulebooks(self) -> tuple[tuple[str, str], ...]:
        """The rulebooks to choose from."""
        books = self._desk.rulebooks.books
        return tuple((key, book.name) for key, book in sorted(books.items()))

    def divisions(self, rulebook: str) -> tuple[tuple[str, str], ...]:
        """The divisions of a rulebook."""
        book = self._desk.rulebooks.books.get(rulebook)
        return () if book is None else tuple((each.key, each.name) for each in book.divisions)

    def new_values(self) -> Values:
        """What a new result begins with: the rulebook and event of the latest one."""
        found = roster_reading.past_results(self._desk, self._athlete.id)
        offered = [key for key, _ in self.rulebooks()]
        rulebook = found[0].meet.rulebook if found else next(iter(offered), "")
        book = self._desk.rulebooks.books.get(rulebook)
        today = self._desk.today()
        divisions = () if book is None else default_divisions(self._athlete.birth_date, today, book)
        return {
            "meet": "",
            "on": "",
            "rulebook": rulebook,
            "event": found[0].entry.event if found else Event.THREE_LIFT,
            "equipment": self._athlete.equipment,
            "divisions": "\n".join(divisions),
            "weight_class": "",
            "bodyweight": "",
            "place": "",
            "note": "",
            **{str(lift): "" for lift in Lift},
        }

    def values(self, result: PastResult) -> Values:
        """A result as the strings of its form."""
        entry, unit = result.entry, roster_reading.meet_unit(self._desk, result.meet.rulebook)
        return {
            "meet": result.meet.name,
            "on": typed.shown_day(result.meet.starts_on),
            "rulebook": result.meet.rulebook,
            "event": entry.event,
            "equipment": entry.equipment,
            "divisions": "\n".join(entry.divisions),
            "weight_class": entry.weight_class or "",
            "bodyweight": typed.shown_mass(entry.bodyweight),
            "place": typed.shown_whole(entry.place),
            "note": entry.note,
            **{str(lift): write_attempts(result.attempts, lift, unit) for lift in Lift},
        }

    def add(self, values: Mapping[str, str]) -> Done[int]:
        """Put what was typed on file; answers the entry's id."""
        return results.add_result(self._desk, self._data(values))

    def edit(self, seen: PastResult, values: Mapping[str, str]) -> Done[None]:
        """Change a result to what was typed."""
        return results.edit_result(self._desk, seen, self._data(values))

    def delete(self, seen: PastResult) -> Done[None]:
        """Delete a result."""
        return results.delete_result(self._desk, seen)

    def goes_along(self, result: PastResult) -> str:
        """What goes with a result that is deleted: its attempts, and the meet if it is alone."""
        parts = [text("roster.goes.attempts", count=len(result.attempts))]
        if roster_reading.is_alone(self._desk, result):
            parts.append(text("roster.goes.meet"))
        return self._words("roster.goes", what=tuple(parts))

    def _data(self, values: Mapping[str, str]) -> ResultData:
        unit = roster_reading.meet_unit(self._desk, values["rulebook"])
        return ResultData(
            athlete_id=self._athlete.id,
            meet=values["meet"],
            on=typed.required_day("on", values["on"]),
            rulebook=values["rulebook"],
            event=typed.choice("event", values["event"], Event),
            equipment=typed.choice("equipment", values["equipment"], Equipment),
            divisions=tuple(each for each in values["divisions"].split("\n") if each),
            weight_class=values["weight_class"] or None,
            bodyweight=typed.mass("bodyweight", values["bodyweight"], unit),
            place=typed.whole("place", values["place"]),
            note=values["note"],
            called={lift: read_attempts(lift, values[lift], unit) for lift in Lift},
        )

    def _row(self, result: PastResult) -> ResultRow:
        words, entry = self._words, result.entry
        unit = roster_reading.meet_unit(self._desk, result.meet.rulebook)
        total_g = total_grams(result.attempts, entry.event)
        points = roster_reading.points(result, self._athlete, self._formula)
        bodyweight = entry.bodyweight
        return ResultRow(
            result=result,
            day=short_day(words, result.meet.starts_on),
            meet=result.meet.name,
            total=self._total(result, total_g, unit),
            points="" if points is None else words.number(points),
            squat=_shown(result, Lift.SQUAT, unit, words),
            bench=_shown(result, Lift.BENCH, unit, words),
            deadlift=_shown(result, Lift.DEADLIFT, unit, words),
            bodyweight="" if bodyweight is None else words.mass(bodyweight, unit),
            weight_class=words.show(entry.weight_class or ""),
            place="" if entry.place is None else str(entry.place),
            by_total=total_g,
            by_points=points,
        )

    def _total(self, result: PastResult, total_g: int | None, unit: Unit) -> str:
        if total_g is not None:
            return self._words.mass(from_grams(total_g, unit), unit)
        bombed = bombed_lift(result.attempts, result.entry.event)
        if bombed is None:
            return ""
        return self._words("roster.bombed", lift=text(f"lift.{bombed}"))


def _shown(result: PastResult, lift: Lift, unit: Unit, words: Wording) -> str:
    """The attempts of a lift on one line."""
    return " ".join(map(words.show, write_attempts(result.attempts, lift, unit).split(" ")))
