"""Compare without widgets: what is chosen, what is shown, what is drawn."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Equipment, Lift, Sex
from coachdesk.domain.scoring import Formula
from coachdesk.domain.units import Unit
from coachdesk.services.desk import Desk
from coachdesk.services.rulebooks import read_rulebooks
from coachdesk.ui.screens.compare.drawing import MOST_BARS, points_drawn, shares_drawn
from coachdesk.ui.screens.compare.presenter import Compared, ComparePresenter
from coachdesk.wording.wording import Wording

if TYPE_CHECKING:
    from tests.conftest import Results

SPRING, AUTUMN = date(2026, 5, 2), date(2026, 10, 3)


@pytest.fixture
def presenter(desk: Desk, wording: Wording) -> ComparePresenter:
    return ComparePresenter(desk, wording, Formula.DOTS)


@pytest.fixture
def club(results: Results) -> dict[str, int]:
    """Two who lifted at both meets, one of them a Master, and one who bombed out."""
    spring, autumn = results.meet("Harbour Open", SPRING), results.meet("Autumn Cup", AUTUMN)
    ana = results.athlete("Ana Ruiz")
    bo = results.athlete("Bo Berg", sex=Sex.MALE, born=date(1979, 3, 1))
    cora = results.athlete("Cora Adler")
    results.day(ana, spring, (140, 75, 160), bodyweight="62.4")
    results.day(ana, autumn, (145, 80, 170), bodyweight="62.9")
    results.day(bo, autumn, (200, 130, 220), bodyweight="91.3")
    bombed = results.entry(cora, autumn, bodyweight="57")
    results.lift(bombed, Lift.SQUAT, [(100, False)] * 3)
    return {"ana": ana, "bo": bo, "cora": cora}


def compared(presenter: ComparePresenter, **values: str) -> Compared:
    return presenter.compared(presenter.choice({**presenter.first_values(), **values}))


def test_a_line_shows_points_shares_and_what_was_gained(
    presenter: ComparePresenter, club: dict[str, int]
) -> None:
    """395 kg at 62.9 kg: squat 145 is 36.7 %, bench 80 is 20.3 %, deadlift 170 is 43.0 %."""
    shown = compared(presenter)
    by_id = {line.athlete.id: line for line in shown.lines}
    ana = by_id[club["ana"]]
    assert presenter.total(ana) == "395"
    assert presenter.lift(Lift.SQUAT, ana) == "145 (36.7 %)"
    assert presenter.lift(Lift.BENCH, ana) == "80 (20.3 %)"
    assert presenter.lift(Lift.DEADLIFT, ana) == "170 (43.0 %)"
    assert presenter.bodyweight(ana) == "62.9"
    assert presenter.progress(ana).startswith("+20 (+")
    assert presenter.progress_tip(ana) == "Since Harbour Open, Sat 2 May 2026"
    assert presenter.scored_by(ana, shown.choice) == "DOTS"
    assert (presenter.meet(ana), presenter.day(ana)) == ("Autumn Cup", "Sat 3 Oct 2026")
    cora = by_id[club["cora"]]
    assert presenter.score(cora) == ""
    assert presenter.scored_by(cora, shown.choice) == "No total: bombed out, Squat"


def test_the_age_factor_is_stated_line_by_line(
    presenter: ComparePresenter, club: dict[str, int]
) -> None:
    """47 in the calendar year: McCulloch 1.082 (table, recalled)."""
    shown = compared(presenter, age_factor="yes")
    by_id = {line.athlete.id: line for line in shown.lines}
    assert presenter.scored_by(by_id[club["bo"]], shown.choice) == "DOTS, McCulloch 1.082 at 47"
    assert presenter.scored_by(by_id[club["ana"]], shown.choice) == "DOTS, no age factor at 30"


def test_the_two_wilks_formulas_never_share_a_label(presenter: ComparePresenter) -> None:
    names = [name for _, name in presenter.formula_choices()]
    assert len(set(names)) == len(names) == len(Formula)


def test_what_another_needs_is_said_with_the_difference(
    presenter: ComparePresenter, club: dict[str, int]
) -> None:
    shown = compared(presenter, equal_to=str(club["ana"]), equal_on="bench")
    by_id = {line.athlete.id: line for line in shown.lines}
    bo = by_id[club["bo"]]
    assert bo.equal is not None
    assert bo.equal.total is not None
    assert bo.equal.lift is not None
    more = (bo.equal.total.more_g or 0) / 1000
    assert presenter.needed(bo.equal.total) == f"{550 + more:g} ({more:g} more)"
    assert presenter.needed(bo.equal.lift) == f"{130 + more:g} ({more:g} more)"
    back = compared(presenter, equal_to=str(club["bo"]), equal_on="bench")
    ana = next(line for line in back.lines if line.athlete.id == club["ana"])
    assert ana.equal is not None
    assert presenter.needed(ana.equal.total).endswith("to spare)")
    cora = next(line for line in back.lines if line.athlete.id == club["cora"])
    assert cora.equal is not None
    assert float(presenter.needed(cora.equal.total)) > 0
    assert presenter.needed(cora.equal.lift) == ""
    names = [name for _, name in shown.athletes]
    assert names == ["nobody", "Cora Adler", "Bo Berg", "Ana Ruiz"]


def test_weights_are_shown_in_the_readers_unit(
    desk: Desk, wording: Wording, club: dict[str, int]
) -> None:
    """395 kg is 870.83 lb (1 lb is 0.45359237 kg exactly)."""
    presenter = ComparePresenter(desk, wording.in_unit(Unit.LB), Formula.DOTS)
    ana = next(line for line in compared(presenter).lines if line.athlete.id == club["ana"])
    assert presenter.total(ana) == "870.83"
    assert presenter.unit is Unit.LB


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"first": "soon"}, "first"),
        ({"first": "2026-10-03", "last": "2026-10-02"}, "last"),
        ({"formula": "own"}, "formula"),
    ],
)
def test_a_choice_that_cannot_be_is_refused_at_its_field(
    presenter: ComparePresenter, values: dict[str, str], field: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        presenter.choice({**presenter.first_values(), **values})
    assert refused.value.field == field


def test_notes_say_what_the_formula_keeps_apart(
    presenter: ComparePresenter, results: Results, club: dict[str, int]
) -> None:
    assert compared(presenter).notes == ()
    meet_id = results.meet("Garage Meet", AUTUMN)
    results.day(
        club["ana"], meet_id, (190, 100, 170), bodyweight="63", equipment=Equipment.EQUIPPED
    )
    presenter.forget()
    (note,) = compared(presenter).notes
    assert note.startswith("DOTS knows neither")
    assert len(compared(presenter, formula="ipf_gl", age_factor="yes").notes) == 2
    (alone,) = compared(presenter, formula="ipf_gl", lift="bench").notes
    assert "bench press alone" in alone
    (planned,) = compared(presenter, counted="openers").notes
    assert "latest week" in planned


def test_a_step_that_no_rulebook_gives_has_to_be_chosen(
    desk: Desk, wording: Wording, club: dict[str, int], tmp_path: Path
) -> None:
    (tmp_path / "traditional_two_hour.toml").write_text("torn", encoding="utf-8")
    bare = replace(desk, rulebooks=read_rulebooks(tmp_path, tmp_path))
    presenter = ComparePresenter(bare, wording, Formula.DOTS)
    shown = compared(presenter, equal_to=str(club["ana"]))
    assert "choose a step" in shown.notes[0]
    bo = next(line for line in shown.lines if line.athlete.id == club["bo"])
    assert bo.equal is not None
    assert presenter.needed(bo.equal.total) == ""
    chosen = compared(presenter, equal_to=str(club["ana"]), step="0.5")
    assert chosen.notes == ()
    bo = next(line for line in chosen.lines if line.athlete.id == club["bo"])
    assert bo.equal is not None
    assert presenter.needed(bo.equal.total)


@pytest.mark.usefixtures("club")
def test_what_was_read_is_kept_until_it_is_stale(
    presenter: ComparePresenter, results: Results
) -> None:
    assert len(compared(presenter).lines) == 3
    results.athlete("Dana New")
    assert len(compared(presenter).lines) == 3
    presenter.forget()
    assert len(compared(presenter).lines) == 4


def test_the_charts_say_in_words_what_they_draw(
    presenter: ComparePresenter, wording: Wording, club: dict[str, int]
) -> None:
    shown = compared(presenter)
    drawn = points_drawn(shown, wording)
    assert [bar.name for bar in drawn.bars] == ["Ana Ruiz", "Bo Berg"]
    assert drawn.said.split("\n")[0] == "Points by DOTS"
    ana = next(line for line in shown.lines if line.athlete.id == club["ana"])
    assert f"Ana Ruiz: {presenter.score(ana)}" in drawn.said
    shares = shares_drawn(shown, wording)
    assert [part.words for part in shares.bars[0].parts] == ["S 36.7 %", "B 20.3 %", "D 43.0 %"]
    assert sum(part.length for part in shares.bars[0].parts) == pytest.approx(100)
    assert "squat (S)" in shares.note


def test_results_that_are_ranked_apart_are_drawn_under_headings(
    presenter: ComparePresenter, results: Results, wording: Wording, club: dict[str, int]
) -> None:
    meet_id = results.meet("Garage Meet", AUTUMN)
    results.day(
        club["ana"], meet_id, (190, 100, 170), bodyweight="63", equipment=Equipment.EQUIPPED
    )
    drawn = points_drawn(compared(presenter), wording)
    assert [(bar.name, len(bar.parts)) for bar in drawn.bars] == [
        ("Three lifts · Classic", 0),
        ("Ana Ruiz", 1),
        ("Bo Berg", 1),
        ("Three lifts · Equipped", 0),
        ("Ana Ruiz", 1),
    ]


def test_a_long_chart_says_that_the_table_has_more(
    presenter: ComparePresenter, results: Results, wording: Wording
) -> None:
    meet_id = results.meet("Harbour Open", SPRING)
    for number in range(MOST_BARS + 2):
        results.day(
            results.athlete(f"Ana {number}"), meet_id, (100 + number, 50, 120), bodyweight="60"
        )
    drawn = points_drawn(compared(presenter), wording)
    assert len(drawn.bars) == MOST_BARS
    assert str(MOST_BARS) in drawn.note


@pytest.mark.usefixtures("club")
def test_without_results_the_charts_say_so(presenter: ComparePresenter, wording: Wording) -> None:
    shown = compared(presenter, first="2026-11-01")
    assert points_drawn(shown, wording).bars == ()
    assert points_drawn(shown, wording).note == "Nobody has points for these choices."
    assert (
        shares_drawn(shown, wording).note
        == "Nobody has a total of several lifts for these choices."
    )
