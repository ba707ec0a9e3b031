"""Accession numbers: reading, writing, order, and letters of pieces."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.numbers import (
    AccessionNumber,
    AccessionNumberError,
    next_piece,
    parse_accession_number,
)

counts = st.integers(1, 999_999)
numbers = st.builds(
    AccessionNumber,
    st.integers(1000, 9999),
    counts,
    counts,
    st.from_regex("[a-z]{0,4}", fullmatch=True),
) | st.builds(AccessionNumber, st.integers(1000, 9999), counts)


def rank(number):
    """Order numbers by their parts, with no text involved."""
    return (number.year, number.accession, number.item or 0, len(number.piece), number.piece)


@given(numbers)
def test_a_number_survives_writing_and_reading(number):
    assert parse_accession_number(str(number)) == number


@given(numbers, numbers)
def test_sort_key_orders_as_the_parts_do(first, second):
    assert (first.sort_key < second.sort_key) == (rank(first) < rank(second))


def test_sort_key_puts_ten_after_nine_and_aa_after_z():
    written = [
        "2026.4",
        "2026.4.9",
        "2026.4.9a",
        "2026.4.9z",
        "2026.4.9aa",
        "2026.4.10",
        "2026.10.1",
    ]

    in_order = sorted(map(parse_accession_number, reversed(written)), key=lambda n: n.sort_key)

    assert [str(number) for number in in_order] == written


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("2026.4.17a", AccessionNumber(2026, 4, 17, "a")),
        ("2026.4", AccessionNumber(2026, 4)),
        (" 2026.04.017 ", AccessionNumber(2026, 4, 17)),
        ("2026.4.17AB", AccessionNumber(2026, 4, 17, "ab")),
    ],
)
def test_numbers_are_read_as_people_write_them(text, number):
    assert parse_accession_number(text) == number


@pytest.mark.parametrize(
    "text",
    [
        "",
        "2026",
        "26.4.17",
        "2026-4-17",
        "2026.4.17.1",
        "2026.4a",
        "2026.0.1",
        "2026.4.0",
        "2026.4.17é",
    ],
)
def test_other_text_is_refused_in_words(text):
    with pytest.raises(AccessionNumberError, match=r"not|needs|counted"):
        parse_accession_number(text)


@pytest.mark.parametrize(
    ("parts", "message"),
    [
        ((2026, 4, None, "a"), "Piece “a” needs an item number before it."),
        ((2026, 4, 1, "A"), "Pieces are lettered a to zzzz, not “A”."),
        ((26, 4, 1), "The year 26 does not have four figures."),
        ((2026, 1_000_000), "Accessions and items are counted from 1 to 999,999, not 1000000."),
    ],
)
def test_impossible_parts_are_refused_in_words(parts, message):
    with pytest.raises(AccessionNumberError, match=message):
        AccessionNumber(*parts)


def test_pieces_are_lettered_like_columns_of_a_sheet():
    pieces = [""]
    while len(pieces) < 26 + 26**2 + 2:
        pieces.append(next_piece(pieces[-1]))

    assert [pieces[i] for i in (1, 26, 27, 28, 52, 53, 702, 703)] == [
        "a", "z", "aa", "ab", "az", "ba", "zz", "aaa",
    ]  # fmt: skip
    keys = [AccessionNumber(2026, 1, 1, piece).sort_key for piece in pieces]
    assert all(before < after for before, after in pairwise(keys))


@pytest.mark.parametrize("piece", ["A", "1", "é"])
def test_next_piece_refuses_what_is_not_a_letter_of_a_piece(piece):
    with pytest.raises(AccessionNumberError, match="lettered a to z"):
        next_piece(piece)
