"""Importing bodyweight readings without Qt."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from coachdesk.domain.athlete import Dress, ReadingData
from coachdesk.services import weights_import
from coachdesk.services.csv_reading import Delimiter, Source
from coachdesk.services.day_reading import DayOrder
from coachdesk.services.desk import Desk, Done
from coachdesk.services.import_file import Layout, Line, Preview, Progress
from coachdesk.services.weights_file import Part
from coachdesk.ui.imports.presenter import Codes, ImportPresenter, Opened
from coachdesk.ui.imports.vocabularies import weights_vocabulary
from coachdesk.wording.wording import Wording


class WeightsPresenter(ImportPresenter[ReadingData]):
    """Files of bodyweight readings, of any athletes on the roster."""

    codes: ClassVar[Codes] = Codes(
        title="weights.title",
        about="weights.about",
        reading="weights.reading",
        keeping="weights.keeping",
        keep="weights.keep",
        done="roster.paste.done",
        report_title="weights.report.title",
        report_file="weights.report.file",
    )

    def __init__(self, desk: Desk, words: Wording, order: DayOrder | None) -> None:
        super().__init__(desk, words, order)
        self._vocabulary = weights_vocabulary(words)

    def parts(self) -> Sequence[tuple[str, str]]:
        """What a column can hold, each with the code of its name."""
        return [(part.value, f"weights.part.{part}") for part in Part]

    def keep(self, opened: Opened[ReadingData], *, leave_out: bool) -> Done[None]:
        """Keep what is shown, all of it or nothing."""
        return weights_import.keep(self._desk, opened.preview, leave_out_faulty=leave_out)

    def _suggest(self, source: Source) -> Layout:
        return weights_import.suggest(self._desk, source, self._vocabulary)

    def _lay_out(self, source: Source, delimiter: Delimiter, heads: bool | None) -> Layout:
        return weights_import.lay_out(
            self._desk, source, self._vocabulary, delimiter, has_heads=heads
        )

    def _preview(self, source: Source, layout: Layout, progress: Progress) -> Preview[ReadingData]:
        return weights_import.preview(self._desk, source, layout, self._vocabulary, progress)

    def _record_words(self, line: Line[ReadingData], record: ReadingData) -> Sequence[str]:
        del line
        words = self._words
        parts = [words.mass(record.weight, record.weight.unit), words.day(record.on)]
        if record.at is not None:
            parts.append(words.hour(record.at))
        if record.dress is not Dress.UNKNOWN:
            parts.append(words(f"roster.dress.{record.dress}"))
        return [*parts, *(part for part in (record.scale, record.note) if part)]
