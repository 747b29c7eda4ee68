"""The guide's notation of sets is the one that is read."""

from __future__ import annotations

from pathlib import Path

import pytest

from coachdesk.app import paths
from coachdesk.domain.blocks.notation import Prescription, read_prescriptions
from coachdesk.domain.units import Unit, kilograms, pounds

MEANT = {
    "5x3 80%": (Prescription(5, 3, percent=80),),
    "3x5 100": (Prescription(3, 5, weight=kilograms(100)),),
    "3x5 225 lb": (Prescription(3, 5, weight=pounds(225)),),
    "4x6 RPE 8": (Prescription(4, 6, rir=2),),
    "4x6 2 RIR": (Prescription(4, 6, rir=2),),
    "3x5 75% RPE 8": (Prescription(3, 5, percent=75, rir=2),),
    "1x1 92% judged": (Prescription(1, 1, percent=92, judged=True),),
    "5x3 80% (pause 2 s)": (Prescription(5, 3, percent=80, note="pause 2 s"),),
    "1x1 90%; 3x3 80%": (Prescription(1, 1, percent=90), Prescription(3, 3, percent=80)),
}
"""What the guide says in words beside each, by hand."""


PAGES = sorted(paths.resources().glob("guide/*/blocks.md"))


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.parent.name)
def test_the_guide_teaches_what_is_read(page: Path) -> None:
    """The page's first table: what is typed stands in its first column."""
    table = page.read_text(encoding="utf-8").partition("\n|")[2].partition("\n\n")[0].splitlines()
    typed = [line.split("|")[1].strip() for line in table[2:]]
    assert {each: read_prescriptions(each, Unit.KG) for each in typed} == MEANT
