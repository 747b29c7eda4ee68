"""An athlete's profile as the strings of a form, and back."""

from __future__ import annotations

from collections.abc import Mapping

from coachdesk.domain.athlete import Athlete, AthleteData, LossBar
from coachdesk.domain.lifting import Equipment, Sex
from coachdesk.domain.units import Unit
from coachdesk.services import typed

Values = dict[str, str]

WORDS = (
    *("given_name", "family_name", "member_number"),
    *("squat_rack", "bench_rack", "bench_safety", "bench_foot_blocks"),
    *("squat_cue", "bench_cue", "deadlift_cue"),
    *("email", "phone", "emergency_contact", "health_note", "note"),
)
"""The fields that are words and nothing else."""


def profile_values(athlete: Athlete) -> Values:
    """What stands in the form."""
    return {
        **{name: getattr(athlete, name) for name in WORDS},
        "sex": athlete.sex,
        "birth_date": typed.shown_day(athlete.birth_date),
        "unit": athlete.unit,
        "equipment": athlete.equipment,
        "height_cm": typed.shown_whole(athlete.height_cm),
        "meets_before": typed.shown_whole(athlete.meets_before),
        "loss_bar": athlete.loss_bar,
        "member_until": typed.shown_day(athlete.member_until),
        "bench_lift_off": typed.shown_yes(athlete.bench_lift_off),
    }


def first_values(unit: Unit, name: str) -> Values:
    """What a new athlete's form begins with; the first word of a name is the given one, or the
    last where a comma follows the family name."""
    family, comma, given = (part.strip() for part in name.partition(","))
    if not comma:
        given, _, family = (part.strip() for part in " ".join(name.split()).partition(" "))
    return {
        "given_name": given,
        "family_name": family,
        "sex": "",
        "unit": unit,
        "equipment": "classic",
    }


def profile_data(values: Mapping[str, str]) -> AthleteData:
    """What was typed; fields that are not asked for are as in a new profile.

    Raises InvalidInput for the first field that cannot be read.
    """
    return AthleteData(
        **{name: values.get(name, "") for name in WORDS},
        sex=typed.choice("sex", values["sex"], Sex),
        birth_date=typed.day("birth_date", values["birth_date"]),
        unit=typed.choice("unit", values["unit"], Unit),
        equipment=typed.choice("equipment", values["equipment"], Equipment),
        height_cm=typed.whole("height_cm", values.get("height_cm", "")),
        meets_before=typed.whole("meets_before", values.get("meets_before", "")) or 0,
        loss_bar=typed.choice("loss_bar", values.get("loss_bar", LossBar.NONE), LossBar),
        member_until=typed.day("member_until", values.get("member_until", "")),
        bench_lift_off=typed.yes(values.get("bench_lift_off", "")),
    )
