"""Files in French and German are read as those in English are: heads, lifts, calls, months."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from coachdesk.domain.athlete import AthleteData, ReadingData
from coachdesk.domain.lifting import Lift, Result, Sex
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import kilograms, pounds
from coachdesk.services import file_words, sets_import, weights_import
from coachdesk.services.csv_reading import plain_head, read_source
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete
from coachdesk.services.sets_file import Part
from coachdesk.ui.imports.vocabularies import sets_vocabulary, weights_vocabulary
from coachdesk.wording.wording import Wording

DAY = date(2026, 11, 20)


@pytest.fixture
def zoe(desk: Desk) -> int:
    data = AthleteData(given_name="Zoé", family_name="Müßig", sex=Sex.FEMALE)
    return add_athlete(desk, data).value


def _sets(desk: Desk, wording: Wording, file: Path) -> list[LoggedSetData]:
    source, words = read_source(file), sets_vocabulary(wording)
    layout = sets_import.suggest(desk, source, words)
    found = sets_import.preview(desk, source, layout, words, lambda _done, _of: None)
    assert found.lacking is None
    assert [line.remarks for line in found.lines if line.remarks] == []
    return [each for sets in found.records for each in sets]


@pytest.mark.parametrize(
    "content",
    [
        (
            "Nom;Prénom;Date;Mouvement;Poids (kg);Séries;Répétitions;RPE;Décision\n"
            "Müßig;Zoé;20/11/2026;Développé couché prise serrée;82,5;2;5;8;\n"
            "Müßig;Zoé;20 nov. 2026;soulevé de terre;140;;1;;réussi\n"
        ),
        (
            "Vorname;Name;Datum;Übung;Gewicht;Sätze;Wdh.;RPE;Wertung\n"
            "Zoé;Müssig;20.11.2026;Bankdrücken (prise serrée);82,5 kg;2;5;8;\n"
            "Zoé;Müssig;20.11.26;Kreuzheben;140;1;1;;gültig\n"
        ),
        (
            "ATHLETE;DATE;EXERCICE;CHARGE;SERIES;REPETITIONS;EFFORT PERCU;RESULTAT\n"
            "Zoe Mussig;2026-11-20;DC - prise serrée;82.5;2;5;8;\n"
            "Zoe Mussig;2026-11-20;SDT;140;1;1;;valide\n"
        ),
    ],
)
@pytest.mark.parametrize("letters", ["utf-8", "cp1252"])
def test_logged_sets_in_french_and_german(
    desk: Desk, wording: Wording, zoe: int, tmp_path: Path, content: str, letters: str
) -> None:
    file = tmp_path / "log.csv"
    file.write_bytes(content.encode(letters))
    bench = LoggedSetData(
        athlete_id=zoe,
        on=DAY,
        lift=Lift.BENCH,
        variation="prise serrée",
        weight=kilograms("82.5"),
        reps=5,
        rir=2,
    )
    pull = LoggedSetData(
        athlete_id=zoe,
        on=DAY,
        lift=Lift.DEADLIFT,
        weight=kilograms(140),
        reps=1,
        judged=True,
        result=Result.GOOD,
    )
    assert _sets(desk, wording, file) == [bench, bench, pull]


@pytest.mark.parametrize(
    "content",
    [
        "Nom complet;Jour;Poids (lb);Heure;Remarques\nZoé Müßig;3 août 2026;138,5;;à jeun\n",
        "Name;Tag;Körpergewicht (lb);Uhrzeit;Bemerkung\nMüßig, Zoé;3. August 2026;138,5;;à jeun\n",
    ],
)
def test_weights_in_french_and_german(
    desk: Desk, wording: Wording, zoe: int, tmp_path: Path, content: str
) -> None:
    file = tmp_path / "weights.csv"
    file.write_text(content, "utf-8")
    source, words = read_source(file), weights_vocabulary(wording)
    layout = weights_import.suggest(desk, source, words)
    found = weights_import.preview(desk, source, layout, words, lambda _done, _of: None)
    reading = ReadingData(
        athlete_id=zoe, on=date(2026, 8, 3), weight=pounds("138.5"), note="à jeun"
    )
    assert found.records == (reading,)


@pytest.mark.parametrize(
    ("written", "lift", "variation"),
    [
        ("Squat", Lift.SQUAT, ""),
        ("Flexion de jambes", Lift.SQUAT, ""),
        ("Kniebeuge", Lift.SQUAT, ""),
        ("Pausierte Kniebeuge", Lift.SQUAT, "Pausierte"),
        ("Développé couché", Lift.BENCH, ""),
        ("DEVELOPPE COUCHE", Lift.BENCH, ""),
        ("Bankdruecken", Lift.BENCH, ""),
        ("Soulevé de terre sumo", Lift.DEADLIFT, "sumo"),
        ("Kreuzheben, Defizit", Lift.DEADLIFT, "Defizit"),
        ("Deadlift row", None, ""),
    ],
)
def test_lifts_in_french_and_german(
    wording: Wording, written: str, lift: Lift | None, variation: str
) -> None:
    found = sets_vocabulary(wording).lift_named(written)
    assert found == (None if lift is None else (lift, variation))


@pytest.mark.parametrize(
    "words", [file_words.SETS_HEADS, file_words.WEIGHTS_HEADS, file_words.ATHLETES_HEADS]
)
def test_no_head_means_two_things(words: dict[str, str]) -> None:
    heads = [(plain_head(head), part) for part, many in words.items() for head in many.split(";")]
    of_head: dict[str, set[str]] = {}
    for head, part in heads:
        of_head.setdefault(head, set()).add(part)
    assert {head: parts for head, parts in of_head.items() if len(parts) > 1} == {}
    assert "" not in of_head
    assert of_head[plain_head("Prénom")] == {Part.GIVEN}
