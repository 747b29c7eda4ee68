"""Drawing order of lines with Hebrew and Arabic letters, after Unicode's UAX #9 worked by hand."""

from __future__ import annotations

import pytest

from coachdesk.reports.right_to_left import visual_order

ALEF, BET, GIMEL = "\u05d0\u05d1\u05d2"


@pytest.mark.parametrize(
    ("typed", "drawn"),
    [
        ("Mara 12", "Mara 12"),
        (ALEF + BET + GIMEL, GIMEL + BET + ALEF),
        (f"{ALEF}{BET} 12", f"12 {BET}{ALEF}"),
        (f"Mara {ALEF}{BET} Li", f"Mara {BET}{ALEF} Li"),
        (f"Mara {ALEF} {BET} 12", f"Mara 12 {BET} {ALEF}"),
        (f"{ALEF}\u05b8{BET}", f"{BET}{ALEF}\u05b8"),
    ],
)
def test_a_line_is_drawn_in_reading_order(typed: str, drawn: str) -> None:
    assert visual_order(typed) == drawn


def test_arabic_letters_join() -> None:
    # meem, hah, meem, dal: initial, medial, medial, final (Unicode code chart FE70-FEFF)
    assert visual_order("\u0645\u062d\u0645\u062f") == "\ufeaa\ufee4\ufea4\ufee3"
