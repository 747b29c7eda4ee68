"""One entry without Qt: its form, its nine attempts, and what both come to while they are typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift, Result, Seen
from coachdesk.domain.meet import Attempt
from coachdesk.domain.text import Text
from coachdesk.domain.units import Mass
from coachdesk.services import attempt_editing, entry_editing, planning, typed
from coachdesk.services.desk import Desk, Done
from coachdesk.services.entry_look import AttemptKey, EntryLook, OpenEntry, open_entry
from coachdesk.services.packet_content import LiftCard
from coachdesk.ui.loading_words import discs_in_words, typed_weight
from coachdesk.ui.screens.meets.attempt_typing import keep_typed
from coachdesk.ui.screens.meets.entry_rows import NUMBERS, RESULT_ROLES
from coachdesk.ui.screens.meets.entry_values import (
    Choices,
    Values,
    draft,
    draft_place,
    entry_choices,
    entry_values,
    read_entry,
)
from coachdesk.ui.screens.meets.look_words import (
    Line,
    standing_lines,
)
from coachdesk.wording.plan_words import total_in_words
from coachdesk.wording.wording import Wording

Cells = Mapping[AttemptKey, str]


@dataclass(frozen=True, slots=True)
class CellLook:
    """What stands around the field of an attempt: the weight planned, both units and the discs
    of what is typed, and why it cannot be taken."""

    proposal: str = ""
    both: str = ""
    discs: str = ""
    sentence: str = ""


@dataclass(frozen=True, slots=True)
class ResultLook:
    """What became of an attempt on file: the values chosen, and the causes its lift knows."""

    result: str
    moved: str
    cause: str
    role: str


@dataclass(frozen=True, slots=True)
class Look:
    """What an entry comes to as it is typed, in words."""

    cells: Mapping[AttemptKey, CellLook]
    lifts: Mapping[Lift, tuple[Line, ...]]
    totals: tuple[Line, ...]
    standing: tuple[Line, ...]
    points: tuple[str, ...]


class EntryPresenter:
    """An entry as it is on file; `words` are the coach's, at the meet its own unit rules."""

    def __init__(self, desk: Desk, words: Wording, entry_id: int) -> None:
        self._desk = desk
        self._opened: OpenEntry = open_entry(desk, entry_id)
        self._words = words.in_unit(self._opened.rulebook.unit)

    @property
    def id(self) -> int:
        """The entry's id."""
        return self._opened.entry.id

    @property
    def title(self) -> str:
        """Whose entry it is."""
        return self._opened.athlete.name

    @property
    def unit(self) -> str:
        """The meet's unit."""
        return self._opened.rulebook.unit.value

    @property
    def is_withdrawn(self) -> bool:
        """Whether the entry is withdrawn."""
        return self._opened.entry.withdrawn

    @property
    def has_begun(self) -> bool:
        """Whether the meet's first day has come, so that there can be results."""
        return self._opened.has_begun

    @property
    def lifts(self) -> tuple[Lift, ...]:
        """The rulebook's lifts, in the meet's order."""
        return self._opened.rulebook.lift_order

    @property
    def is_over(self) -> bool:
        """Whether the meet is over, so that there is nothing left to decide."""
        return self._opened.is_over

    def lifts_of(self, values: Mapping[str, str]) -> tuple[Lift, ...]:
        """The lifts of the event chosen, in the meet's order."""
        event = draft(self._opened, values).event
        return tuple(lift for lift in self.lifts if lift in event.lifts)

    def values(self) -> Values:
        """The form as it is on file."""
        return entry_values(self._opened)

    def choices(self, values: Mapping[str, str]) -> dict[str, Choices]:
        """What the form's fields offer beside what is typed in the others."""
        return entry_choices(self._opened, values, self._words)

    def cells(self) -> dict[AttemptKey, str]:
        """The attempts as they are typed, empty where none is chosen."""
        chosen = self._opened.chosen
        unit = self._opened.rulebook.unit
        return {
            (lift, number): typed_weight(chosen[lift, number].weight, unit)
            if (lift, number) in chosen
            else ""
            for lift in Lift
            for number in NUMBERS
        }

    def results(self) -> dict[AttemptKey, ResultLook]:
        """What became of the attempts on file."""
        return {key: _result_look(attempt) for key, attempt in self._opened.chosen.items()}

    def causes(self, lift: Lift) -> Choices:
        """The causes of a no lift, by the rulebook."""
        rules = self._opened.rulebook.lift_rules(lift)
        nothing = ("", self._words("meets.cause.none"))
        return [nothing, *((cause.code, self._words.say(cause.label)) for cause in rules.causes)]

    def look(self, values: Mapping[str, str], cells: Cells) -> Look:
        """What the entry would come to as typed; the same calculators decide once it is saved."""
        weights, sentences = self._weights(cells)
        entry = draft(self._opened, values)
        look = self._opened.look(entry, draft_place(self._opened, values), weights)
        sentences |= {key: self._refusal(fault, weights[key]) for key, fault in look.faults.items()}
        cards = {card.lift: card for card in look.cards}
        is_over = self._opened.is_over
        return Look(
            cells={
                key: self._cell(key, weights.get(key), cards.get(key[0]), sentences.get(key, ""))
                for key in cells
            },
            lifts={} if is_over else {lift: self._lift_lines(lift, look) for lift in cards},
            totals=self._totals(look),
            standing=() if is_over else standing_lines(look.weight, self._words),
            points=() if is_over else tuple(self._words.say(point) for point in look.points),
        )

    def save(self, values: Mapping[str, str]) -> Done[tuple[Text, ...]]:
        """Keep the form; raises InvalidInput at the field that cannot be taken."""
        read, place = read_entry(self._opened, values)
        return entry_editing.save_entry(self._desk, self._opened.entry, read, place)

    def choose(self, key: AttemptKey, words: str) -> Done[tuple[Text, ...]] | None:
        """Keep what was typed for an attempt; None when it says what is on file."""
        seen = self._opened.chosen.get(key)
        unit = self._opened.rulebook.unit
        return keep_typed(self._desk, self.id, key, words, unit, seen)

    def record(self, key: AttemptKey, result: str, moved: str, cause: str) -> Done[None]:
        """Keep what became of an attempt on file; what does not go with the result is let go."""
        became = Result(result) if result else None
        return attempt_editing.record_result(
            self._desk,
            self._opened.chosen[key],
            became,
            moved=Seen(moved) if moved and became is Result.GOOD else None,
            cause=cause if became is Result.NO_LIFT else "",
        )

    def plan(self) -> Done[tuple[Text, ...]]:
        """Plan the attempts anew around those that are chosen."""
        return planning.plan_entry(self._desk, self._opened.entry)

    def withdraw(self) -> Done[None]:
        """Withdraw the entry, or bring it back."""
        entry = self._opened.entry
        return entry_editing.withdraw_entry(self._desk, entry, withdrawn=not entry.withdrawn)

    def _weights(self, cells: Cells) -> tuple[dict[AttemptKey, Mass], dict[AttemptKey, str]]:
        """The weights that could be read, and why the others could not."""
        weights: dict[AttemptKey, Mass] = {}
        sentences: dict[AttemptKey, str] = {}
        for key, words in cells.items():
            try:
                weight = typed.mass("weight", words, self._opened.rulebook.unit)
            except InvalidInput as error:
                sentences[key] = self._words.say(error.text)
            else:
                if weight is not None:
                    weights[key] = weight
        return weights, sentences

    def _refusal(self, fault: Text, weight: Mass) -> str:
        """Why a weight cannot be chosen, with the nearest that can where it is off the steps."""
        sentence = self._words.say(fault)
        if fault.code != "attempts.off_step":
            return sentence
        steps = self._opened.steps
        number = weight.in_unit(steps.step.unit)
        nearest = self._words(
            "meets.cell.nearest", below=steps.down(number), above=steps.up(number)
        )
        return f"{sentence} {nearest}"

    def _cell(
        self, key: AttemptKey, weight: Mass | None, card: LiftCard | None, sentence: str
    ) -> CellLook:
        path = () if card is None or card.plan is None else card.plan.good_path
        _lift, number = key
        planned = path[number - 1] if number <= len(path) else None
        proposal = "" if planned is None else self._words.bare_mass(planned)
        shown = planned if weight is None else weight
        if shown is None or sentence:
            both = "" if weight is None else self._words.both_units(weight)
            return CellLook(proposal, both, "", sentence)
        loading = self._opened.loading(shown)
        return CellLook(
            proposal, self._words.both_units(shown), discs_in_words(loading, self._words), ""
        )

    def _lift_lines(self, lift: Lift, look: EntryLook) -> tuple[Line, ...]:
        """What the lift is planned on, and what the coach should know about it."""
        words = self._words
        expected = look.expected.get(lift)
        lines = [
            Line(words("meets.expected.none"), "warn")
            if expected is None
            else Line(
                words("meets.expected", mass=expected.expected, source=expected.origin), "quiet"
            )
        ]
        card = next(card for card in look.cards if card.lift is lift)
        if card.plan is not None:
            lines += [Line(words.say(note), "warn") for note in card.plan.notes]
        if lift in look.plan_faults:
            lines.append(Line(words.say(look.plan_faults[lift]), "warn"))
        return tuple(dict.fromkeys(lines))

    def _totals(self, look: EntryLook) -> tuple[Line, ...]:
        words, formula = self._words, self._opened.rulebook.best_lifter
        lines = [
            Line(total_in_words(words.say(each.what), each.total, each.score, formula, words))
            for each in look.scores
        ]
        made = self._opened.made()
        if made is not None:
            what = words("meets.total.made")
            lines.append(Line(total_in_words(what, *made, formula, words), "good"))
        if not self._opened.has_plan and not self._opened.is_over:
            lines.append(Line(words("meets.no_plan_yet"), "warn"))
        return tuple(lines)


def _result_look(attempt: Attempt) -> ResultLook:
    result = attempt.result
    return ResultLook(
        result="" if result is None else result.value,
        moved="" if attempt.seen is None else attempt.seen.value,
        cause=attempt.cause,
        role="" if result is None else RESULT_ROLES.get(result, "warn"),
    )
