"""The coach's sheet: what the plans are built on, scores, the weigh-in's plan B, open points."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial

from coachdesk.domain.attempts import Method
from coachdesk.domain.class_fit import ClassFit, Verdict
from coachdesk.domain.lifting import Lift
from coachdesk.reports.athlete_sheet import bullets
from coachdesk.reports.blocks import (
    Block,
    blank,
    padded,
    prose,
    rule,
    shares,
    stack,
    words_block,
)
from coachdesk.reports.day_blocks import entry_line, place_line
from coachdesk.reports.document import Document
from coachdesk.reports.lift_panels import lift_panels
from coachdesk.reports.masthead import meet_masthead, meet_names
from coachdesk.reports.plan_paths import Reader
from coachdesk.reports.sections import AnySection, Section, SideBySide
from coachdesk.reports.theme import GUTTER, LABEL, STRONG, Paper
from coachdesk.reports.turns_block import Turns, turns_in_words
from coachdesk.reports.weight_page import fit_lines, latest_starts
from coachdesk.services.packet_content import EntryPacket, ScoreLine, WeightPage
from coachdesk.wording.plan_words import outlook_lines, textbook_line, total_in_words
from coachdesk.wording.weight_words import agreed_in_words, scale_in_words, week_in_words
from coachdesk.wording.wording import Wording

_LEAST_SCALE, _MOST_SCALE = 0.8, 1.1
"""The coach reads it at a desk: one page rather than a second that is nearly empty."""
_SURE = 0.95
"""From such a chance of the class on there is nothing to say of the scale."""
_LINE = 26.0
"""Between lines to write on [pt]."""


def render_coach_sheets(packets: Sequence[EntryPacket], wording: Wording, paper: Paper) -> bytes:
    """A coach's sheet for each entry, one PDF in all. The fonts must have been loaded."""
    title = wording("sheet.title.coach", meets=meet_names(packets))
    document = Document(title, wording, paper.size)
    for packet in packets:
        reader = Reader(packet, wording)
        kind = wording("sheet.kind.coach")
        masthead = meet_masthead(packet.athlete, kind, packet.meet, packet.mark, wording)
        document.begin(masthead, named=True)
        sections = partial(_sections, packet, reader, _turns(packet, reader))
        document.tight(sections, least=_LEAST_SCALE, most=_MOST_SCALE)
        document.lines_to_write(_LINE)
    return document.finish()


def _turns(packet: EntryPacket, reader: Reader) -> dict[Lift, Turns]:
    """Every turn of the plan, where it has chances."""
    plan = packet.plan
    if plan is None or packet.expected is None:
        return {}
    return {lift.lift: turns_in_words(lift, reader.wording) for lift in plan.lifts}


def _sections(
    packet: EntryPacket, reader: Reader, turns: Mapping[Lift, Turns], width: float
) -> list[AnySection]:
    """The attempts, what they lead to beside what is still open, the weight, notes."""
    wording = reader.wording
    sections: list[AnySection] = [
        Section(wording("sheet.section.plan"), _plan(packet, reader, turns, width))
    ]
    left, right = shares(width - GUTTER, 62, 38) if packet.open_points else (width, width)
    said = []
    totals = [
        padded(words_block(_score_line(line, wording), left), below=2) for line in packet.scores
    ]
    totals += _chances(packet, reader, left)
    if totals:
        said.append((left, Section(wording("sheet.section.chances"), totals)))
    if packet.open_points:
        points = bullets(packet.open_points, right, wording)
        said.append((right, Section(wording("sheet.section.open_points"), points)))
    sections += [SideBySide(said, GUTTER)] if len(said) > 1 else [one for _, one in said]
    weight = _weight(packet, reader, width)
    if weight:
        sections.append(Section(wording("sheet.section.weight"), weight))
    to_write = stack([blank(_LINE), rule(width)])
    notes = prose(packet.coach_note, width) if packet.coach_note else [to_write]
    return [*sections, Section(wording("sheet.section.notes"), notes)]


def _plan(
    packet: EntryPacket, reader: Reader, turns: Mapping[Lift, Turns], width: float
) -> list[Block]:
    """The entry, and each lift with its attempts, its turns and what they are built on."""
    wording = reader.wording
    made_by = Method.TEXTBOOK if packet.plan is None else packet.plan.method
    method = wording("sheet.plan.method", method=wording(f"method.{made_by}"))
    read = [blank(4), *prose(wording("sheet.turns.read"), width, LABEL)] if turns else []
    return [
        words_block(entry_line(packet, wording), width, STRONG),
        words_block(place_line(packet, wording), width),
        padded(words_block(method, width, LABEL), above=2, below=6),
        *lift_panels(packet.lifts, turns, reader, width),
        *read,
    ]


def _chances(packet: EntryPacket, reader: Reader, width: float) -> list[Block]:
    """What the plan leads to."""
    plan, expected, wording = packet.plan, packet.expected, reader.wording
    if plan is None:
        return []
    lines = [wording.say(note) for note in plan.notes]
    if expected is not None:
        lines += outlook_lines(plan, expected.score, expected.formula, wording)
        lines.append(textbook_line(plan, wording))
    return [padded(words_block(line, width), below=2) for line in lines if line]


def _score_line(line: ScoreLine, wording: Wording) -> str:
    what = wording.say(line.what)
    return total_in_words(what, line.total, line.score, line.formula, wording)


def _weight(packet: EntryPacket, reader: Reader, width: float) -> list[Block]:
    """How the athlete stands to the class, with reasons and notes, and plan B."""
    page, wording = packet.weight, reader.wording
    blocks: list[Block] = []
    if page.fit is not None:
        blocks += prose(" ".join(fit_lines(page, page.fit, reader)), width)
        for said in (latest_starts(page.fit, reader), _way_in_words(page, page.fit, wording)):
            blocks += prose(" ".join(said), width) if said else []
        blocks += bullets((*page.fit.reasons, *page.fit.notes), width, wording)
        if page.fit.verdict is Verdict.NO_PLAN:
            blocks.append(blank(4))
    if page.plan_b is not None:
        blocks += [blank(6), words_block(wording("sheet.weight.plan_b"), width, STRONG)]
        blocks += prose(wording.say(page.plan_b), width)
    if page.cautions:
        cautions = " ".join(wording.say(caution) for caution in page.cautions)
        blocks += [blank(6), *prose(cautions, width, STRONG)]
    return blocks


def _way_in_words(page: WeightPage, fit: ClassFit, wording: Wording) -> list[str]:
    """How the way down stands, and what the meet's scale will show; nothing of somebody as good as
    sure to be in the class."""
    is_sure = fit.verdict is Verdict.IN_CLASS and (page.chance or 0.0) >= _SURE
    if is_sure:
        return []
    said = (
        agreed_in_words(page.plan, page.line, wording),
        week_in_words(page.change, fit, wording),
        scale_in_words(page.scale, page.chance, wording),
    )
    return [line for line in said if line]
