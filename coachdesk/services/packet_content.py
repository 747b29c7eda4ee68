"""What goes on paper, as frozen values: built first, drawn afterwards.

Strings are what people typed; every sentence of the program is a Text. Masses are exact; the
renderer shows them in the reader's unit. An athlete's sheet has no place for chances or risk
figures, so none can end up there.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from coachdesk.domain.attempts import AttemptPlan, LiftPlan
from coachdesk.domain.bodyweight import ScaleForecast
from coachdesk.domain.class_fit import ClassFit, Pace, PresentWeight, WeekChange
from coachdesk.domain.kit_rounds import Sight
from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.loading import BarSet, Loading
from coachdesk.domain.meet import Role
from coachdesk.domain.scoring import Formula
from coachdesk.domain.text import Text
from coachdesk.domain.units import Mass, Unit
from coachdesk.domain.warmup import WarmUps
from coachdesk.domain.weight_plan import Standing, WeightPlan
from coachdesk.services.weight_picture import WeightPicture


@dataclass(frozen=True, slots=True)
class PrintMark:
    """When something was printed, and the earlier print it replaces."""

    printed_at: datetime
    replaces: datetime | None


@dataclass(frozen=True, slots=True)
class MeetHead:
    """What every sheet says about the meet and the rules it was made by."""

    name: str
    place: str
    starts_on: date
    time_zone: str
    rulebook: str
    edition: str
    unit: Unit


@dataclass(frozen=True, slots=True)
class DayTime:
    """A line of the day's timetable; `at` is local to the meet, None when not known yet."""

    at: datetime | None
    what: Text


@dataclass(frozen=True, slots=True)
class Rack:
    """A setting to hand in at the table: what it is, and as it is read off the rack.

    `setting` is empty when it is not on file, and None for a wish that has none.
    """

    what: Text
    setting: str | None


@dataclass(frozen=True, slots=True)
class Duty:
    """Who does what for the athlete."""

    handler: str
    role: Role


@dataclass(frozen=True, slots=True)
class Weight:
    """A weight on the bar and how it is loaded; no loading where the discs do not make it."""

    mass: Mass
    loading: Loading | None


@dataclass(frozen=True, slots=True)
class LiftCard:
    """One lift as the handler needs it: where, when, racks, opener, and the plan's tree.

    `weights` holds each weight of the plan once, lightest first. `opener` is what was handed in,
    or the plan's; `opener_chosen` tells which. `third` is the last weight when everything goes
    well, as chosen or planned.
    """

    lift: Lift
    flight: str
    opener: Mass | None
    opener_chosen: bool
    plan: LiftPlan | None
    weights: tuple[Weight, ...]
    racks: tuple[Rack, ...]
    cue: str
    commands: tuple[str, ...]
    causes: tuple[Text, ...]
    latest_moments: tuple[Text, ...]
    third: Mass | None = None


@dataclass(frozen=True, slots=True)
class LiftWarmUps:
    """The warm-ups of a lift.

    `warm_ups` is None as long as there is no opener to warm up for. `begins_at` is when the first
    set is due for somebody called first, local to the meet, None when that is not known.
    """

    lift: Lift
    opener: Mass | None
    opener_chosen: bool
    warm_ups: WarmUps | None
    begins_at: datetime | None


@dataclass(frozen=True, slots=True)
class WarmUpPage:
    """The warm-ups of an entry, and the bar, collars and discs they are reckoned with."""

    room: BarSet
    lifts: tuple[LiftWarmUps, ...]


@dataclass(frozen=True, slots=True)
class KitLine:
    """A piece of kit: how many, what for, what gets it turned away, and what came of each check
    round so far."""

    item: Text
    count: int
    lifts: tuple[Lift, ...]
    inspected: bool
    limits: tuple[Text, ...]
    sights: tuple[Sight, ...] = ()


@dataclass(frozen=True, slots=True)
class CheckRound:
    """A day on which the kit is checked."""

    on: date
    what: Text


@dataclass(frozen=True, slots=True)
class WeightPage:
    """Bodyweight and class, with the way down where there is one.

    `marks` lead from the day of printing to the limit; the `picture` goes with them. `plan_b` says
    what happens when the weight is missed on the day; `cautions` always stand. `plan` is the way
    down agreed on, `line` how the weight stands to it, `change` what a week has changed. `scale`,
    what the meet's scale will show, and `chance`, 0 to 1, of being in the class are for the coach
    alone.
    """

    present: PresentWeight | None
    fit: ClassFit | None
    marks: tuple[tuple[date, Mass], ...]
    plan_b: Text | None
    cautions: tuple[Text, ...]
    plan: WeightPlan | None = None
    line: Standing | None = None
    change: WeekChange | None = None
    scale: ScaleForecast | None = None
    chance: float | None = None
    picture: WeightPicture | None = None


@dataclass(frozen=True, slots=True)
class ScoreLine:
    """A total and the score it gives by the meet's best-lifter formula."""

    what: Text
    total: Mass | None
    formula: Formula
    score: float | None


@dataclass(frozen=True, slots=True)
class EntryPacket:
    """All that is printed for one entry."""

    meet: MeetHead
    mark: PrintMark
    athlete: str
    unit: Unit
    event: Event
    equipment: Equipment
    divisions: tuple[str, ...]
    weight_class: str | None
    lot: int | None
    session: str
    platform: str
    first_meet: bool
    minor: bool
    timetable: tuple[DayTime, ...]
    food: tuple[DayTime, ...]
    lifts: tuple[LiftCard, ...]
    duties: tuple[Duty, ...]
    weight: WeightPage
    kit: tuple[KitLine, ...]
    check_rounds: tuple[CheckRound, ...]
    kit_inspection: Text
    missing_kit: tuple[Text, ...]
    briefing: tuple[Text, ...]
    after_last_lift: tuple[Text, ...]
    scores: tuple[ScoreLine, ...]
    open_points: tuple[Text, ...]
    coach_note: str
    warm_up: WarmUpPage
    plan: AttemptPlan | None = None
    expected: ScoreLine | None = None
    """The expected total of the plan; for the coach alone."""


@dataclass(frozen=True, slots=True)
class TeamLine:
    """One athlete on the team sheet."""

    athlete: str
    weight_class: str | None
    equipment: Equipment
    event: Event
    session: str
    flights: tuple[tuple[Lift, str], ...]
    lot: int | None
    weigh_in: datetime | None
    starts_at: datetime | None
    openers: tuple[tuple[Lift, Mass | None, bool], ...]
    duties: tuple[Duty, ...]
    open_points: int
    missing_kit: tuple[Text, ...] = ()


@dataclass(frozen=True, slots=True)
class ComingDown:
    """Somebody above their class with a way down to it.

    Agreed on, they are to be there by `by`, and `pace` is None; else `by` is the latest day to
    begin at `pace`, the slowest still to be had. No weights: the sheet is handed around.
    """

    athlete: str
    weight_class: str
    by: date
    pace: Pace | None


@dataclass(frozen=True, slots=True)
class TeamSheet:
    """A meet's whole team on one page, with who is to come down in weight and what the team's bag
    should hold spare."""

    meet: MeetHead
    mark: PrintMark
    lines: tuple[TeamLine, ...]
    coming_down: tuple[ComingDown, ...]
    spares: tuple[Text, ...]
    failed: tuple[str, ...]
