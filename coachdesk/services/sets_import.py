"""Logged sets from a file of separated values: suggested, previewed, kept or not at all."""

from __future__ import annotations

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.text import Text, text
from coachdesk.services import csv_reading, import_file, training
from coachdesk.services.csv_reading import Delimiter, Source
from coachdesk.services.day_reading import is_day, split_hour
from coachdesk.services.desk import Desk, Done
from coachdesk.services.import_file import Layout, Preview, Progress
from coachdesk.services.sets_file import Part, Vocabulary
from coachdesk.services.sets_lines import Sets, read_lines


def suggest(desk: Desk, source: Source, words: Vocabulary) -> Layout:
    """How a file looks to be laid out; Trouble when it holds nothing or its quotes are broken."""
    return lay_out(desk, source, words, csv_reading.find_delimiter(source))


def lay_out(
    desk: Desk,
    source: Source,
    words: Vocabulary,
    delimiter: Delimiter,
    *,
    has_heads: bool | None = None,
) -> Layout:
    """The columns of a file with this mark between cells, and whether it begins with heads.

    Without heads only names, days and lifts can be told: which of the numbers are weights, sets
    and repetitions is the coach's to say.
    """
    guesses = (
        (Part.NAME, import_file.knows_names(desk)),
        (Part.DAY, lambda cell: is_day(split_hour(cell)[0], words.months)),
        (Part.LIFT, lambda cell: words.lift_named(cell) is not None),
    )
    return import_file.lay_out(source, words.heads, guesses, delimiter, has_heads=has_heads)


def preview(
    desk: Desk,
    source: Source,
    layout: Layout,
    words: Vocabulary,
    progress: Progress,
    owner: Athlete | None = None,
) -> Preview[Sets]:
    """Read every line; what cannot be taken is said of its line. It changes nothing.

    A file that names nobody is `owner`'s.
    """
    needed: dict[str, Text] = {
        Part.DAY: text("weights.lacking.day"),
        Part.LIFT: text("sets.lacking.lift"),
        Part.WEIGHT: text("weights.lacking.weight"),
        Part.REPS: text("sets.lacking.reps"),
    }
    return import_file.preview(
        source,
        layout,
        words.months,
        needed,
        lambda rows, read_as: read_lines(desk, rows, read_as, words, progress, owner),
        owner,
    )


def keep(desk: Desk, found: Preview[Sets], *, leave_out_faulty: bool) -> Done[None]:
    """Keep what a preview holds, all of it or nothing (see `import_file.check_keepable`)."""
    import_file.check_keepable(found, leave_out_faulty=leave_out_faulty)
    return training.log_sets(desk, [each for sets in found.records for each in sets])
