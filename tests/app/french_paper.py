"""What holds of sheets printed in French."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from pypdf import PdfReader

from coachdesk.app.words import wording
from tests.app.words_seen import left_in_english


def text_of(file: Path) -> str:
    pages = PdfReader(file).pages
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in pages))


def check_french(files: Sequence[Path]) -> None:
    for file in files:
        assert str(PdfReader(file).root_object["/Lang"]) == "fr", file.name
    said = " ".join(text_of(file) for file in files)
    assert wording("fr")("sheet.section.kit") in said
    assert re.search(r"\d,5\s?kg", said)
    assert not re.search(r"\d\.5\s?kg", said)
    lines = [
        line
        for file in files
        for page in PdfReader(file).pages
        for line in page.extract_text().splitlines()
    ]
    assert left_in_english(line.strip() for line in lines) == []
