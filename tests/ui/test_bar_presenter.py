"""Bar without widgets: weight to discs and back, in both units, and sets as they are typed."""

from __future__ import annotations

import pytest

from coachdesk.domain.disc_look import FULL_MM, diameter_mm, thickness_mm
from coachdesk.domain.disc_set import DiscSet, DiscSetData
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.loading import Disc
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services.desk import Desk
from coachdesk.services.disc_sets import add_disc_set
from coachdesk.ui.screens.bar.presenter import BarPresenter
from coachdesk.ui.screens.bar.set_values import joined, keep_set, parted, set_from, values_of
from coachdesk.wording.wording import Wording

GARAGE = DiscSetData(
    name="Garage",
    unit=Unit.LB,
    bar=pounds(45),
    collar=pounds(0),
    discs=(Disc(pounds(45), 2, "black"), Disc(pounds(25), 1), Disc(pounds(5), 1)),
)
TYPED = {
    "name": "Cellar",
    "unit": "kg",
    "bar": "20",
    "collar": "",
    "disc_1": joined("20", "2", "blue"),
    "disc_2": joined("", "", ""),
    "disc_3": joined("45 lb", "", ""),
}


@pytest.fixture
def presenter(desk: Desk, wording: Wording) -> BarPresenter:
    made = BarPresenter(desk, wording)
    made.read()
    made.choose("rulebook:ipf_2021")
    return made


def test_a_weight_becomes_discs_largest_inside(presenter: BarPresenter) -> None:
    """142.5 kg with bar and collars of 25 kg leaves 58.75 kg a side (common practice)."""
    shown = presenter.load("142,5")
    assert shown.is_exact
    assert presenter.each_side(shown.discs) == "50, 5, 2.5, 1.25"
    assert presenter.both_units(shown.total) == "142.5 kg (314.16 lb)"
    assert presenter.verdict(shown) == "142.5 kg exactly."
    assert "50 kg green" in presenter.said(shown)
    assert "each collar 2.5 kg" in presenter.said(shown)


def test_pounds_typed_find_the_nearest_kilograms(presenter: BarPresenter) -> None:
    """405 lb is 183.705 kg (1 lb is 0.45359237 kg exactly): 182.5 and 185 kg stand around it."""
    shown = presenter.load("405 lb")
    assert not shown.is_exact
    assert shown.below is not None
    assert shown.above is not None
    assert (shown.below.total, shown.above.total) == (kilograms("182.5"), kilograms(185))
    assert shown.total == kilograms("182.5")
    assert presenter.nearest(shown.below) == "182.5 kg, 2.66 lb less"
    assert presenter.nearest(shown.above) == "185 kg, 2.86 lb more"
    assert "cannot be made" in presenter.verdict(shown)


@pytest.mark.parametrize("entered", ["", "heavy", "20", "2000", "-5"])
def test_what_is_no_weight_for_this_bar_is_refused(presenter: BarPresenter, entered: str) -> None:
    with pytest.raises(InvalidInput) as refused:
        presenter.load(entered)
    assert refused.value.field == "weight"


def test_discs_put_on_make_a_weight(presenter: BarPresenter) -> None:
    """25 kg bar with collars, then 20 + 25 + 2.5 on each side: 120 kg."""
    discs = {presenter.disc(disc): disc for disc in presenter.chosen.bar_set.discs}
    shown = presenter.bare()
    assert shown.total == kilograms(25)
    assert presenter.each_side(shown.discs) == "bare bar"
    for number in ("20", "25", "2.5"):
        shown = presenter.put(shown, discs[number])
    assert presenter.each_side(shown.discs) == "25, 20, 2.5"
    assert shown.total == kilograms(120)
    assert presenter.verdict(shown) == ""
    less = presenter.take(shown, discs["20"])
    assert less.total == kilograms(80)
    assert presenter.take(less, discs["20"]) == less


def test_only_the_pairs_at_hand_can_be_put_on(desk: Desk, wording: Wording) -> None:
    add_disc_set(desk, GARAGE)
    presenter = BarPresenter(desk, wording)
    presenter.read()
    assert presenter.chosen.own is not None
    only = presenter.chosen.bar_set.discs[1]
    shown = presenter.put(presenter.bare(), only)
    assert presenter.both_units(shown.total) == "95 lb (43.09 kg)"
    with pytest.raises(InvalidInput) as refused:
        presenter.put(shown, only)
    assert wording.say(refused.value.text) == "There is only 1 pair of 25 lb in this set."
    run_out = presenter.load("500")
    assert "run out" in presenter.verdict(run_out)
    assert presenter.both_units(run_out.total) == "285 lb (129.27 kg)"


def test_another_set_loads_the_same_weight(desk: Desk, presenter: BarPresenter) -> None:
    add_disc_set(desk, GARAGE)
    shown = presenter.load("100")
    presenter.read()
    own = next(key for key, _ in presenter.set_choices() if key.startswith("own"))
    presenter.choose(own)
    again = presenter.on_set(shown)
    assert again.asked == kilograms(100)
    assert again.total.unit is Unit.LB
    presenter.choose("rulebook:ipf_2021")
    light = presenter.put(presenter.bare(), Disc(pounds(5)))
    presenter.choose(own)
    assert presenter.on_set(light).total.grams >= pounds(45).grams
    assert presenter.on_set(presenter.bare()).is_exact


def test_the_weights_around_go_by_the_step(presenter: BarPresenter) -> None:
    shown = presenter.load("100")
    rows = presenter.rows(shown, presenter.step(""))
    assert [row.weight.grams for row in rows] == list(range(75_000, 127_500, 2500))
    assert presenter.row_discs(rows[10]) == "25, 10, 2.5"
    assert presenter.row_weight(rows[10], Unit.LB) == "220.46"
    fine = presenter.rows(shown, presenter.step("1"))
    assert {presenter.row_discs(row) for row in fine if row.weight.grams % 2500} == {
        "not with these discs"
    }
    light = presenter.rows(presenter.bare(), presenter.step(""))
    assert light[0].weight == kilograms(25)


@pytest.mark.parametrize("entered", ["0", "-1", "x"])
def test_a_step_that_leads_nowhere_is_refused(presenter: BarPresenter, entered: str) -> None:
    with pytest.raises(InvalidInput) as refused:
        presenter.step(entered)
    assert refused.value.field == "step"


def test_a_set_is_typed_row_by_row_and_reads_back(desk: Desk) -> None:
    data, rows = set_from(TYPED)
    assert rows == (1, 3)
    assert data.discs == (Disc(kilograms(20), 2, "blue"), Disc(pounds(45)))
    assert data.collar == kilograms(0)
    done = keep_set(desk, TYPED, None)
    with desk.reading() as reader:
        kept = reader.get(DiscSet, done.value)
    edited = keep_set(desk, {**TYPED, "name": "Attic"}, kept)
    assert edited.value == kept.id
    with desk.reading() as reader:
        assert [each.name for each in reader.list(DiscSet)] == ["Attic"]


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"bar": ""}, "bar"),
        ({"bar": "0"}, "bar"),
        ({"collar": "x"}, "collar"),
        ({"disc_1": joined("x", "", "")}, "disc_1"),
        ({"disc_1": joined("20", "two", "")}, "disc_1"),
        ({"disc_1": joined("20", "-1", "")}, "disc_1"),
        ({"disc_1": joined("", "2", "")}, "disc_1"),
        ({"disc_3": joined("20 kg", "", "")}, "disc_3"),
        ({"disc_3": joined("200", "", "")}, "disc_3"),
        ({"disc_1": "", "disc_3": ""}, "disc_1"),
        ({"unit": "stone"}, "unit"),
        ({"name": ""}, "name"),
    ],
)
def test_what_cannot_be_taken_is_said_at_its_row(
    desk: Desk, change: dict[str, str], field: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        keep_set(desk, {**TYPED, **change}, None)
    assert refused.value.field == field


def test_a_rulebooks_set_is_copied_disc_by_disc(presenter: BarPresenter) -> None:
    values = values_of(presenter.chosen, "Ours")
    assert (values["name"], values["bar"], values["collar"]) == ("Ours", "20 kg", "2.5 kg")
    assert parted(values["disc_2"]) == ("25 kg", "", "red")
    data, _ = set_from(values)
    assert data.bar_set == presenter.chosen.bar_set


def test_the_chart_goes_from_the_bar_to_the_weight_typed(presenter: BarPresenter) -> None:
    chart = presenter.chart("", "60")
    assert [row.weight.grams for row in chart.rows][:2] == [25_000, 27_500]
    assert chart.rows[-1].weight == kilograms(60)
    assert presenter.chart("2.5", presenter.usual_last()).gaps == 0
    for values, field in ((("0.5", "350"), "step"), (("", "10"), "last"), (("", ""), "last")):
        with pytest.raises(InvalidInput) as refused:
            presenter.chart(*values)
        assert refused.value.field == field


def test_discs_are_drawn_in_proportion() -> None:
    """Discs from 20 kg up have one diameter, 45 cm; a 10 kg disc some 32 cm (common practice)."""
    assert diameter_mm(20) == diameter_mm(25) == FULL_MM
    assert diameter_mm(10) == pytest.approx(320, abs=10)
    assert diameter_mm(5) == pytest.approx(228, abs=10)
    assert thickness_mm(25) > thickness_mm(20) == thickness_mm(10)
    sizes = [diameter_mm(kg) for kg in (0.25, 0.5, 1.25, 2.5, 5, 10, 15, 20)]
    assert sizes == sorted(sizes)
