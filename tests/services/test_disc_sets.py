"""Keeping sets of discs: checked, journalled, and beside those of the rulebooks."""

from __future__ import annotations

from dataclasses import replace

import pytest

from coachdesk.domain.change import Change
from coachdesk.domain.disc_set import DiscSet, DiscSetData
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.loading import Disc, load
from coachdesk.domain.units import Mass, Unit, kilograms, pounds
from coachdesk.services.desk import Desk
from coachdesk.services.disc_sets import (
    add_disc_set,
    delete_disc_set,
    edit_disc_set,
    offered_sets,
)
from coachdesk.services.undo import redo, undo, undoable

GARAGE = DiscSetData(
    name="Garage",
    unit=Unit.LB,
    bar=pounds(45),
    collar=pounds("2.5"),
    discs=(
        Disc(pounds(45), 4, "black"),
        Disc(pounds(25), 1),
        Disc(kilograms("1.25"), None, "silver"),
        Disc(pounds("2.5"), 2),
    ),
)


def _sets(desk: Desk) -> tuple[DiscSet, ...]:
    with desk.reading() as reader:
        return reader.list(DiscSet)


def test_a_set_reads_back_as_it_was_entered_heaviest_disc_first(desk: Desk) -> None:
    done = add_disc_set(desk, replace(GARAGE, name="  Garage "))
    assert done.changes == {Change("disc_set", done.value)}
    (kept,) = _sets(desk)
    assert kept.name == "Garage"
    assert (kept.bar, kept.collar, kept.unit) == (pounds(45), pounds("2.5"), Unit.LB)
    assert kept.discs == (GARAGE.discs[0], GARAGE.discs[1], GARAGE.discs[2], GARAGE.discs[3])
    swapped = replace(GARAGE, name="Cellar", discs=GARAGE.discs[::-1])
    add_disc_set(desk, swapped)
    assert _sets(desk)[1].discs == GARAGE.discs


def test_changing_and_deleting_a_set_can_be_taken_back(desk: Desk) -> None:
    set_id = add_disc_set(desk, GARAGE).value
    edit_disc_set(desk, set_id, 1, replace(GARAGE, discs=GARAGE.discs[:1]))
    (edited,) = _sets(desk)
    delete_disc_set(desk, edited)
    assert _sets(desk) == ()
    label = undoable(desk)
    assert label is not None
    assert label.code == "did.delete_disc_set"
    undo(desk)
    assert [each.discs for each in _sets(desk)] == [GARAGE.discs[:1]]
    undo(desk)
    assert [each.discs for each in _sets(desk)] == [GARAGE.discs]
    redo(desk)
    assert [each.discs for each in _sets(desk)] == [GARAGE.discs[:1]]


def test_a_set_that_moved_on_is_not_overwritten(desk: Desk) -> None:
    set_id = add_disc_set(desk, GARAGE).value
    edit_disc_set(desk, set_id, 1, replace(GARAGE, name="Cellar"))
    with pytest.raises(Trouble) as refused:
        edit_disc_set(desk, set_id, 1, replace(GARAGE, name="Attic"))
    assert refused.value.text.code == "record.moved_on"


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"name": " "}, "name"),
        ({"name": "x" * 201}, "name"),
        ({"bar": pounds(0)}, "bar"),
        ({"collar": pounds(-1)}, "collar"),
        ({"discs": ()}, "weight_1"),
        ({"discs": (Disc(pounds(45)), Disc(kilograms("20.412")))}, "weight_2"),
        ({"discs": (Disc(kilograms(101)),)}, "weight_1"),
        ({"discs": (Disc(pounds(45)), Disc(pounds(25), None, "x" * 41))}, "colour_2"),
        ({"discs": tuple(Disc(pounds(one)) for one in range(1, 18))}, "name"),
    ],
)
def test_a_set_that_cannot_be_is_refused_at_its_field(
    desk: Desk, change: dict[str, object], field: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        add_disc_set(desk, replace(GARAGE, **change))  # type: ignore[arg-type]
    assert refused.value.field == field
    assert _sets(desk) == ()


def test_two_sets_do_not_go_by_one_name(desk: Desk) -> None:
    set_id = add_disc_set(desk, GARAGE).value
    with pytest.raises(InvalidInput) as refused:
        add_disc_set(desk, replace(GARAGE, name="garage"))
    assert refused.value.field == "name"
    edit_disc_set(desk, set_id, 1, replace(GARAGE, name="GARAGE"))
    assert [each.name for each in _sets(desk)] == ["GARAGE"]


def test_rulebooks_offer_theirs_with_and_without_the_discs_for_records(desk: Desk) -> None:
    """IPF: bar and collars 25 kg, steps of 2.5 kg, records by 0.5 kg (IPF 2007)."""
    add_disc_set(desk, GARAGE)
    offered = {each.key: each for each in offered_sets(desk)}
    assert next(iter(offered)).startswith("own:")
    ordinary, records = offered["rulebook:ipf_2021"], offered["records:ipf_2021"]
    assert (ordinary.step, records.step) == (kilograms("2.5"), kilograms("0.5"))
    assert load(kilograms("200.5"), ordinary.bar_set).exact is None
    exact = load(kilograms("200.5"), records.bar_set).exact
    assert exact is not None
    assert exact.total.grams == 200_500
    assert ordinary.rulebook is not None
    assert ordinary.own is None


def test_the_step_of_an_own_set_is_a_pair_of_its_lightest_disc(desk: Desk) -> None:
    add_disc_set(desk, replace(GARAGE, discs=(Disc(pounds(45)), Disc(pounds("2.5"), 1))))
    own = offered_sets(desk)[0]
    assert own.step == Mass(pounds(5).number, Unit.LB)
    assert own.own is not None
