"""The table of a meet's entries; attempts and lots are typed into it."""

from __future__ import annotations

from collections.abc import Callable

from coachdesk.domain.lifting import Lift
from coachdesk.services.entry_look import AttemptKey
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.screens.meets.entry_rows import NUMBERS, AttemptShown, EntryRow
from coachdesk.ui.screens.meets.presenter import MeetsPresenter
from coachdesk.ui.widgets.table import Table
from coachdesk.wording.wording import Wording

_NOT_LIFTED = AttemptShown()


def entries_table(context: Context, presenter: MeetsPresenter) -> Table[EntryRow]:
    """The table, whose cells keep what is typed through `presenter`."""
    words = context.words
    return Table(
        context,
        "meet entries",
        [
            *_who(words),
            *_what_it_comes_to(words),
            *(_attempt(words, presenter, (lift, number)) for lift in Lift for number in NUMBERS),
            *_where(words, presenter),
        ],
        lambda row: row.id,
        about=words("meets.entries.list"),
        empty=words("meets.entries.empty"),
        several=True,
    )


def _who(words: Wording) -> list[Column[EntryRow]]:
    return [
        Column(
            "athlete",
            words("meets.column.athlete"),
            lambda row: row.athlete,
            lambda row: row.by_name,
            tip=lambda row: row.fault,
            role=lambda row: "quiet" if row.entry.withdrawn else "bad" if row.fault else "",
        ),
        Column(
            "weight_class",
            words("meets.column.weight_class"),
            lambda row: row.weight_class,
            lambda row: row.by_class,
            to_right=True,
        ),
    ]


def _where(words: Wording, presenter: MeetsPresenter) -> list[Column[EntryRow]]:
    return [
        Column(
            "lot",
            words("meets.column.lot"),
            lambda row: row.lot,
            lambda row: row.entry.lot,
            to_right=True,
            edit=presenter.choose_lot,
        ),
        Column(
            "session",
            words("meets.column.session"),
            lambda row: row.session,
            lambda row: row.by_session,
        ),
        Column("flights", words("meets.column.flights"), lambda row: row.flights),
        Column("divisions", words("meets.column.divisions"), lambda row: row.divisions),
        Column("state", words("meets.column.state"), lambda row: row.state),
    ]


def _attempt(words: Wording, presenter: MeetsPresenter, key: AttemptKey) -> Column[EntryRow]:
    lift, number = key

    def of(row: EntryRow) -> AttemptShown:
        return row.attempts.get(key, _NOT_LIFTED)

    def keep(row: EntryRow, typed: str) -> object:
        return presenter.choose(row, key, typed)

    full_name = words(
        "meets.cell.name", lift=words(f"lift.{lift}"), which=words(f"attempt.{number}")
    )
    return Column(
        f"{lift}_{number}",
        words(f"meets.column.attempt.{lift}", number=number),
        lambda row: of(row).shown,
        lambda row: of(row).grams,
        to_right=True,
        tip=_always(full_name),
        edit=keep,
        typed=lambda row: of(row).typed,
        role=lambda row: of(row).role,
    )


def _what_it_comes_to(words: Wording) -> list[Column[EntryRow]]:
    return [
        Column(
            "total",
            words("meets.column.total"),
            lambda row: row.total,
            lambda row: row.by_total,
            to_right=True,
            tip=lambda row: row.total_about,
        ),
        Column(
            "score",
            words("meets.column.score"),
            lambda row: row.score,
            lambda row: row.by_score,
            to_right=True,
            tip=lambda row: row.formula,
        ),
        Column(
            "open",
            words("meets.column.open"),
            lambda row: str(len(row.points)) if row.points else "",
            lambda row: len(row.points),
            to_right=True,
            tip=lambda row: "\n".join(row.points),
            role=lambda row: "warn" if row.points else "",
        ),
    ]


def _always(words: str) -> Callable[[EntryRow], str]:
    return lambda _row: words
