"""The weights of a meet's entries, read together: choices of class and marks come from that."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.errors import CoachdeskError
from coachdesk.domain.meet import Meet
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.strength.parameters import RECENT
from coachdesk.domain.text import Text
from coachdesk.services.desk import Desk
from coachdesk.services.weight_board import BoardLine, board_line, ranked
from coachdesk.storage.today_queries import EntryState, entry_states


@dataclass(frozen=True, slots=True)
class MeetWeights:
    """How the entries of a meet stand, the most pressing first; none once it is over.

    `states` are those of all entries. `faults` holds entries of which nothing can be said, and why.
    """

    meet: Meet
    rulebook: Rulebook
    today: date
    is_over: bool
    lines: tuple[BoardLine, ...] = ()
    states: tuple[EntryState, ...] = ()
    faults: tuple[tuple[EntryState, Text], ...] = ()

    def state(self, entry_id: int) -> EntryState:
        """What was read of an entry."""
        return next(state for state in self.states if state.entry.id == entry_id)


def meet_weights(desk: Desk, meet_id: int) -> MeetWeights:
    """Read a meet's weights; Trouble when the meet or its rulebook is not there."""
    today = desk.today()
    with desk.reading() as reader:
        meet = reader.get(Meet, meet_id)
        states = entry_states(reader, [meet], today=today, judged_from=today - RECENT)
    rulebook = desk.rulebooks.get(meet.rulebook)
    if _last_day(meet, states) < today:
        return MeetWeights(meet, rulebook, today, is_over=True)
    lines: list[BoardLine] = []
    faults: list[tuple[EntryState, Text]] = []
    for state in states:
        try:
            lines.append(board_line(state, rulebook, today))
        except CoachdeskError as error:
            faults.append((state, error.text))
    return MeetWeights(
        meet,
        rulebook,
        today,
        is_over=False,
        lines=ranked(lines),
        states=states,
        faults=tuple(faults),
    )


def _last_day(meet: Meet, states: Iterable[EntryState]) -> date:
    """The meet's last day, as far as the sessions of its entries tell."""
    sessions = (state.session for state in states)
    days = (session.starts_at.date() for session in sessions if session is not None)
    return max([meet.starts_on, *days])
