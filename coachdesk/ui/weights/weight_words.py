"""A bodyweight in words: how it stands, a day of the picture, and the picture week by week."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from coachdesk.domain.bodyweight.parameters import EIGHT_IN_TEN
from coachdesk.domain.text import Text, text
from coachdesk.domain.units import Mass, Unit, from_grams
from coachdesk.services.weight_picture import SeenReading, WeightHistory, WeightPicture
from coachdesk.ui.weights.day_words import short_day
from coachdesk.wording.wording import Wording

_TENTH_G = 100
_WEEK = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class WeekRow:
    """A week of the picture in words, from the Monday `begins`."""

    begins: date
    day: str
    readings: str
    trend: str
    plan: str
    gap: str


class WeightWords:
    """Says weights to a tenth, in the unit of `words`."""

    def __init__(self, words: Wording) -> None:
        self._words = words

    def present(self, history: WeightHistory) -> str:
        """Level, rate, last reading and what the next weigh-in's scale is likely to show."""
        trend, last = history.trend, history.readings[-1]
        said = [
            self._words(
                "weight.level",
                mass=self._kg(trend.level_kg),
                either_way=self._kg(EIGHT_IN_TEN * trend.level_error_kg),
            ),
            self._rate(trend.rate_kg, EIGHT_IN_TEN * trend.rate_error_kg),
            self._words("weight.last", mass=last.weight, day=short_day(self._words, last.on)),
        ]
        foretold = history.weigh_in()
        if foretold is not None:
            said.append(
                self._words(
                    "weight.forecast",
                    meet=history.meet,
                    day=short_day(self._words, foretold.on),
                    low=self._bare(foretold.low_kg),
                    high=self._kg(foretold.high_kg),
                )
            )
        if foretold is not None and history.plan is not None:
            said.append(self._words("weight.forecast.kept_up"))
        return " ".join(said)

    def day(self, picture: WeightPicture, day: date) -> str:
        """The figures of a day: readings, trend or forecast, plan, and the class."""
        said = [self._reading(seen) for seen in picture.readings_on(day)]
        if not said and day <= picture.today:
            said.append(text("weight.day.no_reading"))
        level, foretold = picture.level_on(day), picture.forecast_on(day)
        if level is not None:
            said.append(text("weight.day.trend", mass=self._kg(level.kg)))
        elif foretold is not None:
            low, high = self._bare(foretold.low_kg), self._kg(foretold.high_kg)
            said.append(text("weight.day.likely", low=low, high=high))
        planned = picture.plan_kg(day)
        if planned is not None:
            said.append(text("weight.day.plan", mass=self._kg(planned)))
        gap = self._gap(picture, day)
        if gap is not None:
            said.append(gap)
        parts = self._words("weight.day.joint").join(self._words.say(each) for each in said)
        return self._words("weight.day", day=day, what=parts)

    def weeks(self, picture: WeightPicture) -> tuple[WeekRow, ...]:
        """The picture week by week, latest first."""
        return tuple(self._week(picture, monday) for monday in reversed([*_mondays(picture)]))

    def odd(self, expected_kg: float | None) -> str:
        """Why a reading is odd; nothing for another."""
        if expected_kg is None:
            return ""
        return self._words("weight.odd", mass=self._kg(expected_kg))

    def _week(self, picture: WeightPicture, monday: date) -> WeekRow:
        days = [monday + timedelta(days=at) for at in range(7)]
        drawn = [day for day in days if picture.first <= day <= picture.last]
        seen = [each for day in drawn for each in picture.readings_on(day)]
        last = min(drawn[-1], picture.today) if drawn[0] <= picture.today else drawn[-1]
        level, foretold = picture.level_on(last), picture.forecast_on(last)
        trend = "" if level is None else self._bare(level.kg)
        if level is None and foretold is not None:
            trend = self._words(
                "weight.week.likely",
                low=self._bare(foretold.low_kg),
                high=self._bare(foretold.high_kg),
            )
        planned = picture.plan_kg(last)
        gap = self._gap(picture, last)
        return WeekRow(
            begins=monday,
            day=short_day(self._words, monday),
            readings=self._seen(seen),
            trend=trend,
            plan="" if planned is None else self._bare(planned),
            gap="" if gap is None else self._words.say(gap),
        )

    def _seen(self, seen: Sequence[SeenReading]) -> str:
        """How many readings, and between what weights they lie."""
        if not seen:
            return ""
        kg = sorted(each.reading.weight.kg for each in seen)
        odd = sum(each.is_odd for each in seen)
        code = "weight.week.readings" if len(kg) > 1 else "weight.week.reading"
        said = self._words(code, low=self._bare(kg[0]), high=self._bare(kg[-1]), number=len(kg))
        return said if not odd else self._words("weight.week.odd", what=said, count=odd)

    def _reading(self, seen: SeenReading) -> Text:
        if seen.is_odd:
            return text("weight.day.odd", mass=seen.reading.weight)
        return text("weight.day.reading", mass=seen.reading.weight)

    def _gap(self, picture: WeightPicture, day: date) -> Text | None:
        """How far the trend is above or below the class's limit; of a day to come not."""
        line, level = picture.entered, picture.level_on(day)
        if line is None or level is None:
            return None
        gap = level.kg - line.limit.kg
        code = "weight.day.above" if gap > 0 else "weight.day.below"
        return text(code, mass=self._kg(abs(gap)), name=line.name)

    def _rate(self, rate_kg: float, either_way_kg: float) -> str:
        """Down, up, or neither where the error is larger than the rate."""
        either_way = self._kg(either_way_kg)
        if abs(rate_kg) <= either_way_kg:
            return self._words("weight.rate.unclear", most=self._kg(abs(rate_kg) + either_way_kg))
        code = "weight.rate.down" if rate_kg < 0 else "weight.rate.up"
        return self._words(code, mass=self._kg(abs(rate_kg)), either_way=either_way)

    def _kg(self, kg: float) -> Mass:
        """A computed weight to a tenth of the reader's unit."""
        unit = self._words.unit
        if unit is Unit.KG:
            return from_grams(round(kg * 1000 / _TENTH_G) * _TENTH_G)
        return Mass(round(from_grams(round(kg * 1000)).in_unit(unit), 1), unit)

    def _bare(self, kg: float) -> str:
        return self._words.bare_mass(self._kg(kg))


def _mondays(picture: WeightPicture) -> Iterator[date]:
    monday = picture.first - timedelta(days=picture.first.weekday())
    while monday <= picture.last:
        yield monday
        monday += _WEEK
