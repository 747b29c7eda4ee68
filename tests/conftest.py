"""What tests share: a desk on a real data file, and the words."""

from __future__ import annotations

import gc
import os
import shutil
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import settings

from coachdesk.app import paths
from coachdesk.app.demo.club import seed
from coachdesk.app.wiring import open_desk
from coachdesk.app.words import wording as english
from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Sex
from coachdesk.domain.meet import AttemptData, EntryData, MeetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athlete, record_attempts
from coachdesk.services.roster import add_athlete
from coachdesk.wording.wording import Wording

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
for _name in ("LC_ALL", "LC_MESSAGES"):
    os.environ.pop(_name, None)
os.environ["LANG"] = "en_GB.UTF-8"
os.environ["XDG_CONFIG_HOME"] = os.devnull
"""Neither the machine's language nor what somebody preferred on it counts."""
settings.register_profile("same_everywhere", deadline=None, derandomize=True)
settings.load_profile("same_everywhere")


@pytest.fixture(autouse=True)
def _garbage_between_tests() -> Iterator[None]:
    """Python looks for garbage between tests only: within one it might in a thread of the
    background, and take down there what is left of a window of the test before."""
    gc.disable()
    yield
    gc.enable()


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


@pytest.fixture(scope="session")
def club_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The invented club on file, seeded once; tests work on copies."""
    file = tmp_path_factory.mktemp("club") / "club.db"
    desk = open_desk(file, lambda: NOW)
    source = paths.resources() / "demo" / "club.toml"
    seed(desk, source.read_bytes(), source.name)
    desk.store.close()
    return file


@pytest.fixture
def club(club_file: Path, tmp_path: Path) -> Iterator[Desk]:
    """A desk on the invented club."""
    file = tmp_path / "club" / "coachdesk.db"
    file.parent.mkdir()
    shutil.copy(club_file, file)
    desk = open_desk(file, lambda: NOW)
    yield desk
    desk.store.close()


@pytest.fixture
def desk(desk_at: Callable[[datetime], Desk]) -> Desk:
    return desk_at(NOW)


MADE_OR_MISSED = {True: Result.GOOD, False: Result.NO_LIFT}


@dataclass(frozen=True)
class Results:
    """Puts athletes and what they lifted on the desk, through the use cases."""

    desk: Desk

    def athlete(
        self, name: str, *, sex: Sex = Sex.FEMALE, born: date | None = date(1996, 5, 4)
    ) -> int:
        given, _, family = name.partition(" ")
        data = AthleteData(given_name=given, family_name=family, sex=sex, birth_date=born)
        return add_athlete(self.desk, data).value

    def meet(self, name: str, on: date, *, rulebook: str = "traditional_two_hour") -> int:
        data = MeetData(name=name, starts_on=on, rulebook=rulebook, time_zone="Europe/Berlin")
        return add_meet(self.desk, data).value

    def entry(
        self,
        athlete_id: int,
        meet_id: int,
        *,
        bodyweight: str = "",
        event: Event = Event.THREE_LIFT,
        equipment: Equipment = Equipment.CLASSIC,
        division: str = "open",
    ) -> int:
        data = EntryData(
            athlete_id=athlete_id,
            meet_id=meet_id,
            event=event,
            equipment=equipment,
            divisions=(division,),
            bodyweight=kilograms(bodyweight) if bodyweight else None,
        )
        return enter_athlete(self.desk, data).value

    def lift(self, entry_id: int, lift: Lift, attempts: Sequence[tuple[float, bool]]) -> None:
        """Record attempts of a lift: kilograms, and whether they were good."""
        record_attempts(
            self.desk,
            [
                AttemptData(
                    entry_id=entry_id,
                    lift=lift,
                    number=number,
                    weight=kilograms(weight_kg),
                    result=MADE_OR_MISSED[good],
                )
                for number, (weight_kg, good) in enumerate(attempts, start=1)
            ],
        )

    def day(
        self,
        athlete_id: int,
        meet_id: int,
        best_kg: Sequence[float],
        *,
        bodyweight: str = "",
        event: Event = Event.THREE_LIFT,
        equipment: Equipment = Equipment.CLASSIC,
    ) -> int:
        """An entry with one good attempt of each lift."""
        entry_id = self.entry(
            athlete_id, meet_id, bodyweight=bodyweight, event=event, equipment=equipment
        )
        for lift, weight_kg in zip(event.lifts, best_kg, strict=True):
            self.lift(entry_id, lift, [(weight_kg, True)])
        return entry_id


@pytest.fixture
def results(desk: Desk) -> Results:
    return Results(desk)
