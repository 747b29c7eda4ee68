"""The warm-ups of one entry without Qt: a row for each set, and what to do when the flight does
not keep to time."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain

from coachdesk.domain.lifting import Lift
from coachdesk.domain.warmup import WarmUpSet
from coachdesk.services.desk import Desk
from coachdesk.services.packet_content import LiftWarmUps
from coachdesk.services.warm_up_look import warm_up_look
from coachdesk.ui.loading_words import typed_weight
from coachdesk.ui.screens.meets.look_words import Line
from coachdesk.wording.warm_up_words import delayed, set_in_words, short_of_time
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class SetRow:
    """A set in words; `key` tells rows apart."""

    key: tuple[Lift, int]
    lift: str
    weight: str
    discs: str
    changes: str
    out: str
    minutes: str
    gear: str


@dataclass(frozen=True, slots=True)
class WarmUpView:
    """All sets of an entry, and by lift what else there is to know."""

    title: str
    rows: tuple[SetRow, ...]
    lines: tuple[Line, ...]
    has_gear: bool


class WarmUpsPresenter:
    """Reads warm-ups and puts them in words, at the meet its unit rules."""

    def __init__(self, desk: Desk, words: Wording) -> None:
        self._desk = desk
        self._own_words = words

    def view(self, entry_id: int) -> WarmUpView:
        """The warm-ups of an entry."""
        look = warm_up_look(self._desk, entry_id)
        words = self._own_words.in_unit(look.rulebook.unit)
        rows = [
            _row(lift.lift, at, one, words)
            for lift in look.page.lifts
            if lift.warm_ups is not None
            for at, one in enumerate(lift.warm_ups.usual)
        ]
        return WarmUpView(
            title=look.athlete,
            rows=tuple(rows),
            lines=tuple(line for lift in look.page.lifts for line in _lines(lift, words)),
            has_gear=any(row.gear for row in rows),
        )


def _row(lift: Lift, at: int, one: WarmUpSet, words: Wording) -> SetRow:
    discs = tuple(typed_weight(disc.weight, words.unit) for disc in one.discs_per_side)
    return SetRow(
        key=(lift, at),
        lift=words(f"lift.{lift}") if at == 0 else "",
        weight=set_in_words(one, words),
        discs=words("meets.discs", discs=discs) if discs else words("sheet.card.bare_bar"),
        changes=words("warm_ups.changes", on=one.put_on, off=one.taken_off)
        if one.disc_changes
        else "",
        out=str(one.attempts_out),
        minutes=str(one.minutes),
        gear="" if one.gear is None else words(f"gear.{one.gear}"),
    )


def _lines(lift: LiftWarmUps, words: Wording) -> list[Line]:
    name, found = words(f"lift.{lift.lift}"), lift.warm_ups
    if found is None:
        return [Line(words("warm_ups.line", lift=name, said=words("sheet.opener.none")), "warn")]
    how = "opener_handed_in" if lift.opener_chosen else "opener_planned"
    said = [words("warm_ups.sentence", said=words(f"sheet.warm_up.{how}", weight=found.opener))]
    if lift.begins_at is not None:
        at = lift.begins_at.time()
        said.append(words("warm_ups.begins", at=at))
    said += [short_of_time(found, words), delayed(found, words)]
    notes = dict.fromkeys((*found.notes, *chain.from_iterable(one.notes for one in found.usual)))
    said += [words.say(note) for note in notes]
    return [Line(words("warm_ups.line", lift=name, said=" ".join(said)))]
