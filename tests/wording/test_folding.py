"""Names are found by plain letters."""

from __future__ import annotations

import pytest

from coachdesk.wording.folding import folded


@pytest.mark.parametrize(
    ("name", "plain"),
    [
        ("Łucja Bąk", "lucja bak"),
        ("Søren ØSTER", "soren oster"),
        ("Zoë Straße", "zoe strasse"),
        ("Ægir Þór", "aegir thor"),
        ("Đặng", "dang"),
        ("Çağrı", "cagri"),
        ("Надія", "надія".replace("ї", "і")),
        ("O'Neill-Ng", "o'neill-ng"),
    ],
)
def test_accents_and_case_are_laid_aside(name: str, plain: str) -> None:
    assert folded(name) == plain


def test_a_letter_typed_as_two_is_found_as_one() -> None:
    """Unicode writes é as one letter or as e with a mark; both are the same name."""
    assert folded("Rene\u0301") == folded("René") == "rene"
