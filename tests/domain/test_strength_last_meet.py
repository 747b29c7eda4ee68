"""The last meet with usual progress, against recorded figures."""

from __future__ import annotations

import csv
from datetime import date, timedelta
from pathlib import Path

import pytest

from coachdesk.domain.engine_parameters import DEFAULT
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.strength.forecast import Source
from coachdesk.domain.strength.last_meet import MeetBest, from_last_meet, usual_progress
from coachdesk.domain.strength.parameters import AVERAGE, BY_GAP, BY_MEETS
from coachdesk.domain.units import kilograms, pounds

SAMPLE = Path(__file__).parents[1] / "data" / "meet_to_meet.csv"
ON = date(2026, 11, 25)
DAY = DEFAULT.lift_noise.value


def test_usual_progress_is_as_published() -> None:
    """OpenPowerlifting results data (public domain, snapshot of 2024-08-23), classic totals against
    the meet before [seen]: by gap, by meets behind, and in all."""
    assert [(row.upto, row.ratio, row.sd) for row in BY_GAP[:5]] == [
        (60, 1.023, 0.072),
        (120, 1.030, 0.065),
        (180, 1.036, 0.067),
        (270, 1.042, 0.073),
        (450, 1.053, 0.090),
    ]
    assert [(row.upto, row.ratio) for row in BY_MEETS] == [
        (1, 1.067),
        (2, 1.042),
        (3, 1.031),
        (4, 1.024),
        (9, 1.015),
        (None, 1.006),
    ]
    assert [row.sd for row in BY_MEETS[:4]] == [0.094, 0.078, 0.074, 0.073]
    assert (AVERAGE.ratio, AVERAGE.sd) == (1.040, 0.085)


def test_gap_and_meets_together_come_near_what_a_sample_shows() -> None:
    """A sample of 25,813 pairs of the same records [computed]. The spread is meant to be a little
    wider than the robust one of a single lift, for the tails."""
    with SAMPLE.open(encoding="utf-8") as file:
        rows = [[float(value) for value in row] for row in list(csv.reader(file))[1:]]
    assert len(rows) == 25
    off, widths = [], []
    for gap, meets, _pairs, mean, robust in rows:
        ratio, sd = usual_progress(int(gap), int(meets))
        off.append(abs(ratio - mean))
        widths.append(sd / robust)
    assert sum(each < 0.01 for each in off) >= 22
    assert sum(each < 0.005 for each in off) >= 17
    assert all(1.0 <= width < 1.5 for width in widths)


def test_the_forecast_carries_the_best_on_and_counts_the_day_once() -> None:
    """By hand: 100 days and a third meet: 1 + 0.030 x 0.042 / 0.040 = 1.0315 of 200 is 206.3; the
    spread 0.065 x 0.078 / 0.085 = 0.0596 is all there is, the coming day's noise in it."""
    best = MeetBest(kilograms(200), "Harbour Open", ON - timedelta(days=100))
    forecast = from_last_meet(best, on=ON, meets_behind=2, day=DAY)
    assert forecast.source is Source.LAST_MEET
    assert forecast.expected == kilograms("206.3")
    assert forecast.sd == pytest.approx(0.0596, abs=5e-5)
    assert forecast.origin.code == "expected_max.last_meet"


def test_pounds_stay_pounds() -> None:
    best = MeetBest(pounds(405), "Harbour Open", ON - timedelta(days=100))
    assert from_last_meet(best, on=ON, meets_behind=20, day=DAY).expected.unit is pounds(1).unit


@pytest.mark.parametrize(("gap", "meets", "field"), [(0, 1, "gap_days"), (30, 0, "meets_behind")])
def test_a_meet_that_cannot_be_the_last_is_refused(gap: int, meets: int, field: str) -> None:
    with pytest.raises(InvalidInput) as refused:
        usual_progress(gap, meets)
    assert refused.value.field == field
