"""Warm-ups: what a handler can load, when to take it, and what to do when the flight moves."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Equipment, Lift
from coachdesk.domain.loading import BarSet, Disc, lightest, load, weight_of
from coachdesk.domain.units import Mass, kilograms, pounds
from coachdesk.domain.warmup import Gear, WarmUps, WarmUpSet, minutes_of, warm_ups

KG_DISCS = tuple(Disc(kilograms(disc)) for disc in ("25", "20", "15", "10", "5", "2.5", "1.25"))
KG_ROOM = BarSet(kilograms(20), kilograms("2.5"), KG_DISCS)
LB_DISCS = tuple(Disc(pounds(disc)) for disc in ("45", "35", "25", "10", "5", "2.5"))
LB_ROOM = BarSet(pounds(45), pounds(0), LB_DISCS)
ORDER = list(Gear)
A_FEW = settings(max_examples=40)


def plain(sets: Sequence[WarmUpSet]) -> list[tuple[float, int]]:
    return [(float(one.weight.number), one.reps) for one in sets]


rooms = st.builds(
    BarSet,
    st.sampled_from([kilograms(10), kilograms(15), kilograms(20), kilograms(25), pounds(45)]),
    st.sampled_from([kilograms(0), kilograms("2.5")]),
    st.lists(
        st.builds(
            Disc,
            st.sampled_from(
                [kilograms(disc) for disc in ("25", "20", "15", "10", "5", "2.5", "1.25")]
                + [pounds(disc) for disc in ("45", "25", "10", "5")]
            ),
            st.one_of(st.none(), st.integers(1, 4)),
        ),
        min_size=1,
        max_size=6,
        unique_by=lambda disc: disc.weight,
    ).map(tuple),
)


@st.composite
def asked(draw: st.DrawFn) -> tuple[Lift, Mass, BarSet, Equipment]:
    """A lift, an opener no lighter than the bare bar, a room, and the equipment."""
    room = draw(rooms)
    above = draw(st.integers(0, 150))
    opener = kilograms(lightest(room).in_unit(kilograms(1).unit) + Decimal("2.5") * above)
    return draw(st.sampled_from(Lift)), opener, room, draw(st.sampled_from(Equipment))


def found_for(case: tuple[Lift, Mass, BarSet, Equipment]) -> WarmUps:
    lift, opener, room, equipment = case
    return warm_ups(lift, opener=opener, room=room, equipment=equipment)


@A_FEW
@given(asked())
def test_every_set_can_be_loaded_with_the_rooms_discs(
    case: tuple[Lift, Mass, BarSet, Equipment],
) -> None:
    room = case[2]
    found = found_for(case)
    for one in (*found.usual, *found.late, *found.early):
        assert weight_of(one.discs_per_side, room) == one.weight
        for disc in room.discs:
            assert disc.pairs is None or one.discs_per_side.count(disc) <= disc.pairs


@A_FEW
@given(asked())
def test_weights_rise_repetitions_fall_and_time_runs_out(
    case: tuple[Lift, Mass, BarSet, Equipment],
) -> None:
    opener = case[1]
    found = found_for(case)
    for ladder in (found.usual, found.late):
        for before, after in pairwise(ladder):
            assert before.weight.grams < after.weight.grams
            assert before.reps >= after.reps >= 1
            assert before.minutes > after.minutes > 0
        assert ladder[-1].weight.grams <= opener.grams


@A_FEW
@given(asked())
def test_the_last_single_is_88_to_93_percent_where_the_discs_make_that(
    case: tuple[Lift, Mass, BarSet, Equipment],
) -> None:
    _lift, opener, room, _equipment = case
    last = found_for(case).usual[-1]
    bare = lightest(room).grams
    least, most = 0.88 * opener.grams, 0.93 * opener.grams
    below = load(kilograms(Decimal(max(int(most), bare)) / 1000), room)
    nearest_below = below.exact or below.below
    assert nearest_below is not None
    if least <= nearest_below.total.grams <= most:
        assert least <= last.weight.grams <= most
    else:
        assert last.weight.grams <= 0.95 * opener.grams or last.weight.grams == bare
        off = max(least - last.weight.grams, last.weight.grams - most)
        assert off <= max(least - nearest_below.total.grams, nearest_below.total.grams - most)


def moved(before: list[Disc], after: Sequence[Disc]) -> tuple[int, int]:
    """Change the discs of one side by hand: pull off from the outside, then push on."""
    off = 0
    while before != list(after[: len(before)]):
        before.pop()
        off += 1
    on = len(after) - len(before)
    before.extend(after[len(before) :])
    return off, on


@A_FEW
@given(asked())
def test_disc_changes_are_those_a_loader_makes_by_hand(
    case: tuple[Lift, Mass, BarSet, Equipment],
) -> None:
    found = found_for(case)
    for ladder, start in (
        (found.usual, ()),
        (found.late, ()),
        (found.early, found.usual[-1].discs_per_side),
    ):
        on_the_bar = list(start)
        for one in ladder:
            assert (one.taken_off, one.put_on) == moved(on_the_bar, one.discs_per_side)
            assert one.disc_changes == one.taken_off + one.put_on


@A_FEW
@given(asked())
def test_short_of_time_keeps_the_ends_of_the_ladder_and_a_delay_ends_with_the_last_set(
    case: tuple[Lift, Mass, BarSet, Equipment],
) -> None:
    found = found_for(case)
    assert set(plain(found.late)) <= set(plain(found.usual))
    assert plain(found.late)[0] == plain(found.usual)[0]
    assert plain(found.late)[-1] == plain(found.usual)[-1]
    assert len(found.left_out) + len(found.late) == len(found.usual)
    assert found.late[0].minutes < found.usual[0].minutes
    assert plain(found.early)[-1] == plain(found.usual)[-1]
    assert found.early[-1].minutes == found.usual[-1].minutes
    assert all(one.reps <= max(2, found.usual[-1].reps) for one in found.early)


@A_FEW
@given(asked())
def test_gear_goes_on_step_by_step_and_classic_lifters_have_none(
    case: tuple[Lift, Mass, BarSet, Equipment],
) -> None:
    found = found_for(case)
    stages = [one.gear for one in found.usual]
    if case[3] is Equipment.CLASSIC:
        assert set(stages) == {None}
    else:
        worn = [ORDER.index(stage) for stage in stages if stage is not None]
        assert worn == sorted(worn)
        assert len(worn) == len(stages)


def test_a_squat_opener_of_200_kg() -> None:
    """Near what handlers write by hand: about 35, 50, 65, 80 and 90 % (common practice)."""
    found = warm_ups(Lift.SQUAT, opener=kilograms(200), room=KG_ROOM)
    assert plain(found.usual) == [(25, 5), (65, 5), (95, 3), (125, 2), (155, 1), (180, 1)]
    assert [one.attempts_out for one in found.usual] == [22, 20, 17, 14, 10, 6]
    assert plain(found.left_out) == [(65, 5), (125, 2)]
    assert plain(found.early) == [(125, 2), (180, 1)]
    assert found.notes == ()


def test_pound_discs_make_the_weights_of_a_pound_gym() -> None:
    """One, two, three plates a side are 135, 225 and 315 lb (common practice)."""
    found = warm_ups(Lift.DEADLIFT, opener=pounds(500), room=LB_ROOM)
    assert [one.weight for one in found.usual[:3]] == [pounds(135), pounds(225), pounds(315)]
    assert {one.weight.unit for one in found.usual} == {pounds(1).unit}


@pytest.mark.parametrize("lift", list(Lift))
@pytest.mark.parametrize("opener", range(60, 401, 5))
def test_jumps_never_grow_wildly(lift: Lift, opener: int) -> None:
    """No jump is more than half as large again as the one before, but for 5 kg of rounding."""
    found = warm_ups(lift, opener=kilograms(opener), room=KG_ROOM)
    weights = [*(one.weight.kg for one in found.usual), float(opener)]
    jumps = [after - before for before, after in pairwise(weights)]
    assert all(after <= 1.5 * before + 5 for before, after in pairwise(jumps))


def test_heavier_openers_take_more_sets_and_deadlifts_fewest() -> None:
    counts = {
        lift: [
            len(warm_ups(lift, opener=kilograms(opener), room=KG_ROOM).usual)
            for opener in range(60, 401, 20)
        ]
        for lift in Lift
    }
    for of_lift in counts.values():
        assert of_lift == sorted(of_lift)
    assert counts[Lift.SQUAT][-1] == 8
    for deadlift, squat in zip(counts[Lift.DEADLIFT], counts[Lift.SQUAT], strict=True):
        assert deadlift < squat


def test_a_light_bench_opener_still_gets_a_ladder() -> None:
    """With a bar and collars of 25 kg nothing but 27.5 kg lies below 30; with a 15 kg bar more."""
    found = warm_ups(Lift.BENCH, opener=kilograms(30), room=KG_ROOM)
    assert plain(found.usual) == [(25, 2), (27.5, 1)]
    assert [note.code for note in found.notes] == ["warmup.light_opener"]
    light = BarSet(kilograms(15), kilograms(0), KG_DISCS)
    found = warm_ups(Lift.BENCH, opener=kilograms(25), room=light)
    assert plain(found.usual) == [(15, 3), (20, 2), (22.5, 1)]


def test_an_opener_of_the_bare_bar_is_one_single_with_a_reason() -> None:
    found = warm_ups(Lift.BENCH, opener=kilograms(25), room=KG_ROOM)
    assert plain(found.usual) == plain(found.late) == plain(found.early) == [(25, 1)]
    assert [note.code for note in found.notes] == ["warmup.light_opener", "warmup.last_off"]


def test_deadlifts_begin_with_discs_of_full_height() -> None:
    """20 kg discs and heavier have the full diameter; lighter ones leave the bar low."""
    found = warm_ups(Lift.DEADLIFT, opener=kilograms(200), room=KG_ROOM)
    assert found.usual[0].discs_per_side[0].weight in {kilograms(20), kilograms(25)}
    assert not any(one.notes for one in found.usual)
    hundred = warm_ups(Lift.DEADLIFT, opener=kilograms(100), room=KG_ROOM)
    assert plain(hundred.usual)[0] == (65, 3)
    light = warm_ups(Lift.DEADLIFT, opener=kilograms("87.5"), room=KG_ROOM)
    low = [one for one in light.usual if one.notes]
    assert [one.weight.kg for one in low] == [25, 45]
    assert {note.code for one in low for note in one.notes} == {"warmup.low_bar"}


def test_a_room_that_runs_out_of_discs_says_how_far_it_goes() -> None:
    room = BarSet(kilograms(20), kilograms(0), (Disc(kilograms(20), 2), Disc(kilograms(10), 1)))
    found = warm_ups(Lift.SQUAT, opener=kilograms(190), room=room)
    assert plain(found.usual)[-1] == (120, 1)
    assert [note.code for note in found.notes] == ["warmup.last_off"]


def test_an_equipped_squat_dresses_on_the_way_up_and_takes_longer() -> None:
    classic = warm_ups(Lift.SQUAT, opener=kilograms(260), room=KG_ROOM)
    equipped = warm_ups(
        Lift.SQUAT, opener=kilograms(260), room=KG_ROOM, equipment=Equipment.EQUIPPED
    )
    assert plain(equipped.usual) == plain(classic.usual)
    stages = [one.gear for one in equipped.usual]
    assert stages[0] is Gear.NONE
    assert stages[-1] is Gear.FULL_WRAPS
    assert equipped.usual[-1].minutes > classic.usual[-1].minutes
    assert equipped.usual[0].minutes > classic.usual[0].minutes


@pytest.mark.parametrize("seconds", [45, 60, 75, 90])
def test_minutes_and_attempts_out_are_one_time(seconds: int) -> None:
    found = warm_ups(Lift.SQUAT, opener=kilograms(180), room=KG_ROOM, seconds=seconds)
    for one in found.usual:
        assert minutes_of(one.attempts_out, seconds) == pytest.approx(
            one.minutes, abs=seconds / 60 / 2
        )


@pytest.mark.parametrize(
    ("field", "changes"),
    [
        ("opener", {"opener": kilograms("24.5")}),
        ("opener", {"opener": kilograms(1001)}),
        ("opener", {"opener": kilograms("NaN")}),
        ("room", {"room": BarSet(kilograms(20), kilograms(0), ())}),
        ("room", {"room": BarSet(kilograms(20), kilograms(0), (Disc(kilograms(20), 0),))}),
        ("seconds", {"seconds": 0}),
        ("seconds", {"seconds": 601}),
    ],
)
def test_what_cannot_be_is_refused_beside_its_field(field: str, changes: dict[str, object]) -> None:
    given_values: dict[str, object] = {"opener": kilograms(100), "room": KG_ROOM, **changes}
    with pytest.raises(InvalidInput) as refused:
        warm_ups(Lift.SQUAT, **given_values)  # type: ignore[arg-type]
    assert refused.value.field == field
