"""What a coach types is read one way everywhere, and refused in words at its field."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, time
from decimal import Decimal

import pytest

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import Unit, kilograms, pounds
from coachdesk.services import typed


@pytest.mark.parametrize(
    ("words", "meant"),
    [("82,5", kilograms("82.5")), ("182 lb", pounds("182")), ("82.5 kg ", kilograms("82.5"))],
)
def test_a_weight_is_read_in_either_unit(words: str, meant: object) -> None:
    assert typed.required_mass("weight", words, Unit.KG) == meant
    assert typed.mass("weight", " ", Unit.KG) is None


@pytest.mark.parametrize("words", ["2026-11-25", "25.11.2026", " 25. 11. 2026 "])
def test_a_day_is_read_however_it_is_written(words: str) -> None:
    assert typed.required_day("on", words) == date(2026, 11, 25)
    assert typed.day("on", "") is None


def test_times_and_moments_are_read() -> None:
    assert typed.hour("at", "9:05") == typed.hour("at", "9.05") == time(9, 5)
    assert typed.moment("at", "2026-11-25 9:05") == datetime(2026, 11, 25, 9, 5)  # noqa: DTZ001
    assert typed.moment("at", "2026-11-25T09:05") == datetime(2026, 11, 25, 9, 5)  # noqa: DTZ001
    assert typed.hour("at", "") is None
    assert typed.moment("at", "") is None


def test_numbers_and_choices_are_read() -> None:
    assert typed.number("x", "1,5") == Decimal("1.5")
    assert typed.whole("x", "12") == 12
    assert typed.number("x", "") is None
    assert typed.whole("x", "") is None
    assert typed.choice("lift", "bench", Lift) is Lift.BENCH


@pytest.mark.parametrize(
    "read",
    [
        lambda: typed.mass("it", "heavy", Unit.KG),
        lambda: typed.required_mass("it", "", Unit.KG),
        lambda: typed.day("it", "31.2.2026"),
        lambda: typed.day("it", "tomorrow"),
        lambda: typed.required_day("it", ""),
        lambda: typed.hour("it", "25:00"),
        lambda: typed.moment("it", "2026-11-25"),
        lambda: typed.number("it", "a few"),
        lambda: typed.whole("it", "1.5"),
        lambda: typed.choice("it", "", Lift),
    ],
)
def test_what_cannot_be_read_is_refused_at_its_field(read: Callable[[], object]) -> None:
    with pytest.raises(InvalidInput) as refused:
        read()
    assert refused.value.field == "it"


def test_what_is_shown_reads_back() -> None:
    on, at = date(2026, 11, 25), time(9, 5)
    assert typed.day("on", typed.shown_day(on)) == on
    assert typed.hour("at", typed.shown_hour(at)) == at
    moment = datetime.combine(on, at)
    assert typed.moment("at", typed.shown_moment(moment)) == moment
    assert typed.mass("w", typed.shown_mass(pounds("405")), Unit.KG) == pounds("405")
    assert typed.whole("n", typed.shown_whole(7)) == 7
    assert typed.yes(typed.shown_yes(value=True))
    assert not typed.yes(typed.shown_yes(value=False))
    nothing = (typed.shown_day, typed.shown_hour, typed.shown_moment, typed.shown_mass)
    assert [show(None) for show in nothing] == ["", "", "", ""]
    assert typed.shown_whole(None) == ""
