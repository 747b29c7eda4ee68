"""Speed of printing and planning, beside a baseline in the same run; reported, never gating.

Run with `pytest -n0 --benchmark-enable tests/bench/bench_packets.py`.
"""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from coachdesk.app import paths
from coachdesk.app.demo.club import seed
from coachdesk.app.print_meet import print_meet
from coachdesk.app.wiring import open_desk
from coachdesk.services.desk import Desk
from coachdesk.services.meets import upcoming_meets
from coachdesk.services.planning import plan_meet
from coachdesk.services.print_choice import PrintChoice
from coachdesk.wording.wording import Wording
from tests.bench.marks import recorded

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=ZoneInfo("Europe/Berlin"))


@pytest.fixture(scope="module")
def club(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    desk = open_desk(tmp_path_factory.mktemp("bench") / "coachdesk.db", lambda: NOW)
    file = paths.resources() / "demo" / "club.toml"
    seed(desk, file.read_bytes(), file.name)
    return desk


def test_baseline_the_same_marks_drawn_straight_on_canvases(
    benchmark: BenchmarkFixture, club: Desk, wording: Wording, tmp_path: Path
) -> None:
    """Printing is to take three times as long at most."""
    meet = upcoming_meets(club)[-1]
    with recorded() as marks:
        print_meet(club, meet.id, tmp_path, PrintChoice("a4"), wording)
    assert marks.pages > len(marks.documents) > 3
    benchmark(marks.draw)


def test_planning_a_meet(benchmark: BenchmarkFixture, club: Desk) -> None:
    meet = upcoming_meets(club)[-1]
    benchmark(lambda: plan_meet(club, meet.id))


def test_printing_a_meet(
    benchmark: BenchmarkFixture, club: Desk, wording: Wording, tmp_path: Path
) -> None:
    meet = upcoming_meets(club)[-1]
    benchmark(lambda: print_meet(club, meet.id, tmp_path, PrintChoice("a4"), wording))
