"""The kit page: what to pack, what gets it turned away, and when it is checked."""

from __future__ import annotations

from datetime import date

from coachdesk.domain.kit import KitList
from coachdesk.domain.meet import Entry
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import Text, text
from coachdesk.services.packet_content import CheckRound, KitLine


def kit_lines(kit_list: KitList, rulebook: Rulebook, entry: Entry) -> tuple[KitLine, ...]:
    """What to pack for an entry, with the rulebook's limits beside each piece."""
    return tuple(
        KitLine(
            item=item.label,
            count=item.count,
            lifts=item.lifts,
            inspected=item.inspected and rulebook.kit_inspection,
            limits=tuple(
                text("kit.limit", words=limit.words)
                for limit in rulebook.limits_of(item.code, entry.equipment)
            ),
        )
        for item in kit_list.items_for(entry.event)
    )


def check_rounds(kit_list: KitList, meet_on: date) -> tuple[CheckRound, ...]:
    """The days on which the whole list is checked."""
    return tuple(CheckRound(each.date_for(meet_on), each.label) for each in kit_list.rounds)


def kit_inspection(rulebook: Rulebook) -> Text:
    """Whether kit is inspected before the meet."""
    return text("kit.inspection" if rulebook.kit_inspection else "kit.no_inspection")


def after_last_lift(rulebook: Rulebook, *, minor: bool) -> tuple[Text, ...]:
    """What may follow the last lift."""
    if not rulebook.drug_test:
        return (text("after.results"),)
    lines = [text("after.drug_test"), text("after.drug_test_drink")]
    if minor:
        lines.append(text("after.minor"))
    return (*lines, text("after.results"))
