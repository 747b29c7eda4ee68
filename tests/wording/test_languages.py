"""Every language says what English says: the same codes and values, in its own words and signs."""

from __future__ import annotations

import re
import string
from functools import cache
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.mofile import read_mo
from babel.messages.pofile import read_po

from coachdesk.app import paths
from coachdesk.app.words import ENGLISH, languages, own_names, spoken, wording

FOLDER = paths.resources() / "catalogues"
OTHERS = sorted(each.name for each in FOLDER.iterdir() if each.name != ENGLISH)
SAME = {
    "fr": {
        "codes and marks, not words": re.compile(r"[\W\d_]*(\{\w+\}[\W\d_]*)*"),
        "units, names of scores, file endings and keys are the same everywhere": re.compile(
            r"[\W\d_]*(\{\w+\}[\W\d_]*)*(kg|lb|A4|CSV|RPE|RIR|MB|F1|IPF GL|DOTS|Wilks.*|English)"
            r"[\W\d_]*(\{\w+\}[\W\d_]*)*"
        ),
    }
}
"""Why a text may be the same as in English."""
SAME_CODES: dict[str, dict[str, str]] = {"fr": {}}
"""Single codes whose words are the same in both languages, with the reason."""
SPACED = re.compile(r"(?:\w|[}»)]) [?;:!%»]|« ")
"""An ordinary space where French typography has a no-break space."""


def test_there_is_a_language_beside_english() -> None:
    assert OTHERS


@cache
def catalogue(language: str) -> dict[str, tuple[str, ...]]:
    """Each code with its words, all plural forms."""
    found: dict[str, tuple[str, ...]] = {}
    for file in sorted((FOLDER / language / "LC_MESSAGES").glob("*.po")):
        for code, forms in _said(read(file)).items():
            assert code not in found, (file.name, code)
            found[code] = forms
    return found


def read(file: Path) -> Catalog:
    with file.open("rb") as source:
        return read_po(source, locale=file.parents[1].name)


def _said(catalogue: Catalog) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for message in catalogue:
        if message.id:
            code = message.id if isinstance(message.id, str) else message.id[0]
            words = message.string
            found[code] = (words,) if isinstance(words, str) else tuple(words or ())
    return found


def _asked(words: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(words) if name}


@pytest.mark.parametrize("language", OTHERS)
def test_it_has_the_codes_of_english_in_files_of_the_same_names(language: str) -> None:
    english = {
        file.name: set(_said(read(file))) for file in FOLDER.glob(f"{ENGLISH}/LC_MESSAGES/*.po")
    }
    told = {
        file.name: set(_said(read(file))) for file in FOLDER.glob(f"{language}/LC_MESSAGES/*.po")
    }
    assert sorted(told) == sorted(english)
    missing = {name: sorted(english[name] - told[name]) for name in english}
    left_over = {name: sorted(told[name] - english[name]) for name in english}
    assert [each for each in missing.items() if each[1]] == []
    assert [each for each in left_over.items() if each[1]] == []


@pytest.mark.parametrize("language", OTHERS)
def test_every_text_is_filled_with_the_same_values(language: str) -> None:
    english = catalogue(ENGLISH)
    for code, forms in catalogue(language).items():
        assert all(forms), code
        assert _asked(forms[-1]) == _asked(english[code][-1]), code
        assert all(_asked(form) <= _asked(forms[-1]) for form in forms), code
        assert (len(forms) > 1) == (len(english[code]) > 1), code


@pytest.mark.parametrize("language", OTHERS)
def test_nothing_is_left_in_english(language: str) -> None:
    english, reasons = catalogue(ENGLISH), SAME[language].values()
    same = {
        code: forms
        for code, forms in catalogue(language).items()
        if forms == english[code] and not all(_is_fine(form, reasons) for form in forms)
    }
    assert same.keys() - SAME_CODES[language].keys() == set(), same
    assert SAME_CODES[language].keys() <= same.keys()


def _is_fine(words: str, reasons: object) -> bool:
    assert isinstance(reasons, type({}.values()))
    return any(reason.fullmatch(words) for reason in reasons)


@pytest.mark.parametrize("language", OTHERS)
def test_the_compiled_catalogue_is_up_to_date(language: str) -> None:
    """After editing a .po file run `python packaging/compile_catalogues.py`."""
    with (FOLDER / language / "LC_MESSAGES" / "coachdesk.mo").open("rb") as compiled:
        assert _said(read_mo(compiled)) == catalogue(language)


def test_french_signs_stand_after_a_space_that_does_not_break() -> None:
    loose = [
        (code, found.group())
        for code, forms in catalogue("fr").items()
        for form in forms
        if (found := SPACED.search(form)) is not None
    ]
    assert loose == []


def test_french_apostrophes_are_curved() -> None:
    straight = [code for code, forms in catalogue("fr").items() if any("'" in x for x in forms)]
    assert straight == []


@pytest.mark.parametrize(("count", "form"), [(0, 0), (1, 0), (2, 1), (12, 1)])
def test_french_counts_none_as_one(count: int, form: int) -> None:
    """French grammar: the singular up to but not including two."""
    code = "did.log_sets"
    expected = catalogue("fr")[code][form].format(count=count)
    assert wording("fr")(code, count=count) == expected
    assert wording("en")(code, count=0) == catalogue("en")[code][1].format(count=0)


def test_each_language_is_named_in_itself() -> None:
    assert dict(own_names()) == {"en": "English", "fr": "Français"}
    assert languages() == ("en", "fr")


@pytest.mark.parametrize(
    ("preferred", "of_system", "language"),
    [
        ("system", ["fr_CA.UTF-8"], "fr"),
        ("system", ["fr-Latn-FR", "fr"], "fr"),
        ("system", ["C.UTF-8"], "en"),
        ("system", ["xx_YY", "fr"], "fr"),
        ("system", [], "en"),
        ("en", ["fr_FR"], "en"),
        ("fr", ["en_GB"], "fr"),
        ("xx", ["fr_FR"], "fr"),
    ],
)
def test_what_is_preferred_is_spoken_else_what_the_system_speaks(
    preferred: str, of_system: list[str], language: str
) -> None:
    assert spoken(preferred, of_system) == language
