"""Attempts the coach fixes: the rest is planned anew around them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

from coachdesk.domain.attempts import Outcome
from coachdesk.domain.units import Mass

Fixed: TypeAlias = Mapping[tuple[Outcome, ...], Mass]
"""Weights the coach has fixed, by what was seen before: () for the opener, (GOOD,) for the second
after a good opener. Fixes after finer outcomes go before those after coarser ones."""
