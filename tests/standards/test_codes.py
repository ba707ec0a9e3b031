"""Tag codes against ISO 7064 as python-stdnum computes it, and by exhaustion."""

from itertools import combinations, product
from random import Random

import pytest
from stdnum.iso7064 import mod_37_2, mod_37_36

from catalog.reckoning.codes import (
    ISO_7064_CHARACTERS,
    TAG_ALPHABET,
    check_character,
    is_valid_tag_code,
    new_tag_code,
)

# A text of one character puts the sum into any of its 37 states, and the check
# character tells the state after any text, one to one. Checking every state thus
# covers every position of a code of any length.
STATES = ISO_7064_CHARACTERS


@pytest.mark.parametrize("seed", range(50))
def test_codes_agree_with_stdnum_mod_37_2(seed):
    code = new_tag_code(Random(seed)).replace("-", "")

    assert mod_37_2.calc_check_digit(code[:-1]) == code[-1]
    assert mod_37_2.validate(code) == code


def test_validity_agrees_with_stdnum_whatever_the_check_character():
    bodies = ["K7Q2M9", "222222", "XWVRQP", "C8J3W5"]

    ours = [is_valid_tag_code(body + check) for body in bodies for check in TAG_ALPHABET]

    assert ours == [mod_37_2.is_valid(body + check) for body in bodies for check in TAG_ALPHABET]
    assert sum(ours) > 0


def test_check_character_of_the_published_example():
    # ISO 7064 MOD 37-2 is that of the blood donation number of ISBT 128; the
    # example G123 498 654 321 H is python-stdnum's own (its source, mod_37_2).
    assert check_character("G123498654321") == "H"


def test_check_character_tells_every_state_apart():
    assert len({check_character(state) for state in STATES}) == 37


def test_no_single_wrong_character_is_missed_from_any_state():
    after = {(s, a): check_character(s + a) for s, a in product(STATES, TAG_ALPHABET)}

    missed = [
        (s, a, b)
        for s in STATES
        for a, b in combinations(TAG_ALPHABET, 2)
        if after[s, a] == after[s, b]
    ]

    assert missed == []
    assert len(after) == 37 * 20


def test_a_difference_once_made_is_never_lost_by_what_follows():
    for character in ISO_7064_CHARACTERS:
        assert len({check_character(state + character) for state in STATES}) == 37


def test_no_swap_of_neighbors_is_missed_from_any_state():
    missed = [
        (s, a, b)
        for s in STATES
        for a, b in combinations(TAG_ALPHABET, 2)
        if check_character(s + a + b) == check_character(s + b + a)
    ]

    assert missed == []


def test_hybrid_system_mod_37_36_would_miss_swaps():
    missed = {
        (a, b)
        for state in ISO_7064_CHARACTERS[:-1]
        for a, b in combinations(ISO_7064_CHARACTERS[:-1], 2)
        if mod_37_36.checksum(state + a + b) == mod_37_36.checksum(state + b + a)
    }

    assert len(missed) > 0
