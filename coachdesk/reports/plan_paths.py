"""The branches of a plan, read off for paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from coachdesk.domain.attempts import Outcome, Turn
from coachdesk.domain.units import Mass, Unit
from coachdesk.reports.blocks import Block, words_block
from coachdesk.reports.theme import BODY, Style
from coachdesk.services.packet_content import EntryPacket, LiftCard
from coachdesk.wording.outcomes import seen_in_words
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class Way:
    """What leads to a weight: the weight before, and what was seen of it; and what was seen of the
    opener, where it depends on that as well."""

    before: Mass
    seen: tuple[Outcome, ...]
    opener: tuple[Outcome, ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """A weight to call for, and each way that leads to it."""

    weight: Mass
    after: tuple[Way, ...]


def second_steps(opener: Turn) -> tuple[Step, ...]:
    """What follows the opener: each weight once, heaviest first."""
    return _steps([(turn.weight, Way(opener.weight, seen)) for seen, turn in opener.ways])


def third_steps(opener: Turn) -> tuple[Step, ...]:
    """What follows the second attempts: each weight once, heaviest first.

    A second weight may be come to in two ways and lead on differently: only then a way says what
    was seen of the opener.
    """
    leads: dict[tuple[Mass, Outcome], dict[Mass, list[Outcome]]] = {}
    for first, second in opener.ways:
        for seen, third in second.ways:
            for outcome in seen:
                ends = leads.setdefault((second.weight, outcome), {})
                ends.setdefault(third.weight, []).extend(first)
    together: dict[tuple[Mass, Mass, tuple[Outcome, ...]], list[Outcome]] = {}
    for (before, outcome), ends in leads.items():
        for weight, opened in ends.items():
            key = weight, before, () if len(ends) == 1 else tuple(opened)
            together.setdefault(key, []).append(outcome)
    return _steps(
        [
            (weight, Way(before, tuple(seen), first))
            for (weight, before, first), seen in together.items()
        ]
    )


def way_in_words(way: Way, wording: Wording, *, bare: bool = False) -> str:
    """A way on a card; `bare` where the attempt before had one weight only."""
    seen = seen_in_words(way.seen, wording)
    if bare:
        return seen
    weight = wording.bare_mass(way.before)
    if way.opener:
        opener = seen_in_words(way.opener, wording)
        return wording("sheet.card.after_opener", weight=weight, outcome=seen, opener=opener)
    return wording("sheet.card.after", weight=weight, outcome=seen)


def _steps(ways: Sequence[tuple[Mass, Way]]) -> tuple[Step, ...]:
    by_weight: dict[Mass, list[Way]] = {}
    for weight, way in ways:
        by_weight.setdefault(weight, []).append(way)
    heaviest_first = sorted(by_weight, key=lambda mass: mass.grams, reverse=True)
    return tuple(Step(weight, tuple(by_weight[weight])) for weight in heaviest_first)


def follows_plan(card: LiftCard) -> bool:
    """Whether the card's opener is the one its plan begins with."""
    return (
        card.plan is not None
        and card.opener is not None
        and card.plan.opener.weight.grams == card.opener.grams
    )


class Reader:
    """How masses and texts read for one packet: the meet's unit, and the athlete's in brackets."""

    def __init__(self, packet: EntryPacket, wording: Wording) -> None:
        self.own_unit = None if packet.unit is packet.meet.unit else packet.unit
        self.wording = wording.in_unit(packet.meet.unit)

    def mass(self, mass: Mass) -> str:
        """A mass as the meet counts it, and in the athlete's own unit where that differs."""
        if self.own_unit is None:
            return self.wording.mass(mass)
        words = self.wording.both_units(mass)
        for unit in Unit:  # a line does not end between a number and its unit
            words = words.replace(f" {unit}", f"\N{NO-BREAK SPACE}{unit}")
        return words

    def own_line(self, mass: Mass, width: float, style: Style = BODY) -> list[Block]:
        """A line with the mass in the athlete's own unit; none where the meet's is the same."""
        if self.own_unit is None:
            return []
        own = self.wording("sheet.own_unit", mass=self.wording.mass(mass, self.own_unit))
        return [words_block(own, width, style)]
