"""Athletes from a file of separated values: suggested, previewed, kept or not at all."""

from __future__ import annotations

from coachdesk.domain.text import Text, text
from coachdesk.services import csv_reading, import_file, roster
from coachdesk.services.athletes_file import DAYS, Part, Vocabulary
from coachdesk.services.athletes_lines import read_lines
from coachdesk.services.csv_reading import Delimiter, Source
from coachdesk.services.day_reading import is_day, split_hour
from coachdesk.services.desk import Desk, Done
from coachdesk.services.file_words import plain_words
from coachdesk.services.import_file import Layout, Preview, Progress
from coachdesk.services.roster import Newcomer


def suggest(source: Source, words: Vocabulary) -> Layout:
    """How a file looks to be laid out; Trouble when it holds nothing or its quotes are broken."""
    return lay_out(source, words, csv_reading.find_delimiter(source))


def lay_out(
    source: Source, words: Vocabulary, delimiter: Delimiter, *, has_heads: bool | None = None
) -> Layout:
    """The columns of a file with this mark between cells, and whether it begins with heads.

    Without heads only the sex, the first day as that of birth, and addresses can be told.
    """
    guesses = (
        (Part.SEX, lambda cell: plain_words(cell) in words.sexes),
        (Part.BORN, lambda cell: is_day(split_hour(cell)[0], words.months)),
        (Part.EMAIL, lambda cell: "@" in cell),
    )
    return import_file.lay_out(source, words.heads, guesses, delimiter, has_heads=has_heads)


def preview(
    desk: Desk, source: Source, layout: Layout, words: Vocabulary, progress: Progress
) -> Preview[Newcomer]:
    """Read every line; what cannot be taken is said of its line. It changes nothing."""
    needed: dict[str, Text] = {Part.SEX: text("athletes.lacking.sex")}
    return import_file.preview(
        source,
        layout,
        words.months,
        needed,
        lambda rows, read_as: read_lines(desk, rows, read_as, words, progress),
        days_in=DAYS,
    )


def keep(desk: Desk, found: Preview[Newcomer], *, leave_out_faulty: bool) -> Done[None]:
    """Keep what a preview holds, all of it or nothing (see `import_file.check_keepable`)."""
    import_file.check_keepable(found, leave_out_faulty=leave_out_faulty)
    return roster.take_on(desk, found.records)
