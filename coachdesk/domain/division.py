"""Ages, and the divisions an athlete of an age may enter."""

from __future__ import annotations

from datetime import date

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.rulebook import AgeRule, Division, Rulebook
from coachdesk.domain.text import Text, text


def age_in_year(birth_date: date, on: date) -> int:
    """The age [years] reached in the calendar year of `on`.

    Raises InvalidInput when `birth_date` lies after `on`.
    """
    _check_order(birth_date, on)
    return on.year - birth_date.year


def age_on(birth_date: date, on: date) -> int:
    """The age [years] on the day `on`; somebody born on 29 February turns on 1 March otherwise.

    Raises InvalidInput when `birth_date` lies after `on`.
    """
    _check_order(birth_date, on)
    had_birthday = (on.month, on.day) >= (birth_date.month, birth_date.day)
    return on.year - birth_date.year - (0 if had_birthday else 1)


def check_division(division: Division, birth_date: date | None, on: date) -> Text | None:
    """Why an athlete may not enter `division` on the day `on`, or None when they may.

    A division with a bound on age is closed while the birth date is unknown. Raises InvalidInput
    when `birth_date` lies after `on`.
    """
    if division.from_age is None and division.to_age is None:
        return None
    if birth_date is None:
        return text("division.birth_date_needed", division=division.name)
    by_year = division.age_rule is AgeRule.CALENDAR_YEAR
    upper_age = age_in_year(birth_date, on) if by_year else age_on(birth_date, on)
    lower_by_year = by_year and not division.from_birthday
    lower_age = age_in_year(birth_date, on) if lower_by_year else age_on(birth_date, on)
    if division.from_age is not None and lower_age < division.from_age:
        code = "division.from_year" if lower_by_year else "division.from_birthday"
        return text(code, division=division.name, age=division.from_age)
    if division.to_age is not None and upper_age > division.to_age:
        code = "division.to_year" if by_year else "division.to_day"
        return text(code, division=division.name, age=division.to_age)
    return None


def divisions_open_to(
    birth_date: date | None, on: date, rulebook: Rulebook
) -> tuple[Division, ...]:
    """The divisions of `rulebook` an athlete may enter on the day `on`, in the rulebook's order.

    Raises InvalidInput when `birth_date` lies after `on`.
    """
    return tuple(
        division
        for division in rulebook.divisions
        if check_division(division, birth_date, on) is None
    )


def _check_order(birth_date: date, on: date) -> None:
    if birth_date > on:
        raise InvalidInput("birth_date", text("division.not_born", birth_date=birth_date, on=on))
