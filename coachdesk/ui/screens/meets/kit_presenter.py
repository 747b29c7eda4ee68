"""Kit and tasks of a meet without Qt: read, put in words, and ticked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from coachdesk.domain.kit import KitItem
from coachdesk.domain.kit_rounds import Sight
from coachdesk.domain.meet import Entry
from coachdesk.domain.text import Text, text
from coachdesk.services import typed
from coachdesk.services.desk import Desk
from coachdesk.services.kit_ticking import tick_all_kit, tick_kit
from coachdesk.services.meet_readiness import MeetReadiness, meet_readiness
from coachdesk.services.task_editing import (
    UsualTasks,
    add_tasks,
    delete_own,
    edit_own,
    move_usual,
    tick_own,
    tick_usual,
)
from coachdesk.ui.screens.meets.kit_rows import (
    ItemRow,
    TaskRow,
    TeamRow,
    counted,
    item_row,
    round_choice,
    task_row,
    team_row,
)
from coachdesk.wording.wording import Wording

AFTER = {
    Sight.NOT_LOOKED: Sight.PRESENT,
    Sight.PRESENT: Sight.MISSING,
    Sight.MISSING: Sight.NOT_LOOKED,
}
"""What a tick makes of a piece of kit."""


@dataclass(frozen=True, slots=True)
class KitLook:
    """One entry: its tasks, its check rounds as choices, and the kit of the round chosen."""

    id: int
    title: str
    tasks: tuple[TaskRow, ...]
    rounds: tuple[tuple[str, str], ...]
    round: str
    items: tuple[ItemRow, ...]


class KitPresenter:
    """Reads a meet's kit and tasks, and keeps what is ticked."""

    def __init__(self, desk: Desk, words: Wording) -> None:
        self._desk = desk
        self._words = words
        self._read: MeetReadiness | None = None

    def rows(self, meet_id: int) -> tuple[TeamRow, ...]:
        """The team, by name."""
        read = self._read = meet_readiness(self._desk, meet_id)
        return tuple(
            team_row(each.entry.id, each.athlete.name, read.ready[each.entry.id], self._words)
            for each in read.starters
        )

    def bag(self) -> str:
        """What the team's bag holds spare; empty without entries."""
        read, words = self._read, self._words
        if read is None or not read.spares:
            return ""
        return words("ready.bag", items=tuple(counted(item, words) for item in read.spares))

    def fault(self) -> str:
        """Why nothing can be told of kit and tasks; empty where it can."""
        fault = None if self._read is None else self._read.fault
        return "" if fault is None else self._words("ready.fault", why=fault)

    def inspection(self) -> str:
        """When kit is inspected, as far as that is known."""
        read = self._read
        if read is None:
            return ""
        if read.meet.kit_inspection_on is not None:
            return self._words("kit.inspection_on", day=read.meet.kit_inspection_on)
        return self._words("ready.inspection.no_day" if read.inspects else "kit.no_inspection")

    def look(self, entry_id: int, round_code: str) -> KitLook | None:
        """One entry closely; the round that is due where the one asked for is not there."""
        read = self._read
        if read is None or entry_id not in read.ready:
            return None
        words, ready, starter = self._words, read.ready[entry_id], read.starter(entry_id)
        rounds = {each.code: each for each in ready.kit.rounds}
        due = ready.kit.current or (ready.kit.rounds[0] if ready.kit.rounds else None)
        shown = rounds.get(round_code, due)
        return KitLook(
            id=entry_id,
            title=starter.athlete.name,
            tasks=tuple(task_row(status, words) for status in ready.tasks),
            rounds=tuple((each.code, round_choice(each, words)) for each in ready.kit.rounds),
            round="" if shown is None else shown.code,
            items=()
            if shown is None
            else tuple(
                item_row(
                    item,
                    shown.sights[item.code],
                    self._limits(read, starter.entry, item),
                    words,
                    lacked=item in ready.kit.missing,
                )
                for item in ready.kit.items
            ),
        )

    def tick_item(self, entry_id: int, round_code: str, code: str, sight: Sight) -> object:
        """Note what a look at a piece came to."""
        return tick_kit(self._desk, entry_id, round_code, {code: sight})

    def tick_all(self, entry_ids: Sequence[int], round_code: str) -> object:
        """Note that everything is there, for one or several entries."""
        return tick_all_kit(self._desk, entry_ids, round_code)

    def tick_task(self, entry_ids: Sequence[int], row: TaskRow) -> object:
        """Done, or not done after all; a usual task for one or several entries."""
        if row.record is not None and not row.code:
            return tick_own(self._desk, row.record, done=not row.is_done)
        return tick_usual(self._desk, UsualTasks(tuple(entry_ids), row.code), done=not row.is_done)

    def task_values(self, row: TaskRow | None) -> dict[str, str]:
        """What the form of a task begins with; None for a new one."""
        if row is None:
            return {"words": "", "due_on": ""}
        record = row.record
        own_words = record.words if record is not None and not row.code else row.task
        return {"words": own_words, "due_on": typed.shown_day(row.due_on)}

    def add_task(self, entry_ids: Sequence[int], values: Mapping[str, str]) -> object:
        """Add a task of the coach's own to one or several entries."""
        due_on = typed.day("due_on", values["due_on"])
        return add_tasks(self._desk, entry_ids, values["words"].strip(), due_on)

    def change_task(
        self, entry_ids: Sequence[int], row: TaskRow, values: Mapping[str, str]
    ) -> object:
        """Move a usual task, for one or several entries, or change one of the coach's own. Without
        a day a usual one goes back to the day counted back, and follows it again."""
        due_on = typed.day("due_on", values["due_on"])
        if row.record is not None and not row.code:
            return edit_own(self._desk, row.record, values["words"].strip(), due_on)
        moved = None if due_on == row.usual_on else due_on
        return move_usual(self._desk, UsualTasks(tuple(entry_ids), row.code), moved)

    def delete_task(self, row: TaskRow) -> object:
        """Delete a task of the coach's own."""
        if row.record is None or row.code:
            msg = "a usual task cannot be deleted"
            raise ValueError(msg)
        return delete_own(self._desk, row.record)

    @staticmethod
    def _limits(read: MeetReadiness, entry: Entry, item: KitItem) -> tuple[Text, ...]:
        """What gets a piece turned away, and whether it is shown at the inspection."""
        shown = (text("ready.inspected"),) if item.inspected and read.inspects else ()
        return (*read.limits(entry, item), *shown)
