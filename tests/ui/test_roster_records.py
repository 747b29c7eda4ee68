"""One athlete's records without a window: weights, sets, results, and the list of handlers."""

from __future__ import annotations

from datetime import date, time

import pytest

from coachdesk.domain.athlete import Dress, Handler, Reading
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.meet import HandlerDuty, Meet, Role
from coachdesk.domain.scoring import Formula
from coachdesk.domain.text import Text, text
from coachdesk.domain.training import LoggedSet
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services.desk import Desk
from coachdesk.ui.athletes.profile_values import first_values
from coachdesk.ui.screens.roster.athlete_detail import AthleteDetail
from coachdesk.ui.screens.roster.presenter import RosterPresenter
from coachdesk.wording.wording import Wording

TODAY = date(2026, 11, 25)
NEW = {
    "given_name": "Lina",
    "family_name": "Brandt",
    "sex": "female",
    "birth_date": "1999-03-01",
    "unit": "kg",
    "equipment": "classic",
}
SHEET = {
    "meet": "Spring Cup",
    "on": "2026-05-09",
    "rulebook": "ipf_2021",
    "event": "three_lift",
    "equipment": "classic",
    "divisions": "open",
    "weight_class": "63",
    "bodyweight": "62,45",
    "squat": "120 127,5 -132,5",
    "bench": "60 -65 65",
    "deadlift": "140 150 157,5",
    "place": "2",
    "note": "",
}


@pytest.fixture
def presenter(desk: Desk, wording: Wording) -> RosterPresenter:
    return RosterPresenter(desk, wording, Formula.IPF_GL)


@pytest.fixture
def lina(presenter: RosterPresenter) -> AthleteDetail:
    return presenter.detail(presenter.add(NEW).value)


def _label() -> Text:
    return text("did.add_athlete", name="many")


def test_a_weight_is_taken_in_either_unit_with_point_or_comma(
    desk: Desk, presenter: RosterPresenter
) -> None:
    detail = presenter.detail(presenter.add({**NEW, "unit": "lb"}).value)
    for typed in ("138.4", "62,8 kg", "138,4lb"):
        detail.readings.add({**detail.readings.new_values(Dress.LIGHT), "weight": typed})
    with desk.reading() as reader:
        weights = [reading.weight for reading in reader.list(Reading)]
    assert weights == [pounds("138.4"), kilograms("62.8"), pounds("138.4")]
    rows, of = detail.readings.rows(everything=False)
    assert of == 3
    assert [row.weight for row in rows] == ["138.4", "138.45", "138.4"]
    assert {(row.day, row.dress, row.hour) for row in rows} == {
        ("25 Nov 2026", "light clothes", "")
    }


def test_a_reading_is_mended_with_all_it_has(lina: AthleteDetail) -> None:
    lina.readings.add({**lina.readings.new_values(), "weight": "63", "at": "7:05"})
    (row,), _ = lina.readings.rows(everything=True)
    values = lina.readings.values(row.reading)
    assert (values["weight"], values["at"]) == ("63 kg", "07:05")
    lina.readings.edit(row.reading, {**values, "scale": "club", "note": "late", "at": "7.30"})
    (row,), _ = lina.readings.rows(everything=True)
    assert (row.scale, row.note, row.hour) == ("club", "late", "07:30")
    assert row.reading.at == time(7, 30)
    lina.readings.delete([row.reading])
    assert lina.readings.rows(everything=True) == ((), 0)


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"weight": ""}, "weight"),
        ({"weight": "heavy"}, "weight"),
        ({"weight": "6300"}, "weight"),
        ({"on": ""}, "on"),
        ({"on": "2026-11-26"}, "on"),
        ({"at": "25:00"}, "at"),
    ],
)
def test_a_reading_that_cannot_be_is_refused_at_its_field(
    lina: AthleteDetail, change: dict[str, str], field: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        lina.readings.add({**lina.readings.new_values(), "weight": "63", **change})
    assert refused.value.field == field
    assert lina.readings.rows(everything=True) == ((), 0)


def test_rows_copied_from_the_table_can_be_pasted_back(lina: AthleteDetail) -> None:
    lina.readings.add(
        {**lina.readings.new_values(Dress.UNDRESSED), "weight": "63.2", "at": "7:05", "note": "x"}
    )
    (row,), _ = lina.readings.rows(everything=True)
    head = ["Day", "Weight, kg", "Hour", "Worn", "Scale", "Note"]
    cells = [row.day, row.weight, row.hour, row.dress, row.scale, row.note]
    pasted = lina.readings.read_pasted([head, cells])
    assert pasted.faults == ()
    (data,) = pasted.readings
    assert (data.on, data.at, data.weight) == (TODAY, time(7, 5), kilograms("63.2"))
    assert (data.dress, data.note) == (Dress.UNDRESSED, "x")


def test_every_line_that_cannot_be_pasted_is_named_and_nothing_is_kept(
    lina: AthleteDetail,
) -> None:
    pasted = lina.readings.read_pasted(
        [
            ["2026-11-20", "63,1"],
            ["2026-13-20", "63,1"],
            ["20 Nov 2026", "6310"],
            ["31 Feb 2026", "63"],
            ["21.11.2026"],
            ["22.11.2026", "63", "", "ball gown"],
            ["22.11.2027", "63"],
        ]
    )
    assert [fault.split(":")[0] for fault in pasted.faults] == [
        "Line 2",
        "Line 3",
        "Line 4",
        "Line 5",
        "Line 6",
        "Line 7",
    ]
    assert "ball gown" in pasted.faults[4]
    assert lina.readings.read_pasted([["Day", "Weight"]]).faults
    good = lina.readings.read_pasted([["2026-11-20", "63,1"], ["21.11.2026", "139 lb", "7:15"]])
    lina.readings.add_many(good.readings)
    assert [row.weight for row in lina.readings.rows(everything=True)[0]] == ["63.05", "63.1"]


def test_equal_sets_are_logged_at_once_and_a_judged_single_alone(
    desk: Desk, lina: AthleteDetail
) -> None:
    new = {**lina.sets.new_values(), "weight": "100", "reps": "5", "rir": "1,5"}
    lina.sets.add({**new, "sets": "3", "variation": "paused"})
    red = {**new, "reps": "1", "result": "no_lift", "cause": "squat.depth"}
    for sets in ("2", "0", "21", "", "x"):
        with pytest.raises(InvalidInput) as refused:
            lina.sets.add({**red, "sets": sets})
        assert refused.value.field == "sets"
    lina.sets.add(red)
    rows, of = lina.sets.rows(everything=False)
    assert of == 4
    assert (rows[0].lift, rows[0].weight, rows[0].reps, rows[0].rir) == (
        "Squat, paused",
        "100",
        "5",
        "1.5",
    )
    assert rows[3].call == "no lift: Depth: hip not below the top of the knee"
    with desk.reading() as reader:
        judged = [each for each in reader.list(LoggedSet) if each.judged]
    assert [(each.result, each.cause) for each in judged] == [(Result.NO_LIFT, "squat.depth")]


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"reps": ""}, "reps"),
        ({"rir": "1.3"}, "rir"),
        ({"weight": ""}, "weight"),
        ({"on": "2026-11-26"}, "on"),
        ({"result": "good"}, "result"),
        ({"cause": "squat.depth"}, "cause"),
    ],
)
def test_a_set_that_cannot_be_is_refused_at_its_field(
    lina: AthleteDetail, change: dict[str, str], field: str
) -> None:
    values = {**lina.sets.new_values(), "weight": "100", "reps": "5", **change}
    with pytest.raises(InvalidInput) as refused:
        lina.sets.add(values)
    assert refused.value.field == field


def test_a_set_is_mended_and_keeps_what_it_has(lina: AthleteDetail) -> None:
    lina.sets.add({**lina.sets.new_values(), "weight": "100", "reps": "5", "rir": "2"})
    (row,), _ = lina.sets.rows(everything=True)
    values = lina.sets.values(row.logged)
    assert values == {
        "on": "2026-11-25",
        "lift": "squat",
        "variation": "",
        "weight": "100 kg",
        "reps": "5",
        "rir": "2",
        "result": "",
        "cause": "",
        "note": "",
    }
    lina.sets.edit(row.logged, {**values, "reps": "1", "result": "good"})
    (row,), _ = lina.sets.rows(everything=True)
    assert (row.reps, row.call) == ("1", "good")
    assert lina.sets.values(row.logged)["result"] == "good"
    lina.sets.delete([row.logged])
    assert lina.sets.rows(everything=True) == ((), 0)


def test_the_causes_offered_are_those_of_the_lift(lina: AthleteDetail) -> None:
    squat = dict(lina.sets.causes(Lift.SQUAT))
    assert "squat.depth" in squat
    assert not any(code.startswith("bench") for code in squat)
    assert lina.sets.causes("") == (("", "none"),)


def test_a_result_shows_as_its_sheet_has_it_and_comes_back_to_be_mended(
    lina: AthleteDetail,
) -> None:
    lina.results.add(SHEET)
    (row,) = lina.results.rows()
    assert (row.day, row.meet, row.total) == ("9 May 2026", "Spring Cup", "350 kg")
    assert (row.squat, row.bench, row.deadlift) == (
        "120 127.5 -132.5",
        "60 -65 65",
        "140 150 157.5",
    )
    assert (row.bodyweight, row.weight_class, row.place) == ("62.45 kg", "63", "2")
    assert row.points == f"{row.by_points}"
    values = lina.results.values(row.result)
    assert values == {
        **SHEET,
        "bodyweight": "62.45 kg",
        "squat": "120 127.5 -132.5",
        "deadlift": "140 150 157.5",
    }
    lina.results.edit(row.result, {**values, "bench": "-60 -65 -65", "place": ""})
    (row,) = lina.results.rows()
    assert (row.total, row.points, row.place) == ("no total (Bench press)", "", "")
    said = "Also deleted: 9 attempts, the meet itself, for nothing else belongs to it."
    assert lina.results.goes_along(row.result) == said
    lina.results.delete(row.result)
    assert lina.results.rows() == ()


def test_a_new_result_begins_with_the_narrowest_division_and_the_last_rulebook(
    lina: AthleteDetail,
) -> None:
    new = lina.results.new_values()
    assert new["rulebook"] in dict(lina.results.rulebooks())
    assert new["divisions"] in dict(lina.results.divisions(new["rulebook"]))
    lina.results.add({**SHEET, "rulebook": "traditional_two_hour", "weight_class": "67.5"})
    assert lina.results.new_values()["rulebook"] == "traditional_two_hour"
    assert lina.results.divisions("no_such_book") == ()
    assert lina.results.formula == "IPF GL"


def test_handlers_are_kept_with_their_duties_counted(
    desk: Desk, presenter: RosterPresenter, lina: AthleteDetail
) -> None:
    presenter.save_handler(None, {"name": "Ida", "phone": "1", "note": ""})
    (row,) = presenter.handlers()
    assert presenter.handler_goes_with(row) == "Nothing else is on file about them."
    presenter.save_handler(row.handler, {"name": "Ida Roth", "phone": "2", "note": "early"})
    lina.results.add(SHEET)
    (result,) = lina.results.rows()
    with desk.action(_label()) as work:
        duty = HandlerDuty(
            entry_id=result.result.entry.id, handler_id=row.handler.id, role=Role.WRAPS
        )
        work.insert_many([duty])
    (row,) = presenter.handlers()
    assert (row.handler.name, row.duties) == ("Ida Roth", 1)
    assert presenter.handler_goes_with(row) == "Also deleted: 1 duty at a meet."
    presenter.delete_handler(row.handler)
    with desk.reading() as reader:
        assert reader.list(Handler) == ()
        assert [meet.name for meet in reader.list(Meet)] == ["Spring Cup"]


def test_the_unit_a_bare_weight_is_taken_in_is_the_athletes_own(
    presenter: RosterPresenter,
) -> None:
    detail = presenter.detail(presenter.add({**NEW, "unit": "lb"}).value)
    assert (detail.readings.unit, detail.sets.unit) == (Unit.LB, Unit.LB)
    detail.sets.add({**detail.sets.new_values(), "weight": "405", "reps": "1"})
    (row,), _ = detail.sets.rows(everything=True)
    assert row.weight == "405"
    assert first_values(Unit.LB, "")["unit"] == Unit.LB


@pytest.mark.parametrize(
    ("typed", "given", "family"),
    [
        ("Mara Lindqvist", "Mara", "Lindqvist"),
        (" Mara  van der Lind ", "Mara", "van der Lind"),
        ("van der Lind, Mara", "Mara", "van der Lind"),
        ("Mara", "Mara", ""),
        ("", "", ""),
    ],
)
def test_a_name_typed_in_one_go_is_parted(typed: str, given: str, family: str) -> None:
    values = first_values(Unit.KG, typed)
    assert (values["given_name"], values["family_name"]) == (given, family)
