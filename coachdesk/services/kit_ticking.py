"""Use cases about checking kit: what was there, what was not, in a round of an entry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from coachdesk.domain.errors import Trouble
from coachdesk.domain.kit_rounds import Sight
from coachdesk.domain.meet import Entry
from coachdesk.domain.readiness import KitCheck, KitCheckData
from coachdesk.domain.text import Text, text
from coachdesk.services.desk import Desk, Done
from coachdesk.services.rulebooks import kit_list_for
from coachdesk.services.task_editing import name_of
from coachdesk.storage import tables
from coachdesk.storage.readiness_queries import kit_checks
from coachdesk.storage.store import Reader, Work


def tick_kit(desk: Desk, entry_id: int, round_code: str, sights: Mapping[str, Sight]) -> Done[None]:
    """Note what a look at pieces of kit came to, by their codes; other pieces stay as they are."""
    with desk.reading() as reader:
        label = _about(desk, reader, "tick_kit", [entry_id], round_code)
        _check_codes(desk, reader, entry_id, sights)
    with desk.action(label) as work:
        _put(work, entry_id, round_code, sights)
        return Done(None, work.changes())


def tick_all_kit(
    desk: Desk, entry_ids: Sequence[int], round_code: str, sight: Sight = Sight.PRESENT
) -> Done[None]:
    """Note the same of every piece of kit of one or several entries."""
    with desk.reading() as reader:
        label = _about(desk, reader, "tick_all_kit", entry_ids, round_code)
        codes = {entry_id: _codes(desk, reader, entry_id) for entry_id in entry_ids}
    with desk.action(label) as work:
        for entry_id in entry_ids:
            _put(work, entry_id, round_code, dict.fromkeys(codes[entry_id], sight))
        return Done(None, work.changes())


def note_kit_checks(desk: Desk, many: Sequence[KitCheckData]) -> Done[None]:
    """Keep check rounds nothing is on file about yet, all of them or none."""
    with desk.action(text("did.note_kit_checks", count=len(many))) as work:
        work.insert_many(many)
        return Done(None, work.changes())


def _put(work: Work, entry_id: int, round_code: str, sights: Mapping[str, Sight]) -> None:
    """Set what was seen; a round in which nothing was looked for has no row."""
    on_file = kit_checks(work, [entry_id]).get(entry_id, ())
    seen: KitCheck | None = next((each for each in on_file if each.round == round_code), None)
    before = seen or KitCheckData(entry_id=entry_id, round=round_code)
    data = replace(
        before,
        present=_changed(before.present, sights, Sight.PRESENT),
        missing=_changed(before.missing, sights, Sight.MISSING),
    )
    if data == before:
        return
    if seen is None:
        work.insert(data)
    elif data.present or data.missing:
        work.update(seen.id, seen.version, data)
    else:
        work.delete(KitCheck, seen.id, seen.version)


def _changed(codes: Sequence[str], sights: Mapping[str, Sight], sight: Sight) -> tuple[str, ...]:
    kept = [code for code in codes if code not in sights]
    return (*kept, *(code for code, came_to in sights.items() if came_to is sight))


def _codes(desk: Desk, reader: Reader, entry_id: int) -> tuple[str, ...]:
    """The pieces that an entry packs."""
    entry = reader.get(Entry, entry_id)
    return tuple(
        item.code for item in kit_list_for(desk.kit, entry.equipment).items_for(entry.event)
    )


def _check_codes(desk: Desk, reader: Reader, entry_id: int, sights: Mapping[str, Sight]) -> None:
    unknown = set(sights) - set(_codes(desk, reader, entry_id))
    if unknown:
        raise Trouble(text("kit_check.unknown_item", item=min(unknown)))


def _about(
    desk: Desk, reader: Reader, code: str, entry_ids: Sequence[int], round_code: str
) -> Text:
    """The label of an action; Trouble where an entry's kit list has no such round (any more)."""
    entries = reader.list(Entry, tables.entry.c.id.in_(list(entry_ids)))
    label = Text("")
    for entry in entries:
        rounds = {each.code: each.label for each in kit_list_for(desk.kit, entry.equipment).rounds}
        if round_code not in rounds:
            raise Trouble(text("kit_check.unknown_round", round=round_code))
        label = rounds[round_code]
    if len(entry_ids) != 1:
        return text(f"did.{code}_of_several", round=label, count=len(entry_ids))
    return text(f"did.{code}", round=label, name=name_of(reader, entry_ids[0]))
