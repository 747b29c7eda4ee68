"""No way through the program harms: not a word of drying out, nothing faster than 1 % a week, and
no loss for a minor or somebody of unknown age. Every catalogue, verdict and line is walked."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise, product

import pytest
from babel.messages.pofile import read_po
from hypothesis import given
from hypothesis import strategies as st

from coachdesk.app import paths
from coachdesk.domain.athlete import LossBar
from coachdesk.domain.attention import EntryFacts, Kind, matters_of
from coachdesk.domain.class_fit import (
    ClassFit,
    Pace,
    Person,
    PresentWeight,
    Verdict,
    class_fit,
    weekly_marks,
)
from coachdesk.domain.units import from_grams, kilograms
from coachdesk.domain.weight_class import WeightClass
from coachdesk.domain.weight_plan import WeightPlanData
from coachdesk.wording.wording import Wording

TODAY = date(2026, 11, 25)
ADULT, MINOR, UNKNOWN = date(1990, 1, 1), date(2009, 1, 1), None

DRYING_OUT = re.compile(
    r"sauna|sweat|dehydrat|laxative|diuretic|diarrh|vomit|purg|water[- ]?(cut|load)|salt|sodium"
    r"|hot (bath|tub)|steam|rubber suit|plastic suit|spit(ting)?\b|fast(ing)\b"
    r"|\b(no|less|stop|skip|avoid|limit|restrict|cut) (the )?(drink|water|fluid|food|meal|eating)"
    r"|(drink|eat) (less|nothing|little)",
    re.IGNORECASE,
)
"""Ways of making weight that are planned nowhere (what combat and strength sport papers list)."""

DRYING_OUT_IN_FRENCH = re.compile(
    r"sauna|\bsu(er|ez|ée|eurs?|dation)\b|transpir|déshydrat|laxatif|diurétique|vomi|purg|\bsel\b"
    r"|sodium|bain chaud|vapeur|crach|\bjeûn|\bà jeun"
    r"|(moins|sans|arrête[rz]?( de)?|limite[rz]?|évite[rz]?|saute[rz]?) (de |l’|la |le |les |d’)?"
    r"(boi|eau\b|liquide|mange|repas|nourriture)"
    r"|(boi|buv|mang)\w* (moins|peu\b|rien)",
    re.IGNORECASE,
)
OF_DRINKING = {
    "en": re.compile(r"\b(drink|sip|water|fluid)", re.IGNORECASE),
    "fr": re.compile(r"\b(boi(re|sson|ve)|buv|gorgée|eau\b|liquide|hydrat)", re.IGNORECASE),
}

SAID_OF_DRINKING = (
    "Eat and drink as usual until the weigh-in.",
    "eat and drink, in small portions",
    "a normal meal, enough to drink",
    "go on sipping water",
    "a few bites and sips",
    "Drink only from sealed bottles",
    "Eat, drink, and thank your loaders",
    "holds water",
)
"""Whatever is said about drinking says: as usual, or more."""


def messages(language: str = "en") -> Iterator[tuple[str, str]]:
    for file in sorted(paths.resources().glob(f"catalogues/{language}/LC_MESSAGES/*.po")):
        with file.open("rb") as opened:
            for message in read_po(opened):
                said = message.string
                for each in said if isinstance(said, tuple) else (said,):
                    if message.id:
                        yield f"{file.name}: {message.id}", str(each)


def other_texts() -> Iterator[tuple[str, str]]:
    for pattern in (
        "guide/*/*.md",
        "blocks/*.toml",
        "kit/*.toml",
        "rulebooks/*.toml",
        "tasks/*.toml",
        "demo/*.toml",
    ):
        for file in sorted(paths.resources().glob(pattern)):
            yield file.name, file.read_text(encoding="utf-8")


@pytest.mark.parametrize(("language", "harm"), [("en", DRYING_OUT), ("fr", DRYING_OUT_IN_FRENCH)])
def test_no_text_speaks_of_drying_out(language: str, harm: re.Pattern[str]) -> None:
    walked = [*messages(language), *other_texts()]
    assert len(walked) > 1500
    assert [(where, found[0]) for where, said in walked if (found := harm.search(said))] == []


@pytest.mark.parametrize(
    "harmful",
    ["Drink less on the last day", "a hot bath", "Cut water", "dehydrate", "Skip meals", "no food"],
)
def test_the_walk_would_find_it(harmful: str) -> None:
    assert DRYING_OUT.search(harmful)


@pytest.mark.parametrize(
    "harmful",
    [
        "Buvez moins le dernier jour", "un bain chaud", "sans eau", "déshydratation",
        "Sautez le repas", "rester à jeun", "limiter les liquides", "faites suer",
    ],
)  # fmt: skip
def test_the_walk_would_find_it_in_french(harmful: str) -> None:
    assert DRYING_OUT_IN_FRENCH.search(harmful)


def test_french_speaks_of_drinking_where_english_does() -> None:
    """Each English sentence about drinking was read for it; French says the same things of it."""
    codes = {
        language: {where for where, said in messages(language) if found.search(said)}
        for language, found in OF_DRINKING.items()
    }
    assert codes["fr"] == codes["en"]


def test_what_is_said_about_drinking_says_as_usual_or_more(wording: Wording) -> None:
    """Every sentence about drinking is one that was read for it: a new one has to be looked at."""
    sentences = [
        said
        for where, said in messages()
        if OF_DRINKING["en"].search(said)
        and not where.endswith(("kit.drink", "sheet.section.food", "trend.note_too_long"))
    ]
    assert [said for said in sentences if not any(each in said for each in SAID_OF_DRINKING)] == []
    assert "Eat and drink as usual" in wording("caution.drink")


CASES = list(
    product(
        ("83.01", "83.5", "84.5", "86.4", "87.3", "90", "100"),
        (0, 3, 7, 8, 10, 14, 21, 28, 42, 60, 90, 150, 300),
        (ADULT, MINOR, UNKNOWN),
        LossBar,
        (None, 160, 175, 215),
        (True, False),
        (True, False),
    )
)


def fitted(
    kg: float,
    days: int,
    born: date | None,
    bar: LossBar,
    height: int | None,
    *,
    first: bool,
    chosen: bool,
) -> ClassFit:
    return class_fit(
        WeightClass(name="83", limit=kilograms(83)),
        present=PresentWeight(kg, 5, TODAY),
        today=TODAY,
        weigh_in_on=TODAY + timedelta(days=days),
        person=Person(born, height, bar, first),
        chosen=chosen,
    )


def check(fit: ClassFit, kg: float, born: date | None, bar: LossBar, *, first: bool) -> None:
    """What holds of every verdict, and of every line drawn from it."""
    fastest = 0.7 if first else 1.0
    marks = weekly_marks(fit, PresentWeight(kg, 5, TODAY), TODAY)
    if born in {MINOR, UNKNOWN} or bar is not LossBar.NONE:
        assert fit.verdict is Verdict.NO_PLAN
    if not fit.verdict.has_way_down:
        assert marks == ()
    else:
        assert fit.rate is not None
        assert fit.rate.value <= fastest
        assert (kg - 83) / kg <= 0.05
    if fit.verdict is Verdict.NO_PLAN:
        assert fit.rate is None
        assert fit.latest_starts == ()
    assert all(pace.percent_a_week <= fastest for pace, _ in fit.latest_starts)
    days = [TODAY, *(day for day, _ in marks)]
    masses = [kg, *(mass.kg for _, mass in marks)]
    for (first_day, heavy), (later, light) in pairwise(zip(days, masses, strict=True)):
        most = fastest / 100 * kg * (later - first_day).days / 7
        assert heavy - light <= most + 0.1  # marks are rounded to 0.1 kg


def test_every_verdict_keeps_to_the_limits() -> None:
    seen = set()
    for kg, days, born, bar, height, first, chosen in CASES:
        fit = fitted(float(kg), days, born, bar, height, first=first, chosen=chosen)
        check(fit, float(kg), born, bar, first=first)
        seen.add(fit.verdict)
        matters = matters_of(
            EntryFacts(
                starts_on=TODAY + timedelta(days=days),
                weigh_in_on=TODAY + timedelta(days=days),
                weight=None,
                fit=fit,
            ),
            TODAY,
        )
        assert Kind.START_DOWN not in {matter.kind for matter in matters} or (
            fit.verdict.has_way_down
        )
    assert seen == {
        Verdict.COMFORTABLE,
        Verdict.STEADY,
        Verdict.HARD,
        Verdict.NOT_IN_TIME,
        Verdict.NO_PLAN,
    }


@given(
    kg=st.floats(83.02, 95),
    days=st.integers(0, 400),
    born=st.sampled_from([ADULT, MINOR, UNKNOWN]),
    bar=st.sampled_from(list(LossBar)),
    height=st.none() | st.integers(140, 220),
    first=st.booleans(),
    chosen=st.booleans(),
)
def test_and_so_does_any_other(
    kg: float,
    days: int,
    born: date | None,
    bar: LossBar,
    height: int | None,
    first: bool,
    chosen: bool,
) -> None:
    check(
        fitted(kg, days, born, bar, height, first=first, chosen=chosen), kg, born, bar, first=first
    )


@given(kg=st.floats(83.1, 87.3), days=st.integers(8, 300), first=st.booleans())
def test_a_line_agreed_on_never_falls_faster(kg: float, days: int, first: bool) -> None:
    fit = fitted(kg, days, ADULT, LossBar.NONE, 175, first=first, chosen=True)
    if not fit.verdict.has_way_down:
        return
    plan = WeightPlanData(
        entry_id=1,
        agreed_on=TODAY,
        from_weight=from_grams(round(kg * 100) * 10),
        to_weight=kilograms(83),
        weight_class="83",
        arrive_on=fit.arrive_on,
    )
    week = timedelta(weeks=1)
    day = TODAY
    while day < plan.arrive_on:
        assert plan.kg_on(day) - plan.kg_on(day + week) <= 0.01 * kg + 0.01
        day += week


def test_the_paces_are_the_published_ones() -> None:
    """Garthe et al. 2011 (IJSNEM 21:97-104): groups that lost 0.7 and 1.0 % a week."""
    assert {pace: pace.percent_a_week for pace in Pace} == {
        Pace.COMFORTABLE: 0.35,
        Pace.STEADY: 0.7,
        Pace.HARD: 1.0,
    }
