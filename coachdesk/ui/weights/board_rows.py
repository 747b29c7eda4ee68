"""The weight board in rows: who stands how to the class entered, and what it takes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from coachdesk.domain.class_fit import ClassFit, Pace, Verdict
from coachdesk.domain.text import Value
from coachdesk.domain.units import Percent, from_grams
from coachdesk.services.weight_board import BoardLine
from coachdesk.wording.weight_words import agreed_in_words, week_in_words
from coachdesk.wording.wording import Wording

ROLES = {
    Verdict.NOT_IN_TIME: "bad",
    Verdict.NO_PLAN: "bad",
    Verdict.HARD: "warn",
    Verdict.STEADY: "",
    Verdict.COMFORTABLE: "good",
    Verdict.IN_CLASS: "",
}
"""The colour role of each verdict; the words say the same."""


@dataclass(frozen=True, slots=True)
class BoardRow:
    """How an athlete stands to the class of an entry.

    `levels` [kg] are those of the weeks past and `limit_kg` [kg] the limit, for a small picture.
    `start` is the latest day to begin at the slowest pace still to be had, `line` how the weight
    stands to the way down agreed on, `detail` all of it in sentences, `cautions` what always
    stands.
    """

    id: int
    athlete_id: int
    meet_id: int
    athlete: str
    meet: str
    weight_class: str
    levels: tuple[float, ...] = ()
    limit_kg: float | None = None
    gap: str = ""
    gap_kg: float = 0.0
    change: str = ""
    rate: str = ""
    verdict: str = ""
    role: str = ""
    weeks: str = ""
    start: str = ""
    line: str = ""
    detail: str = ""
    cautions: str = ""
    may_agree: bool = False


def board_row(line: BoardLine, today: date, words: Wording) -> BoardRow:
    """A line of the board in words."""
    standing, fit = line.standing, line.standing.fit
    gap_kg = 0.0 if fit is None or fit.gap_kg is None else fit.gap_kg
    starts = () if fit is None else fit.latest_starts
    ahead = [(day, pace) for pace, day in starts if day >= today]
    limit = None if fit is None else fit.weight_class.limit
    return BoardRow(
        id=line.entry.id,
        athlete_id=line.athlete.id,
        meet_id=line.meet.id,
        athlete=line.athlete.name,
        meet=line.meet.name,
        weight_class=(line.entry.weight_class or "") if fit is None else fit.weight_class.name,
        levels=line.levels,
        limit_kg=None if limit is None else limit.kg,
        gap="" if limit is None else _gap(gap_kg, words),
        gap_kg=gap_kg,
        change=_change(line, words),
        rate=_rate(fit, words),
        verdict=words("today.no_weight") if fit is None else _verdict(fit.verdict, words),
        role="warn" if fit is None else ROLES[fit.verdict],
        weeks="" if fit is None else words.number(max(fit.weeks, 0.0), 1),
        start=_start(*ahead[0], words) if ahead and line.plan is None else "",
        line=line_in_words(line, words),
        detail=detail(line, today, words),
        cautions=" ".join(words.say(caution) for caution in standing.cautions),
        may_agree=fit is not None and fit.verdict.has_way_down,
    )


def line_in_words(line: BoardLine, words: Wording) -> str:
    """How the weight stands to the way down agreed on; empty without one."""
    if line.plan is None:
        return ""
    if line.line is None:
        return words("today.line.no_weight")
    if line.line.behind_since is not None:
        return words("today.line.behind")
    return words("today.line.on")


def detail(line: BoardLine, today: date, words: Wording) -> str:
    """Where the weight stands, what it takes and what a week has changed, in sentences."""
    standing = line.standing
    if standing.present is None:
        return words("today.board.no_weight", name=line.athlete.name)
    if standing.fit is None:
        return words("today.board.no_class", name=line.athlete.name)
    fit = standing.fit
    sentences = [
        standing_in_words(line, fit, words),
        what_it_takes(fit, words),
        *(
            _latest_start(pace, day, today, words)
            for pace, day in fit.latest_starts
            if line.plan is None
        ),
        agreed_in_words(line.plan, line.line, words),
        week_in_words(line.standing.change, fit, words),
        *(words.say(reason) for reason in (*fit.reasons, *fit.notes)),
    ]
    return " ".join(sentence for sentence in sentences if sentence)


def standing_in_words(line: BoardLine, fit: ClassFit, words: Wording) -> str:
    """What the athlete weighs, and how far that is above the class."""
    present = line.standing.present
    if present is None:
        return ""
    said: dict[str, Value] = {
        "name": line.athlete.name,
        "mass": present.mass,
        "readings": words("sheet.weight.readings", count=present.readings),
        "day": present.latest_on,
        "weight_class": fit.weight_class.name,
    }
    if fit.gap_kg is None or fit.verdict is Verdict.IN_CLASS:
        return words("today.board.in_class", **said)
    return words(
        "today.above.standing",
        gap=from_grams(round(fit.gap_kg * 1000)),
        percent=Percent(fit.gap_kg / present.kg * 100),
        **said,
    )


def _rate(fit: ClassFit | None, words: Wording) -> str:
    """What the way down takes a week, where there is one."""
    if fit is None or fit.rate is None or not fit.verdict.has_way_down:
        return ""
    return words.show(fit.rate)


def _gap(kg: float, words: Wording) -> str:
    mass = words.bare_mass(from_grams(round(abs(kg) * 1000)))
    return words("today.change.down", mass=mass) if kg < 0 else mass


def _change(line: BoardLine, words: Wording) -> str:
    change = line.standing.change
    if change is None:
        return ""
    by = from_grams(round(abs(change.kg) * 100) * 10)
    mass = words.bare_mass(by)
    if not by.grams:
        return mass
    return words("today.change.down" if change.kg < 0 else "today.change.up", mass=mass)


def _verdict(verdict: Verdict, words: Wording) -> str:
    """In the table a no is short: the sentences below it say why."""
    if verdict is Verdict.NO_PLAN:
        return words("today.no_plan")
    return words(f"verdict.{verdict}")


def _start(day: date, pace: Pace, words: Wording) -> str:
    month = words(f"date.month.{day.month}")
    return words(
        "today.start_at", day=words.day_of_month(day), month=month, pace=words(f"pace.{pace}")
    )


def _latest_start(pace: Pace, day: date, today: date, words: Wording) -> str:
    code = "sheet.weight.latest_start" if day >= today else "today.start_passed"
    return words(code, pace=words(f"pace.{pace}"), day=day)


def what_it_takes(fit: ClassFit, words: Wording) -> str:
    """What the way down takes; empty in the class, and where there is no plan."""
    if fit.verdict in {Verdict.IN_CLASS, Verdict.NO_PLAN}:
        return ""
    if fit.rate is None:
        return words("today.above.no_time")
    code = "today.above.takes" if fit.verdict.has_way_down else "today.above.too_fast"
    verdict = words(f"verdict.{fit.verdict}")
    return words(code, rate=fit.rate, day=fit.arrive_on, verdict=verdict)
