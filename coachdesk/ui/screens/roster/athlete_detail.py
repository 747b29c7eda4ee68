"""One athlete without Qt: the profile, what goes along when they are deleted, and their records."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from coachdesk.domain.class_fit import ADULT_YEARS
from coachdesk.domain.division import age_on
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.scoring import Formula
from coachdesk.domain.text import Text, text
from coachdesk.services import roster, roster_reading
from coachdesk.services.desk import Desk, Done
from coachdesk.ui.athletes.profile_values import Values, profile_data, profile_values
from coachdesk.ui.screens.roster.cycle_records import CycleRecords
from coachdesk.ui.screens.roster.reading_records import ReadingRecords
from coachdesk.ui.screens.roster.result_records import ResultRecords
from coachdesk.ui.screens.roster.set_records import SetRecords
from coachdesk.wording.wording import Wording


class AthleteDetail:
    """An athlete as they were when this was made; saving is refused once they have moved on."""

    def __init__(self, desk: Desk, words: Wording, formula: Formula, athlete_id: int) -> None:
        self._desk = desk
        self._words = words
        self.athlete = roster_reading.athlete(desk, athlete_id)
        own = words.in_unit(self.athlete.unit)
        self.readings = ReadingRecords(desk, own, self.athlete)
        self.cycle_notes = CycleRecords(desk, self.athlete)
        self.sets = SetRecords(desk, own, self.athlete)
        self.results = ResultRecords(desk, words, self.athlete, formula)

    @property
    def id(self) -> int:
        """The athlete's id."""
        return self.athlete.id

    @property
    def about(self) -> str:
        """Sex, age, equipment and unit in one line, and whether the athlete is archived."""
        words, athlete = self._words, self.athlete
        parts: list[Text] = [text(f"roster.sex.{athlete.sex}"), self._age()]
        parts.append(text(f"equipment.{athlete.equipment}"))
        parts.append(text(f"roster.unit.{athlete.unit}"))
        if athlete.archived:
            parts.append(text("roster.is_archived"))
        return words("roster.about.joint").join(words.say(part) for part in parts)

    def values(self) -> Values:
        """The profile as the strings of its form."""
        return profile_values(self.athlete)

    def save(self, values: Mapping[str, str]) -> Done[None]:
        """Keep the profile as it was typed."""
        data = profile_data(values)
        return roster.edit_athlete(self._desk, self.athlete.id, self.athlete.version, data)

    def archive(self) -> Done[None]:
        """Take the athlete out of the daily view, or back into it."""
        archived = not self.athlete.archived
        return roster.archive_athlete(self._desk, self.athlete, archived=archived)

    def delete(self) -> Done[None]:
        """Delete the athlete and all that belongs to them."""
        return roster.delete_athlete(self._desk, self.athlete)

    def erase(self) -> Done[None]:
        """Erase the athlete for good."""
        return roster.erase_athlete(self._desk, self.athlete)

    def goes_along(self) -> str:
        """What goes with the athlete when they are deleted, counted kind by kind."""
        found = roster_reading.belongings(self._desk, self.athlete.id)
        counted = (
            ("roster.goes.readings", found.readings),
            ("roster.goes.sets", found.logged_sets),
            ("roster.goes.blocks", found.blocks),
            ("roster.goes.entries", found.entries),
            ("roster.goes.attempts", found.attempts),
        )
        parts = tuple(text(code, count=count) for code, count in counted if count)
        if not parts:
            return self._words("roster.goes.nothing")
        return self._words("roster.goes", what=parts)

    def erase_question(self, backups: Path) -> str:
        """What erasing for good means."""
        return self._words("roster.erase.means", goes=self.goes_along(), backups=str(backups))

    def is_erase_name(self, values: Mapping[str, str]) -> bool:
        """Whether the athlete's name was typed; raises InvalidInput when it was not."""
        if values["name"].split() != self.athlete.name.split():
            raise InvalidInput("name", text("roster.erase.other_name", name=self.athlete.name))
        return True

    def _age(self) -> Text:
        birth_date = self.athlete.birth_date
        if birth_date is None:
            return text("roster.about.age_unknown")
        age = age_on(birth_date, self._desk.today())
        code = "roster.about.minor" if age < ADULT_YEARS else "roster.about.age"
        return text(code, year=str(birth_date.year), age=age)
