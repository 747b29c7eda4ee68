"""Meets in words: what the list, the page and an entry say, and what they do with what is typed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from math import exp

import pytest

from coachdesk.domain.athlete import AthleteData, HandlerData, ReadingData
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Lift, Result, Sex
from coachdesk.domain.meet import AttemptData, Entry, MeetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet, record_attempts
from coachdesk.services.roster import add_athlete, add_handler, add_readings
from coachdesk.services.undo import undo
from coachdesk.ui.screens.meets.enter_presenter import EnterPresenter
from coachdesk.ui.screens.meets.entry_presenter import EntryPresenter
from coachdesk.ui.screens.meets.presenter import MeetsPresenter
from coachdesk.wording.wording import Wording

MEET = MeetData(
    name="Harbour Open",
    starts_on=date(2027, 2, 20),
    rulebook="ipf_2021",
    time_zone="Europe/Berlin",
    place="Pier 3",
    entry_deadline=date(2027, 1, 9),
)
SQUAT_1, SQUAT_2, SQUAT_3 = ((Lift.SQUAT, number) for number in (1, 2, 3))


class Team:
    """A meet to come, and Ana, who weighs 65.6 kg and can be entered."""

    def __init__(self, desk: Desk, wording: Wording) -> None:
        self.desk = desk
        self.presenter = MeetsPresenter(desk, wording)
        self.meet_id = add_meet(desk, MEET).value
        self.ana = self.add("Ana", "65.6")

    def add(self, given_name: str, kg: str, born: date | None = date(1996, 5, 4)) -> int:
        """An athlete with a week of equal readings."""
        athlete_id = add_athlete(
            self.desk,
            AthleteData(
                given_name=given_name,
                family_name="Ruiz",
                sex=Sex.FEMALE,
                birth_date=born,
                height_cm=168,
                meets_before=2,
            ),
        ).value
        today = self.desk.today()
        add_readings(
            self.desk,
            [
                ReadingData(
                    athlete_id=athlete_id, on=today - timedelta(days=day), weight=kilograms(kg)
                )
                for day in range(7)
            ],
        )
        return athlete_id

    def entry(self) -> EntryPresenter:
        """Ana's entry, opened; she is entered when first asked for."""
        page = self.presenter.page(self.meet_id)
        if not page.entries:
            self.presenter.entering().enter([self.ana], "")
            page = self.presenter.page(self.meet_id)
        return self.presenter.entry(page.entries[0].id)

    def save(self, **changes: str) -> None:
        """Change fields of the entry's form and save."""
        entry = self.entry()
        entry.save({**entry.values(), **changes})

    def expect(self) -> None:
        """200, 100 and 220 kg on the day, planned."""
        self.save(expected_squat="200", expected_bench="100", expected_deadlift="220")
        self.entry().plan()


@pytest.fixture
def team(desk: Desk, wording: Wording) -> Team:
    return Team(desk, wording)


def test_meets_to_come_stand_first_the_soonest_on_top(team: Team) -> None:
    for name, on in (
        ("Past", date(2026, 11, 14)),
        ("Older", date(2025, 11, 14)),
        ("Now", date(2026, 11, 25)),
    ):
        add_meet(team.desk, replace(MEET, name=name, starts_on=on, entry_deadline=None))
    rows = team.presenter.rows()
    assert [row.name for row in rows] == ["Now", "Harbour Open", "Past", "Older"]
    assert [row.countdown for row in rows] == [
        "today",
        "in 87 days",
        "11 days ago",
        "376 days ago",
    ]
    assert rows[1].entries == "0 entries"


def test_a_page_says_when_where_and_by_which_rules(team: Team) -> None:
    page = team.presenter.page(team.meet_id)
    assert page.title == "Harbour Open"
    assert page.facts == (
        "Sat 20 Feb 2027, in 87 days",
        "entries close Sat 9 Jan 2027, in 45 days",
        "Pier 3",
        "IPF, classic and equipped (classes since 2021)",
        "times of Europe/Berlin",
    )
    assert page.entries == ()


def test_several_athletes_are_entered_at_once_each_with_their_own_beginning(team: Team) -> None:
    """63.1 kg and 65.6 kg are both in the 69 kg class; 2006 makes a junior in 2027: IPF."""
    bea = team.add("Bea", "63.1", date(2006, 5, 4))
    entering = _entering(team)
    lines = entering.lines([team.ana, bea], "")
    assert [line.words for line in lines] == [
        "Ana Ruiz: Three lifts, Classic, Open, 69 class",
        "Bea Ruiz: Three lifts, Classic, Junior, 69 class",
    ]
    entering.enter([team.ana, bea], "")
    rows = team.presenter.page(team.meet_id).entries
    assert [(row.athlete, row.weight_class, row.divisions) for row in rows] == [
        ("Ana Ruiz", "69", "Open"),
        ("Bea Ruiz", "69", "Junior"),
    ]
    undo(team.desk)
    assert team.presenter.page(team.meet_id).entries == ()


def _entering(team: Team) -> EnterPresenter:
    team.presenter.page(team.meet_id)
    return team.presenter.entering()


def test_athletes_are_found_by_parts_of_their_names(team: Team) -> None:
    team.add("Łucja", "60")
    entering = _entering(team)
    assert [row.words for row in entering.found("lucja ru")] == ["Łucja Ruiz"]
    assert entering.found("nobody") == ()


def test_an_athlete_with_an_entry_can_be_entered_in_another_event_only(team: Team) -> None:
    team.entry()
    entering = _entering(team)
    assert entering.found("")[0].words == "Ana Ruiz (has an entry already)"
    (line,) = entering.lines([team.ana], "")
    assert line.words == "Ana Ruiz is already entered in this event and equipment."
    assert [value for value, _ in entering.event_choices()] == ["", "three_lift", "bench_only"]
    entering.enter([team.ana], "bench_only")
    assert len(team.presenter.page(team.meet_id).entries) == 2


def test_who_cannot_be_entered_is_said_and_nobody_is(team: Team) -> None:
    cleo = team.add("Cleo", "60", None)
    entering = _entering(team)
    with pytest.raises(InvalidInput):
        entering.enter([], "")
    (line,) = entering.lines([cleo], "")
    assert not line.can_be
    assert line.words.startswith("Cleo Ruiz cannot be entered yet")
    with pytest.raises(InvalidInput):
        entering.enter([team.ana, cleo], "")
    assert team.presenter.page(team.meet_id).entries == ()


def test_an_entry_in_the_table_shows_chosen_and_planned_attempts_apart(team: Team) -> None:
    """Planned weights stand in brackets; the total is what they come to."""
    team.expect()
    team.entry().choose(SQUAT_1, "180")
    (row,) = team.presenter.page(team.meet_id).entries
    shown = [row.attempts[Lift.SQUAT, number].shown for number in (1, 2, 3)]
    assert shown[0] == "180"
    assert [words[0] + words[-1] for words in shown[1:]] == ["()", "()"]
    thirds = [row.attempts[lift, 3].shown.strip("()") for lift in Lift]
    assert float(row.total) == sum(map(float, thirds))
    assert row.total_about == "Total when every attempt is good"
    assert row.score == _ipf_gl(float(row.total), 65.6)


def _ipf_gl(total_kg: float, bodyweight_kg: float) -> str:
    """IPF GL for women, classic, three lifts, by its published constants (IPF, May 2020)."""
    points = 100 * total_kg / (610.32796 - 1045.59282 * exp(-0.03048 * bodyweight_kg))
    return f"{points:.2f}"


def test_the_form_shows_what_is_on_file_and_saving_it_unchanged_changes_nothing(team: Team) -> None:
    team.save(lot="7", bodyweight="62,9", note="brings her own rack pads", expected_squat="405 lb")
    before = _entry(team)
    entry = team.entry()
    assert entry.values()["expected_squat"] == "405 lb"
    assert entry.values()["bodyweight"] == "62.9 kg"
    entry.save(entry.values())
    after = _entry(team)
    assert replace(after, version=before.version) == before


def _entry(team: Team) -> Entry:
    with team.desk.reading() as reader:
        return reader.list(Entry)[0]


@pytest.mark.parametrize(
    ("field", "words", "code"),
    [
        ("lot", "0", "check.from_one"),
        ("lot", "seven", "typed.number"),
        ("bodyweight", "abc", "typed.mass"),
        ("bodyweight", "5", "check.bodyweight"),
        ("expected_bench", "9999", "check.lifted"),
        ("divisions", "", "entry.no_division"),
        ("divisions", "junior", "division.to_year"),
    ],
)
def test_a_field_that_cannot_be_taken_is_named(
    team: Team, field: str, words: str, code: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        team.save(**{field: words})
    assert (refused.value.field, refused.value.text.code) == (field, code)


def test_total_and_score_change_while_an_attempt_is_typed(team: Team) -> None:
    """With all nine chosen, 180 + 90 + 200 to open and 200 + 100 + 220 when all goes well; a third
    squat of 205 makes it 525."""
    team.expect()
    entry = team.entry()
    values, cells = entry.values(), entry.cells()
    for lift, path in zip(Lift, ((180, 190, 200), (90, 95, 100), (200, 210, 220)), strict=True):
        cells |= {(lift, at): f"{weight}" for at, weight in enumerate(path, start=1)}
    assert [line.words for line in entry.look(values, cells).totals] == [
        f"Three openers: 470 kg, {_ipf_gl(470, 65.6)} IPF GL",
        f"Every attempt good: 520 kg, {_ipf_gl(520, 65.6)} IPF GL",
    ]
    cells[SQUAT_3] = "205"
    look = entry.look(values, cells)
    assert look.totals[1].words == f"Every attempt good: 525 kg, {_ipf_gl(525, 65.6)} IPF GL"
    weighed = entry.look(values | {"bodyweight": "62.9"}, cells)
    assert weighed.totals[1].words == f"Every attempt good: 525 kg, {_ipf_gl(525, 62.9)} IPF GL"
    assert [line.words for line in look.lifts[Lift.SQUAT]][1:] == [
        "The third chosen, 205 kg, is above the expected maximum of 200 kg."
    ]
    assert entry.cells()[SQUAT_3] == ""  # nothing is kept by looking


def test_the_plan_moves_with_the_opener_while_it_is_typed_as_it_will_once_saved(team: Team) -> None:
    team.expect()
    entry = team.entry()
    cells = entry.cells() | {SQUAT_1: "170"}
    typed = entry.look(entry.values(), cells).cells[SQUAT_2].proposal
    entry.choose(SQUAT_1, "170")
    saved = team.entry()
    assert saved.look(saved.values(), saved.cells()).cells[SQUAT_2].proposal == typed


def test_a_weight_stands_in_both_units_with_its_discs(team: Team) -> None:
    """182.5 - 25 kg bar and collars = 157.5, 78.75 a side: 50 + 25 + 2.5 + 1.25 (IPF discs).

    182.5 kg / 0.45359237 = 402.34 lb (1959 agreement).
    """
    entry = team.entry()
    cell = entry.look(entry.values(), entry.cells() | {SQUAT_1: "182,5 kg"}).cells[SQUAT_1]
    assert cell.both == "182.5 kg (402.34 lb)"
    assert cell.discs == "each side: 50, 25, 2.5, 1.25"
    bare = entry.look(entry.values(), entry.cells() | {SQUAT_1: "25"}).cells[SQUAT_1]
    assert bare.discs == "bar and collars only"
    twice = entry.look(entry.values(), entry.cells() | {SQUAT_1: "225"}).cells[SQUAT_1]
    assert twice.discs == "each side: 2 × 50"


def test_an_off_step_weight_gets_its_sentence_with_its_neighbours(team: Team) -> None:
    """405 lb is 183.70 kg: between 182.5 and 185."""
    entry = team.entry()
    values, cells = entry.values(), entry.cells()
    look = entry.look(values, cells | {SQUAT_1: "405 lb", SQUAT_2: "heavy"})
    assert look.cells[SQUAT_1].sentence == (
        "183.7 kg cannot be asked for: weights go in steps of 2.5 kg. "
        "Next to it are 182.5 kg and 185 kg."
    )
    assert look.cells[SQUAT_2].sentence
    assert look.cells[SQUAT_3].sentence == ""
    lighter = entry.look(values, cells | {SQUAT_1: "180", SQUAT_2: "177.5"})
    assert "never gets lighter" in lighter.cells[SQUAT_2].sentence


def test_the_class_verdict_follows_the_class_chosen_before_it_is_saved(team: Team) -> None:
    """65.6 kg is in 69; 63 is 3.96 % below with 12.4 weeks left: comfortable (0.35 % a week)."""
    entry = team.entry()
    values, cells = entry.values(), entry.cells()
    assert "Where this stands: in the class." in _standing(entry, values)
    lighter = values | {"weight_class": "63", "comes_down": "yes"}
    said = _standing(entry, lighter)
    assert "Way down: comfortable." in said
    assert any(line.startswith("Latest start at a steady pace") for line in said)
    assert any("before you begin" in line for line in said)  # the caution always stands
    far = _standing(entry, values | {"weight_class": "57"})
    assert "Where this stands: no plan for coming down." in far
    assert (
        "The class entered cannot be reached by plan: decide now."
        in entry.look(values | {"weight_class": "57"}, cells).points
    )


def _standing(entry: EntryPresenter, values: dict[str, str]) -> list[str]:
    return [line.words for line in entry.look(values, entry.cells()).standing]


def test_classes_and_divisions_offered_are_the_rulebooks(team: Team) -> None:
    """IPF women since 2021; 43 is for sub-juniors and juniors only."""
    entry = team.entry()
    choices = entry.choices(entry.values())
    classes = [value for value, _ in choices["weight_class"]]
    assert classes == ["", "47", "52", "57", "63", "69", "76", "84", "84+"]
    assert [value for value, _ in choices["divisions"]] == ["open"]
    assert [value for value, _ in choices["event"]] == ["three_lift", "bench_only"]


def test_flights_offered_are_those_of_the_session_chosen(team: Team) -> None:
    """The IPF family's weigh-in opens two hours before and lasts one and a half."""
    presenter = team.presenter
    presenter.page(team.meet_id)
    values = presenter.session_values(None)
    assert values["flights_squat"] == "A"
    session = {**values, "name": "Morning", "starts_at": "2027-02-20 9:00"}
    presenter.save_session(None, {**session, "flights_squat": "A (12), B"})
    presenter.save_session(None, {**session, "name": "Evening", "flights_squat": "C"})
    page = presenter.page(team.meet_id)
    assert [(row.name, row.starts, row.weigh_in) for row in page.sessions] == [
        ("Morning", "Sat 20 Feb 2027 09:00", "07:00 to 08:30, by the rulebook"),
        ("Evening", "Sat 20 Feb 2027 09:00", "07:00 to 08:30, by the rulebook"),
    ]
    assert page.sessions[0].flights == "Squat A, B, Bench press A, Deadlift A"
    bo = add_handler(team.desk, HandlerData(name="Bo")).value
    entry = team.entry()
    morning = {**entry.values(), "session_id": str(page.sessions[0].id)}
    choices = entry.choices(morning)
    assert [words for _, words in choices["flight_squat"]] == ["–", "A", "B"]
    squat, bench, deadlift = (
        choices[f"flight_{lift}"][1][0] for lift in ("squat", "bench", "deadlift")
    )
    team.save(
        session_id=str(page.sessions[0].id),
        flight_squat=squat,
        flight_bench=bench,
        flight_deadlift=deadlift,
        role_handling=str(bo),
    )
    (row,) = presenter.page(team.meet_id).entries
    assert (row.session, row.flights) == ("Morning", "A")
    assert "Nobody handles this athlete yet." not in row.points
    saved = team.entry()
    assert saved.values()["role_handling"] == str(bo)


def test_a_sessions_form_reads_back_what_it_shows(team: Team) -> None:
    presenter = team.presenter
    presenter.page(team.meet_id)
    values = {
        **presenter.session_values(None),
        "name": "Morning",
        "starts_at": "2027-02-20 09:00",
        "weigh_in_opens": "2027-02-19 18:00",
        "flights_bench": "B (9), A",
    }
    presenter.save_session(None, values)
    (session,) = presenter.page(team.meet_id).sessions
    shown = presenter.session_values(session.id)
    assert {key: shown[key] for key in values} == values
    assert session.weigh_in == "Fri 19 Feb 2027 18:00 to Sat 20 Feb 2027 08:30"
    with pytest.raises(InvalidInput) as refused:
        presenter.save_session(session.id, {**shown, "starts_at": "soon"})
    assert refused.value.field == "starts_at"
    said = presenter.session_deletion(session.id)
    assert said == "With it go: 4 flights. It can be undone."


def test_deleting_says_what_goes_along(team: Team) -> None:
    team.expect()
    team.entry().choose(SQUAT_1, "180")
    page = team.presenter.page(team.meet_id)
    assert team.presenter.meet_deletion() == "With it go: 1 entry, 1 attempt. It can be undone."
    entries = [row.entry for row in page.entries]
    said = team.presenter.entries_deletion(entries)
    assert said.startswith("With it go: 1 attempt, ")
    team.presenter.delete_entries(entries)
    assert team.presenter.page(team.meet_id).entries == ()
    undo(team.desk)
    (row,) = team.presenter.page(team.meet_id).entries
    assert row.attempts[SQUAT_1].shown == "180"


def test_a_lot_and_an_attempt_are_typed_into_the_table(team: Team) -> None:
    team.entry()
    presenter = team.presenter
    (row,) = presenter.page(team.meet_id).entries
    presenter.choose_lot(row, "12")
    presenter.choose(row, SQUAT_1, "180")
    (row,) = presenter.page(team.meet_id).entries
    assert (row.lot, row.attempts[SQUAT_1].typed) == ("12", "180")
    assert presenter.choose(row, SQUAT_1, "180 kg") is None  # nothing to keep
    presenter.choose(row, SQUAT_1, "")
    (row,) = presenter.page(team.meet_id).entries
    assert row.attempts[SQUAT_1].shown == ""
    with pytest.raises(InvalidInput):
        presenter.choose_lot(row, "0")


def test_a_meet_is_added_changed_and_deleted(team: Team) -> None:
    presenter = team.presenter
    values = presenter.new_meet_values("Europe/Madrid")
    assert (values["rulebook"], values["time_zone"]) == ("ipf_2021", "Europe/Berlin")
    with pytest.raises(InvalidInput) as refused:
        presenter.add_meet({**values, "name": "New"})
    assert refused.value.field == "starts_on"
    added = presenter.add_meet({**values, "name": "New", "starts_on": "2027-05-01"}).value
    presenter.page(added)
    presenter.edit_meet({**presenter.meet_values(), "place": "Hall 2"})
    assert "Hall 2" in presenter.page(added).facts
    presenter.delete_meet()
    with pytest.raises(Trouble):
        presenter.page(added)


def test_the_first_meet_begins_in_the_computers_time_zone(desk: Desk, wording: Wording) -> None:
    values = MeetsPresenter(desk, wording).new_meet_values("Europe/Madrid")
    assert values["time_zone"] == "Europe/Madrid"
    assert values["rulebook"] in desk.rulebooks.books


def test_results_of_a_meet_that_is_over_are_recorded_and_counted(team: Team) -> None:
    """Good 100, 60, 120: 280 in all. The bombed lift of another leaves no total."""
    team.meet_id = add_meet(
        team.desk, replace(MEET, starts_on=date(2026, 11, 14), entry_deadline=None)
    ).value
    entry = team.entry()
    assert entry.has_begun
    record_attempts(
        team.desk,
        [
            AttemptData(entry_id=entry.id, lift=lift, number=1, weight=kilograms(kg))
            for lift, kg in ((Lift.SQUAT, 100), (Lift.BENCH, 60), (Lift.DEADLIFT, 120))
        ],
    )
    for lift in Lift:
        team.entry().record((lift, 1), "good", "easy", "squat.depth")
    (row,) = team.presenter.page(team.meet_id).entries
    assert (row.total, row.total_about) == ("280", "Total made")
    assert row.attempts[SQUAT_1].shown == "100 ok"
    assert row.points == ()  # nothing is open once it is over
    assert row.score == "–"  # what she weighs now says nothing about that day
    assert team.entry().results()[SQUAT_1].moved == "easy"
    assert any(cause == "squat.depth" for cause, _ in entry.causes(Lift.SQUAT))
    team.entry().record(SQUAT_1, "no_lift", "easy", "squat.depth")
    (row,) = team.presenter.page(team.meet_id).entries
    assert (row.total, row.attempts[SQUAT_1].role) == ("–", "bad")
    team.save(bodyweight="65.6")
    opened = team.entry()
    look = opened.look(opened.values(), opened.cells())
    assert (look.standing, look.points, dict(look.lifts)) == ((), (), {})
    found = opened.results()[SQUAT_1]
    assert (found.result, found.moved, found.cause) == (Result.NO_LIFT, "", "squat.depth")


def test_a_meet_whose_rulebook_is_gone_can_still_be_read_and_changed(
    team: Team, wording: Wording
) -> None:
    team.entry()
    books = team.desk.rulebooks
    books.own_folder.mkdir(parents=True, exist_ok=True)
    (books.own_folder / "ipf_2021.toml").write_text("name =", encoding="utf-8")
    books.read_again()
    presenter = MeetsPresenter(team.desk, wording)
    page = presenter.page(team.meet_id)
    assert "ipf_2021" in page.fault
    assert [row.athlete for row in page.entries] == ["Ana Ruiz"]
    assert presenter.rulebook_choices("ipf_2021")[-1] == ("ipf_2021", "ipf_2021 (cannot be read)")
    with pytest.raises(Trouble):
        presenter.entering()


def test_a_withdrawn_entry_stands_last_and_says_so(team: Team) -> None:
    bea = team.add("Bea", "60")
    team.entry().withdraw()
    _entering(team).enter([bea], "")
    rows = team.presenter.page(team.meet_id).entries
    assert [(row.athlete, row.state) for row in rows] == [
        ("Bea Ruiz", ""),
        ("Ana Ruiz", "withdrawn"),
    ]


def test_an_opener_above_what_is_expected_is_said_at_its_lift(team: Team) -> None:
    team.expect()
    entry = team.entry()
    look = entry.look(entry.values(), entry.cells() | {SQUAT_1: "205"})
    assert look.cells[SQUAT_1].sentence == ""  # the coach may choose it
    assert [line.words for line in look.lifts[Lift.SQUAT]][1:] == [
        "The opener, 205 kg, is above the day's expected maximum, 200 kg."
    ]


def test_two_handlers_in_one_role_are_both_kept(team: Team) -> None:
    ids = [add_handler(team.desk, HandlerData(name=name)).value for name in ("Bo", "Ada")]
    both = "\n".join(map(str, ids))
    team.save(role_table=both)
    entry = team.entry()
    assert entry.values()["role_table"] == both
    assert (both, "Bo, Ada") in entry.choices(entry.values())["role_table"]
    team.save(lot="3")
    assert team.entry().values()["role_table"] == both


def test_an_unlimited_class_and_a_missing_weight_are_said(team: Team) -> None:
    """Above 84 kg there is no limit: IPF, women."""
    cleo = team.add("Cleo", "99")
    dana = add_athlete(
        team.desk,
        AthleteData(
            given_name="Dana", family_name="Ruiz", sex=Sex.FEMALE, birth_date=date(1996, 5, 4)
        ),
    ).value
    _entering(team).enter([cleo, dana], "")
    rows = {row.athlete: row for row in team.presenter.page(team.meet_id).entries}
    heavy = team.presenter.entry(rows["Cleo Ruiz"].id)
    assert _standing(heavy, heavy.values())[0] == "84+ class."
    unknown = team.presenter.entry(rows["Dana Ruiz"].id)
    assert "No bodyweight reading in the last eight weeks." in _standing(unknown, unknown.values())
    no_class = heavy.values() | {"weight_class": ""}
    assert _standing(heavy, no_class)[0] == "84+ class."  # the one weighed now


def test_where_figures_cannot_be_worked_out_the_row_says_why_and_the_page_opens(
    team: Team,
) -> None:
    """The IPF file knows no classes for 2009."""
    bea = team.add("Bea", "60")
    team.entry()
    _entering(team).enter([bea], "")
    with team.desk.store.raw_writing() as connection:
        connection.exec_driver_sql("UPDATE meet SET starts_on = '2009-02-20'")
    rows = team.presenter.page(team.meet_id).entries
    assert all("2009" in row.fault for row in rows)
    assert [row.total for row in rows] == ["–", "–"]
