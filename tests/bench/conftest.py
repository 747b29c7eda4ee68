"""What benchmarks share: a data file far larger than any coach's."""

from __future__ import annotations

from pathlib import Path

import pytest

from coachdesk.app.wiring import open_desk
from coachdesk.services.states import keep_bodyweights
from tests.bench.large_club import fill


@pytest.fixture(scope="session")
def data_file(tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest) -> Path:
    """Two hundred athletes and five years where speed is measured, a handful otherwise."""
    file = tmp_path_factory.mktemp("large") / "coachdesk.db"
    desk = open_desk(file)
    measured = request.config.getoption("--benchmark-enable")
    athletes, years = (200, 5) if measured else (4, 1)
    fill(desk, athletes=athletes, years=years, readings_a_week=3, sets_a_week=9)
    keep_bodyweights(desk)  # as the desk does while it is open
    desk.store.close()
    return file
