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
from coachdesk.domain.blocks.template import parse_template
from coachdesk.domain.rulebook_file import parse_rulebook

FOLDER = paths.resources() / "catalogues"
OTHERS = sorted(each.name for each in FOLDER.iterdir() if each.name != ENGLISH)
SAME_IN_FRENCH = {
    "units, file endings and names of scores and papers": (
        "kg lb cm min s A4 CSV MB kB Zip Letter RPE RIR IPF GL DOTS Wilks coachdesk English"
    ),
    "keys, as they stand on the keyboard": "Ctrl F F1",
    "words of the trade that French federations use": (
        "Squat SQ S Push pull Total Points tempo ok x"
    ),
    "words spelt alike in both languages": (
        "Base Volume Maximum Session Sessions Plan plans Note Notes Cause Code Source Table Guide "
        "Chance Bandages Place T shirt C V N Z G"
    ),
}
"""Words that may make a text the same as in English, by the reason."""
SPACED = re.compile(r"(?:\w|[}»)]) [?;:!%»]|« ")
"""An ordinary space where French typography has a no-break space."""


DATA_FILES = sorted(
    file
    for folder in ("rulebooks", "blocks")
    for file in (paths.resources() / folder).glob("*.toml")
)


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


def test_nothing_is_left_in_english() -> None:
    known = {word.casefold() for words in SAME_IN_FRENCH.values() for word in words.split()}
    english = catalogue(ENGLISH)
    same = {code: forms for code, forms in catalogue("fr").items() if forms == english[code]}
    left = [code for code, forms in same.items() if _words(forms) - known]
    assert left == []


def _words(forms: tuple[str, ...]) -> set[str]:
    """The words of all forms, values left out."""
    plain = (re.sub(r"\{\w+\}", " ", form) for form in forms)
    return {word.casefold() for form in plain for word in re.findall(r"[^\W\d_]+\d?", form)}


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


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("file", DATA_FILES, ids=lambda file: file.stem)
def test_data_files_name_themselves_in_every_language(language: str, file: Path) -> None:
    parse = parse_rulebook if file.parent.name == "rulebooks" else parse_template
    english, told = (parse(file.read_bytes(), file.name, each) for each in (ENGLISH, language))
    assert told.name != english.name


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
