"""Loading against loads every lifter knows, and against exhaustive search."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.loading import (
    HEAVIEST,
    BarSet,
    Disc,
    Loading,
    LoadingAnswer,
    lightest,
    load,
    loadings,
    weight_of,
)
from coachdesk.domain.units import Mass, Unit, kilograms, pounds

# Bar 20 kg, collars 2.5 kg each, these discs: published rules [seen]. Colours: 25 red, 20 blue,
# 15 yellow [recalled].
COLOURS = {"25": "red", "20": "blue", "15": "yellow"}
MEET_SET = BarSet(
    bar=kilograms(20),
    collar=kilograms("2.5"),
    discs=tuple(
        Disc(kilograms(number), colour=COLOURS.get(number, ""))
        for number in ("25", "20", "15", "10", "5", "2.5", "1.25")
    ),
)
# A pound gym: 45 lb bar, spring collars not counted (common practice).
POUND_SET = BarSet(
    bar=pounds(45),
    collar=pounds(0),
    discs=tuple(Disc(pounds(number)) for number in ("45", "35", "25", "10", "5", "2.5")),
)


def numbers(loading: Loading | None) -> list[str]:
    """The discs of one side from the inside out, as their numbers."""
    assert loading is not None
    return [f"{disc.weight.number}" for disc in loading.discs_per_side]


def gym(*discs: Disc) -> BarSet:
    return BarSet(kilograms(20), kilograms(0), discs)


@pytest.mark.parametrize(
    ("weight", "side"),
    [
        ("25", []),
        ("27.5", ["1.25"]),
        ("60", ["15", "2.5"]),
        ("75", ["25"]),
        ("100", ["25", "10", "2.5"]),
        ("142.5", ["25", "25", "5", "2.5", "1.25"]),
        ("180", ["25", "25", "25", "2.5"]),
        ("200", ["25", "25", "25", "10", "2.5"]),
        ("227.5", ["25", "25", "25", "25", "1.25"]),
        ("265", ["25", "25", "25", "25", "20"]),
    ],
)
def test_meet_weights_load_as_loaders_load_them(weight: str, side: list[str]) -> None:
    # Common practice: 25 kg are bar and collars, then the largest discs inside.
    answer = load(kilograms(weight), MEET_SET)
    assert numbers(answer.exact) == side
    assert answer.exact is not None
    assert answer.exact.total == kilograms(weight)
    assert answer.exact.difference == kilograms(0)
    assert answer.below is answer.above is None


@pytest.mark.parametrize(("plates", "weight"), [(1, 135), (2, 225), (3, 315), (4, 405), (5, 495)])
def test_pound_plates_give_the_weights_lifters_count_in(plates: int, weight: int) -> None:
    # Common practice: one to five plates a side are 135, 225, 315, 405 and 495 lb.
    answer = load(pounds(weight), POUND_SET)
    assert numbers(answer.exact) == ["45"] * plates
    assert answer.exact is not None
    assert answer.exact.total == pounds(weight)


def test_every_step_of_a_meet_can_be_loaded_with_meet_discs() -> None:
    # Published rules [seen]: weights are multiples of 2.5 kg, the lightest is 25 kg.
    steps = [Decimal("2.5") * step for step in range(10, 201)]
    assert all(load(kilograms(step), MEET_SET).exact is not None for step in steps)


def test_a_record_weight_needs_the_record_discs() -> None:
    # Records go up by 0.5 kg at least [seen], with discs of 0.25 and 0.5 kg [recalled].
    without = load(kilograms("200.5"), MEET_SET)
    assert without.exact is None
    record_set = BarSet(
        MEET_SET.bar, MEET_SET.collar, (*MEET_SET.discs, Disc(kilograms("0.25"), pairs=1))
    )
    assert numbers(load(kilograms("200.5"), record_set).exact)[-1] == "0.25"


def test_what_cannot_be_loaded_gets_its_neighbours_and_how_far_off_they_are() -> None:
    answer = load(kilograms(101), MEET_SET)
    assert answer.exact is None
    assert answer.below is not None
    assert answer.above is not None
    assert (answer.below.total, answer.below.difference) == (kilograms(100), kilograms(-1))
    assert (answer.above.total, answer.above.difference) == (kilograms("102.5"), kilograms("1.5"))
    assert answer.nearest is answer.below
    assert load(kilograms(102), MEET_SET).nearest.total == kilograms("102.5")


def test_the_lighter_of_two_equally_near_loads_is_the_nearest() -> None:
    assert load(kilograms("101.25"), MEET_SET).nearest.total == kilograms(100)


def test_a_kilogram_weight_in_a_pound_gym_reads_in_pounds() -> None:
    # 100 kg are 220.46 lb.
    answer = load(kilograms(100), POUND_SET)
    assert answer.exact is None
    assert answer.below is not None
    assert answer.above is not None
    assert answer.below.total == pounds(220)
    assert answer.below.difference == kilograms("-0.210")
    assert answer.above.total == pounds(225)


def test_a_pound_weight_on_a_kilogram_bar_says_how_far_off_in_pounds() -> None:
    # 182.5 kg are 402.344 lb and 185 kg 407.855 lb.
    answer = load(pounds(405), MEET_SET)
    assert answer.below is not None
    assert answer.above is not None
    assert answer.below.total == kilograms("182.5")
    assert answer.below.difference == pounds("-2.656")
    assert answer.above.difference == pounds("2.855")


def test_a_mixed_set_is_summed_without_rounding() -> None:
    mixed = gym(Disc(pounds(45)), Disc(kilograms(10)))
    answer = load(kilograms("80.8233133"), mixed)  # 20 + 2 x 45 lb + 2 x 10 kg, exactly
    assert numbers(answer.exact) == ["45", "10"]
    assert load(kilograms("80.8233132"), mixed).exact is None


def test_counts_at_hand_are_respected() -> None:
    few = gym(Disc(kilograms(20), pairs=1), Disc(kilograms(10), pairs=2))
    assert numbers(load(kilograms(100), few).exact) == ["20", "10", "10"]
    short = load(kilograms(120), few)
    assert short.exact is None
    assert short.above is None
    assert numbers(short.below) == ["20", "10", "10"]
    assert short.nearest is short.below


def test_a_kind_with_no_pair_left_is_not_used() -> None:
    assert numbers(load(kilograms(60), gym(Disc(kilograms(20), 0), Disc(kilograms(10)))).exact) == [
        "10",
        "10",
    ]


@pytest.mark.parametrize(
    ("discs", "weight", "side"),
    [
        ((25, 20, 5), 100, ["20", "20"]),  # not 25, 5, 5, 5
        ((22, 18, 7), 106, ["18", "18", "7"]),  # not 22, 7, 7, 7
        ((23, 14, 3), 188, ["14"] * 6),  # not 23, 23, 23 and five of 3
    ],
)
def test_the_fewest_discs_are_found_where_taking_the_largest_first_misses_them(
    discs: tuple[int, ...], weight: int, side: list[str]
) -> None:
    odd = gym(*(Disc(kilograms(number), pairs=6) for number in discs))
    assert numbers(load(kilograms(weight), odd).exact) == side


def test_a_load_is_found_where_taking_the_largest_first_finds_none() -> None:
    odd = gym(Disc(kilograms(25)), Disc(kilograms(20)))
    assert numbers(load(kilograms(100), odd).exact) == ["20", "20"]


def test_among_as_few_discs_the_largest_go_inside() -> None:
    # 30 kg a side: 25 + 5 or 20 + 10 or 15 + 15.
    assert numbers(load(kilograms(85), MEET_SET).exact) == ["25", "5"]


def test_colours_are_carried_through() -> None:
    exact = load(kilograms(145), MEET_SET).exact
    assert exact is not None
    assert [disc.colour for disc in exact.discs_per_side] == ["red", "red", ""]


def test_of_two_kinds_with_the_same_weight_the_first_is_used_up_first() -> None:
    two_kinds = gym(Disc(kilograms(20), 1, "blue"), Disc(kilograms(20), None, "black"))
    exact = load(kilograms(140), two_kinds).exact
    assert exact is not None
    assert [disc.colour for disc in exact.discs_per_side] == ["blue", "black", "black"]


def test_the_bare_bar_is_the_lightest_weight() -> None:
    assert lightest(MEET_SET) == kilograms(25)
    assert lightest(POUND_SET) == pounds(45)
    assert numbers(load(kilograms(25), MEET_SET).exact) == []


def test_a_bar_without_discs_still_answers() -> None:
    bare = gym()
    assert load(kilograms(20), bare).exact is not None
    answer = load(kilograms(50), bare)
    assert answer.nearest.total == kilograms(20)
    assert answer.above is None


def test_less_than_the_bar_is_refused_with_what_the_bar_weighs() -> None:
    with pytest.raises(InvalidInput) as caught:
        load(kilograms("24.9"), MEET_SET)
    assert caught.value.field == "weight"
    assert dict(caught.value.text.values) == {"lightest": kilograms(25)}


@pytest.mark.parametrize(
    "weight", [kilograms(1001), pounds(2300), Mass(Decimal("NaN"), Unit.KG), kilograms("Infinity")]
)
def test_more_than_any_bar_takes_is_refused(weight: Mass) -> None:
    with pytest.raises(InvalidInput) as caught:
        load(weight, MEET_SET)
    assert caught.value.field == "weight"
    assert load(HEAVIEST, MEET_SET).exact is not None


@pytest.mark.parametrize(
    ("weight", "code"),
    [
        (kilograms(0), "loading.weighs_nothing"),
        (kilograms(-5), "loading.weight_negative"),
        (kilograms("NaN"), "loading.weight_negative"),
        (kilograms("1.2501"), "loading.too_many_decimals"),
        (kilograms("1E+40"), "loading.too_heavy"),
    ],
)
def test_a_disc_needs_a_weight(weight: Mass, code: str) -> None:
    with pytest.raises(InvalidInput) as caught:
        Disc(weight)
    assert caught.value.field == "disc"
    assert caught.value.text.code == code


def test_pairs_bars_and_collars_cannot_be_negative() -> None:
    with pytest.raises(InvalidInput) as caught:
        Disc(kilograms(5), pairs=-1)
    assert caught.value.field == "pairs"
    for bar in (kilograms(-20), kilograms(0)):
        with pytest.raises(InvalidInput) as caught:
            BarSet(bar, kilograms(0), ())
        assert caught.value.field == "bar"
    with pytest.raises(InvalidInput) as caught:
        BarSet(kilograms(20), kilograms("-2.5"), ())
    assert caught.value.field == "collar"


def exact_grams(mass: Mass) -> Fraction:
    return Fraction(mass.number) * Fraction(mass.unit.grams)


def every_side(wanted_grams: Fraction, bar_set: BarSet) -> dict[Fraction, int]:
    """Exhaustive twin: the total of every possible load [g] and the fewest discs for it.

    Discs without a count are tried up to the first that overshoots alone.
    """
    bare = exact_grams(lightest(bar_set))
    ranges = []
    for disc in bar_set.discs:
        enough = int((wanted_grams - bare) / 2 / exact_grams(disc.weight)) + 1
        ranges.append(range((enough if disc.pairs is None else min(disc.pairs, enough)) + 1))
    fewest: dict[Fraction, int] = {}
    for counts in product(*ranges):
        side = sum(
            (n * exact_grams(disc.weight) for n, disc in zip(counts, bar_set.discs, strict=True)),
            Fraction(0),
        )
        total = bare + 2 * side
        fewest[total] = min(fewest.get(total, sum(counts)), sum(counts))
    return fewest


def agrees(loading: Loading | None, total: Fraction | None, fewest: dict[Fraction, int]) -> bool:
    if loading is None or total is None:
        return loading is None and total is None
    return exact_grams(loading.total) == total and len(loading.discs_per_side) == fewest[total]


# Small discs come in limited numbers here, or the exhaustive search takes minutes.
LARGE = [*map(kilograms, ("10", "15", "20", "25")), *map(pounds, ("25", "35", "45"))]
SMALL = [*map(kilograms, ("0.5", "1.25", "2.5", "5", "7.5")), *map(pounds, ("2.5", "5", "10"))]
usual_discs = st.one_of(
    st.builds(Disc, st.sampled_from(LARGE), st.one_of(st.none(), st.integers(0, 3))),
    st.builds(Disc, st.sampled_from(SMALL), st.integers(0, 3)),
)
odd_discs = st.builds(
    Disc,
    st.integers(8_000, 25_000).map(lambda grams: kilograms(Decimal(grams) / 1000)),
    st.integers(0, 2),
)
bar_sets = st.builds(
    BarSet,
    st.sampled_from([kilograms(20), kilograms(15), pounds(45)]),
    st.sampled_from([kilograms(0), kilograms("2.5"), pounds("1.1")]),
    st.one_of(
        st.lists(usual_discs, max_size=5).map(tuple),
        st.lists(odd_discs, max_size=5).map(tuple),
    ),
)
weights = st.one_of(
    st.integers(11, 60).map(lambda steps: kilograms(Decimal(steps) * 5 / 2)),
    st.integers(11, 60).map(lambda steps: pounds(5 * steps)),
)


@settings(deadline=None, max_examples=400)  # the exhaustive twin is slow
@given(weight=weights, bar_set=bar_sets)
def test_exhaustive_search_finds_nothing_nearer_and_no_fewer_discs(
    weight: Mass, bar_set: BarSet
) -> None:
    wanted = exact_grams(weight)
    if wanted < exact_grams(lightest(bar_set)):
        with pytest.raises(InvalidInput):
            load(weight, bar_set)
        return
    fewest = every_side(wanted, bar_set)
    answer = load(weight, bar_set)
    if wanted in fewest:
        assert agrees(answer.exact, wanted, fewest)
        assert answer.below is answer.above is None
    else:
        assert answer.exact is None
        assert agrees(answer.below, max(t for t in fewest if t < wanted), fewest)
        assert agrees(answer.above, min((t for t in fewest if t > wanted), default=None), fewest)


def answered(answer: LoadingAnswer) -> list[Loading]:
    found = (answer.exact, answer.below, answer.above)
    return [loading for loading in found if loading is not None]


@given(weight=weights, bar_set=bar_sets)
def test_discs_run_from_large_to_small_within_what_is_at_hand(
    weight: Mass, bar_set: BarSet
) -> None:
    if exact_grams(weight) < exact_grams(lightest(bar_set)):
        return
    at_hand: Counter[Disc] = Counter()
    for disc in bar_set.discs:
        at_hand[disc] += 1_000_000 if disc.pairs is None else disc.pairs
    for loading in answered(load(weight, bar_set)):
        sizes = [exact_grams(disc.weight) for disc in loading.discs_per_side]
        assert all(inner >= outer for inner, outer in pairwise(sizes))
        assert Counter(loading.discs_per_side) <= at_hand


@given(steps=st.integers(10, 240), bar_set=st.sampled_from([MEET_SET, POUND_SET]))
def test_a_load_weighs_what_was_asked_and_loads_again_to_the_same(
    steps: int, bar_set: BarSet
) -> None:
    weight = pounds(5 * steps) if bar_set is POUND_SET else kilograms(Decimal(steps) * 5 / 2)
    exact = load(weight, bar_set).exact
    assert exact is not None
    assert weight_of(exact.discs_per_side, bar_set) == exact.total == weight
    assert load(exact.total, bar_set).exact == exact


@given(steps=st.integers(0, 1900))
def test_a_heavier_wish_never_loads_a_lighter_bar(steps: int) -> None:
    wish = kilograms(Decimal(25) + Decimal(steps) / 4)
    heavier = kilograms(wish.number + Decimal("0.25"))
    assert load(wish, MEET_SET).nearest.total.grams <= load(heavier, MEET_SET).nearest.total.grams


def test_discs_weighed_to_the_gram_are_still_answered() -> None:
    weighed = ("25.013", "24.981", "20.011", "19.987", "14.991", "10.003", "5.001", "2.507")
    in_pounds = ("44.937", "35.021", "10.003", "2.499")
    mixed = gym(
        *(Disc(kilograms(number), 2) for number in weighed),
        *(Disc(pounds(number), 2) for number in in_pounds),
    )
    answer = load(kilograms("300.001"), mixed)
    assert answer.below is not None
    assert answer.above is not None
    assert exact_grams(answer.below.total) < 300_001 < exact_grams(answer.above.total)
    assert answer.above.difference.grams - answer.below.difference.grams < 10


@pytest.mark.parametrize("bar_set", [MEET_SET, POUND_SET])
def test_the_list_of_loadings_is_every_weight_as_it_is_loaded(bar_set: BarSet) -> None:
    listed = loadings(bar_set, most=kilograms(300), apart=kilograms("0.1"))
    assert [loading.total.grams for loading in listed] == sorted(
        {loading.total.grams for loading in listed}
    )
    assert listed[0].total == lightest(bar_set)
    for loading in listed:
        assert load(loading.total, bar_set).exact == loading
    for below, above in pairwise(listed):
        between = kilograms(Decimal(below.total.grams + above.total.grams) / 2000)
        answer = load(between, bar_set)
        assert answer.below is not None
        assert answer.above is not None
        assert (answer.below.total, answer.above.total) == (below.total, above.total)


def test_weights_too_near_each_other_are_left_out_of_the_list() -> None:
    listed = loadings(MEET_SET, most=kilograms(60), apart=kilograms(5))
    assert [loading.total.kg for loading in listed] == [25, 30, 35, 40, 45, 50, 55, 60]
    assert loadings(MEET_SET, most=kilograms(24), apart=kilograms(5)) == ()
