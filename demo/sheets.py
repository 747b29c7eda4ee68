"""Pictures of every sheet the program prints."""

from __future__ import annotations

import tempfile
from contextlib import closing
from pathlib import Path

import pypdfium2

from coachdesk.app.packet_commands import demo_packets
from coachdesk.app.print_training import print_training
from coachdesk.app.wiring import open_desk
from coachdesk.app.words import wording
from coachdesk.domain.training import Block
from coachdesk.wording.wording import Wording

DOTS_PER_INCH = 90
PAPERS = ("a4", "letter")
_GREY = "L"
"""A picture without colours, as Pillow names it."""


def keep_sheets(out: Path, language: str) -> None:
    """Every page of the packets and a week of training, on both papers, and once without colour."""
    words = wording(language)
    for paper in PAPERS:
        with tempfile.TemporaryDirectory() as home:
            file = Path(home) / "demo.db"
            demo_packets(file, out / paper, paper, words)
            _week(file, out / paper, paper, words)
    for paper in PAPERS:
        for file in sorted((out / paper).rglob("*.pdf")):
            _keep_pages(file, out)


def _week(file: Path, out: Path, paper: str, words: Wording) -> None:
    """The first week of the block that comes last."""
    desk = open_desk(file)
    try:
        with desk.reading() as reader:
            blocks = reader.list(Block)
        last = max(blocks, key=lambda block: (block.starts_on, block.id))
        print_training(desk, last.id, [1], out, paper, words)
    finally:
        desk.store.close()


def _keep_pages(file: Path, out: Path) -> None:
    with closing(pypdfium2.PdfDocument(file)) as document:
        for number, page in enumerate(document, start=1):
            picture = file.with_name(f"{file.stem} {number}.png")
            drawn = page.render(scale=DOTS_PER_INCH / 72).to_pil()
            drawn.save(picture)
            drawn.convert(_GREY).save(picture.with_name(f"{picture.stem} grey.png"))
            print(picture.relative_to(out))
