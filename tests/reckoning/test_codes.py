"""Tag codes: what is drawn, what is accepted, and what is said about the rest."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.codes import (
    TAG_ALPHABET,
    is_valid_tag_code,
    new_tag_code,
    normalize_tag_code,
    tag_problem,
)

seeds = st.integers(0, 2**32)


@given(seeds)
def test_new_code_is_valid_and_in_its_printed_form(seed):
    code = new_tag_code(Random(seed))

    assert tag_problem(code) is None
    assert normalize_tag_code(code) == code
    assert (len(code), code[3]) == (8, "-")
    assert set(code) - {"-"} <= set(TAG_ALPHABET)


def test_same_chance_gives_the_same_code_and_other_chance_another():
    codes = [new_tag_code(Random(seed)) for seed in (1, 1, 2)]

    assert codes[0] == codes[1] != codes[2]


def test_ten_thousand_codes_collide_no_more_than_chance_allows():
    random = Random(5)

    codes = {new_tag_code(random) for _ in range(10_000)}

    # With some 34 million codes, 1.5 collisions are expected; 10 would be a fault.
    assert len(codes) > 10_000 - 10


def test_every_character_is_drawn_in_every_place():
    random = Random(6)

    codes = [new_tag_code(random).replace("-", "") for _ in range(3000)]

    assert [set(place) for place in zip(*codes, strict=True)] == [set(TAG_ALPHABET)] * 7


@pytest.mark.parametrize("confusable", ["0ODQ", "1ILT", "2Z", "5S", "8B", "6G", "CG", "UV", "MN"])
def test_alphabet_keeps_at_most_one_of_a_look_alike_group(confusable):
    kept = set(confusable) & set(TAG_ALPHABET)

    assert len(kept) <= 1


@pytest.mark.parametrize(
    "typed",
    ["K7Q-2M9V", "k7q2m9v", " K7Q 2M9V ", "K7Q–2M9V", "K.7.Q.2.M.9.V", "http://shed/t/k7q-2m9v"],
)
def test_a_code_is_read_however_it_is_typed(typed):
    assert normalize_tag_code(typed) == "K7Q-2M9V"
    assert is_valid_tag_code(typed)


@pytest.mark.parametrize(
    ("typed", "problem"),
    [
        ("", "No tag code was given; it is the code of 7 characters on the label."),
        ("K7Q-2M9", "A tag code has 7 characters, such as K7Q-2M9V; this has 6."),
        ("K7Q-2M9VV", "A tag code has 7 characters, such as K7Q-2M9V; this has 8."),
        ("K7Q-2M9I", "“I” is never printed on a tag; look at the tag again."),
        ("2026.4.17", "“0” is never printed on a tag; look at the tag again."),
        (
            "K7Q-2M9W",
            "One character of K7Q-2M9W is wrong, or two have changed places; look at the tag again.",
        ),
    ],
)
def test_a_wrong_code_is_explained_in_one_sentence(typed, problem):
    assert tag_problem(typed) == problem
    assert not is_valid_tag_code(typed)


@given(seeds)
def test_wrong_characters_and_swapped_neighbors_are_refused_in_drawn_codes(seed):
    code = new_tag_code(Random(seed)).replace("-", "")
    places = range(len(code))

    wrong = {code[:i] + c + code[i + 1 :] for i in places for c in TAG_ALPHABET} - {code}
    swapped = {code[:i] + code[i + 1] + code[i] + code[i + 2 :] for i in places[:-1]} - {code}

    assert len(wrong) == 7 * 19
    assert [other for other in wrong | swapped if is_valid_tag_code(other)] == []
