"""Importing athletes without Qt."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from coachdesk.domain.athlete import AthleteData, LossBar
from coachdesk.services import athletes_import
from coachdesk.services.athletes_file import Part
from coachdesk.services.csv_reading import Delimiter, Source
from coachdesk.services.day_reading import DayOrder
from coachdesk.services.desk import Desk, Done
from coachdesk.services.import_file import Layout, Line, Preview, Progress
from coachdesk.services.roster import Newcomer
from coachdesk.ui.imports.presenter import Codes, ImportPresenter, Opened
from coachdesk.ui.imports.vocabularies import athletes_vocabulary
from coachdesk.wording.wording import Wording


class AthletesPresenter(ImportPresenter[Newcomer]):
    """Files of athletes who are not on the roster yet."""

    codes: ClassVar[Codes] = Codes(
        title="athletes.title",
        about="athletes.about",
        reading="athletes.reading",
        keeping="athletes.keeping",
        keep="athletes.keep",
        done="athletes.done",
        report_title="athletes.report.title",
        report_file="athletes.report.file",
    )

    def __init__(self, desk: Desk, words: Wording, order: DayOrder | None) -> None:
        super().__init__(desk, words, order)
        self._vocabulary = athletes_vocabulary(words)

    def parts(self) -> Sequence[tuple[str, str]]:
        """What a column can hold, each with the code of its name."""
        return [(part.value, f"athletes.part.{part}") for part in Part]

    def keep(self, opened: Opened[Newcomer], *, leave_out: bool) -> Done[None]:
        """Keep what is shown, all of it or nothing."""
        return athletes_import.keep(self._desk, opened.preview, leave_out_faulty=leave_out)

    def _suggest(self, source: Source) -> Layout:
        return athletes_import.suggest(source, self._vocabulary)

    def _lay_out(self, source: Source, delimiter: Delimiter, heads: bool | None) -> Layout:
        return athletes_import.lay_out(source, self._vocabulary, delimiter, has_heads=heads)

    def _preview(self, source: Source, layout: Layout, progress: Progress) -> Preview[Newcomer]:
        return athletes_import.preview(self._desk, source, layout, self._vocabulary, progress)

    def _record_words(self, line: Line[Newcomer], record: Newcomer) -> Sequence[str]:
        del line
        words, data, weighed = self._words, record.data, record.weighed
        parts = [_name(words, data), words(f"roster.sex.{data.sex}")]
        if data.birth_date is not None:
            parts.append(words("athletes.born", day=data.birth_date))
        parts += [words(f"roster.unit.{data.unit}"), words(f"equipment.{data.equipment}")]
        if weighed is not None:
            weight = words.mass(weighed.weight, weighed.weight.unit)
            parts.append(words("athletes.weighed", weight=weight, day=weighed.on))
        if data.height_cm is not None:
            parts.append(words("athletes.height", height=data.height_cm))
        if data.meets_before:
            parts.append(words("athletes.meets_before", count=data.meets_before))
        if data.member_until is not None:
            parts.append(words("athletes.member_until", day=data.member_until))
        if data.loss_bar is not LossBar.NONE:
            parts.append(words(f"roster.loss_bar.{data.loss_bar}"))
        more = (data.member_number, data.phone, data.email, data.emergency_contact)
        return [*parts, *(each for each in (*more, data.health_note, data.note) if each)]


def _name(words: Wording, data: AthleteData) -> str:
    """The family name first, so that it is seen what was taken for which."""
    if not data.family_name:
        return data.given_name
    return words("athletes.name", family=data.family_name, given=data.given_name)
