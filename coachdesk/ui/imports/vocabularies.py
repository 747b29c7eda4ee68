"""The words that files of other programs are read by: those known in every language, and the desk's
own for months and what was worn."""

from __future__ import annotations

from coachdesk.domain.athlete import Dress
from coachdesk.services import file_words, sets_file, weights_file
from coachdesk.services.day_reading import Months
from coachdesk.ui.weights.vocabulary import dress_choices, months_of
from coachdesk.wording.folding import folded
from coachdesk.wording.wording import Wording


def sets_vocabulary(words: Wording) -> sets_file.Vocabulary:
    """What logged sets are recognised by."""
    return sets_file.Vocabulary(
        heads=file_words.heads(sets_file.Part, file_words.SETS_HEADS),
        lifts=file_words.LIFTS,
        followed=file_words.FOLLOWED,
        calls=file_words.CALLS,
        months=_months(words),
    )


def weights_vocabulary(words: Wording) -> weights_file.Vocabulary:
    """What bodyweight readings are recognised by."""
    return weights_file.Vocabulary(
        heads=file_words.heads(weights_file.Part, file_words.WEIGHTS_HEADS),
        dress={
            folded(named): Dress(dress)
            for dress, shown in dress_choices(words)
            for named in (dress, shown)
        },
        months=_months(words),
    )


def _months(words: Wording) -> Months:
    return {**file_words.MONTHS, **months_of(words)}
