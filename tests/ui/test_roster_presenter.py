"""The Roster without a window: who is found, what is said, what is kept."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from coachdesk.domain.athlete import Athlete, AthleteData
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Equipment, Event, Sex
from coachdesk.domain.meet import EntryData, MeetData
from coachdesk.domain.scoring import Formula
from coachdesk.domain.text import Text, text
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, enter_athlete
from coachdesk.services.roster import add_athlete
from coachdesk.services.undo import undo
from coachdesk.ui.screens.roster import row_words
from coachdesk.ui.screens.roster.athlete_detail import AthleteDetail
from coachdesk.ui.screens.roster.presenter import AT_A_TIME, RosterPresenter, Shown
from coachdesk.ui.screens.roster.row_words import RowWords
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


def _add(
    desk: Desk, given: str, family: str, sex: Sex = Sex.FEMALE, born: date | None = None
) -> int:
    data = AthleteData(given_name=given, family_name=family, sex=sex, birth_date=born)
    return add_athlete(desk, data).value


def _found(presenter: RosterPresenter, typed: str, shown: Shown = Shown.ACTIVE) -> list[str]:
    presenter.load()
    return [row.line.given_name for row in presenter.rows(typed, shown)]


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("lucja", ["Łucja"]),
        ("OSTER", ["Søren"]),
        ("soren o", ["Søren"]),
        ("strasse", ["Max"]),
        ("ja bak", ["Łucja"]),
        ("nobody", []),
        ("", ["Łucja", "Søren", "Max"]),
    ],
)
def test_search_folds_accents_and_looks_at_names_only(
    desk: Desk, presenter: RosterPresenter, typed: str, found: list[str]
) -> None:
    for given, family in (("Søren", "Øster"), ("Max", "Straße Do"), ("Łucja", "Bąk Dom")):
        _add(desk, given, family)
    assert _found(presenter, typed) == found


def test_the_list_is_sorted_as_names_are_in_a_register(
    desk: Desk, presenter: RosterPresenter
) -> None:
    for given, family in (("A", "Zorn"), ("B", "Øster"), ("C", "Oder"), ("D", "Świt"), ("E", "")):
        _add(desk, given, family)
    assert _found(presenter, "") == ["E", "C", "B", "D", "A"]


def test_filters_show_who_is_meant(desk: Desk, presenter: RosterPresenter) -> None:
    ana = _add(desk, "Ana", "A", born=date(2000, 1, 1))
    _add(desk, "Bo", "B", Sex.MALE)
    cem = _add(desk, "Cem", "C", Sex.MALE)
    presenter.detail(cem).archive()
    meet = MeetData(
        name="Cup",
        starts_on=TODAY + timedelta(9),
        rulebook="traditional_two_hour",
        time_zone="Europe/Berlin",
    )
    _enter(desk, ana, add_meet(desk, meet).value)
    found = {shown: _found(presenter, "", shown) for shown in Shown}
    assert found == {
        Shown.ACTIVE: ["Ana", "Bo"],
        Shown.MEET_AHEAD: ["Ana"],
        Shown.WOMEN: ["Ana"],
        Shown.MEN: ["Bo"],
        Shown.ARCHIVED: ["Cem"],
        Shown.ALL: ["Ana", "Bo", "Cem"],
    }
    assert presenter.is_shown(cem, Shown.ALL)
    assert not presenter.is_shown(cem, Shown.ACTIVE)


def _enter(desk: Desk, athlete_id: int, meet_id: int) -> int:
    data = EntryData(
        athlete_id=athlete_id,
        meet_id=meet_id,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
    )
    return enter_athlete(desk, data).value


def test_a_row_says_what_is_on_file_and_sorts_by_it(
    desk: Desk, presenter: RosterPresenter, lina: AthleteDetail, wording: Wording
) -> None:
    lina.readings.add({**lina.readings.new_values(), "weight": "138,4 lb", "on": "24.11.2026"})
    lina.results.add(SHEET)
    ahead = MeetData(
        name="Winter <b>Cup</b>",
        starts_on=date(2026, 12, 12),
        rulebook="ipf_2021",
        time_zone="Europe/Berlin",
    )
    _enter(desk, lina.id, add_meet(desk, ahead).value)
    presenter.load()
    assert presenter.lacks_totals()
    assert not presenter.look_up_totals()
    assert not presenter.lacks_totals()
    (row,) = presenter.rows("", Shown.ACTIVE)
    say = RowWords(wording, desk.today)
    assert say.name(row) == "Brandt, Lina"
    assert say.born(row) == "1999 (27)"
    assert say.weight(row) == "62.78"  # 138.4 lb x 0.45359237
    assert say.weighed(row) == "24 Nov 2026"
    assert (say.meet(row), say.meet_day(row)) == ("Winter <b>Cup</b>", "12 Dec 2026")
    assert say.weight_class(row) == "not chosen"
    assert say.total(row) == "350"
    assert say.lifted(row) == "9 May 2026: Classic"
    assert row_words.sort_name(row) == ("brandt", "lina")
    assert row_words.sort_birth(row) == date(1999, 3, 1)
    assert row_words.sort_weight(row) == 62_777
    assert row_words.sort_weighed(row) == date(2026, 11, 24)
    assert row_words.sort_meet(row) == date(2026, 12, 12)
    assert row_words.sort_total(row) == 350_000
    assert row_words.sort_lifted(row) == date(2026, 5, 9)


def test_an_empty_row_says_nothing_it_does_not_know(
    desk: Desk, presenter: RosterPresenter, wording: Wording
) -> None:
    presenter.detail(_add(desk, "Zoë", "")).archive()
    presenter.load()
    presenter.look_up_totals()
    (row,) = presenter.rows("zoe", Shown.ALL)
    say = RowWords(wording, desk.today)
    assert say.name(row) == "Zoë (archived)"
    assert say.born(row) == "not on file"
    cells = (say.weight, say.weighed, say.meet, say.meet_day, say.weight_class, say.total)
    assert [cell(row) for cell in (*cells, say.lifted)] == [""] * 7
    sorts = (
        row_words.sort_birth,
        row_words.sort_weight,
        row_words.sort_weighed,
        row_words.sort_meet,
        row_words.sort_total,
        row_words.sort_lifted,
    )
    assert [sort(row) for sort in sorts] == [None] * 6


def test_totals_are_looked_up_some_at_a_time(desk: Desk, presenter: RosterPresenter) -> None:
    with desk.action(_label()) as work:
        for at in range(AT_A_TIME + 1):
            work.insert(AthleteData(given_name=f"A{at}", family_name="B", sex=Sex.MALE))
    presenter.load()
    assert presenter.look_up_totals()
    assert presenter.lacks_totals()
    assert not presenter.look_up_totals()
    presenter.forget_totals()
    assert presenter.lacks_totals()


def _label() -> Text:
    return text("did.add_athlete", name="many")


@pytest.mark.parametrize(
    ("change", "field", "code"),
    [
        ({"given_name": " "}, "given_name", "check.required"),
        ({"sex": ""}, "sex", "typed.choice"),
        ({"birth_date": "31.2.2001"}, "birth_date", "typed.day"),
        ({"birth_date": "2027-01-01"}, "birth_date", "check.birth_date"),
    ],
)
def test_a_new_athlete_that_cannot_be_is_refused_at_the_field(
    desk: Desk, presenter: RosterPresenter, change: dict[str, str], field: str, code: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        presenter.add({**NEW, **change})
    assert (refused.value.field, refused.value.text.code) == (field, code)
    with desk.reading() as reader:
        assert reader.list(Athlete) == ()


def test_a_profile_comes_back_as_it_was_typed(
    presenter: RosterPresenter, lina: AthleteDetail
) -> None:
    typed = {
        **lina.values(),
        "height_cm": "166",
        "meets_before": "3",
        "member_until": "31.12.2026",
        "bench_lift_off": "yes",
        "squat_rack": "14, in",
        "health_note": "left knee\nno jumps",
        "loss_bar": "illness",
        "unit": "lb",
    }
    lina.save(typed)
    again = presenter.detail(lina.id).values()
    assert again == {**typed, "member_until": "2026-12-31"}


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"height_cm": "1,66"}, "height_cm"),
        ({"height_cm": "tall"}, "height_cm"),
        ({"meets_before": "-1"}, "meets_before"),
        ({"member_until": "soon"}, "member_until"),
    ],
)
def test_a_profile_that_cannot_be_is_refused_at_the_field(
    lina: AthleteDetail, change: dict[str, str], field: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        lina.save({**lina.values(), **change})
    assert refused.value.field == field


def test_a_profile_changed_meanwhile_is_not_overwritten(
    presenter: RosterPresenter, lina: AthleteDetail
) -> None:
    presenter.detail(lina.id).save({**lina.values(), "phone": "1"})
    with pytest.raises(Trouble) as moved:
        lina.save({**lina.values(), "phone": "2"})
    assert moved.value.text.code == "record.moved_on"
    assert presenter.detail(lina.id).athlete.phone == "1"


@pytest.mark.parametrize(
    ("birth_date", "said"),
    [
        ("1999-03-01", "Women · 27 years, born 1999 · Classic · kg"),
        ("2010-01-01", "Women · 16 years, born 2010, under 18 · Classic · kg"),
        ("", "Women · birth date not on file · Classic · kg"),
    ],
)
def test_a_minor_or_an_unknown_age_is_simply_said(
    presenter: RosterPresenter, birth_date: str, said: str
) -> None:
    detail = presenter.detail(presenter.add({**NEW, "birth_date": birth_date}).value)
    assert detail.about == said
    minor = "parent or guardian" in detail.readings.cautions()
    assert minor == (birth_date != "1999-03-01")
    assert "Weight changes can harm" in detail.readings.cautions()


def test_archiving_is_said_and_turned_round(
    presenter: RosterPresenter, lina: AthleteDetail
) -> None:
    lina.archive()
    archived = presenter.detail(lina.id)
    assert archived.about.endswith("archived")
    archived.archive()
    assert not presenter.detail(lina.id).athlete.archived


def test_deleting_names_what_goes_along_and_brings_it_all_back(
    desk: Desk, presenter: RosterPresenter, lina: AthleteDetail
) -> None:
    assert lina.goes_along() == "Nothing else is on file about them."
    for _ in range(2):
        lina.readings.add({**lina.readings.new_values(), "weight": "63"})
    lina.sets.add({**lina.sets.new_values(), "weight": "100", "reps": "5", "sets": "3"})
    lina.results.add(SHEET)
    said = "Also deleted: 2 bodyweight readings, 3 logged sets, 1 entry to a meet, 9 attempts."
    assert lina.goes_along() == said
    lina.delete()
    with pytest.raises(Trouble):
        presenter.detail(lina.id)
    undo(desk)
    assert presenter.detail(lina.id).goes_along() == said


def test_erasing_for_good_asks_for_the_name_and_speaks_of_backups(
    desk: Desk, presenter: RosterPresenter, lina: AthleteDetail
) -> None:
    assert "/somewhere/backups" in lina.erase_question(Path("/somewhere/backups"))
    with pytest.raises(InvalidInput) as refused:
        lina.is_erase_name({"name": "Lina"})
    assert refused.value.field == "name"
    assert lina.is_erase_name({"name": "  Lina   Brandt "})
    done = lina.erase()
    assert {change.kind for change in done.changes} == {"athlete", "entry"}
    undo(desk)
    with pytest.raises(Trouble):
        presenter.detail(lina.id)
