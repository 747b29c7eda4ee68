"""The words that files of other programs are read by: those known in every language, and the desk's
own for months and what was worn."""

from __future__ import annotations

from enum import StrEnum
from typing import TypeVar

from coachdesk.domain.athlete import Dress, LossBar
from coachdesk.domain.lifting import Equipment, Sex
from coachdesk.services import athletes_file, file_words, sets_file, weights_file
from coachdesk.services.day_reading import Months
from coachdesk.services.file_words import plain_words
from coachdesk.ui.weights.vocabulary import dress_choices, months_of
from coachdesk.wording.folding import folded
from coachdesk.wording.wording import Wording

E = TypeVar("E", bound=StrEnum)


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


def athletes_vocabulary(words: Wording) -> athletes_file.Vocabulary:
    """What athletes are recognised by."""
    return athletes_file.Vocabulary(
        heads=file_words.heads(athletes_file.Part, file_words.ATHLETES_HEADS),
        sexes={**file_words.SEXES, **_shown(words, "roster.sex", Sex)},
        equipment={**file_words.EQUIPMENT, **_shown(words, "equipment", Equipment)},
        loss_bars={**file_words.LOSS_BARS, **_shown(words, "roster.loss_bar", LossBar)},
        months=_months(words),
        unit=words.unit,
    )


def _shown(words: Wording, family: str, members: type[E]) -> dict[str, E]:
    """The members by the words the desk has for them."""
    return {plain_words(words(f"{family}.{member}")): member for member in members}


def _months(words: Wording) -> Months:
    return {**file_words.MONTHS, **months_of(words)}
