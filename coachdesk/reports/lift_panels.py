"""The coach's view of each lift, side by side: the attempts when all are good, every turn with its
chances, and what the plan is built on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import Mass
from coachdesk.reports.blocks import (
    Block,
    beside,
    blank,
    fitted_block,
    head_block,
    padded,
    rule,
    stack,
    words_block,
)
from coachdesk.reports.day_blocks import lift_name
from coachdesk.reports.plan_paths import Reader, follows_plan
from coachdesk.reports.theme import BODY, CLOCK, LABEL, STRONG, SUBSECTION
from coachdesk.reports.turns_block import Turns, turns_block
from coachdesk.services.packet_content import LiftCard
from coachdesk.wording.plan_words import source_line

_BETWEEN = 14.0
_HEAD = LABEL.sized(8)
_ABOUT = BODY._replace(size=9, leading=11.5)
_WEIGHT = CLOCK.sized(12.5)


def lift_panels(
    cards: Sequence[LiftCard], turns: Mapping[Lift, Turns], reader: Reader, width: float
) -> list[Block]:
    """A column to each lift; of a single lift what it is built on stands beside it."""
    if not cards:
        return []
    count = max(2, len(cards))
    each = (width - _BETWEEN * (count - 1)) / count
    tops = [_top(card, turns.get(card.lift), reader, each) for card in cards]
    about = [_about(card, reader, each) for card in cards]
    if len(cards) == 1:
        return [beside([(each, tops[0]), (each, about[0])], _BETWEEN)]
    return [
        beside([(each, top) for top in tops], _BETWEEN),
        blank(5),
        beside([(each, words) for words in about], _BETWEEN),
    ]


def _top(card: LiftCard, turns: Turns | None, reader: Reader, width: float) -> Block:
    """The lift, its three attempts, and its turns where they have chances."""
    wording = reader.wording
    later: tuple[Mass | None, ...] = (None, None)
    if card.plan is not None and follows_plan(card):
        later = card.plan.good_path[1:]
    third = width / 3
    heads = [
        (third, head_block(wording(f"sheet.plan.{one}"), third - 6, _HEAD))
        for one in ("first", "second", "third")
    ]
    weights = [(third, _weight(mass, reader, third - 6)) for mass in (card.opener, *later)]
    blocks = [
        rule(width, 1.2),
        blank(3),
        words_block(lift_name(card.lift, wording), width, SUBSECTION),
        beside(heads),
        beside(weights),
    ]
    if card.opener is not None:
        how = "sheet.opener.handed_in" if card.opener_chosen else "sheet.opener.planned"
        blocks.append(words_block(wording(how), width, _HEAD))
    if turns is not None:
        blocks += [blank(6), turns_block(turns, width)]
    return stack(blocks)


def _weight(mass: Mass | None, reader: Reader, width: float) -> Block:
    """A weight, and below it the same in the athlete's own unit where that differs."""
    if mass is None:
        return words_block(reader.wording("sheet.unknown"), width, _WEIGHT)
    figure = fitted_block(reader.wording.mass(mass), width, _WEIGHT, 8)
    return stack([figure, *reader.own_line(mass, width)])


def _about(card: LiftCard, reader: Reader, width: float) -> Block:
    """The expected maximum, what it is from, and what is to be said of the plan."""
    if card.plan is None:
        return blank(0)
    wording = reader.wording
    expected = wording("sheet.plan.expected_of", weight=reader.mass(card.plan.expected))
    lines = [source_line(card.plan, wording), *map(wording.say, card.plan.notes)]
    words = [padded(words_block(line, width, _ABOUT), below=2) for line in lines]
    return stack([words_block(expected, width, STRONG), *words])
