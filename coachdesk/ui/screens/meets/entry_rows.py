"""The entries of a meet as rows of a table, in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.meet import Attempt, Entry
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.scoring import printed
from coachdesk.domain.units import Mass
from coachdesk.services.meet_page import EntryLine
from coachdesk.ui.loading_words import typed_weight
from coachdesk.wording.wording import Wording

NUMBERS = (1, 2, 3)
RESULT_ROLES = {Result.GOOD: "good", Result.NO_LIFT: "bad"}


@dataclass(frozen=True, slots=True)
class AttemptShown:
    """An attempt in a cell: in brackets while it is only planned, with what became of it."""

    shown: str = ""
    typed: str = ""
    grams: int | None = None
    role: str = ""
    attempt: Attempt | None = None


@dataclass(frozen=True, slots=True)
class EntryRow:
    """An entry in words, and the values it is sorted by."""

    entry: Entry
    athlete: str
    by_name: str
    weight_class: str
    by_class: tuple[str, int]
    divisions: str
    lot: str
    session: str
    by_session: str
    flights: str
    attempts: Mapping[tuple[Lift, int], AttemptShown]
    total: str
    by_total: int | None
    total_about: str
    score: str
    by_score: float | None
    formula: str
    points: tuple[str, ...]
    state: str
    fault: str

    @property
    def id(self) -> int:
        """The entry's id."""
        return self.entry.id


def entry_row(line: EntryLine, rulebook: Rulebook | None, words: Wording) -> EntryRow:
    """One entry; `words` speak in the meet's unit."""
    entry, athlete = line.entry, line.athlete
    flights = [(flight.lift, flight.name) for flight in line.flights]
    unknown = words("sheet.unknown")
    return EntryRow(
        entry=entry,
        athlete=athlete.name,
        by_name=f"{athlete.family_name} {athlete.given_name}".casefold(),
        weight_class=words.show(entry.weight_class or unknown),
        by_class=(athlete.sex, _class_order(line, rulebook)),
        divisions=words.show(tuple(division_name(key, rulebook) for key in entry.divisions)),
        lot="" if entry.lot is None else str(entry.lot),
        session="" if line.session is None else line.session.name,
        by_session="" if line.session is None else line.session.starts_at.isoformat(),
        flights=flights_in_words(flights, words),
        attempts=_attempts(line, words),
        total=unknown if line.total is None else words.bare_mass(line.total),
        by_total=None if line.total is None else line.total.grams,
        total_about=words("meets.total.made" if line.is_made else "meets.total.planned"),
        score=unknown if line.score is None else words.number(printed(line.score)),
        by_score=line.score,
        formula="" if rulebook is None else words(f"formula.{rulebook.best_lifter}"),
        points=tuple(words.say(point) for point in line.points),
        state=words("meets.withdrawn") if entry.withdrawn else "",
        fault="" if line.fault is None else words.say(line.fault),
    )


def division_name(key: str, rulebook: Rulebook | None) -> str:
    """What a division is called; its key where the rulebook does not know it."""
    divisions = () if rulebook is None else rulebook.divisions
    return next((each.name for each in divisions if each.key == key), key)


def flights_in_words(flights: Sequence[tuple[Lift, str]], words: Wording) -> str:
    """Flights by lift; the name alone where all lifts have the same one."""
    names = {name for _, name in flights}
    if len(names) == 1 and len(flights) > 1:
        return names.pop()
    return words.show(
        tuple(
            words("meets.flight_of", lift=words(f"lift.{lift}"), name=name)
            for lift, name in flights
        )
    )


def _attempts(line: EntryLine, words: Wording) -> dict[tuple[Lift, int], AttemptShown]:
    return {
        (lift, number): _attempt(chosen.get(number), line.planned.get(lift, ()), number, words)
        for lift, chosen in line.chosen.items()
        for number in NUMBERS
    }


def _attempt(
    attempt: Attempt | None, path: Sequence[Mass], number: int, words: Wording
) -> AttemptShown:
    if attempt is None:
        if number > len(path):
            return AttemptShown()
        weight = path[number - 1]
        shown = words("sheet.team.planned", weight=words.bare_mass(weight))
        return AttemptShown(shown, grams=weight.grams, role="quiet")
    shown, role = words.bare_mass(attempt.weight), ""
    if attempt.result is not None:
        mark = words(f"meets.mark.{attempt.result}")
        shown = words("meets.attempt.with_result", weight=shown, mark=mark)
        role = RESULT_ROLES.get(attempt.result, "warn")
    typed = typed_weight(attempt.weight, words.unit)
    return AttemptShown(shown, typed, attempt.weight.grams, role, attempt)


def _class_order(line: EntryLine, rulebook: Rulebook | None) -> int:
    """The place of the class among those of the athlete's sex; -1 where there is none."""
    for class_set in () if rulebook is None else rulebook.class_sets:
        names = [each.name for each in class_set.classes]
        if class_set.sex is line.athlete.sex and line.entry.weight_class in names:
            return names.index(line.entry.weight_class)
    return -1
