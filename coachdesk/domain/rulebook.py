"""The rules of a meet as data: what a rulebook file holds, and the few answers it gives."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import StrEnum

from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Equipment, Event, Lift, Sex
from coachdesk.domain.scoring import Formula
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Unit
from coachdesk.domain.weight_class import ClassSet, WeightClass


class AgeRule(StrEnum):
    """Which age decides a division: the one reached in the calendar year, or on the day."""

    CALENDAR_YEAR = "calendar_year"
    ON_THE_DAY = "on_the_day"


class WeighInKind(StrEnum):
    """When athletes are weighed: in the two hours before, earlier that day, or the day before."""

    TWO_HOUR = "two_hour"
    SAME_DAY = "same_day"
    DAY_BEFORE = "day_before"


class OutOfClass(StrEnum):
    """What becomes of an athlete who stays above the limit of the class entered."""

    MOVE_UP = "move_up"
    GUEST = "guest"
    OUT = "out"


class AfterGood(StrEnum):
    """What counts when no weight is handed in after a good lift."""

    STEP_UP = "step_up"
    LOST = "lost"


class AfterMiss(StrEnum):
    """What counts when no weight is handed in after a no lift."""

    SAME_WEIGHT = "same_weight"
    LOST = "lost"


class FourthAttempt(StrEnum):
    """Whether there is a fourth attempt; it never counts towards the total."""

    NONE = "none"
    RECORD_ONLY = "record_only"


class Tie(StrEnum):
    """What parts two athletes with equal totals."""

    LIGHTER_BODYWEIGHT = "lighter_bodyweight"
    FIRST_TO_TOTAL = "first_to_total"
    REWEIGH = "reweigh"
    SHARED = "shared"


class Card(StrEnum):
    """The card a referee raises to say why an attempt was no lift."""

    RED = "red"
    BLUE = "blue"
    YELLOW = "yellow"


class LiftOff(StrEnum):
    """Who may hand the bench press bar out of the rack."""

    PLATFORM_CREW = "platform_crew"
    CREW_OR_HANDLER = "crew_or_handler"


@dataclass(frozen=True, slots=True, kw_only=True)
class Division:
    """A division and the ages it is open to.

    `key` is how entries name it, `name` how people do. `from_age` and `to_age` are the youngest
    and oldest age [years], both included, None without a bound. Under the calendar-year rule
    `from_birthday` says that the lower bound is reached on the birthday itself.
    """

    key: str
    name: str
    age_rule: AgeRule
    from_age: int | None = None
    to_age: int | None = None
    from_birthday: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighIn:
    """The weigh-in.

    It opens `opens_minutes` [min] before the session and lasts `lasts_minutes` [min]; None where
    the organiser sets the time. `reweighs` says whether an athlete out of class may come again
    inside the window; `out_of_class` what follows when that does not help.
    """

    kind: WeighInKind
    reweighs: bool
    out_of_class: OutOfClass
    opens_minutes: int | None = None
    lasts_minutes: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenerChange:
    """Until when, and how often, an opener may be changed.

    `times` changes a lift. In the first group until `first_group_minutes` [min] before the lift
    starts; in later groups until `later_group_minutes` [min] before the end of the previous
    group's last round, or while `later_group_attempts_left` attempts are left in the previous
    group: exactly one of these two is given. `up` and `down` say which way it may go.
    """

    times: int
    first_group_minutes: int
    later_group_minutes: int | None
    later_group_attempts_left: int | None
    up: bool
    down: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ThirdChanges:
    """How often the weight of a third attempt may be changed after it was handed in, by lift.

    `bench_only` holds instead of `bench` where the bench press is the only lift.
    """

    squat: int
    bench: int
    deadlift: int
    bench_only: int

    def allowed(self, lift: Lift, event: Event) -> int:
        """Changes allowed to the third attempt of `lift` in `event`."""
        if event is Event.BENCH_ONLY:
            return self.bench_only
        return {Lift.SQUAT: self.squat, Lift.BENCH: self.bench, Lift.DEADLIFT: self.deadlift}[lift]


@dataclass(frozen=True, slots=True, kw_only=True)
class AttemptRules:
    """What holds for every attempt.

    The next weight is handed in within `next_weight_seconds` [s], else `after_good` or
    `after_miss` says what counts. `void_repeats`: an attempt spoiled by the platform crew is
    taken again. `clock_seconds` [s] from the bar being called loaded to the start of the lift.
    """

    next_weight_seconds: int
    after_good: AfterGood
    after_miss: AfterMiss
    third_changes: ThirdChanges
    fourth: FourthAttempt
    void_repeats: bool
    clock_seconds: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Disc:
    """A disc: its weight, its colour in words (empty when any will do), and its use.

    `records_only`: on the bar only for a record attempt.
    """

    weight: Mass
    colour: str = ""
    records_only: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallGroup:
    """`extra_minutes` [min] of rest after each round in groups of at most `up_to` lifters."""

    up_to: int
    extra_minutes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Groups:
    """Group sizes in lifters.

    `largest` is the most in one group; lifters may be split into groups from `may_split_from` on
    and have to be from `must_split_from` on. `small` ascends by size.
    """

    largest: int
    may_split_from: int
    must_split_from: int
    small: tuple[SmallGroup, ...] = ()

    def extra_minutes(self, lifters: int) -> int:
        """Rest [min] added after a round of a group of `lifters`."""
        fitting = (group.extra_minutes for group in self.small if lifters <= group.up_to)
        return next(fitting, 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """A cause of no lift.

    `code` is what an attempt keeps; `card` its card where the rulebook has cards; `strength` says
    that strength ran out, as against a technicality; `words` are the coach's own for a cause that
    is not one of ours.
    """

    code: str
    card: Card | None = None
    strength: bool = False
    words: str = ""

    @property
    def label(self) -> Text:
        """The cause in words."""
        return text("cause.own", words=self.words) if self.words else text(f"cause.{self.code}")


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftRules:
    """One lift at the platform.

    `commands` in the order and words they are called; `restart_command` is called when the
    athlete is not ready `restart_seconds` [s] after taking the bar out (empty and None where the
    rulebook has none); `causes` of no lift.
    """

    lift: Lift
    commands: tuple[str, ...]
    causes: tuple[Cause, ...]
    restart_command: str = ""
    restart_seconds: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class KitLimit:
    """A limit that gets kit turned away: `words` for the kit `items` (codes) of some equipment."""

    items: tuple[str, ...]
    equipment: tuple[Equipment, ...]
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Rulebook:
    """A rulebook.

    `key` is how meets name it. `edition`, `edition_date` and `source` say which text it follows,
    `checked_on` when somebody last compared the two, `note` what to know before using it. All
    masses carry `unit`. `best_lifter` is the formula for the best lifter, `team_points` go to
    first, second and so on, `ties` part equal totals in this order. `kit_inspection`: kit is
    inspected before the meet. `drug_test`: one may follow the last lift.
    """

    key: str
    name: str
    edition: str
    edition_date: date
    source: str
    checked_on: date
    note: str
    unit: Unit
    events: tuple[Event, ...]
    equipment: tuple[Equipment, ...]
    lift_order: tuple[Lift, ...]
    class_sets: tuple[ClassSet, ...]
    divisions: tuple[Division, ...]
    weigh_in: WeighIn
    smallest_step: Mass
    record_step: Mass
    opener_change: OpenerChange
    attempts: AttemptRules
    bar: Mass
    collar: Mass
    discs: tuple[Disc, ...]
    groups: Groups
    lift_off: LiftOff
    best_lifter: Formula
    team_points: tuple[int, ...]
    ties: tuple[Tie, ...]
    lifts: tuple[LiftRules, ...]
    kit_limits: tuple[KitLimit, ...]
    kit_inspection: bool
    drug_test: bool

    @property
    def imprint(self) -> Text:
        """What every sheet says about the rules it was made by."""
        return text(
            "rulebook.imprint",
            name=self.name,
            edition=self.edition,
            source=self.source,
            checked_on=self.checked_on,
        )

    @property
    def lightest_bar(self) -> Mass:
        """The lightest loadable weight: the bar and two collars."""
        return Mass(self.bar.number + 2 * self.collar.number, self.unit)

    def classes(self, sex: Sex, on: date, divisions: Iterable[str] = ()) -> tuple[WeightClass, ...]:
        """The classes of `sex` on the day `on`, ascending, for an entry in all of `divisions`.

        A class kept for some divisions is left out unless every division entered is among them.
        Raises Trouble when no classes are valid that day.
        """
        entered = tuple(divisions)
        for class_set in self.class_sets:
            if class_set.sex is sex and class_set.is_valid(on):
                return tuple(each for each in class_set.classes if each.is_open_to(entered))
        raise Trouble(
            text("rulebook.no_classes", rulebook=self.name, sex=text(f"sex.{sex}"), on=on)
        )

    def division(self, key: str) -> Division:
        """The division named `key`; raises Trouble when there is none."""
        for division in self.divisions:
            if division.key == key:
                return division
        raise Trouble(text("rulebook.no_division", rulebook=self.name, division=key))

    def lift_rules(self, lift: Lift) -> LiftRules:
        """The rules of `lift`; raises Trouble when the rulebook does not have the lift."""
        for rules in self.lifts:
            if rules.lift is lift:
                return rules
        raise Trouble(text("rulebook.no_lift", rulebook=self.name, lift=text(f"lift.{lift}")))

    def limits_of(self, item: str, equipment: Equipment) -> tuple[KitLimit, ...]:
        """The limits on the kit item with the code `item` for `equipment`."""
        return tuple(
            limit
            for limit in self.kit_limits
            if item in limit.items and equipment in limit.equipment
        )

    def weigh_in_window(self, session_start: datetime) -> tuple[datetime, datetime] | None:
        """When the weigh-in opens and closes for a session that starts at `session_start`.

        None where the organiser sets the times.
        """
        opens_minutes, lasts_minutes = self.weigh_in.opens_minutes, self.weigh_in.lasts_minutes
        if opens_minutes is None or lasts_minutes is None:
            return None
        opens = session_start - timedelta(minutes=opens_minutes)
        return opens, opens + timedelta(minutes=lasts_minutes)
