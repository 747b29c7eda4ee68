"""What to expect of a lift before a meet, from every source there is, and how wide.

Four sources, in order of trust: the coach's own number (`OwnNumber`), judged singles, logged sets
by Brzycki's equation (each by the trend of its training days, `gym`), and the last meet with usual
progress. `from_records` makes of a `LiftRecord` what the records say; `LiftSources.with_own` adds
the coach's number and choice; `used` is what to plan on. How an athlete's gym carries over to the
platform, how much the days differ and how often a lift is missed on a technicality are learned from
the attempts and judged singles before a date, never from a running count.

Weights in and out are `Mass` or kilograms (`..._kg`), errors and spreads fractions of the expected
maximum. The standard library does: a forecast is wanted where numpy is not loaded.
"""
