"""Planned sets on one line, in the shorthand of the trade.

    sets x repetitions [how heavy] [how hard] [judged] [(note)]

Sets come first (common practice: "5x3" are five sets of three); "x", "×" and "*" mean the same, and
capitals do not matter. How heavy is a per cent of the training maximum ("80%") or a weight ("100",
"100 kg", "225 lb"; a number alone is in the athlete's unit). How hard is an RPE from 5 to 10 in
half steps ("RPE 8", "@8") or repetitions in reserve from 0 to 10 ("2 RIR"). An "at" sign may stand
before any of them; before a number alone it means RPE up to 10 and a weight above, since nothing
on a bar weighs 10. "judged", or "j", are singles commanded and called as a referee would. A note
to the athlete stands in brackets at the end ("(pause 2 s)") and may hold anything but brackets.
Decimals take a point or a comma. Several prescriptions are parted by ";" or by a line break.

A weight before sets ("100x5x3") is refused: others write the same as sets, repetitions and weight,
and 5x5x100 could be either.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TypeAlias

from coachdesk.domain.checks import MOST_REPS, check_lifted
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.one_rep_max import LOWEST_RPE, rir_of_rpe, rpe_of_rir
from coachdesk.domain.text import Text, text
from coachdesk.domain.training import ExerciseData, PlannedSetData
from coachdesk.domain.units import Mass, Percent, Unit, parse_mass, parse_number

FIELD = "cell"
MOST_SETS = 50
MOST_PERCENT = 120.0
"""Above that it is a slip of the keys (our own caution): partial lifts stay below."""
MOST_RIR = 10.0
MOST_LINES = 12
LONGEST_NOTE = 200

_BETWEEN = re.compile(r"[;\n\r]+(?![^()]*\))")
_NOTE = re.compile(r"\(([^()]*)\)$")
_HEAD = re.compile(r"(\d{1,4})\s*[x×*]\s*(\d{1,4})(?=$|[\s@])", re.IGNORECASE)
_THREE = re.compile(r"[\d.,]+\s*(?:kg|lbs?)?\s*[x×*]\s*\d+\s*[x×*]\s*[\d.,]+", re.IGNORECASE)
_N = r"(\d{1,4}(?:[.,]\d{1,3})?)"
_END = r"(?=$|[\s@])"
_MARKS = tuple(
    (kind, re.compile(rf"(?:@\s*)?(?:{shape}){_END}", re.IGNORECASE))
    for kind, shape in (
        ("percent", rf"{_N}\s*%"),
        ("rpe", rf"RPE\s*@?\s*{_N}|{_N}\s*RPE(?!\s*@?\s*\d)"),
        ("rir", rf"RIR\s*{_N}|{_N}\s*RIR(?!\s*\d)"),
        ("mass", rf"{_N}\s*(?:kg|lbs?)"),
        ("judged", r"judged|j"),
        ("number", _N),
    )
)


@dataclass(frozen=True, slots=True)
class Prescription:
    """So many equal sets: `percent` [%] of the training maximum or a `weight`, never both.

    `rir` are repetitions in reserve, 0 to 10 in half steps; `judged` are singles; `note` is said to
    the athlete.
    """

    sets: int
    reps: int
    percent: float | None = None
    weight: Mass | None = None
    rir: float | None = None
    judged: bool = False
    note: str = ""


Prescribed: TypeAlias = Prescription | PlannedSetData
"""What says how sets are to be lifted, with its place in a block or without."""


def prescription_of(planned: Prescribed) -> Prescription:
    """What a planned set on file prescribes, without its place."""
    return Prescription(
        planned.sets, planned.reps, planned.percent, planned.weight, planned.rir, planned.judged,
        planned.note,
    )  # fmt: skip


def bare(planned: Prescribed) -> Prescription:
    """What is prescribed without the note beside it."""
    return replace(prescription_of(planned), note="")


def read_prescriptions(typed: str, unit: Unit) -> tuple[Prescription, ...]:
    """The sets of one cell of a block's grid; none for empty text. Bare weights are in `unit`.

    Raises InvalidInput (field "cell") that says what is not understood.
    """
    lines = [line.strip() for line in _BETWEEN.split(typed) if line.strip()]
    if len(lines) > MOST_LINES:
        raise _fault("cell.too_many", most=MOST_LINES)
    return tuple(_read(line, unit) for line in lines)


def show_prescription(planned: Prescribed, unit: Unit | None) -> str:
    """What `read_prescriptions` reads. Weights in `unit` stand without
    it; None names every unit."""
    parts = [f"{planned.sets}x{planned.reps}"]
    if planned.percent is not None:
        parts.append(f"{plain(planned.percent)}%")
    if planned.weight is not None:
        number = plain(planned.weight.number)
        parts.append(number if planned.weight.unit is unit else f"{number} {planned.weight.unit}")
    if planned.rir is not None:
        parts.append(_effort(planned.rir))
    if planned.judged:
        parts.append("judged")
    if planned.note:
        parts.append(f"({planned.note})")
    return " ".join(parts)


def show_cell(planned: Iterable[Prescribed], unit: Unit | None) -> str:
    """All sets of a cell on one line."""
    return "; ".join(show_prescription(each, unit) for each in planned)


def as_made(planned: Prescribed) -> str:
    """What a laid out set keeps of how it was made: a note beside it is no part of that."""
    return show_prescription(bare(planned), None)


def made_in(planned: Iterable[PlannedSetData]) -> str:
    """What the generator wrote in a cell; empty where it wrote nothing."""
    return "; ".join(each.made for each in planned if each.made)


def in_full(planned: Prescribed) -> Text:
    """A prescription in full words."""
    how: list[Text] = []
    if planned.percent is not None:
        how.append(text("cell.at_percent", percent=_percent(planned.percent)))
    if planned.weight is not None:
        how.append(text("cell.at_weight", weight=planned.weight))
    if planned.rir is not None:
        how.append(_effort_in_full(planned.rir))
    if planned.judged:
        how.append(text("cell.judged"))
    sets = text("cell.sets", count=planned.sets)
    reps = text("cell.reps", count=planned.reps)
    return text("cell.full", how=tuple(how) or (text("cell.weight_open"),), reps=reps, sets=sets)


def exercise_name(exercise: ExerciseData) -> Text:
    """The lift, and the variation where it is one."""
    lift = text(f"lift.{exercise.lift}")
    if not exercise.variation:
        return lift
    return text("roster.lift_variation", lift=lift, variation=exercise.variation)


def plain(number: float | Decimal) -> str:
    """A number as it is typed, without needless zeros: 80, 77.5, 100."""
    shown = f"{Decimal(str(number)):f}"
    return shown.rstrip("0").rstrip(".") if "." in shown else shown


def _effort(rir: float) -> str:
    if rir <= 10 - LOWEST_RPE:
        return f"RPE {plain(rpe_of_rir(rir))}"
    return f"{plain(rir)} RIR"


def _effort_in_full(rir: float) -> Text:
    if rir <= 10 - LOWEST_RPE:
        return text("cell.at_rpe", rpe=plain(rpe_of_rir(rir)), reserve=plain(rir))
    return text("cell.at_rir", reserve=plain(rir))


def _percent(value: float) -> Percent:
    decimals = plain(value).partition(".")[2]
    return Percent(value, min(len(decimals), 2))


def _read(line: str, unit: Unit) -> Prescription:
    said, note = _parted(line)
    head = _HEAD.match(said)
    if head is None or _THREE.match(said):
        raise _fault("cell.weight_first" if _THREE.match(said) else "cell.no_sets", line=line)
    sets, reps = int(head[1]), int(head[2])
    if not 1 <= sets <= MOST_SETS:
        raise _fault("cell.sets_range", most=MOST_SETS)
    if not 1 <= reps <= MOST_REPS:
        raise _fault("cell.reps_range", most=MOST_REPS)
    found = _marks(said[head.end() :], unit)
    if found.judged and reps > 1:
        raise _fault("cell.judged_reps")
    return Prescription(sets, reps, found.percent, found.weight, found.rir, found.judged, note)


def _parted(line: str) -> tuple[str, str]:
    """The sets, and the note in brackets at the end."""
    found = _NOTE.search(line)
    sets, note = (line[: found.start()], " ".join(found[1].split())) if found else (line, "")
    if "(" in sets or ")" in sets:
        raise _fault("cell.note_brackets")
    if len(note) > LONGEST_NOTE:
        raise _fault("check.too_long", count=LONGEST_NOTE)
    return sets.strip(), note


@dataclass(slots=True)
class _Found:
    percent: float | None = None
    weight: Mass | None = None
    rir: float | None = None
    judged: bool = False


def _marks(rest: str, unit: Unit) -> _Found:
    found = _Found()
    left = rest.strip()
    while left:
        kind, number, mark = _first_mark(left)
        left = left[len(mark) :].strip()
        if kind == "judged":
            found.judged = True
        elif kind in {"rpe", "rir"}:
            if found.rir is not None:
                raise _fault("cell.effort_twice")
            found.rir = _EFFORT[kind](float(parse_number(number)))
        else:
            if found.percent is not None or found.weight is not None:
                raise _fault("cell.weight_twice")
            if kind == "percent":
                found.percent = _read_percent(number)
            else:
                found.weight = parse_mass(mark.lstrip("@"), unit)
                check_lifted(FIELD, found.weight)
    return found


def _first_mark(left: str) -> tuple[str, str, str]:
    """The kind of the first mark, its number and the mark itself."""
    for kind, shape in _MARKS:
        if found := shape.match(left):
            number = next((group for group in found.groups() if group), "")
            at_sign = kind == "number" and left.startswith("@")
            as_rpe = at_sign and parse_number(number) <= 10
            return "rpe" if as_rpe else kind, number, found[0]
    raise _fault("cell.unreadable", mark=left.split(maxsplit=1)[0])


def _read_percent(number: str) -> float:
    percent = float(parse_number(number))
    if not 0 < percent <= MOST_PERCENT:
        raise _fault("cell.percent_range", most=Percent(MOST_PERCENT, 0))
    return percent


def _read_rpe(rpe: float) -> float:
    if not (LOWEST_RPE <= rpe <= 10 and (rpe * 2).is_integer()):
        raise _fault("cell.rpe_range", lowest=plain(LOWEST_RPE))
    return rir_of_rpe(rpe)


def _read_rir(rir: float) -> float:
    if not (rir <= MOST_RIR and (rir * 2).is_integer()):
        raise _fault("cell.rir_range", most=int(MOST_RIR))
    return rir


_EFFORT: dict[str, Callable[[float], float]] = {"rpe": _read_rpe, "rir": _read_rir}


def _fault(code: str, **values: str | int | Percent) -> InvalidInput:
    return InvalidInput(FIELD, text(code, **values))
