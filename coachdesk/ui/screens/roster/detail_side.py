"""The side of the athlete chosen: who it is, and sections to switch between."""

from __future__ import annotations

from typing import TypeAlias

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QHBoxLayout,
    QMenu,
    QSizePolicy,
    QStackedWidget,
    QTabWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from coachdesk.ui.context import Context
from coachdesk.ui.plain import (
    heading,
    label,
    plain_tip,
    small,
    tip,
    without_mnemonic,
)
from coachdesk.ui.screens.roster.athlete_detail import AthleteDetail
from coachdesk.ui.screens.roster.profile_part import ProfilePart
from coachdesk.ui.screens.roster.readings_part import ReadingsPart
from coachdesk.ui.screens.roster.results_part import ResultsPart
from coachdesk.ui.screens.roster.sets_part import SetsPart
from coachdesk.ui.theme import GAP, MARGIN

SECTIONS = ("profile", "readings", "results", "sets")
_LEAST_WIDTH = 320
"""[px]"""
Part: TypeAlias = ProfilePart | ReadingsPart | ResultsPart | SetsPart


class DetailSide(QWidget):
    """Shows one athlete; a section is made, and reads its records, when it is looked at."""

    archive_asked = Signal()
    record_asked = Signal()
    delete_asked = Signal()
    erase_asked = Signal()
    was_put_back = Signal()
    """What is on file is to be shown anew."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words
        self.detail: AthleteDetail | None = None
        self._words = words
        self._name = heading()
        self._name.setWordWrap(True)
        self._name.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._about = small()
        self.more = QToolButton()
        self._archive = QAction(self)
        self._context = context
        self._made: dict[str, Part] = {}
        self._holders: dict[str, QVBoxLayout] = {}
        self.sections = QTabWidget()
        self.sections.setAccessibleName(words("roster.sections"))
        self.sections.setDocumentMode(True)
        self.sections.setUsesScrollButtons(True)
        for section in SECTIONS:
            page = QWidget()
            holder = QVBoxLayout(page)
            holder.setContentsMargins(0, 0, 0, 0)
            self._holders[section] = holder
            self.sections.addTab(page, without_mnemonic(words(f"roster.section.{section}")))
        self.sections.currentChanged.connect(lambda at: self.part(SECTIONS[at]))
        self.setMinimumWidth(_LEAST_WIDTH)
        self._pages = QStackedWidget()
        self._fill_menu()
        self._lay_out()
        self.show_athlete(None)

    def show_athlete(self, detail: AthleteDetail | None) -> None:
        """Show an athlete, or that nobody is chosen."""
        self.detail = detail
        self._pages.setCurrentIndex(0 if detail is None else 1)
        if detail is not None:
            self._name.setText(detail.athlete.name)
            tip(self._name, detail.athlete.name)
            self._about.setText(detail.about)
            archived = detail.athlete.archived
            code = "roster.unarchive" if archived else "roster.archive"
            self._archive.setText(without_mnemonic(self._words(code)))
            self.part(SECTIONS[self.sections.currentIndex()])
        for part in self._made.values():
            part.show_athlete(detail)

    def part(self, section: str) -> Part:
        """A section, made when it is first asked for."""
        if section not in self._made:
            made = self._make(section)
            self._made[section] = made
            self._holders[section].addWidget(made)
            made.show_athlete(self.detail)
        return self._made[section]

    def make_sections(self) -> None:
        """Make the sections not looked at yet."""
        for section in SECTIONS:
            self.part(section)

    def has_unsaved(self) -> bool:
        """Whether something typed here is not kept yet."""
        return any(part.has_unsaved() for part in self._made.values())

    def save(self) -> bool:
        """Keep what is typed, and go to what could not be."""
        for section, part in self._made.items():
            if part.has_unsaved() and not part.save():
                self.go_to(section)
                return False
        return True

    def discard(self) -> None:
        """Let go of what is typed."""
        for part in self._made.values():
            part.discard()

    def go_to(self, section: str) -> None:
        """Show a section."""
        self.sections.setCurrentIndex(SECTIONS.index(section))

    def begin_in(self, section: str) -> None:
        """Show a section and put the focus where one begins there."""
        self.go_to(section)
        self.focus_section()

    def focus_section(self) -> None:
        """Put the focus where one begins in the section shown."""
        self.part(SECTIONS[self.sections.currentIndex()]).begin()

    def _make(self, section: str) -> Part:
        match section:
            case "profile":
                profile = ProfilePart(self._context)
                profile.was_put_back.connect(self.was_put_back)
                return profile
            case "readings":
                return ReadingsPart(self._context)
            case "results":
                return ResultsPart(self._context)
            case _:
                return SetsPart(self._context)

    def _fill_menu(self) -> None:
        """What can be done with the athlete as a whole."""
        words = self._words
        menu = QMenu(self.more)
        self._archive.triggered.connect(lambda *_: self.archive_asked.emit())
        menu.addAction(self._archive)
        record = QAction(without_mnemonic(words("record.open")), menu)
        record.triggered.connect(lambda *_: self.record_asked.emit())
        menu.addAction(record)
        for code, asked in (("delete", self.delete_asked), ("erase", self.erase_asked)):
            each = QAction(without_mnemonic(words(f"roster.{code}.dots")), menu)
            each.triggered.connect(lambda *_, asked=asked: asked.emit())
            menu.addAction(each)
        menu.setToolTipsVisible(True)
        menu.actions()[-1].setToolTip(plain_tip(words("roster.erase.hint")))
        self.more.setText(f"{words('roster.more')} ▾")
        self.more.setAccessibleName(words("roster.more"))
        self.more.setMenu(menu)
        self.more.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.more.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def _lay_out(self) -> None:
        words = self._words
        nobody = label(words("roster.nobody_chosen"), role="quiet", wrap=True)
        nobody.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        self._pages.addWidget(nobody)
        page = QWidget()
        layout = QVBoxLayout(page)
        layout.setContentsMargins(GAP, 0, 0, 0)
        layout.setSpacing(GAP)
        head = QHBoxLayout()
        head.addWidget(self._name, 1)
        head.addWidget(self.more)
        layout.addLayout(head)
        layout.addWidget(self._about)
        layout.addWidget(self.sections, 1)
        self._pages.addWidget(page)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self._pages)
