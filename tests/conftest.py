"""What tests share: a desk on a real data file, and the words."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import settings

from coachdesk.app.wiring import open_desk
from coachdesk.app.wiring import wording as english
from coachdesk.services.desk import Desk
from coachdesk.wording.wording import Wording

settings.register_profile("same_everywhere", deadline=None, derandomize=True)
settings.load_profile("same_everywhere")

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=ZoneInfo("Europe/Berlin"))


@pytest.fixture(scope="session")
def wording() -> Wording:
    return english()


@pytest.fixture
def desk_at(tmp_path: Path) -> Iterator[Callable[[datetime], Desk]]:
    """Makes a desk on a fresh data file, its clock standing at the given moment."""
    opened: list[Desk] = []

    def make(moment: datetime) -> Desk:
        desk = open_desk(tmp_path / f"desk-{len(opened)}" / "coachdesk.db", lambda: moment)
        opened.append(desk)
        return desk

    yield make
    for desk in opened:
        desk.store.close()


@pytest.fixture
def desk(desk_at: Callable[[datetime], Desk]) -> Desk:
    return desk_at(NOW)
