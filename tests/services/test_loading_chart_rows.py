"""The loading chart's rows: exact, from the bar up, and honest about what the discs do not make."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal

import pytest

from coachdesk.domain.disc_set import DiscSetData
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.loading import Disc
from coachdesk.domain.units import Mass, Unit, kilograms, pounds
from coachdesk.services.desk import Desk
from coachdesk.services.disc_sets import OfferedSet, add_disc_set, offered_sets
from coachdesk.services.loading_chart import MOST_ROWS, loading_chart

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)


def _offered(desk: Desk, key: str) -> OfferedSet:
    return next(each for each in offered_sets(desk) if each.key.startswith(key))


def test_every_row_adds_up(desk: Desk) -> None:
    """Bar 20 kg, two collars of 2.5 kg (IPF 2007), and twice the discs of one side."""
    chart = loading_chart(
        _offered(desk, "rulebook:ipf_2021"),
        step=kilograms("2.5"),
        last=kilograms(350),
        printed_at=NOW,
    )
    assert [row.weight.number for row in chart.rows] == [
        Decimal("2.5") * at for at in range(10, 141)
    ]
    for row in chart.rows:
        sides = sum((disc.weight.number for disc in row.loading.discs_per_side), Decimal(0))
        assert Decimal(25) + 2 * sides == row.weight.number
    assert chart.gaps == 0
    assert chart.rulebook
    assert chart.edition


def test_weights_the_discs_do_not_make_are_left_out_and_counted(desk: Desk) -> None:
    """45 lb bar, one pair of 25 lb and one of 5 lb: 45, 55, 95 and 105 lb."""
    add_disc_set(
        desk,
        DiscSetData(
            name="Garage",
            unit=Unit.LB,
            bar=pounds(45),
            collar=pounds(0),
            discs=(Disc(pounds(25), 1), Disc(pounds(5), 1)),
        ),
    )
    chart = loading_chart(
        _offered(desk, "own"), step=pounds(10), last=kilograms(50), printed_at=NOW
    )
    assert [row.weight for row in chart.rows] == []
    assert chart.gaps == 7
    fine = loading_chart(_offered(desk, "own"), step=pounds(5), last=pounds(110), printed_at=NOW)
    assert [int(row.weight.number) for row in fine.rows] == [45, 55, 95, 105]
    assert fine.gaps == 10
    assert (fine.rulebook, fine.edition) == ("", "")


@pytest.mark.parametrize(
    ("step", "last", "field"),
    [
        (kilograms(0), kilograms(100), "step"),
        (kilograms("0.5"), kilograms(350), "step"),
        (kilograms("2.5"), kilograms(20), "last"),
        (kilograms("2.5"), kilograms(1001), "last"),
    ],
)
def test_a_chart_that_cannot_be_is_refused_at_its_field(
    desk: Desk, step: Mass, last: Mass, field: str
) -> None:
    assert MOST_ROWS < (350 - 25) / 0.5
    with pytest.raises(InvalidInput) as refused:
        loading_chart(_offered(desk, "rulebook"), step=step, last=last, printed_at=NOW)
    assert refused.value.field == field
