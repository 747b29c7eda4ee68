"""How far an entry's kit is checked: round by round, and what is missing now."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from coachdesk.domain.kit import KitItem, KitList
from coachdesk.domain.lifting import Event
from coachdesk.domain.readiness import KitCheckData
from coachdesk.domain.text import Text


class Sight(StrEnum):
    """What a look at a piece of kit came to."""

    PRESENT = "present"
    MISSING = "missing"
    NOT_LOOKED = "not_looked"


class RoundState(StrEnum):
    """How a check round stands today."""

    COMPLETE = "complete"
    DUE = "due"
    PASSED = "passed"
    LATER = "later"


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundStatus:
    """A check round of an entry: what each piece came to, in the list's order, by code.

    Complete once everything was looked for, found or not. A round whose day has come is due until
    the next one's has: it has passed then, for what it would show the next one shows.
    """

    code: str
    label: Text
    on: date
    state: RoundState
    sights: dict[str, Sight]

    def count(self, sight: Sight) -> int:
        """How many pieces came to this."""
        return sum(each is sight for each in self.sights.values())


@dataclass(frozen=True, slots=True, kw_only=True)
class KitStatus:
    """An entry's kit: the pieces to pack, the rounds, and what was looked for last and not there.

    `current` is the round whose day has come last, None before the first.
    """

    items: tuple[KitItem, ...]
    rounds: tuple[RoundStatus, ...]
    missing: tuple[KitItem, ...]
    current: RoundStatus | None

    @property
    def come(self) -> tuple[RoundStatus, ...]:
        """The rounds whose day has come."""
        return tuple(each for each in self.rounds if each.state is not RoundState.LATER)

    @property
    def is_due(self) -> bool:
        """Whether a round's day has come and something in it was not looked for yet."""
        return self.current is not None and self.current.state is RoundState.DUE


def kit_status(
    kit_list: KitList, event: Event, meet_on: date, checks: Sequence[KitCheckData], today: date
) -> KitStatus:
    """How the kit of an entry to a meet on the day `meet_on` stands; `checks` are on file."""
    items = kit_list.items_for(event)
    by_round = {check.round: check for check in checks}
    come = [each.code for each in kit_list.rounds if each.date_for(meet_on) <= today]
    rounds = []
    for each in kit_list.rounds:
        sights = _sights(items, by_round.get(each.code))
        rounds.append(
            RoundStatus(
                code=each.code,
                label=each.label,
                on=each.date_for(meet_on),
                state=_state(each.code, come, sights),
                sights=sights,
            )
        )
    return KitStatus(
        items=items,
        rounds=tuple(rounds),
        missing=tuple(item for item in items if _last_look(item, rounds) is Sight.MISSING),
        current=next((each for each in rounds if come and each.code == come[-1]), None),
    )


def _sights(items: Sequence[KitItem], check: KitCheckData | None) -> dict[str, Sight]:
    sights = dict.fromkeys((item.code for item in items), Sight.NOT_LOOKED)
    if check is not None:
        sights |= {code: Sight.PRESENT for code in check.present if code in sights}
        sights |= {code: Sight.MISSING for code in check.missing if code in sights}
    return sights


def _state(code: str, come: Sequence[str], sights: dict[str, Sight]) -> RoundState:
    if Sight.NOT_LOOKED not in sights.values():
        return RoundState.COMPLETE
    if code not in come:
        return RoundState.LATER
    return RoundState.DUE if code == come[-1] else RoundState.PASSED


def _last_look(item: KitItem, rounds: Sequence[RoundStatus]) -> Sight:
    looks = [each.sights[item.code] for each in rounds]
    return next((look for look in reversed(looks) if look is not Sight.NOT_LOOKED), looks[-1])
