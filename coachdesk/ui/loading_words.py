"""A loaded bar in words."""

from __future__ import annotations

from itertools import groupby

from coachdesk.domain.loading import Loading
from coachdesk.domain.units import Mass, Unit
from coachdesk.wording.wording import Wording


def typed_weight(weight: Mass, unit: Unit) -> str:
    """A weight as it is typed where `unit` is usual: the other unit is named."""
    number = f"{weight.number.normalize():f}"
    return number if weight.unit is unit else f"{number} {weight.unit}"


def discs_in_words(loading: Loading | None, words: Wording) -> str:
    """The discs on each side, from the inside out."""
    if loading is None:
        return words("sheet.card.no_loading")
    if not loading.discs_per_side:
        return words("sheet.card.bare_bar")
    parts: list[str] = []
    for disc, group in groupby(loading.discs_per_side):
        count, name = len(list(group)), typed_weight(disc.weight, words.unit)
        several = words("meets.discs.several", number=count, disc=name)
        parts.append(name if count == 1 else several)
    return words("meets.discs", discs=tuple(parts))
