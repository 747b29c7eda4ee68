"""Importing records without Qt: the file as it was understood, in words, and what to choose."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import ClassVar, Generic, TypeVar

from coachdesk.domain.units import Unit
from coachdesk.services import typed
from coachdesk.services.csv_reading import DecimalMark, Delimiter, Source, read_source
from coachdesk.services.day_reading import DayOrder
from coachdesk.services.desk import Desk, Done
from coachdesk.services.import_file import KEPT, Fate, Layout, Line, Preview, Progress
from coachdesk.services.whole_file import write_whole
from coachdesk.wording.wording import Wording

_LONGEST_HEAD = 30


R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class Opened(Generic[R]):
    """A file read, and what it would bring."""

    source: Source
    preview: Preview[R]


@dataclass(frozen=True, slots=True)
class Codes:
    """The codes of the words that differ between kinds of records."""

    title: str
    about: str
    reading: str
    keeping: str
    keep: str
    done: str
    report_title: str
    report_file: str


class ImportPresenter(ABC, Generic[R]):
    """Puts a file's lines in words. `order` is how the system writes days; it never decides."""

    codes: ClassVar[Codes]

    def __init__(self, desk: Desk, words: Wording, order: DayOrder | None) -> None:
        self._desk = desk
        self._words = words
        self._system = order

    @abstractmethod
    def parts(self) -> Sequence[tuple[str, str]]:
        """What a column can hold, each with the code of its name."""

    @abstractmethod
    def keep(self, opened: Opened[R], *, leave_out: bool) -> Done[None]:
        """Keep what is shown, all of it or nothing."""

    @abstractmethod
    def _suggest(self, source: Source) -> Layout: ...

    @abstractmethod
    def _lay_out(self, source: Source, delimiter: Delimiter, heads: bool | None) -> Layout: ...

    @abstractmethod
    def _preview(self, source: Source, layout: Layout, progress: Progress) -> Preview[R]: ...

    @abstractmethod
    def _record_words(self, line: Line[R], record: R) -> Sequence[str]:
        """A record in full words, part by part, without whose it is."""

    def open(self, file: Path, progress: Progress) -> Opened[R]:
        """Read a file as it looks to be meant."""
        source = read_source(file)
        return self._opened(source, self._suggest(source), progress)

    def read_again(
        self, opened: Opened[R], values: Mapping[str, str], progress: Progress
    ) -> Opened[R]:
        """Read the same file as the coach chose; another mark or other heads find columns anew."""
        before = opened.preview.layout
        delimiter = Delimiter(values["delimiter"])
        heads = typed.yes(values["heads"])
        if (delimiter, heads) != (before.delimiter, before.has_heads):
            layout = self._lay_out(
                opened.source, delimiter, heads if heads != before.has_heads else None
            )
            return self._opened(opened.source, layout, progress)
        layout = replace(
            before,
            columns={part: int(values[part]) for part, _ in self.parts() if values[part]},
            order=DayOrder(values["order"]) if values["order"] else None,
            unit=Unit(values["unit"]) if values["unit"] else None,
        )
        return self._opened(opened.source, layout, progress)

    def values(self, opened: Opened[R]) -> dict[str, str]:
        """How the file is read, as the values of the choices."""
        layout = opened.preview.layout
        columns = {part: str(layout.columns.get(part, "")) for part, _ in self.parts()}
        return {
            "delimiter": layout.delimiter,
            "heads": typed.shown_yes(layout.has_heads),
            "order": layout.order or "",
            "unit": layout.unit or "",
            **columns,
        }

    def delimiters(self) -> list[tuple[str, str]]:
        """The marks between cells."""
        return [(each, self._words(f"weights.delimiter.{each}")) for each in Delimiter]

    def units(self) -> list[tuple[str, str]]:
        """What a bare number can be."""
        own = ("", self._words("weights.unit.own"))
        return [own, *((unit.value, unit.value) for unit in Unit)]

    def columns(self, opened: Opened[R]) -> list[tuple[str, str]]:
        """The columns of the file by number and head."""
        none = ("", self._words("weights.column.none"))
        heads = opened.preview.heads
        return [none, *((str(at), self._head(at, head)) for at, head in enumerate(heads))]

    def orders(self, opened: Opened[R]) -> list[tuple[str, str]]:
        """How days can be read; where the file leaves it open, each with a day as an example."""
        words, days = self._words, opened.preview.days
        if days.must_choose:
            first = words("weights.order.choose")
        elif days.order is not None:
            first = words(f"weights.order.{days.order}.found")
        else:
            first = words("weights.order.plain")
        ways = sorted(DayOrder, key=lambda order: order != self._system)
        return [("", first), *((order.value, self._order(opened, order)) for order in ways)]

    def found(self, opened: Opened[R]) -> str:
        """What was found out about the file."""
        words, source, preview = self._words, opened.source, opened.preview
        parts = [words("weights.found", file=source.name, count=len(preview.lines))]
        parts.append(words(f"weights.encoding.{source.encoding}"))
        if preview.decimals is not DecimalMark.NONE:
            parts.append(words(f"weights.decimals.{preview.decimals}"))
        return " ".join(parts)

    def summary(self, opened: Opened[R]) -> str:
        """How many lines have which fate, or what is still to be chosen."""
        preview = opened.preview
        if preview.lacking is not None:
            return self._words.say(preview.lacking)
        counts = [(fate, preview.count(fate)) for fate in Fate]
        return (
            self._words("weights.summary")
            + " "
            + self._words.show(
                tuple(
                    self._words(f"weights.count.{fate}", count=count)
                    for fate, count in counts
                    if count
                )
            )
        )

    def fate(self, line: Line[R]) -> str:
        """What becomes of a line."""
        return self._words(f"weights.fate.{line.fate}")

    def role(self, line: Line[R]) -> str:
        """The colour role of what becomes of a line."""
        if line.fate is Fate.FAULTY:
            return "bad"
        if line.fate is Fate.ODD:
            return "warn"
        return "" if line.fate in KEPT else "quiet"

    def understood(self, line: Line[R]) -> str:
        """A line in full words."""
        whose = () if line.athlete is None else (line.athlete.name,)
        what = () if line.record is None else self._record_words(line, line.record)
        return self._words.show((*whose, *what))

    def remark(self, line: Line[R]) -> str:
        """Why a line becomes what it becomes."""
        unit = self._words.unit if line.athlete is None else line.athlete.unit
        words = self._words.in_unit(unit)
        return " ".join(words.say(remark) for remark in line.remarks)

    def as_written(self, line: Line[R]) -> str:
        """A line as it stands in the file."""
        return " | ".join(cell.strip() for cell in line.cells).rstrip(" |")

    def report(self, opened: Opened[R]) -> tuple[str, ...]:
        """What became of every line."""
        return tuple(
            self._words(
                "weights.report.line",
                number=line.number,
                fate=self._words(f"weights.became.{line.fate}"),
                what=self.understood(line) if line.record else self.as_written(line),
                why=self.remark(line),
            ).strip()
            for line in opened.preview.lines
        )

    def save_report(self, file: Path, words: str) -> None:
        """Write a report as text; Trouble when that cannot be done."""
        write_whole(file, words.encode("utf-8"))

    def _opened(self, source: Source, layout: Layout, progress: Progress) -> Opened[R]:
        return Opened(source, self._preview(source, layout, progress))

    def _head(self, at: int, head: str) -> str:
        short = head.strip()
        if len(short) > _LONGEST_HEAD:
            short = f"{short[:_LONGEST_HEAD]}…"
        return self._words("weights.column", number=at + 1, head=short)

    def _order(self, opened: Opened[R], order: DayOrder) -> str:
        name = self._words(f"weights.order.{order}")
        example = opened.preview.days.examples.get(order)
        if example is None:
            return name
        written, day = example
        return self._words("weights.order.example", order=name, written=written, day=day)
