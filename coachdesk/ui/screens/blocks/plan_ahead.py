"""Blocks laid out to a meet, and blocks from templates, without Qt."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.blocks.notation import show_cell
from coachdesk.domain.blocks.plan import PlannedExercise, Words
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import text
from coachdesk.domain.units import Mass
from coachdesk.services import block_generating, block_templates, typed
from coachdesk.services.block_generating import Proposal
from coachdesk.services.desk import Desk, Done
from coachdesk.ui.screens.blocks.block_values import Values, maximum_field, required_whole
from coachdesk.wording.wording import Wording

USUAL_DAYS = 4


@dataclass(frozen=True, slots=True)
class PreviewRow:
    """A training day of a proposal in words."""

    on: date
    day: str
    block: str
    week: str
    sets: str


class PlanAhead:
    """Lays out and keeps blocks of one athlete; masses in the athlete's own unit."""

    def __init__(self, desk: Desk, words: Wording, athlete: Athlete) -> None:
        self._desk = desk
        self._words = words.in_unit(athlete.unit)
        self._athlete = athlete

    @property
    def unit(self) -> str:
        """The unit weights are taken for where none is typed."""
        return self._athlete.unit

    def first(self, meet_id: int) -> Proposal:
        """The proposal to begin with, from what is known of the athlete's lifts."""
        return block_generating.propose(self._desk, self._athlete.id, meet_id, USUAL_DAYS)

    def values(self, proposal: Proposal) -> Values:
        """A proposal's choices as strings."""
        maxima = {maximum_field(lift): typed.shown_mass(proposal.maxima.get(lift)) for lift in Lift}
        return {"meet": str(proposal.meet.id), "days": str(proposal.days_a_week), **maxima}

    def propose(self, values: Mapping[str, str]) -> Proposal:
        """Lay out what is chosen; raises InvalidInput."""
        if not values["meet"]:
            raise InvalidInput("meet", text("typed.choice"))
        return block_generating.propose(
            self._desk,
            self._athlete.id,
            int(values["meet"]),
            required_whole("days", values["days"]),
            self._maxima(values),
        )

    def keep(self, proposal: Proposal) -> Done[tuple[int, ...]]:
        """Put a proposal on file; answers the blocks' ids."""
        return block_generating.keep(self._desk, proposal, self._words.say)

    def cautions(self, proposal: Proposal) -> str:
        """What to know before it is kept."""
        return "\n".join(self._words.say(each) for each in proposal.cautions)

    def rows(self, proposal: Proposal) -> tuple[PreviewRow, ...]:
        """A proposal day by day."""
        words = self._words
        rows = []
        for block in proposal.blocks:
            for week in range(1, block.weeks + 1):
                for day, exercises in block_generating.sessions_of(block, week).items():
                    on = block.starts_on + timedelta(weeks=week - 1, days=day - 1)
                    rows.append(
                        PreviewRow(
                            on=on,
                            day=words.day(on),
                            block=self._said(block.name),
                            week=words("blocks.week.of", week=week, weeks=block.weeks),
                            sets=words("blocks.facts.joint").join(
                                self._exercise(each, week) for each in exercises
                            ),
                        )
                    )
        return tuple(rows)

    def templates(self) -> list[tuple[str, str]]:
        """The templates to choose from."""
        found = block_templates.templates(self._desk)
        return [(each.key, each.name) for each in found]

    def template_values(self, starts_on: str) -> Values:
        """What starting from a template begins with."""
        templates = self.templates()
        first = templates[0][0] if templates else ""
        maxima = {maximum_field(lift): "" for lift in Lift}
        return {"template": first, "starts_on": starts_on, **maxima}

    def start(self, values: Mapping[str, str]) -> Done[int]:
        """Start a block from a template; answers its id. Without any maximum typed, what is known
        of the athlete's lifts counts."""
        found = {each.key: each for each in block_templates.templates(self._desk)}
        if values["template"] not in found:
            raise InvalidInput("template", text("typed.choice"))
        return block_templates.start_from_template(
            self._desk,
            self._athlete.id,
            found[values["template"]],
            typed.required_day("starts_on", values["starts_on"]),
            self._maxima(values) or None,
            self._words.say,
        )

    def _maxima(self, values: Mapping[str, str]) -> dict[Lift, Mass]:
        found = {
            lift: typed.mass(maximum_field(lift), values[maximum_field(lift)], self._athlete.unit)
            for lift in Lift
        }
        return {lift: mass for lift, mass in found.items() if mass is not None}

    def _exercise(self, exercise: PlannedExercise, week: int) -> str:
        words, name = self._words, self._words(f"lift.{exercise.lift}")
        if exercise.variation:
            variation = self._said(exercise.variation)
            name = words("roster.lift_variation", lift=name, variation=variation)
        return f"{name} {show_cell(exercise.sets[week], self._athlete.unit)}"

    def _said(self, words: Words) -> str:
        return words if isinstance(words, str) else self._words.say(words)
