"""Athletes from real files: what is understood, who is skipped, and that all or nothing is kept."""

from __future__ import annotations

import zipfile
from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path

import pytest

from coachdesk.domain.athlete import Athlete, AthleteData, LossBar, Reading, ReadingData
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Equipment, Sex
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services import athletes_import
from coachdesk.services.athletes_file import Part, Vocabulary
from coachdesk.services.csv_reading import read_source
from coachdesk.services.desk import Desk
from coachdesk.services.import_file import Fate, Layout, Preview
from coachdesk.services.record_export import write_record
from coachdesk.services.roster import Newcomer, add_athlete, archive_athlete
from coachdesk.services.undo import undo
from coachdesk.ui.imports.vocabularies import athletes_vocabulary
from coachdesk.wording.wording import Wording
from tests.conftest import NOW

TODAY = date(2026, 11, 25)
LONG = "Ana" + "x" * 197


@pytest.fixture
def words(wording: Wording) -> Vocabulary:
    return athletes_vocabulary(wording)


Read = Callable[..., Preview[Newcomer]]


@pytest.fixture
def read(desk: Desk, words: Vocabulary, tmp_path: Path) -> Read:
    """Writes a file and reads it as it looks to be meant."""

    def make(content: str, *, letters: str = "utf-8", on: Desk = desk) -> Preview[Newcomer]:
        file = tmp_path / "athletes.csv"
        file.write_bytes(content.encode(letters))
        source = read_source(file)
        layout = athletes_import.suggest(source, words)
        return athletes_import.preview(on, source, layout, words, lambda _done, _of: None)

    return make


def on_file(desk: Desk) -> tuple[Athlete, ...]:
    with desk.reading() as reader:
        return reader.list(Athlete)


def readings(desk: Desk) -> list[tuple[int, ReadingData]]:
    with desk.reading() as reader:
        return [(each.athlete_id, each) for each in reader.list(Reading)]


def codes(found: Preview[Newcomer], number: int) -> list[str]:
    (line,) = (each for each in found.lines if each.number == number)
    return [remark.code for remark in line.remarks]


def names(found: Preview[Newcomer]) -> list[tuple[str, str]]:
    return [(each.data.given_name, each.data.family_name) for each in found.records]


def test_a_line_in_full_is_an_athlete_with_a_reading_and_one_undo_takes_all_back(
    desk: Desk, read: Read
) -> None:
    found = read(
        "First name,Last name,Sex,Date of birth,Unit,Equipment,Height,Bodyweight (kg),Weighed on,"
        "Meets before,Membership,Valid until,Phone,E-mail,Emergency contact,Health,Loss bar,Notes\n"
        "Ana,Lee,F,03/14/2001,lb,equipped,1.68 m,63.4,11/20/2026,4,A-12,12/31/2026,+49 1,"
        "ana@example.org,Bo,asthma,illness,left-handed\n"
        "Ben,Oster,m,,,,180,,,,,,,,,,,\n"
    )
    assert found.lacking is None
    ana = AthleteData(
        given_name="Ana",
        family_name="Lee",
        sex=Sex.FEMALE,
        birth_date=date(2001, 3, 14),
        unit=Unit.LB,
        equipment=Equipment.EQUIPPED,
        height_cm=168,
        meets_before=4,
        loss_bar=LossBar.ILLNESS,
        member_number="A-12",
        member_until=date(2026, 12, 31),
        phone="+49 1",
        email="ana@example.org",
        emergency_contact="Bo",
        health_note="asthma",
        note="left-handed",
    )
    weighed = ReadingData(athlete_id=0, on=date(2026, 11, 20), weight=kilograms("63.4"))
    ben = AthleteData(given_name="Ben", family_name="Oster", sex=Sex.MALE, height_cm=180)
    assert found.records == (Newcomer(ana, weighed), Newcomer(ben, None))
    athletes_import.keep(desk, found, leave_out_faulty=False)
    kept = {each.given_name: each for each in on_file(desk)}
    assert kept["Ana"].member_until == date(2026, 12, 31)
    ((whose, reading),) = readings(desk)
    assert (whose, reading.on, reading.weight) == (
        kept["Ana"].id,
        date(2026, 11, 20),
        kilograms("63.4"),
    )
    undo(desk)
    assert (on_file(desk), readings(desk)) == ((), [])


@pytest.mark.parametrize(
    "content",
    [
        "Nom;Prénom;Sexe;Date de naissance;Poids;N° licence\nMÜSSIG;Zoé;F;14/03/2001;63,4;77\n",
        (
            "Name;Vorname;Geschlecht;Geburtsdatum;Körpergewicht;Mitgliedsnummer\n"
            "MÜSSIG;Zoé;weiblich;14.3.01;63,4 kg;77\n"
        ),
    ],
)
def test_french_and_german_lists_and_a_weight_without_a_day_is_of_today(
    read: Read, content: str
) -> None:
    found = read(content, letters="cp1252")
    ((newcomer),) = found.records
    assert (newcomer.data.given_name, newcomer.data.family_name) == ("Zoé", "MÜSSIG")
    assert (newcomer.data.birth_date, newcomer.data.member_number) == (date(2001, 3, 14), "77")
    assert newcomer.weighed == ReadingData(athlete_id=0, on=TODAY, weight=kilograms("63.4"))


def test_whole_names_are_parted_at_a_comma_or_behind_the_first_word(read: Read) -> None:
    found = read(
        "name,women or men\n"
        'Ludwig van Holt,men\n"van Holt, Ludwig",male\nMia,women\n<b>Zoë</b> O\'Hara & Sons,f\n'
        f"{LONG},w\n'=Ana Lee,w\n"
    )
    assert names(found) == [
        ("Ludwig", "van Holt"),
        ("Mia", ""),
        ("<b>Zoë</b>", "O'Hara & Sons"),
        (LONG, ""),
        ("=Ana", "Lee"),
    ]
    assert [line.fate for line in found.lines][:2] == [Fate.NEW, Fate.TWICE]


def test_bare_weights_are_in_the_heads_unit_else_the_athletes_own(read: Read) -> None:
    line = "Ana Lee,f,lb,140\n"
    (bare,) = read("name,sex,unit,weight\n" + line).records
    (headed,) = read("name,sex,unit,weight (kg)\n" + line).records
    assert bare.weighed is not None
    assert headed.weighed is not None
    assert (bare.weighed.weight, bare.data.unit) == (pounds(140), Unit.LB)
    assert (headed.weighed.weight, headed.data.unit) == (kilograms(140), Unit.LB)


def test_each_faulty_line_says_all_that_is_wrong_and_keeps_the_rest_out(
    desk: Desk, read: Read
) -> None:
    found = read(
        "name,sex,birth date,unit,equipment,height,weight,weighed on,no weight loss\n"
        "Ana Lee,f,2001-03-14,kg,raw,168,63,,\n"
        ",,,,,,,,\n"
        ",x,soon,stone,armour,tall,heavy,,laziness\n"
        "Ben Oster,m,2030-01-01,,,,,,\n"
        "Bo Lind,m,,,,20,82,2026-12-24,\n"
        f"{LONG}y,f,,,,,,,\n"
    )
    assert found.count(Fate.NEW) == 1
    assert found.count(Fate.FAULTY) == 4
    assert codes(found, 4) == [
        "names.missing",
        "athletes.unknown.sex",
        "day.none",
        "weights.unit_unknown",
        "athletes.unknown.equipment",
        "athletes.unknown.loss_bar",
        "typed.number",
        "typed.mass",
    ]
    assert codes(found, 5) == ["check.birth_date"]
    assert codes(found, 6) == ["check.day_not_come", "check.height"]
    assert codes(found, 7) == ["check.too_long"]
    with pytest.raises(InvalidInput):
        athletes_import.keep(desk, found, leave_out_faulty=False)
    assert on_file(desk) == ()
    athletes_import.keep(desk, found, leave_out_faulty=True)
    assert [each.name for each in on_file(desk)] == ["Ana Lee"]


def test_a_line_without_a_sex_is_faulty_and_a_file_without_the_column_asks_for_it(
    read: Read,
) -> None:
    assert codes(read("name,sex\nAna Lee,\nBo Lind,m\n"), 2) == ["athletes.sex_missing"]
    lacking = read("name,birth date\nAna Lee,2001-03-14\n").lacking
    assert lacking is not None
    assert lacking.code == "athletes.lacking.sex"


def test_who_is_on_file_is_skipped_and_namesakes_are_asked_about(desk: Desk, read: Read) -> None:
    born = date(2001, 3, 14)
    ana = AthleteData(given_name="Ana", family_name="Lee", sex=Sex.FEMALE, birth_date=born)
    add_athlete(desk, ana)
    archive_athlete(desk, on_file(desk)[0], archived=True)
    add_athlete(desk, AthleteData(given_name="Bo", family_name="Lind", sex=Sex.MALE))
    found = read(
        "name,sex,born\n"
        "LEE Ána,f,2001-03-14\n"
        "Ana Lee,f,1999-01-01\n"
        "Ana Lee,f,\n"
        "Bo Lind,m,\n"
        "Mia Oster,f,2000-02-02\n"
        "Mia Oster,f,2000-02-02\n"
        "Mia Oster,f,2004-04-04\n"
    )
    assert [line.fate for line in found.lines] == [
        Fate.ON_FILE,
        Fate.ODD,
        Fate.ODD,
        Fate.ON_FILE,
        Fate.NEW,
        Fate.TWICE,
        Fate.ODD,
    ]
    assert codes(found, 2) == ["athletes.on_file"]
    assert codes(found, 3) == ["athletes.namesake"]
    assert codes(found, 8) == ["athletes.namesake_in_file"]
    athletes_import.keep(desk, found, leave_out_faulty=False)
    assert len(on_file(desk)) == 2 + 4
    again = read("name,sex,born\nAna Lee,f,2001-03-14\n")
    with pytest.raises(InvalidInput):
        athletes_import.keep(desk, again, leave_out_faulty=False)


def test_days_that_can_be_read_in_two_ways_are_never_guessed(read: Read) -> None:
    ambiguous = "name,sex,born,member until\nAna Lee,f,03/04/2001,"
    lacking = read(f"{ambiguous}\n").lacking
    assert lacking is not None
    assert lacking.code == "weights.lacking.order"
    (settled,) = read(f"{ambiguous}31/12/2026\n").records
    assert settled.data.birth_date == date(2001, 4, 3)


@pytest.mark.parametrize(
    ("written", "born"),
    [("14.3.96", date(1996, 3, 14)), ("29.2.04", date(2004, 2, 29)), ("14.3.26", TODAY)],
)
def test_short_years_are_of_the_last_hundred_years(read: Read, written: str, born: date) -> None:
    (newcomer,) = read(f"name;sex;born\nAna Lee;f;{written}\n").records
    expected = date(2026, 3, 14) if born is TODAY else born
    assert newcomer.data.birth_date == expected


def test_without_heads_what_can_be_told_is_told(read: Read) -> None:
    found = read("Ana Lee;f;14.03.2001;ana@example.org\nBo Lind;m;15.04.2002;bo@example.org\n")
    assert found.layout.columns == {Part.SEX: 1, Part.BORN: 2, Part.EMAIL: 3}
    assert found.lacking is not None
    assert isinstance(found.layout, Layout)


@pytest.mark.parametrize("given", ["=Ana", "-Ben", "<b>Zoë</b>", LONG])
def test_a_profile_written_by_one_desk_is_taken_on_by_another(
    desk_at: Callable[[datetime], Desk], words: Vocabulary, tmp_path: Path, given: str
) -> None:
    here, there = desk_at(NOW), desk_at(NOW)
    data = AthleteData(
        given_name=given,
        family_name="@Lee",
        sex=Sex.FEMALE,
        birth_date=date(2001, 3, 14),
        unit=Unit.LB,
        equipment=Equipment.EQUIPPED,
        height_cm=168,
        meets_before=2,
        loss_bar=LossBar.PREGNANCY,
        member_number="-12",
        member_until=date(2026, 12, 31),
        phone="+49 1",
        email="a@example.org",
        emergency_contact="Bo",
        health_note="=1",
        note="two\nlines",
    )
    athlete_id = add_athlete(here, data).value
    with zipfile.ZipFile(write_record(here, athlete_id, tmp_path / "record.zip").file) as record:
        record.extract("profile.csv", tmp_path)
    source = read_source(tmp_path / "profile.csv")
    layout = athletes_import.suggest(source, words)
    found = athletes_import.preview(there, source, layout, words, lambda _done, _of: None)
    assert found.records == (Newcomer(data, None),)
