"""A rulebook in words: everything in its file, section by section. No Qt."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.lifting import Lift
from coachdesk.domain.rulebook import (
    Cause,
    Disc,
    Division,
    KitLimit,
    LiftRules,
    Rulebook,
)
from coachdesk.domain.units import Mass
from coachdesk.domain.weight_class import ClassSet
from coachdesk.ui.weights.day_words import short_day
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class Line:
    """What it is, and what the rulebook says about it."""

    about: str
    words: str


@dataclass(frozen=True, slots=True)
class Section:
    """Lines that belong together."""

    title: str
    lines: tuple[Line, ...]


def sections_of(rulebook: Rulebook, words: Wording) -> tuple[Section, ...]:
    """All of a rulebook, in the order of the form it is edited in."""
    reading = _Reading(rulebook, words)
    parts: list[tuple[str, Iterable[Line]]] = [
        ("imprint", reading.imprint()),
        ("classes", reading.classes()),
        ("divisions", reading.divisions()),
        ("weigh_in", reading.weigh_in()),
        ("attempts", reading.attempts()),
        ("bar", reading.bar()),
        ("groups", reading.groups()),
        *((rules.lift, reading.lift(rules)) for rules in rulebook.lifts),
        ("kit", reading.kit()),
        ("scoring", reading.scoring()),
    ]
    return tuple(Section(words(f"rulebook.section.{key}"), tuple(lines)) for key, lines in parts)


@dataclass(frozen=True, slots=True)
class _Reading:
    rulebook: Rulebook
    words: Wording

    def imprint(self) -> Iterator[Line]:
        book = self.rulebook
        yield self._line("edition", book.edition)
        yield self._line("edition_date", self._day(book.edition_date))
        yield self._line("source", book.source)
        yield self._line("checked_on", self._day(book.checked_on))
        yield self._line("note", book.note)
        yield self._line("unit", book.unit.value)
        yield self._line("events", self._named("event", book.events))
        yield self._line("equipment", self._named("equipment", book.equipment))
        yield self._line("lift_order", self._named("lift", book.lift_order))

    def classes(self) -> Iterator[Line]:
        for class_set in self.rulebook.class_sets:
            sex = self._capital(self.words(f"sex.{class_set.sex}"))
            yield Line(
                self.words("rulebook.set", sex=sex, valid=self._valid(class_set)),
                self._class_names(class_set),
            )

    def divisions(self) -> Iterator[Line]:
        for division in self.rulebook.divisions:
            yield Line(division.name, self._ages(division))

    def weigh_in(self) -> Iterator[Line]:
        weigh_in, words = self.rulebook.weigh_in, self.words
        yield self._line("weigh_in.kind", words(f"rulebook.weigh_in.{weigh_in.kind}"))
        if weigh_in.opens_minutes is not None and weigh_in.lasts_minutes is not None:
            yield self._line("weigh_in.opens_minutes", self._minutes(weigh_in.opens_minutes))
            yield self._line("weigh_in.lasts_minutes", self._minutes(weigh_in.lasts_minutes))
        else:
            yield self._line("weigh_in.opens_minutes", words("rulebook.organiser_sets"))
        yield self._line("weigh_in.reweighs", self._yes(weigh_in.reweighs))
        yield self._line(
            "weigh_in.out_of_class", words(f"rulebook.out_of_class.{weigh_in.out_of_class}")
        )

    def attempts(self) -> Iterator[Line]:
        book, words = self.rulebook, self.words
        rules, change = book.attempts, book.opener_change
        yield self._line("smallest_step", self._mass(book.smallest_step))
        yield self._line("record_step", self._mass(book.record_step))
        yield self._line("opener_change.times", str(change.times))
        yield self._line("opener_change.way", self._ways(up=change.up, down=change.down))
        yield self._line(
            "opener_change.first_group_minutes", self._minutes(change.first_group_minutes)
        )
        if change.later_group_minutes is not None:
            yield self._line(
                "opener_change.later_group_minutes", self._minutes(change.later_group_minutes)
            )
        if change.later_group_attempts_left is not None:
            left = str(change.later_group_attempts_left)
            yield self._line("opener_change.later_group_attempts_left", left)
        yield self._line("attempts.next_weight_seconds", self._seconds(rules.next_weight_seconds))
        yield self._line("attempts.after_good", words(f"rulebook.after_good.{rules.after_good}"))
        yield self._line("attempts.after_miss", words(f"rulebook.after_miss.{rules.after_miss}"))
        thirds = rules.third_changes
        for lift, times in zip(Lift, (thirds.squat, thirds.bench, thirds.deadlift), strict=True):
            yield self._line(f"attempts.third_changes.{lift}", str(times))
        yield self._line("attempts.third_changes.bench_only", str(thirds.bench_only))
        yield self._line("attempts.fourth", words(f"rulebook.fourth.{rules.fourth}"))
        yield self._line("attempts.void_repeats", self._yes(rules.void_repeats))
        yield self._line("attempts.clock_seconds", self._seconds(rules.clock_seconds))

    def bar(self) -> Iterator[Line]:
        book = self.rulebook
        yield self._line("bar", self._mass(book.bar))
        yield self._line("collar", self._mass(book.collar))
        yield self._line("lightest", self._mass(book.lightest_bar))
        yield self._line("discs", self._joined(self._disc(disc) for disc in book.discs))

    def groups(self) -> Iterator[Line]:
        groups = self.rulebook.groups
        yield self._line("groups.largest", str(groups.largest))
        yield self._line("groups.may_split_from", str(groups.may_split_from))
        yield self._line("groups.must_split_from", str(groups.must_split_from))
        for small in groups.small:
            yield Line(
                self.words("rulebook.small_group", count=small.up_to),
                self.words("rulebook.small_rest", count=small.extra_minutes),
            )
        lift_off = self.words(f"rulebook.lift_off.{self.rulebook.lift_off}")
        yield self._line("bench_lift_off", lift_off)

    def lift(self, rules: LiftRules) -> Iterator[Line]:
        yield self._line(f"{rules.lift}.commands", self._joined(rules.commands))
        if rules.restart_command:
            yield self._line(f"{rules.lift}.restart_command", rules.restart_command)
            seconds = self._seconds(rules.restart_seconds or 0)
            yield self._line(f"{rules.lift}.restart_seconds", seconds)
        causes = "\n".join(self._cause(cause) for cause in rules.causes)
        yield self._line(f"{rules.lift}.causes", causes)

    def kit(self) -> Iterator[Line]:
        yield self._line("kit_inspection", self._yes(self.rulebook.kit_inspection))
        for limit in self.rulebook.kit_limits:
            yield Line(self._kit(limit), limit.words)

    def scoring(self) -> Iterator[Line]:
        book = self.rulebook
        yield self._line("best_lifter", self.words(f"formula.{book.best_lifter}"))
        yield self._line("team_points", self._joined(str(points) for points in book.team_points))
        ties = (self.words(f"rulebook.tie.{tie}") for tie in book.ties)
        yield self._line("ties", self.words("rulebook.then").join(ties))
        yield self._line("drug_test", self._yes(book.drug_test))

    def _line(self, field: str, words: str) -> Line:
        return Line(self.words(f"rulebook.field.{field}"), words)

    def _named(self, family: str, values: Iterable[str]) -> str:
        return self._joined(self.words(f"{family}.{value}") for value in values)

    def _joined(self, parts: Iterable[str]) -> str:
        return self.words("list.joint").join(parts)

    def _capital(self, words: str) -> str:
        return words[:1].upper() + words[1:]

    def _day(self, day: date) -> str:
        """A day of a rule, whose weekday says nothing."""
        return short_day(self.words, day)

    def _yes(self, value: bool) -> str:
        return self.words("rulebook.yes" if value else "rulebook.no")

    def _minutes(self, minutes: int) -> str:
        return self.words("rulebook.minutes", number=minutes)

    def _seconds(self, seconds: int) -> str:
        return self.words("rulebook.seconds", number=seconds)

    def _mass(self, mass: Mass) -> str:
        return self.words.mass(mass, self.rulebook.unit)

    def _ways(self, *, up: bool, down: bool) -> str:
        ways = [name for name, open_ in (("up", up), ("down", down)) if open_]
        return self._joined(self.words(f"rulebook.way.{way}") for way in ways or ["none"])

    def _valid(self, class_set: ClassSet) -> str:
        """From when until when a set of classes holds."""
        first, last = class_set.valid_from, class_set.valid_until
        if first and last:
            span = {"first": self._day(first), "last": self._day(last)}
            return self.words("rulebook.valid.between", **span)
        if first:
            return self.words("rulebook.valid.from", first=self._day(first))
        if last:
            return self.words("rulebook.valid.until", last=self._day(last))
        return self.words("rulebook.valid.always")

    def _class_names(self, class_set: ClassSet) -> str:
        """The classes open to all, and those kept for some divisions."""
        open_to_all = [
            self.words.show(each.name) for each in class_set.classes if each.divisions is None
        ]
        parts = [self._joined(open_to_all)]
        names = {division.key: division.name for division in self.rulebook.divisions}
        for each in class_set.classes:
            if each.divisions is not None:
                who = self._joined(name for key, name in names.items() if key in each.divisions)
                parts.append(self.words("rulebook.reserved", name=each.name, divisions=who))
        return self.words("rulebook.and_also").join(parts)

    def _ages(self, division: Division) -> str:
        words, first, last = self.words, division.from_age, division.to_age
        if first is None and last is None:
            return words("rulebook.ages.all")
        rule = words(f"rulebook.age_rule.{division.age_rule}")
        if division.from_birthday:
            rule = words("rulebook.ages.from_birthday", rule=rule)
        if last is None:
            return words("rulebook.ages.from", first=first or 0, rule=rule)
        if first is None:
            return words("rulebook.ages.to", last=last, rule=rule)
        return words("rulebook.ages.between", first=first, last=last, rule=rule)

    def _disc(self, disc: Disc) -> str:
        parts = [self._mass(disc.weight), disc.colour]
        if disc.records_only:
            parts.append(self.words("rulebook.records_only"))
        return " ".join(part for part in parts if part)

    def _cause(self, cause: Cause) -> str:
        said = self.words.say(cause.label)
        notes = [self.words(f"rulebook.card.{cause.card}")] if cause.card else []
        if cause.strength:
            notes.append(self.words("rulebook.strength"))
        if not notes:
            return said
        return self.words("rulebook.noted", words=said, notes=self._joined(notes))

    def _kit(self, limit: KitLimit) -> str:
        items = self._named("kit", limit.items)
        if set(limit.equipment) == set(self.rulebook.equipment):
            return items
        equipment = self._named("equipment", limit.equipment)
        return self.words("rulebook.noted", words=items, notes=equipment)
