"""What is kept on file while the desk is open, so that the next look is quick."""

from __future__ import annotations

from coachdesk.services.desk import Desk
from coachdesk.services.kept_forecasts import keep_coming_forecasts
from coachdesk.services.states import keep_bodyweights, keep_strengths


def keep_derived(desk: Desk, *, forecasts: bool) -> None:
    """Put on file what readings and training days come to, and where `forecasts` are wanted, what
    is forecast of entries ahead.

    Nothing of it is journalled. Forecasts come last, since they go by the rest; once a day is
    enough for them.
    """
    keep_bodyweights(desk)
    keep_strengths(desk)
    if forecasts:
        keep_coming_forecasts(desk)
