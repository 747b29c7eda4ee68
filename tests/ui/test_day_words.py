"""Days as a table shows them, copied and pasted back, in every language there is."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from coachdesk.app.words import languages, wording
from coachdesk.ui.weights.day_words import pasted_day, short_day

NEW_YEAR = date(2026, 1, 1)


@pytest.mark.parametrize("language", languages())
def test_a_day_that_is_shown_can_be_pasted(language: str) -> None:
    words = wording(language)
    for day in (NEW_YEAR + timedelta(days=at) for at in range(365)):
        for shown in (short_day(words, day), words.day(day)):
            assert pasted_day(words, "on", shown) == day


def test_french_says_the_first_of_a_month_as_the_first() -> None:
    words = wording("fr")
    assert short_day(words, NEW_YEAR) == "1er janv. 2026"
    assert words.day(NEW_YEAR) == "jeu. 1er janv. 2026"
    assert words.short_day(date(2026, 1, 11)) == "11 janv."
