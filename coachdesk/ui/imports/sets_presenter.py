"""Importing logged sets without Qt."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.blocks.notation import plain
from coachdesk.domain.text import text
from coachdesk.services import sets_import
from coachdesk.services.csv_reading import Delimiter, Source
from coachdesk.services.day_reading import DayOrder
from coachdesk.services.desk import Desk, Done
from coachdesk.services.import_file import Layout, Line, Preview, Progress
from coachdesk.services.sets_file import Part
from coachdesk.services.sets_lines import Sets
from coachdesk.ui.imports.presenter import Codes, ImportPresenter, Opened
from coachdesk.ui.imports.vocabularies import sets_vocabulary
from coachdesk.wording.wording import Wording


class SetsPresenter(ImportPresenter[Sets]):
    """Files of logged sets; lines that name nobody are `owner`'s."""

    codes: ClassVar[Codes] = Codes(
        title="sets.title",
        about="sets.about",
        reading="sets.reading",
        keeping="sets.keeping",
        keep="sets.keep",
        done="sets.done",
        report_title="sets.report.title",
        report_file="sets.report.file",
    )

    def __init__(
        self, desk: Desk, words: Wording, order: DayOrder | None, owner: Athlete | None
    ) -> None:
        super().__init__(desk, words, order)
        self._vocabulary = sets_vocabulary(words)
        self._owner = owner

    def parts(self) -> Sequence[tuple[str, str]]:
        """What a column can hold, each with the code of its name."""
        return [(part.value, f"sets.part.{part}") for part in Part]

    def keep(self, opened: Opened[Sets], *, leave_out: bool) -> Done[None]:
        """Keep what is shown, all of it or nothing."""
        return sets_import.keep(self._desk, opened.preview, leave_out_faulty=leave_out)

    def _suggest(self, source: Source) -> Layout:
        return sets_import.suggest(self._desk, source, self._vocabulary)

    def _lay_out(self, source: Source, delimiter: Delimiter, heads: bool | None) -> Layout:
        return sets_import.lay_out(self._desk, source, self._vocabulary, delimiter, has_heads=heads)

    def _preview(self, source: Source, layout: Layout, progress: Progress) -> Preview[Sets]:
        return sets_import.preview(
            self._desk, source, layout, self._vocabulary, progress, self._owner
        )

    def _record_words(self, line: Line[Sets], record: Sets) -> Sequence[str]:
        del line
        words, data = self._words, record[0]
        lift = text(f"lift.{data.lift}")
        if data.variation:
            lift = text("roster.lift_variation", lift=lift, variation=data.variation)
        parts = [
            words.day(data.on),
            words.say(lift),
            words("sets.understood", sets=len(record), reps=data.reps),
            words.mass(data.weight, data.weight.unit),
        ]
        if data.rir is not None:
            parts.append(words("sets.in_reserve", reserve=plain(data.rir)))
        if data.result is not None:
            parts.append(words(f"outcome.{data.result}"))
        return [*parts, data.note] if data.note else parts
