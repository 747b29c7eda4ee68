"""Every code has words, every word a use, and the compiled file is the one of the source."""

from __future__ import annotations

import ast
import re
import string
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.mofile import read_mo
from babel.messages.pofile import read_po

import coachdesk
from coachdesk.app import paths
from coachdesk.domain.text import text
from coachdesk.wording.catalogue import UnknownText
from coachdesk.wording.wording import Wording

PACKAGE = Path(coachdesk.__file__).parent
FOLDER = paths.resources() / "catalogues" / "en" / "LC_MESSAGES"
FAMILY = re.compile(r"[a-z][a-z_]*\\\.")
r"""How a pattern made of an f-string begins when the string is a code: "lift\."."""
FAMILIES = ("cause.", "kit.", "kit_round.")
"""Codes that data files name: `tests/app/test_shipped_words.py` checks that each has words."""


@pytest.fixture(scope="module")
def catalogue() -> Catalog:
    """All sources of the language together; no code stands twice."""
    whole = Catalog()
    for file in FOLDER.glob("*.po"):
        with file.open("rb") as source:
            for message in read_po(source):
                if message.id:
                    assert message.id not in whole, (file.name, message.id)
                    whole[message.id] = message
    return whole


def _ids(catalogue: Catalog) -> dict[str, tuple[str, ...]]:
    """Each code with its words, all plural forms."""
    found: dict[str, tuple[str, ...]] = {}
    for message in catalogue:
        if message.id:
            code = message.id if isinstance(message.id, str) else message.id[0]
            words = message.string
            found[code] = (words,) if isinstance(words, str) else tuple(words or ())
    return found


def _strings() -> Iterator[tuple[str, bool]]:
    """String literals in the program; the flag tells f-strings, given as patterns."""
    for file in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield node.value, False
            elif isinstance(node, ast.JoinedStr):
                parts = [
                    re.escape(part.value)
                    if isinstance(part, ast.Constant) and isinstance(part.value, str)
                    else "[a-z0-9_.]+"
                    for part in node.values
                ]
                yield "".join(parts), True


def _said_codes() -> Iterator[str]:
    """Codes passed to `text(...)` or to a wording as a literal first argument."""
    for file in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if (
                isinstance(node, ast.Call)
                and node.args
                and isinstance(node.args[0], ast.Constant)
                and isinstance(node.args[0].value, str)
                and isinstance(node.func, ast.Name)
                and node.func.id in {"text", "words", "wording"}
            ):
                yield node.args[0].value


def test_every_code_that_is_said_has_words(catalogue: Catalog) -> None:
    assert sorted(set(_said_codes()) - set(_ids(catalogue))) == []


def test_no_words_without_a_use(catalogue: Catalog) -> None:
    literals = {value for value, is_pattern in _strings() if not is_pattern}
    patterns = [
        re.compile(value) for value, is_pattern in _strings() if is_pattern and FAMILY.match(value)
    ]
    unused = [
        code
        for code in _ids(catalogue)
        if code not in literals
        and not code.startswith(FAMILIES)
        and not any(pattern.fullmatch(code) for pattern in patterns)
    ]
    assert unused == []


def test_plural_forms_ask_for_the_same_values(catalogue: Catalog) -> None:
    for code, forms in _ids(catalogue).items():
        asked = [
            {name for _, name, _, _ in string.Formatter().parse(form) if name} for form in forms
        ]
        assert len(forms) in {1, 2}, code
        assert all(form for form in forms), code
        assert asked[0] <= asked[-1], code


def test_the_compiled_catalogue_is_up_to_date(catalogue: Catalog) -> None:
    """After editing the .po file run `python packaging/compile_catalogues.py`."""
    with (FOLDER / "coachdesk.mo").open("rb") as compiled:
        assert _ids(read_mo(compiled)) == _ids(catalogue)


def test_a_code_without_words_is_a_bug(wording: Wording) -> None:
    with pytest.raises(UnknownText):
        wording.say(text("no.such_code"))
