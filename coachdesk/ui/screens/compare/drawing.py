"""What the charts draw and how it is said in words, without widgets."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import groupby

from coachdesk.domain.performance import RankGroup
from coachdesk.domain.scoring import printed
from coachdesk.domain.text import Text, text
from coachdesk.services.compare import Line
from coachdesk.ui.screens.compare.presenter import Compared
from coachdesk.wording.wording import Wording

MOST_BARS = 40


@dataclass(frozen=True, slots=True)
class Part:
    """A piece of a bar: its length on the axis, and the words written at it."""

    length: float
    words: str


@dataclass(frozen=True, slots=True)
class Bar:
    """An athlete's bar, its parts from left to right; without parts, a heading."""

    name: str
    parts: tuple[Part, ...] = ()


@dataclass(frozen=True, slots=True)
class Drawn:
    """A chart: its title, what its axis measures, the bars from the top down, what to know about
    it, and all of it in words."""

    title: str
    axis: str
    bars: tuple[Bar, ...]
    note: str
    said: str


def points_drawn(compared: Compared, words: Wording) -> Drawn:
    """A bar of points for each line that has some."""
    formula = words(f"formula.{compared.choice.scale.formula}")

    def bar(line: Line) -> Bar | None:
        if line.points is None:
            return None
        return Bar(line.athlete.name, (Part(line.points, words.number(printed(line.points))),))

    return _drawn(
        words("compare.chart.points", formula=formula),
        words("compare.chart.points.axis", formula=formula),
        _bars(compared, bar, words),
        [],
        "compare.chart.none",
        words,
    )


def shares_drawn(compared: Compared, words: Wording) -> Drawn:
    """A bar of the lifts' shares for each line with a total of several lifts."""

    def bar(line: Line) -> Bar | None:
        parts = tuple(
            Part(
                share.value,
                words("compare.chart.part", lift=text(f"compare.short.{lift}"), share=share),
            )
            for lift, share in line.shares.items()
        )
        return Bar(line.athlete.name, parts) if parts else None

    bars = _bars(compared, bar, words)
    return _drawn(
        words("compare.chart.shares"),
        words("compare.chart.shares.axis"),
        bars,
        [text("compare.chart.parts")] if bars else [],
        "compare.chart.no_shares",
        words,
    )


def _bars(compared: Compared, bar: Callable[[Line], Bar | None], words: Wording) -> list[Bar]:
    """The bars, under headings where there are results that are ranked apart."""
    drawn = [(line, made) for line in compared.lines if (made := bar(line)) is not None]
    several = len({line.group for line, _ in drawn}) > 1
    bars: list[Bar] = []
    for group, members in groupby(drawn, key=lambda pair: pair[0].group):
        if several and group is not None:
            bars.append(Bar(_heading(group, words)))
        bars += [made for _, made in members]
    return bars


def _heading(group: RankGroup, words: Wording) -> str:
    equipment, event = group
    if event is None:
        return words(f"equipment.{equipment}")
    kind = {"event": text(f"event.{event}"), "equipment": text(f"equipment.{equipment}")}
    return words("compare.kind", **kind)


def _drawn(
    head: str, axis: str, bars: Sequence[Bar], notes: list[Text], nothing: str, words: Wording
) -> Drawn:
    if not bars:
        return Drawn(head, axis, (), words(nothing), words(nothing))
    if len(bars) > MOST_BARS:
        notes = [*notes, text("compare.chart.some", count=MOST_BARS)]
    drawn = tuple(bars[:MOST_BARS])
    note = " ".join(words.say(each) for each in notes)
    lines = [head, *([note] if note else []), *(_said(bar) for bar in drawn)]
    return Drawn(head, axis, drawn, note, "\n".join(lines))


def _said(bar: Bar) -> str:
    return ": ".join([bar.name, ", ".join(part.words for part in bar.parts)]).removesuffix(": ")
