"""Age factors for relative scores: multiply them on after the bodyweight formula.

References
----------
[1] Foster's coefficients for ages 14-23: the range was read on a state federation's formula page,
    the figures are [recalled].
[2] McCulloch's coefficients for ages 40-90: figures [recalled]; those for 40, 45, 50, 55 and 60
    matched an excerpt. An older version of the table exists and differs.
"""

from __future__ import annotations

from enum import StrEnum

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text


class AgeTable(StrEnum):
    """The table an age factor stands in."""

    FOSTER = "foster"
    MC_CULLOCH = "mc_culloch"


_FOSTER_FROM = 14
_FOSTER = (1.23, 1.18, 1.13, 1.08, 1.06, 1.04, 1.03, 1.02, 1.01, 1.00)

_MC_CULLOCH_FROM = 40
_MC_CULLOCH = (
    *(1.000, 1.010, 1.020, 1.031, 1.043, 1.055, 1.068, 1.082, 1.097, 1.113),  # 40-49
    *(1.130, 1.147, 1.165, 1.184, 1.204, 1.225, 1.246, 1.268, 1.291, 1.315),  # 50-59
    *(1.340, 1.366, 1.393, 1.421, 1.450, 1.480, 1.511, 1.543, 1.576, 1.610),  # 60-69
    *(1.645, 1.681, 1.718, 1.756, 1.795, 1.835, 1.876, 1.918, 1.961, 2.005),  # 70-79
    *(2.050, 2.096, 2.143, 2.190, 2.238, 2.287, 2.337, 2.388, 2.440, 2.494),  # 80-89
    2.549,  # 90
)


def age_factor(age_years: int) -> float | None:
    """The factor for an age [years]: Foster 14-23 [1], 1 for 24-39, McCulloch from 40 [2].

    Which age counts (on the day, or in the calendar year) is the rulebook's matter. Below 14 no
    factor was published and the answer is None: there is no age-adjusted score, rather than a
    wrong one. McCulloch's table ends at 90; older lifters get its last factor, which is our own
    choice and understates them. Raises InvalidInput (field `age`) for an age below zero.
    """
    if age_years < 0:
        raise InvalidInput("age", text("age_factors.age_negative"))
    if age_years < _FOSTER_FROM:
        return None
    if age_years < _FOSTER_FROM + len(_FOSTER):
        return _FOSTER[age_years - _FOSTER_FROM]
    if age_years < _MC_CULLOCH_FROM:
        return 1.0
    return _MC_CULLOCH[min(age_years - _MC_CULLOCH_FROM, len(_MC_CULLOCH) - 1)]


def age_table(age_years: int) -> AgeTable | None:
    """The table that the factor for an age [years] stands in; None where no factor is needed or
    none was published."""
    if _FOSTER_FROM <= age_years < _FOSTER_FROM + len(_FOSTER):
        return AgeTable.FOSTER
    return AgeTable.MC_CULLOCH if age_years >= _MC_CULLOCH_FROM else None
