"""How often an athlete misses for reasons that strength does not explain, and how sure that is."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coachdesk.domain.engine.likelihood import two_to_one
from coachdesk.domain.engine.quadrature import FloatArray, IntArray, beta_points
from coachdesk.domain.engine_parameters import DEFAULT
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text

_POINTS = 3
"""Enough for the exact chance of any run of up to five attempts."""


@dataclass(frozen=True, slots=True)
class MissRate:
    """The chance t of a technical miss: a few `rates` (0 to 1, ascending) and how likely each is.

    Build it with `known` or `learned`; it is revised by Bayes' rule and never bumped by hand.
    """

    rates: tuple[float, ...]
    chances: tuple[float, ...]

    @classmethod
    def known(cls, rate: float) -> MissRate:
        """A rate that is known for sure; raises InvalidInput (field "miss_rate") outside 0 to 1."""
        _check(rate)
        return cls((rate,), (1.0,))

    @classmethod
    def learned(cls, rate: float, attempts: float) -> MissRate:
        """A Beta distribution with mean `rate` that `attempts` attempts' worth of records back.

        Raises InvalidInput (field "miss_rate") for a rate outside 0 to 1 or no attempts at all.
        """
        _check(rate)
        if not 0.0 < attempts < float("inf"):
            raise InvalidInput("miss_rate", text("engine.miss_attempts"))
        if rate in {0.0, 1.0}:
            return cls.known(rate)
        rates, chances = beta_points(rate * attempts, (1.0 - rate) * attempts, _POINTS)
        return cls(tuple(rates.tolist()), tuple(chances.tolist()))

    @property
    def mean(self) -> float:
        """The expected rate."""
        return sum(rate * chance for rate, chance in zip(self.rates, self.chances, strict=True))

    def likelihoods(self, technical: int, clean: int) -> FloatArray:
        """t^`technical` (1 - t)^`clean` for each rate."""
        rates = np.array(self.rates)
        likelihoods: FloatArray = rates**technical * (1.0 - rates) ** clean
        return likelihoods

    def given(self, likelihoods: FloatArray) -> MissRate:
        """The belief after something was seen that is so likely at each rate."""
        revised = np.array(self.chances) * likelihoods
        total = float(revised.sum())
        if total <= 0.0:
            return self
        return MissRate(self.rates, tuple((revised / total).tolist()))

    def after_two_to_one(self) -> MissRate:
        """The belief after a good lift that passed two to one (besides its being good)."""
        return self.given(self.two_to_one())

    def two_to_one(self) -> FloatArray:
        """How likely it is that a good lift passes two to one, for each rate."""
        return np.array([two_to_one(rate) for rate in self.rates])

    def carried_to(self, other: MissRate, kept: float = DEFAULT.miss_carried.value) -> FloatArray:
        """The chance of each of `other`'s rates, a lift later on the day, at each of these.

        Who is careless in one lift is often so in the next: with the chance `kept` the two rates
        have the same rank among athletes, otherwise they have nothing to do with each other. Rows
        are these rates, columns `other`'s; rows sum to one.
        """
        here, there = np.array(self.chances), np.array(other.chances)
        ends_here, ends_there = np.cumsum(here)[:, None], np.cumsum(there)[None, :]
        shared = np.minimum(ends_here, ends_there) - np.maximum(
            ends_here - here[:, None], ends_there - there[None, :]
        )
        shared = np.clip(shared, 0.0, None)
        rows = shared.sum(axis=1, keepdims=True)
        likeliest: IntArray = np.argmax(there, keepdims=True)
        certain = np.eye(len(there))[likeliest]
        same_rank = np.where(rows > 0.0, shared / np.where(rows > 0.0, rows, 1.0), certain)
        carried: FloatArray = kept * same_rank + (1.0 - kept) * there
        return carried


def _check(rate: float) -> None:
    if not 0.0 <= rate <= 1.0:
        raise InvalidInput("miss_rate", text("engine.miss_rate"))
