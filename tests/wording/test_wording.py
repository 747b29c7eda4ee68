"""Numbers, masses and dates as a coach reads them."""

from __future__ import annotations

from datetime import date, datetime, time
from decimal import Decimal

import pytest

from coachdesk.app.words import wording as of_language
from coachdesk.domain.text import Text, Value, text
from coachdesk.domain.units import Percent, Unit, from_grams, kilograms, pounds
from coachdesk.storage.text_json import text_from_json, text_to_json
from coachdesk.wording.wording import Wording


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (kilograms("82.5"), "82.5 kg"),
        (kilograms(100), "100 kg"),
        (pounds(405), "183.7 kg"),
        (Percent(0.7), "0.7 %"),
        (Percent(1.333, 2), "1.33 %"),
        (date(2026, 12, 12), "Sat 12 Dec 2026"),
        (time(9, 5), "09:05"),
        (datetime(2026, 12, 12, 9, 5), "Sat 12 Dec 2026 09:05"),  # noqa: DTZ001 - meet time
        (Decimal("96.9"), "96.9"),
        (Decimal("1.10"), "1.10"),
        (18.25, "18.25"),
        (3, "3"),
        (("59", "66", kilograms(74)), "59, 66, 74 kg"),
        (text("lift.squat"), "Squat"),
    ],
)
def test_values_as_they_are_shown(wording: Wording, value: Value, shown: str) -> None:
    assert wording.show(value) == shown


def test_converted_weights_of_a_column_have_the_same_decimals() -> None:
    """1 lb is 0.45359237 kg: 42.5 kg are 93.696 lb."""
    words = of_language("en")
    assert words.column_mass(kilograms("42.5"), Unit.KG) == "42.5"
    assert words.column_mass(kilograms("42.5"), Unit.LB) == "93.70"


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (kilograms("82.5"), "82,5\N{NO-BREAK SPACE}kg"),
        (Percent(0.7), "0,7\N{NO-BREAK SPACE}%"),
        (date(2026, 12, 12), "sam. 12 déc. 2026"),
        (date(2026, 8, 1), "sam. 1er août 2026"),
        (96.899, "96,90"),
        ("82.5", "82,5"),
        ("82.5+", "82,5+"),
        ("-177.5", "-177,5"),
        (("20", "2.5 lb"), "20, 2,5 lb"),
        ("2.5.1 of a list", "2.5.1 of a list"),
        ("Halle 3.5 kg", "Halle 3.5 kg"),
    ],
)
def test_values_as_a_french_coach_reads_them(value: Value, shown: str) -> None:
    assert of_language("fr").show(value) == shown


def test_405_lb_reads_back_as_405_lb(wording: Wording) -> None:
    assert wording.in_unit(Unit.LB).mass(pounds(405)) == "405 lb"
    assert wording.both_units(pounds(405)) == "183.7 kg (405 lb)"
    assert wording.in_unit(Unit.LB).mass(from_grams(pounds(405).grams, Unit.LB)) == "405 lb"


def test_a_count_chooses_singular_or_plural(wording: Wording) -> None:
    assert wording("did.log_sets", count=1) == "Log 1 set"
    assert wording("did.log_sets", count=12) == "Log 12 sets"


def test_markup_and_braces_in_names_stay_as_typed(wording: Wording) -> None:
    assert wording("did.add_athlete", name="<b>{x}&") == "Add <b>{x}&"


def test_a_text_survives_being_stored() -> None:
    said: Text = text(
        "journal.moved_on",
        what=text("did.choose_opener", weight=pounds("402.5"), day=date(2026, 1, 2)),
        share=Percent(4.25, 2),
        number=Decimal("1.10"),
        at=datetime(2026, 1, 2, 3, 4),  # noqa: DTZ001 - a meet's local time
        hour=time(7, 30),
        many=("a", kilograms("82.5"), 3, 1.5),
    )
    assert text_from_json(text_to_json(said)) == said


def test_a_text_kept_by_another_version_has_a_stand_in(wording: Wording) -> None:
    assert wording.say_kept(text("no.such_code"), "list.joint") == wording("list.joint")
    assert wording.say_kept(text("number.percent"), "list.joint") == wording("list.joint")
    known = text("number.percent", number="5")
    assert wording.say_kept(known, "list.joint") == wording.say(known)
