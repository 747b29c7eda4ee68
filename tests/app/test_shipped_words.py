"""What shipped data files name has words: causes, kit, rounds, and the fixed words of the trade."""

from __future__ import annotations

from enum import StrEnum

import pytest

from coachdesk.domain.attempts import Method, Outcome
from coachdesk.domain.class_fit import Pace, Verdict
from coachdesk.domain.kit import KIT_CODES, ROUND_CODES
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.meet import Role
from coachdesk.domain.rulebook_lifts import CAUSE_CODES
from coachdesk.domain.scoring import Formula
from coachdesk.domain.tasks import HINTED, TASK_CODES
from coachdesk.domain.warmup import Gear
from coachdesk.storage import tables
from coachdesk.wording.wording import Wording


def test_every_cause_has_words(wording: Wording) -> None:
    assert all(wording(f"cause.{code}") for code in CAUSE_CODES)


def test_every_piece_of_kit_and_every_round_has_words(wording: Wording) -> None:
    assert all(wording(f"kit.{code}") for code in KIT_CODES)
    assert all(wording(f"kit_round.{code}") for code in ROUND_CODES)


def test_every_usual_task_has_words(wording: Wording) -> None:
    assert all(wording(f"task.{code}") for code in TASK_CODES)
    assert all(wording(f"task.hint.{code}") for code in HINTED)


def test_whom_to_ask_about_medicines_is_named(wording: Wording) -> None:
    said = wording("task.hint.medicines_checked")
    assert "anti-doping" in said
    assert "physician" in said


def test_every_kind_of_record_has_words(wording: Wording) -> None:
    kinds = {table.name for table in tables.JOURNALLED} - {"entry_flight", "plan_snapshot"}
    assert all(wording(f"kind.{kind}") for kind in kinds)


@pytest.mark.parametrize(
    ("family", "members"),
    [
        ("lift", Lift),
        ("event", Event),
        ("equipment", Equipment),
        ("sex", Sex),
        ("role", Role),
        ("formula", Formula),
        ("pace", Pace),
        ("verdict", Verdict),
        ("method", Method),
        ("outcome", Outcome),
        ("gear", Gear),
    ],
)
def test_the_trades_fixed_words_are_all_there(
    wording: Wording, family: str, members: type[StrEnum]
) -> None:
    assert all(wording(f"{family}.{member}") for member in members)
