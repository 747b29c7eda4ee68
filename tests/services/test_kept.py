"""What was made is kept as long as what it was made of is the same."""

from __future__ import annotations

from coachdesk.services.kept import Kept


def test_only_what_differs_is_made_anew() -> None:
    made: list[str] = []

    def make(source: str) -> str:
        made.append(source)
        return source.upper()

    kept = Kept(make)
    assert kept.of([(1, "squat"), (2, "bench")]) == ["SQUAT", "BENCH"]
    assert kept.of([(2, "bench"), (1, "press"), (3, "row")]) == ["BENCH", "PRESS", "ROW"]
    assert made == ["squat", "bench", "press", "row"]


def test_what_is_not_asked_for_any_more_is_let_go() -> None:
    made: list[str] = []
    kept = Kept(made.append)
    for sources in ([(1, "squat")], [], [(1, "squat")]):
        kept.of(sources)
    assert made == ["squat", "squat"]
