"""The kit: what is typed is never lost, names are shown letter by letter."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QAbstractItemModelTester
from pytestqt.qtbot import QtBot

from coachdesk.domain.contrast import contrast
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import label, plain_tip
from coachdesk.ui.theme import DARK, LIGHT, Theme
from coachdesk.ui.widgets.fields import DateField, ManyChoicesField, TextField, YesNoField
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.form_dialog import FormDialog
from coachdesk.ui.widgets.table import Table


@dataclass(frozen=True)
class Lifter:
    id: int
    name: str
    total: int | None


LIFTERS = (Lifter(1, "Zoë Öst", 400), Lifter(2, "Ana <b>Ruiz</b>", None), Lifter(3, "Bo Li", 90))


def table_of(context: Context, renamed: list[str] | None = None) -> Table[Lifter]:
    def rename(_lifter: Lifter, typed: str) -> None:
        if not typed:
            raise InvalidInput("name", text("typed.choice"))
        if renamed is not None:
            renamed.append(typed)

    made: Table[Lifter] = Table(
        context,
        "lifters",
        [
            Column(
                "name", "Name", lambda one: one.name, edit=rename if renamed is not None else None
            ),
            Column(
                "total",
                "Total",
                lambda one: "" if one.total is None else str(one.total),
                sort=lambda one: one.total,
                to_right=True,
            ),
        ],
        lambda one: one.id,
        about="Lifters",
        several=True,
        takes_paste=True,
    )
    made.set_rows(LIFTERS)
    return made


def test_the_model_keeps_qts_rules(context: Context, qtbot: QtBot) -> None:
    table = table_of(context)
    qtbot.addWidget(table)
    QAbstractItemModelTester(table.model, QAbstractItemModelTester.FailureReportingMode.Fatal)
    table.set_rows(LIFTERS[:1])
    table.set_rows(LIFTERS)
    assert table.model.rowCount() == 3


def test_search_folds_accents_and_needs_all_words(context: Context, qtbot: QtBot) -> None:
    table = table_of(context)
    qtbot.addWidget(table)
    table.set_filter("ost zoe")
    assert [row.id for row in table.shown_rows()] == [1]
    table.set_filter("")
    assert len(table.shown_rows()) == 3


def test_numbers_sort_as_numbers_and_unknown_ones_come_last(context: Context, qtbot: QtBot) -> None:
    table = table_of(context)
    qtbot.addWidget(table)
    table.view.sortByColumn(1, Qt.SortOrder.AscendingOrder)
    assert [row.id for row in table.shown_rows()] == [3, 1, 2]


def test_copied_rows_are_tab_separated_under_their_heads(context: Context, qtbot: QtBot) -> None:
    table = table_of(context)
    qtbot.addWidget(table)
    table.view.selectAll()
    qtbot.keyClick(table.view, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    lines = QGuiApplication.clipboard().text().split("\n")
    assert lines[0] == "Name\tTotal"
    assert lines[1] == "Zoë Öst\t400"


def test_pasted_rows_are_handed_on_cell_by_cell(context: Context, qtbot: QtBot) -> None:
    table = table_of(context)
    qtbot.addWidget(table)
    QGuiApplication.clipboard().setText("2026-11-25\t82,5\n\n2026-11-26\t83\n")
    with qtbot.waitSignal(table.pasted) as pasted:
        qtbot.keyClick(table.view, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert pasted.args == [[["2026-11-25", "82,5"], ["2026-11-26", "83"]]]


def test_a_cell_keeps_what_it_could_not_take_and_says_why(context: Context, qtbot: QtBot) -> None:
    renamed: list[str] = []
    table = table_of(context, renamed)
    qtbot.addWidget(table)
    index = table.model.index(0, 0)
    assert not table.model.setData(index, "")
    assert table.sentence == context.words("typed.choice")
    assert index.data() == ""
    table.set_rows(LIFTERS)
    assert table.model.index(0, 0).data() == ""
    assert table.model.setData(table.model.index(0, 0), "Zoe")
    assert renamed == ["Zoe"]
    assert table.sentence == ""


def test_the_chosen_row_stays_chosen_when_rows_are_read_anew(
    context: Context, qtbot: QtBot
) -> None:
    table = table_of(context)
    qtbot.addWidget(table)
    table.select(3)
    table.set_rows(LIFTERS[::-1])
    assert table.current_key() == 3


def form_of(context: Context) -> Form:
    form = Form(context.words)
    form.add("name", "screen.roster", TextField())
    form.add("on", "screen.today", DateField(pick="Pick"))
    form.set_values({"name": "Ana", "on": "2026-11-25"})
    return form


def test_a_form_says_what_is_wrong_at_its_field_and_keeps_everything(
    context: Context, qtbot: QtBot
) -> None:
    form = form_of(context)
    qtbot.addWidget(form)
    form.set_values({"name": "Bea", "on": "soon"})
    form.show_error(InvalidInput("on", text("typed.day")))
    assert form.sentence_at("on") == context.words("typed.day")
    assert form.sentence_at("name") == ""
    assert form.values() == {"name": "Bea", "on": "soon"}


def test_a_form_knows_whether_something_was_typed(context: Context, qtbot: QtBot) -> None:
    form = form_of(context)
    qtbot.addWidget(form)
    assert not form.is_dirty()
    field = form.field("name")
    assert isinstance(field, TextField)
    qtbot.keyClicks(field.line, "!")
    assert form.is_dirty()
    form.put_back()
    assert form.values()["name"] == "Ana"


@pytest.mark.parametrize("typed", ["2026-11-25", "25.11.2026", "25.11.2026 "])
def test_a_date_is_read_however_it_is_written(qtbot: QtBot, typed: str) -> None:
    field = DateField(pick="Pick")
    qtbot.addWidget(field)
    field.set_value(typed)
    assert field.value() == "2026-11-25"


def test_ticks_are_values_on_lines(qtbot: QtBot) -> None:
    field = ManyChoicesField([("open", "Open"), ("junior", "Junior"), ("m1", "Masters 1")])
    qtbot.addWidget(field)
    field.set_value("open\nm1")
    assert field.value() == "open\nm1"
    field.set_choices([("open", "Open"), ("junior", "Junior")])
    assert field.value() == "open"
    box = YesNoField("Comes down")
    qtbot.addWidget(box)
    box.set_value("yes")
    assert box.value() == "yes"


def test_a_dialog_saves_with_enter_and_stays_when_it_cannot(context: Context, qtbot: QtBot) -> None:
    saved: list[dict[str, str]] = []

    def save(values: dict[str, str]) -> int:
        if values["name"] == "Ana":
            raise InvalidInput("name", text("typed.choice"))
        saved.append(values)
        return 7

    form = form_of(context)
    dialog = FormDialog(context, "Title", form, save)
    qtbot.addWidget(dialog)
    dialog.show()
    field = form.field("name")
    assert isinstance(field, TextField)
    qtbot.keyClick(field.line, Qt.Key.Key_Return)
    assert dialog.isVisible()
    assert form.sentence_at("name")
    qtbot.keyClick(field.line, Qt.Key.Key_End)
    qtbot.keyClicks(field.line, " Maria")
    qtbot.keyClick(field.line, Qt.Key.Key_Return)
    assert not dialog.isVisible()
    assert dialog.answer == 7
    assert [one["name"] for one in saved] == ["Ana Maria"]


def test_markup_in_a_name_is_shown_letter_by_letter(qtbot: QtBot) -> None:
    shown = label("<b>Ana</b>")
    qtbot.addWidget(shown)
    assert shown.textFormat() is Qt.TextFormat.PlainText
    assert plain_tip("<b>Ana</b>") == "<qt>&lt;b&gt;Ana&lt;/b&gt;</qt>"


@pytest.mark.parametrize("theme", [LIGHT, DARK])
@pytest.mark.parametrize("role", ["ink", "quiet", "accent", "good", "warn", "bad"])
def test_words_stand_out_from_their_ground(theme: Theme, role: str) -> None:
    """WCAG 2.2, success criterion 1.4.3 (AA): at least 4.5 to 1 for text."""
    for ground in (theme.paper, theme.panel, theme.raised, theme.chosen):
        assert contrast(getattr(theme, role), ground) >= 4.5, (role, ground)
    assert contrast(theme.on_accent, theme.accent) >= 4.5


def test_contrast_agrees_with_the_standards_extremes() -> None:
    """WCAG 2.2, definition of contrast ratio: white on black is 21, a colour on itself 1."""
    assert contrast("#ffffff", "#000000") == pytest.approx(21)
    assert contrast("#7f7f7f", "#7f7f7f") == pytest.approx(1)


def narrow_table(context: Context, fills: str = "") -> Table[Lifter]:
    return Table(
        context,
        "narrow",
        [
            Column("name", "Name", lambda one: one.name * 40),
            Column("total", "Total", lambda one: str(one.total)),
        ],
        lambda one: one.id,
        about="Lifters",
        fills=fills,
    )


def test_columns_are_remembered_once_there_were_rows(context: Context, qtbot: QtBot) -> None:
    empty, full = narrow_table(context), narrow_table(context)
    for made in (empty, full):
        qtbot.addWidget(made)
    empty.show()
    empty.hide()
    assert context.remembered.value("columns/narrow") is None
    full.set_rows(LIFTERS)
    full.show()
    full.view.setColumnWidth(0, 321)
    full.hide()
    later = narrow_table(context)
    qtbot.addWidget(later)
    later.set_rows(LIFTERS[:1])
    assert later.view.columnWidth(0) == 321


def test_the_column_that_fills_takes_the_room_the_others_leave(
    context: Context, qtbot: QtBot
) -> None:
    made = narrow_table(context, fills="name")
    qtbot.addWidget(made)
    made.set_rows(LIFTERS)
    made.resize(500, 200)
    made.show()
    widths = made.view.columnWidth(0) + made.view.columnWidth(1)
    assert widths == made.view.viewport().width()
    assert not made.view.horizontalScrollBar().isVisible()


def test_a_chosen_row_goes_on_to_the_edge(context: Context, qtbot: QtBot) -> None:
    """Beside the last column too, and only as long as it is chosen."""
    table = table_of(context)
    qtbot.addWidget(table)
    table.resize(700, 300)
    table.show()
    qtbot.waitExposed(table)
    view = table.view
    assert view.horizontalHeader().length() < view.viewport().width() - 20

    def beside(row: int) -> str:
        middle = view.rowViewportPosition(row) + view.rowHeight(row) // 2
        return (
            view.viewport().grab().toImage().pixelColor(view.viewport().width() - 5, middle).name()
        )

    chosen = view.palette().highlight().color().name()
    view.selectRow(0)
    assert (beside(0) == chosen, beside(2) == chosen) == (True, False)
    view.selectRow(2)
    assert (beside(0) == chosen, beside(2) == chosen) == (False, True)
    assert beside(1) == view.palette().alternateBase().color().name()
