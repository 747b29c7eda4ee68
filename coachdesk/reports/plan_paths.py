"""The branches of a plan, read off for paper."""

from __future__ import annotations

from dataclasses import dataclass

from coachdesk.domain.attempts import Outcome, Turn
from coachdesk.domain.units import Mass, Unit
from coachdesk.reports.blocks import Block, words_block
from coachdesk.reports.theme import BODY, Style
from coachdesk.services.packet_content import EntryPacket, LiftCard
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class Step:
    """A weight to call for, and each (weight before, outcome) that leads to it."""

    weight: Mass
    after: tuple[tuple[Mass, Outcome], ...]


def steps_after(turns: tuple[Turn, ...]) -> tuple[tuple[Step, ...], tuple[Turn, ...]]:
    """What follows `turns`: each weight once, heaviest first, and the turns themselves."""
    after: dict[int, list[tuple[Mass, Outcome]]] = {}
    following: list[Turn] = []
    for turn in turns:
        for branch in turn.branches:
            following.append(branch.turn)
            ways = after.setdefault(branch.turn.weight.grams, [])
            if (turn.weight, branch.outcome) not in ways:
                ways.append((turn.weight, branch.outcome))
    weights = {turn.weight.grams: turn.weight for turn in following}
    steps = tuple(
        Step(weights[grams], tuple(after[grams])) for grams in sorted(after, reverse=True)
    )
    return steps, tuple(following)


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
