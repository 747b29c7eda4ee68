"""A rulebook in words, and the list of them, without a window."""

from __future__ import annotations

from datetime import timedelta

import pytest

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.meet import MeetData
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.units import Unit
from coachdesk.services.desk import Desk
from coachdesk.services.meets import add_meet
from coachdesk.ui.screens.rulebooks.presenter import Origin, RulebooksPresenter
from coachdesk.ui.screens.rulebooks.reading import sections_of
from coachdesk.wording.wording import Wording


@pytest.fixture
def presenter(desk: Desk, wording: Wording) -> RulebooksPresenter:
    return RulebooksPresenter(desk, wording)


def said(rulebook: Rulebook, words: Wording) -> dict[str, dict[str, str]]:
    """What is said, by the titles of sections and lines."""
    return {
        section.title: {line.about: line.words for line in section.lines}
        for section in sections_of(rulebook, words)
    }


def test_the_ipf_rulebook_reads_as_it_stands_in_its_file(desk: Desk, wording: Wording) -> None:
    """By hand from resources/rulebooks/ipf_2021.toml."""
    page = said(desk.rulebooks.get("ipf_2021"), wording)
    assert page["What it is"]["Edition from"] == "1 Jan 2023"
    assert page["What it is"]["Checked on"] == "25 Nov 2026"
    assert page["What it is"]["Source"].startswith("IPF Technical Rules Book 2007 and 2013")
    assert page["What it is"]["Note"].startswith("Several deadlines and counts are recalled")
    assert page["Weight classes"] == {
        "Women, from 1 Jan 2021 on": "47, 52, 57, 63, 69, 76, 84, 84+; "
        "43 for Sub-Junior, Junior only",
        "Men, from 1 Jan 2021 on": "59, 66, 74, 83, 93, 105, 120, 120+; "
        "53 for Sub-Junior, Junior only",
        "Women, 1 Jan 2011 to 31 Dec 2020": "47, 52, 57, 63, 72, 84, 84+; "
        "43 for Sub-Junior, Junior only",
        "Men, 1 Jan 2011 to 31 Dec 2020": "59, 66, 74, 83, 93, 105, 120, 120+; "
        "53 for Sub-Junior, Junior only",
    }
    assert page["Divisions"]["Sub-Junior"] == (
        "14 to 18, by calendar year, the youngest from their birthday on"
    )
    assert page["Divisions"]["Masters 4"] == "from 70, by calendar year"
    assert page["Weigh-in"] == {
        "When": "two hours before the start",
        "Opens before the start (min)": "120 min",
        "Lasts (min)": "90 min",
        "May be weighed again": "yes",
        "Out of class": "lifts as a guest, if the organiser agrees",
    }
    assert page["Attempts"]["Smallest step"] == "2.5 kg"
    assert page["Attempts"]["Opener: changed"] == "up, down"
    assert page["Attempts"]["Third deadlift: changes"] == "2"
    assert page["Bar and discs"]["Lightest weight: bar and collars"] == "25 kg"
    assert page["Bar and discs"]["Discs"] == (
        "50 kg green, 25 kg red, 20 kg blue, 15 kg yellow, 10 kg, 5 kg, 2.5 kg, 1.25 kg, "
        "0.5 kg (records only), 0.25 kg (records only)"
    )
    assert page["Groups"]["Rest in groups of at most 9 lifters"] == "1 min after each round"
    assert page["Squat"]["Commands"] == "Squat, Rack"
    assert page["Squat"]["Command when not ready"] == "Replace"
    causes = page["Squat"]["Causes of no lift"].split("\n")
    assert causes[0] == "Depth: hip not below the top of the knee (red card)"
    assert "Bar moved down on the way up (blue card, strength ran out)" in causes
    assert page["Kit"]["Knee wraps (Equipped)"].startswith("at most 2 m x 8 cm")
    assert page["Scores and ties"] == {
        "Best lifter by": "IPF GL",
        "Team points by place": "12, 9, 8, 7, 6, 5, 4, 3, 2, 1",
        "Equal totals": "the lighter athlete, then who reached the total first",
        "A drug test may follow": "yes",
    }


def test_every_shipped_rulebook_has_words_for_everything(desk: Desk, wording: Wording) -> None:
    for key in desk.rulebooks.books:
        for section in sections_of(desk.rulebooks.get(key), wording):
            assert all(line.about and line.words for line in section.lines), (key, section.title)


def test_masses_are_read_in_the_rulebooks_own_unit(desk: Desk, wording: Wording) -> None:
    page = said(desk.rulebooks.get("ipf_2021"), wording.in_unit(Unit.LB))
    assert page["Bar and discs"]["Bar"] == "20 kg"


def test_the_coachs_own_come_first_and_a_faulty_one_says_why(
    desk: Desk, presenter: RulebooksPresenter
) -> None:
    presenter.copy("ipf_2021", {"key": "county", "name": "Zebra county"})
    presenter.copy("ipf_2021", {"key": "broken", "name": "Broken"})
    file = presenter.folder / "broken.toml"
    source = file.read_text(encoding="utf-8")
    file.write_text(source.replace("bar = 20 ", "bar = -20 "), encoding="utf-8")
    desk.rulebooks.read_again()
    rows = presenter.rows()
    assert [(row.name, row.origin) for row in rows[:2]] == [
        ("broken.toml", Origin.FAULTY),
        ("Zebra county", Origin.OWN),
    ]
    assert {row.origin for row in rows[2:]} == {Origin.SHIPPED}
    fault = presenter.page("broken").fault
    assert fault.startswith("broken.toml, line 26: bar should be a number above zero")


def test_a_copy_is_given_a_file_name_that_is_free(presenter: RulebooksPresenter) -> None:
    first = presenter.copy_values("ipf_2021")
    assert presenter.copy("ipf_2021", first).value == first["key"]
    again = presenter.copy_values("ipf_2021")
    assert again["key"] != first["key"]
    assert again["name"].startswith("IPF, classic and equipped")
    with pytest.raises(InvalidInput):
        presenter.copy("ipf_2021", first)


def test_deleting_says_which_meets_go_by_it(desk: Desk, presenter: RulebooksPresenter) -> None:
    presenter.copy("ipf_2021", {"key": "county", "name": "County"})
    assert "meet" not in presenter.delete_means("county")
    meet = MeetData(
        name="Open",
        starts_on=desk.today() + timedelta(days=9),
        rulebook="county",
        time_zone="Europe/Berlin",
    )
    add_meet(desk, meet)
    assert presenter.delete_means("county").startswith("1 meet on file goes by it")


def test_what_was_deleted_is_listed_and_put_back(presenter: RulebooksPresenter) -> None:
    presenter.copy("ipf_2021", {"key": "county", "name": "County"})
    presenter.delete("county")
    (row,) = presenter.earlier()
    assert (row.key, row.replaced) == ("county", "Wed 25 Nov 2026 10:00")
    assert presenter.restore(row.earlier).value == "county"


def test_it_says_why_there_is_no_para_rulebook(presenter: RulebooksPresenter) -> None:
    assert presenter.no_para.startswith("There is no rulebook for para powerlifting here.")
