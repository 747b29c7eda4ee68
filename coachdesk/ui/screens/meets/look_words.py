"""What an entry comes to, in words: weights and discs, totals and scores, standing to the class."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from coachdesk.domain.class_fit import ClassFit, PresentWeight, Verdict
from coachdesk.services.packet_content import WeightPage
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class Line:
    """A sentence and the colour role it is said in."""

    words: str
    role: str = ""


def standing_lines(page: WeightPage, words: Wording) -> tuple[Line, ...]:
    """How the athlete stands to the class, with every caution."""
    lines: list[Line] = []
    if page.fit is not None:
        lines += _class_lines(page.fit, words)
    if page.present is not None:
        lines.append(Line(_present(page.present, words)))
    if page.fit is not None:
        lines += _fit_lines(page.fit, words)
    else:
        code = "open.no_weight" if page.present is None else "open.no_class"
        lines.append(Line(words(code), "warn"))
    if page.plan_b is not None:
        lines.append(Line(words.say(page.plan_b)))
    return (*lines, *(Line(words.say(caution)) for caution in page.cautions))


def _present(present: PresentWeight, words: Wording) -> str:
    readings = words("sheet.weight.readings", count=present.readings)
    return words(
        "sheet.weight.present", mass=present.mass, readings=readings, day=present.latest_on
    )


def _class_lines(fit: ClassFit, words: Wording) -> Iterable[Line]:
    name, limit = fit.weight_class.name, fit.weight_class.limit
    if limit is None:
        return [Line(words("sheet.weight.class_without_limit", name=name))]
    return [Line(words("sheet.weight.class", name=name, limit=limit))]


def _fit_lines(fit: ClassFit, words: Wording) -> Iterable[Line]:
    verdict = words(f"verdict.{fit.verdict}")
    code = "sheet.weight.way_down" if fit.verdict.has_way_down else "sheet.weight.standing"
    lines = [Line(words(code, verdict=verdict), _role(fit.verdict))]
    if fit.rate is not None:
        lines.append(Line(words("sheet.weight.rate", rate=fit.rate, day=fit.arrive_on)))
    lines += [
        Line(words("sheet.weight.latest_start", pace=words(f"pace.{pace}"), day=day))
        for pace, day in fit.latest_starts
    ]
    return lines + [Line(words.say(reason), "warn") for reason in (*fit.reasons, *fit.notes)]


def _role(verdict: Verdict) -> str:
    if verdict in {Verdict.IN_CLASS, Verdict.COMFORTABLE}:
        return "good"
    return "bad" if verdict in {Verdict.NOT_IN_TIME, Verdict.NO_PLAN} else "warn"
