"""Logging sets from the plan without Qt."""

from __future__ import annotations

from collections.abc import Mapping

from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.training import Exercise, PlannedSet
from coachdesk.services import training, typed
from coachdesk.services.block_reading import BlockPage
from coachdesk.services.desk import Desk, Done
from coachdesk.services.session_logging import Lifted, log_planned
from coachdesk.ui.screens.blocks.block_values import Values, required_whole
from coachdesk.wording.wording import Wording


class SetLogging:
    """What the form of a set from the plan begins with, and what is logged of it."""

    def __init__(self, desk: Desk, words: Wording, page: BlockPage) -> None:
        self._desk = desk
        self._words = words
        self._page = page

    @property
    def unit(self) -> str:
        """The unit weights are taken for where none is typed."""
        return self._page.athlete.unit

    def values(self, exercise: Exercise, planned: PlannedSet) -> Values:
        """As planned: the weight on the bar, the sets still to do, on its day or today."""
        day = min(self._desk.today(), self._page.day_of(planned.week, exercise.day))
        left = planned.sets - len(self._page.logged.get(planned.id, ()))
        return {
            "planned": str(planned.id),
            "on": typed.shown_day(day),
            "weight": typed.shown_mass(self._page.bar_weight(exercise, planned)),
            "reps": str(planned.reps),
            "sets": str(max(1, left)),
            "rir": "" if planned.rir is None else f"{planned.rir:g}",
            "result": Result.GOOD if planned.judged else "",
            "cause": "",
            "note": "",
        }

    def causes(self, lift: Lift) -> list[tuple[str, str]]:
        """The causes of no lift to choose from, none first."""
        found = training.causes_of(self._desk, lift)
        none = ("", self._words("roster.cause.none"))
        return [none, *((each.code, self._words.say(each.label)) for each in found)]

    def log(self, values: Mapping[str, str]) -> Done[None]:
        """Log what was typed."""
        rir = typed.number("rir", values["rir"])
        result = typed.choice("result", values["result"], Result) if values["result"] else None
        lifted = Lifted(
            on=typed.required_day("on", values["on"]),
            weight=typed.required_mass("weight", values["weight"], self._page.athlete.unit),
            reps=required_whole("reps", values["reps"]),
            sets=required_whole("sets", values["sets"]),
            rir=None if rir is None else float(rir),
            result=result,
            cause=values["cause"],
            note=values["note"],
        )
        return log_planned(self._desk, int(values["planned"]), lifted)
