"""The kit page: what to pack, what gets it turned away, and when it is checked."""

from __future__ import annotations

from datetime import date

from coachdesk.domain.kit import KitItem, KitList
from coachdesk.domain.kit_rounds import KitStatus
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import Text, text
from coachdesk.services.packet_content import CheckRound, KitLine


def kit_lines(kit: KitStatus, rulebook: Rulebook, entry: Entry) -> tuple[KitLine, ...]:
    """What to pack for an entry, with the rulebook's limits beside each piece."""
    return tuple(
        KitLine(
            item=item.label,
            count=item.count,
            lifts=item.lifts,
            inspected=item.inspected and rulebook.kit_inspection,
            limits=limits_of(rulebook, item, entry),
            sights=tuple(each.sights[item.code] for each in kit.rounds),
        )
        for item in kit.items
    )


def limits_of(rulebook: Rulebook, item: KitItem, entry: Entry) -> tuple[Text, ...]:
    """What gets a piece of kit turned away."""
    limits = rulebook.limits_of(item.code, entry.equipment)
    return tuple(text("kit.limit", words=limit.words) for limit in limits)


def check_rounds(kit_list: KitList, meet_on: date) -> tuple[CheckRound, ...]:
    """The days on which the whole list is checked."""
    return tuple(CheckRound(each.date_for(meet_on), each.label) for each in kit_list.rounds)


def kit_inspection(rulebook: Rulebook, meet: Meet) -> Text:
    """Whether kit is inspected before the meet, and on which day."""
    if meet.kit_inspection_on is not None:
        return text("kit.inspection_on", day=meet.kit_inspection_on)
    return text("kit.inspection" if rulebook.kit_inspection else "kit.no_inspection")


def after_last_lift(rulebook: Rulebook, *, minor: bool) -> tuple[Text, ...]:
    """What may follow the last lift."""
    if not rulebook.drug_test:
        return (text("after.results"),)
    lines = [text("after.drug_test"), text("after.drug_test_drink")]
    if minor:
        lines.append(text("after.minor"))
    return (*lines, text("after.results"))
