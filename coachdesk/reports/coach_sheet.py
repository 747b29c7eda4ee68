"""The coach's sheet: what the plans are built on, scores, the weigh-in's plan B, open points."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from coachdesk.domain.attempts import Method
from coachdesk.domain.class_fit import ClassFit, Verdict
from coachdesk.domain.units import Mass
from coachdesk.reports.athlete_sheet import bullets
from coachdesk.reports.blocks import (
    Block,
    Cell,
    beside,
    blank,
    grid_head,
    grid_row,
    padded,
    prose,
    shares,
    stack,
    words_block,
)
from coachdesk.reports.day_blocks import entry_line, lift_name, place_line
from coachdesk.reports.document import Document, Section, meet_masthead, meet_names
from coachdesk.reports.plan_paths import Reader, follows_plan
from coachdesk.reports.theme import CLOCK, LABEL, STRONG, Paper
from coachdesk.reports.turns_block import Turns, turns_block, turns_in_words
from coachdesk.reports.weight_page import fit_lines, latest_starts
from coachdesk.services.packet_content import EntryPacket, LiftCard, ScoreLine, WeightPage
from coachdesk.wording.plan_words import outlook_lines, source_line, textbook_line, total_in_words
from coachdesk.wording.weight_words import agreed_in_words, scale_in_words, week_in_words
from coachdesk.wording.wording import Wording

_NOTES_ROOM = 30.0
_LEAST_SCALE = 0.8
"""The coach reads it at a desk: one page rather than a second that is nearly empty."""
_SURE = 0.95
"""From such a chance of the class on there is nothing to say of the scale."""
_BETWEEN = 12.0
"""Between the turns of one lift and the next [pt]."""


def render_coach_sheets(packets: Sequence[EntryPacket], wording: Wording, paper: Paper) -> bytes:
    """A coach's sheet for each entry, one PDF in all. The fonts must have been loaded."""
    title = wording("sheet.title.coach", meets=meet_names(packets))
    document = Document(title, wording, paper.size)
    for packet in packets:
        reader = Reader(packet, wording)
        kind = wording("sheet.kind.coach")
        masthead = meet_masthead(packet.athlete, kind, packet.meet, packet.mark, wording)
        document.begin(masthead, named=True)
        document.tight(
            partial(_sections, packet, reader, _turns(packet, reader)), least=_LEAST_SCALE
        )
    return document.finish()


def _turns(packet: EntryPacket, reader: Reader) -> list[Turns]:
    """Every turn of the plan, where it has chances."""
    plan = packet.plan
    if plan is None or packet.expected is None:
        return []
    return [turns_in_words(lift, reader.wording) for lift in plan.lifts]


def _sections(
    packet: EntryPacket, reader: Reader, turns: Sequence[Turns], width: float
) -> list[Section]:
    wording = reader.wording
    sections = [Section(wording("sheet.section.plan"), _plan(packet, reader, width))]
    totals = [
        padded(words_block(_score_line(line, wording), width), below=2) for line in packet.scores
    ]
    totals += _chances(packet, reader, turns, width)
    if totals:
        sections.append(Section(wording("sheet.section.chances"), totals))
    weight = _weight(packet, reader, width)
    if weight:
        sections.append(Section(wording("sheet.section.weight"), weight))
    if packet.open_points:
        points = bullets(packet.open_points, width, wording)
        sections.append(Section(wording("sheet.section.open_points"), points))
    notes = prose(packet.coach_note, width) if packet.coach_note else [blank(_NOTES_ROOM)]
    return [*sections, Section(wording("sheet.section.notes"), notes)]


def _plan(packet: EntryPacket, reader: Reader, width: float) -> list[Block]:
    """The attempts when all are good, and under each lift what its plan is built on."""
    wording = reader.wording
    widths = shares(width, 19, 21, 20, 20, 20)
    heads = ("lift", "expected", "first", "second", "third")
    head = grid_head(widths, [wording(f"sheet.plan.{one}") for one in heads])
    made_by = Method.TEXTBOOK if packet.plan is None else packet.plan.method
    method = wording("sheet.plan.method", method=wording(f"method.{made_by}"))
    blocks = [
        words_block(entry_line(packet, wording), width, STRONG),
        words_block(place_line(packet, wording), width),
        padded(words_block(method, width, LABEL), above=4, below=4),
        head,
    ]
    for card in packet.lifts:
        blocks += _lift_rows(card, widths, reader)
    return blocks


def _chances(
    packet: EntryPacket, reader: Reader, turns: Sequence[Turns], width: float
) -> list[Block]:
    """What the plan leads to, and every turn with its chances, a column to each lift."""
    plan, expected, wording = packet.plan, packet.expected, reader.wording
    if plan is None:
        return []
    lines = [wording.say(note) for note in plan.notes]
    if expected is None:
        return [padded(words_block(line, width), below=2) for line in lines]
    lines += outlook_lines(plan, expected.score, expected.formula, wording)
    lines.append(textbook_line(plan, wording))
    blocks = [padded(words_block(line, width), below=2) for line in lines if line]
    each = (width - _BETWEEN * (len(turns) - 1)) / max(2, len(turns))
    columns = [(each, turns_block(lift, each)) for lift in turns]
    read = prose(wording("sheet.turns.read"), width, LABEL)
    return [*blocks, blank(4), beside(columns, _BETWEEN), blank(4), *read]


def _lift_rows(card: LiftCard, widths: list[float], reader: Reader) -> list[Block]:
    wording = reader.wording
    name = (lift_name(card.lift, wording), STRONG)
    unknown = wording("sheet.unknown")
    opener: Cell = unknown if card.opener is None else _weight_cell(card.opener, reader, widths[2])
    if card.plan is None:
        return [grid_row(widths, [name, unknown, opener, unknown, unknown])]
    later: tuple[Mass, ...] = card.plan.good_path[1:] if follows_plan(card) else ()
    cells: list[Cell] = [_weight_cell(mass, reader, widths[3]) for mass in later]
    cells = cells or [unknown, unknown]
    about = [source_line(card.plan, wording)]
    about += [wording.say(note) for note in card.plan.notes]
    how = "sheet.opener.handed_in" if card.opener_chosen else "sheet.opener.planned"
    wide = shares(sum(widths), 80, 20)
    return [
        grid_row(widths, [name, reader.mass(card.plan.expected), opener, *cells], ruled=False),
        grid_row(
            wide,
            [stack(words_block(line, wide[0] - 8) for line in about), (wording(how), LABEL)],
            padding=1,
        ),
    ]


def _weight_cell(mass: Mass, reader: Reader, width: float) -> Block:
    """A weight, and below it the same in the athlete's own unit where that differs."""
    own = reader.own_line(mass, width - 8)
    return stack([words_block(reader.wording.mass(mass), width - 8, CLOCK), *own])


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
