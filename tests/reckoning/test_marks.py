"""Worn marks against known marks: weights, chance, lost stretches, and words."""

from itertools import product
from math import prod

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.marks import (
    CHARACTERS,
    LOOK_ALIKES,
    UNRELATED,
    look_alike_weight,
    match_mark,
    normalize_mark,
    rank_marks,
)

marks = st.text(alphabet=CHARACTERS, min_size=1, max_size=8)
readings = st.text(alphabet=CHARACTERS + "?", min_size=1, max_size=8)


@given(marks)
def test_a_mark_read_whole_agrees_fully_and_beats_every_other(mark):
    same = match_mark(mark, mark)
    other = match_mark(mark, mark[:-1] + ("W" if mark[-1] in "M0" else "0"))

    assert same.share == 1
    assert same.score > other.score


@given(marks, st.data())
def test_a_worn_character_lowers_the_weight_but_stays_above_nothing(mark, data):
    place = data.draw(st.integers(0, len(mark) - 1))
    worn = mark[:place] + "?" + mark[place + 1 :]

    assert match_mark(mark, mark).ratio > match_mark(worn, mark).ratio >= 1


@given(st.text(alphabet="?….- ", max_size=10), marks)
def test_a_mark_of_nothing_legible_says_nothing(read, known):
    match = match_mark(read, known)

    assert (match.ratio, match.score) == (1, 0.5)
    assert match.explanation == "No character is legible, so the mark says nothing."


@given(readings, marks)
def test_figures_stay_in_their_ranges(read, known):
    match = match_mark(read, known)

    assert 0 <= match.share <= 1
    assert 0 < match.chance <= 1
    assert 0 < match.score < 1
    assert match.ratio >= UNRELATED


@given(readings, marks)
def test_case_spaces_and_dots_do_not_matter(read, known):
    spaced = " ".join(read.lower()) + "."

    assert match_mark(spaced, f"- {known.lower()} -").ratio == match_mark(read, known).ratio


@pytest.mark.parametrize("read", ["3", "O8", "?5", "1C"])
def test_chance_is_the_mean_share_over_every_mark_of_that_length(read):
    shares = [
        prod(map(look_alike_weight, read, true)) for true in product(CHARACTERS, repeat=len(read))
    ]

    assert match_mark(read, "0" * len(read)).chance == pytest.approx(sum(shares) / len(shares))


@given(st.sampled_from(["…14", "TOL…", "T…E", "…1?…", "T…L…E"]), marks)
def test_lost_stretch_is_placed_as_well_as_any_filling_of_it(read, known):
    gaps, spare = read.count("…"), len(known) - len(read.replace("…", ""))
    splits = [s for s in product(range(max(spare, 0) + 1), repeat=gaps) if sum(s) == spare]

    filled = []
    for split in splits:
        lengths = iter(split)
        filled.append("".join("?" * next(lengths) if c == "…" else c for c in read))

    best = max((match_mark(f, known).share for f in filled), default=0.0)
    assert match_mark(read, known).share == pytest.approx(best)


def test_more_ways_of_placing_a_stretch_raise_the_chance():
    end, anywhere = match_mark("TOL…", "TOLVANE"), match_mark("…TOL…", "TOLVANE")

    assert end.share == anywhere.share == 1
    assert anywhere.chance == pytest.approx(5 * end.chance)


def test_look_alikes_are_symmetric_and_weigh_less_than_the_same():
    for pair, weight in LOOK_ALIKES.items():
        assert 0 < weight < 1
        assert look_alike_weight(*pair) == look_alike_weight(*pair[::-1]) == weight
        assert pair[0] != pair[1]
        assert pair[::-1] not in LOOK_ALIKES


@pytest.mark.parametrize(
    "pair", ["38", "60", "69", "90", "17", "1I", "5S", "8B", "0O", "0Q", "OQ", "CG"]
)
def test_look_alikes_met_on_castings_are_counted(pair):
    match = match_mark(f"E{pair[0]}4", f"E{pair[1]}4")

    assert match.share == LOOK_ALIKES.get(pair, LOOK_ALIKES.get(pair[::-1]))
    assert match.ratio > 1


def test_known_place_left_open_weighs_nothing():
    assert match_mark("E-47", "E-??").ratio == pytest.approx(match_mark("E", "E").ratio)


def test_marks_are_ranked_likeliest_first_and_once():
    ranked = rank_marks("K?88", ["B22", "KJ38", "KJ88", "KJ88", "K?"])

    assert [match.known for match in ranked] == ["KJ88", "KJ38", "B22", "K?"]
    assert rank_marks("K?88", []) == ()


@pytest.mark.parametrize(
    ("read", "known", "words"),
    [
        (
            "4?2",
            "412",
            "The 2 legible characters agree with 412; a random mark would agree 1 time in 720.",
        ),
        ("X12", "412", "The 3 legible characters do not agree with 412."),
        ("4", "9", "The 1 legible character does not agree with 9."),
        ("42", "412", "2 characters read, 3 in the known mark; write … where a stretch is lost."),
        (
            "K?88",
            "KJ38",
            "The 3 legible characters agree with KJ38 if wear made 3 into 8 (weight 0.5); "
            "a random mark would agree 1 time in 3,967.",
        ),
        (
            "T0L…",
            "Tolvane",
            "The 3 legible characters agree with TOLVANE if wear made look-alikes of some "
            "(weight 0.9); a random mark would agree 1 time in 4,050.",
        ),
        (
            "…O…",
            "TOLVANEIRONWORKS",
            "The 1 legible character agrees with TOLVANEIRONWORKS, as a random mark would "
            "about as well.",
        ),
    ],
)
def test_agreement_is_explained_in_words(read, known, words):
    assert match_mark(read, known).explanation == words


def test_three_periods_are_a_lost_stretch_and_single_ones_are_not():
    assert normalize_mark("T.W. ... 14") == "TW…14"
