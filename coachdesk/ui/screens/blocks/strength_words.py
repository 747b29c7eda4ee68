"""A lift's strength in words: how it stands, a day of the picture, and training days as rows."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.strength.forecast import to_tenths
from coachdesk.domain.units import Percent
from coachdesk.services.strength_history import SeenDay, StrengthHistory, StrengthPicture
from coachdesk.services.weight_picture import DayBand
from coachdesk.ui.weights.day_words import short_day
from coachdesk.wording.wording import Wording


@dataclass(frozen=True, slots=True)
class StrengthRow:
    """A training day in words."""

    on: date
    day: str
    kg: float
    maximum: str
    judged: str
    best: str


class StrengthWords:
    """Says strength in the unit of `words`."""

    def __init__(self, words: Wording) -> None:
        self._words = words

    def present(self, history: StrengthHistory) -> tuple[str, ...]:
        """Where the gym stands, then what is planned on for the meet and how wide that is."""
        words, trend = self._words, history.trend
        lines = [
            words(
                "blocks.strength.present",
                mass=self._kg(trend.day(history.today).maximum_kg),
                rate=Percent(100 * trend.rate, 1),
                day=short_day(words, trend.on),
            )
        ]
        used, meet = history.used, history.meet
        if used is not None and meet is not None:
            lines.append(
                words(
                    "blocks.strength.ahead",
                    meet=meet.name,
                    day=short_day(words, meet.starts_on),
                    mass=used.expected,
                    origin=used.origin,
                )
            )
            lines.append(words.say(used.width))
        return tuple(lines)

    def rests_on(self, history: StrengthHistory) -> str:
        """What the number planned on was made of, a line each."""
        used = history.used
        if used is None:
            return self._words("blocks.strength.no_meet")
        return "\n".join(self._words.say(each) for each in (used.origin, *used.evidence))

    def day(self, picture: StrengthPicture, on: date) -> str:
        """What the picture says of a day."""
        words = self._words
        said = [short_day(words, on)]
        said += [
            words("blocks.strength.lifted", mass=self._kg(seen.kg), set=seen.words)
            for seen in picture.days
            if seen.on == on
        ]
        ahead = on > picture.today
        band = _on(picture.forecast if ahead else picture.level, on)
        if band is not None:
            code = "blocks.strength.forecast" if ahead else "blocks.strength.trend"
            said.append(words(code, **self._band(band)))
        platform = picture.platform
        if platform is not None and platform.on == on:
            said.append(words("blocks.strength.planned_on", **self._band(platform)))
        said += [
            words(
                "blocks.strength.earlier",
                mass=each.kept.expected,
                meet=each.meet,
                day=short_day(words, each.kept.made_on),
            )
            for each in picture.earlier
            if each.on == on
        ]
        return words("blocks.facts.joint").join(said)

    def rows(self, picture: StrengthPicture) -> tuple[StrengthRow, ...]:
        """The training days, latest first."""
        return tuple(self._row(seen) for seen in picture.days)

    def _row(self, seen: SeenDay) -> StrengthRow:
        words = self._words
        return StrengthRow(
            on=seen.on,
            day=short_day(words, seen.on),
            kg=seen.kg,
            maximum=self._kg(seen.kg),
            judged=words("blocks.strength.judged") if seen.judged else "",
            best=words.say(seen.words),
        )

    def _band(self, band: DayBand) -> dict[str, str]:
        low = to_tenths(band.low_kg, self._words.unit)
        return {
            "mass": self._kg(band.kg),
            "low": self._words.bare_mass(low),
            "high": self._kg(band.high_kg),
        }

    def _kg(self, kg: float) -> str:
        return self._words.mass(to_tenths(kg, self._words.unit))


def _on(bands: Sequence[DayBand], on: date) -> DayBand | None:
    """The band of a day, or of the last one before it that has one."""
    at = bisect_right([band.on for band in bands], on)
    return bands[at - 1] if at else None
