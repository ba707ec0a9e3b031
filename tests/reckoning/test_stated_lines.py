"""Reading what a donor says was there."""

from fractions import Fraction

import pytest

from catalog.reckoning.stated_lines import (
    StatedWords,
    agrees,
    difference_words,
    read_stated_line,
)


@pytest.mark.parametrize(
    ("text", "quantity", "is_approximate", "rest"),
    [
        ("seven journal boxes, some with brasses", 7, False, "journal boxes, some with brasses"),
        ("about ten hinges", 10, True, "hinges"),
        ("3 drawheads", 3, False, "drawheads"),
        ("About a dozen springs", 12, True, "springs"),
        ("half a dozen springs", 6, False, "springs"),
        ("two pairs of brasses", 4, False, "brasses"),
        ("a pair of trunnion bearings", 2, False, "trunnion bearings"),
        ("ca. 7 boxes", 7, True, "boxes"),
        ("c.7 boxes", 7, True, "boxes"),
        ("some 10 springs", 10, True, "springs"),
        ("twenty  bolts", 20, False, "bolts"),
        ("1,200 rivets", 1200, False, "rivets"),
        ("100+ rivets", 100, True, "rivets"),
        ("10 x hinges", 10, False, "hinges"),
        ("10 off hinges", 10, False, "hinges"),
        ("20 odd bolts", 20, True, "bolts"),
        ("one 18-in wheelset", 1, False, "18-in wheelset"),
        ("10", 10, False, ""),
    ],
)
def test_line_with_a_count_is_read(text, quantity, is_approximate, rest):
    assert read_stated_line(text) == StatedWords(quantity, is_approximate, rest)


@pytest.mark.parametrize(
    "text",
    [
        "various castings",
        "some springs",
        "a few springs",
        "16-in wheelset",
        "16 in wheels",
        "3/4 in bolts",
        "1 1/2 in pipe",
        "2.5 in pins",
        "4' rail",
        "ten-foot rail",
        "half a drawhead",
        "twenty-one bolts",
        "0 hinges",
        "no hinges",
        "",
    ],
)
def test_line_without_a_count_keeps_all_its_words(text):
    assert read_stated_line(text) == StatedWords(None, False, text)


@pytest.mark.parametrize("text", ["five or six hinges", "5-6 hinges", "5 to 6 hinges"])
def test_range_counts_as_about_its_larger_number(text):
    assert read_stated_line(text) == StatedWords(6, True, "hinges")


@pytest.mark.parametrize("count", range(1, 21))
def test_figures_and_words_are_read_alike(count):
    words = [
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
        "thirteen",
        "fourteen",
        "fifteen",
        "sixteen",
        "seventeen",
        "eighteen",
        "nineteen",
        "twenty",
    ]

    assert read_stated_line(f"{words[count - 1]} hinges") == read_stated_line(f"{count} hinges")


@pytest.mark.parametrize(
    ("text", "noun"),
    [
        ("seven journal boxes, some with brasses", "journal boxes"),
        ("an eccentric strap half with a stack of shims", "eccentric strap half"),
        ("various castings", "various castings"),
    ],
)
def test_noun_is_the_first_phrase(text, noun):
    assert read_stated_line(text).noun == noun


@pytest.mark.parametrize(
    ("text", "cataloged", "words"),
    [
        ("10 hinges", 9, "10 hinges stated, 9 cataloged"),
        ("about seven boxes", 6, "about 7 boxes stated, 6 cataloged"),
        ("3 drawheads", 0, "3 drawheads stated, none cataloged"),
        ("various castings", 4, "various castings stated without a number, 4 cataloged"),
        ("7", 6, "7 stated, 6 cataloged"),
    ],
)
def test_difference_is_told_in_words(text, cataloged, words):
    assert difference_words(read_stated_line(text), cataloged) == words


def test_fragments_are_told_by_what_survives():
    words = difference_words(read_stated_line("3 drawheads"), 3, surviving=Fraction(5, 2))

    assert words == "3 drawheads stated, 3 cataloged, which survive to 2.5"


@pytest.mark.parametrize(
    ("text", "cataloged", "agreed"),
    [
        ("3 drawheads", 3, True),
        ("3 drawheads", 4, False),
        ("about ten hinges", 9, False),
        ("various castings", 1, True),
        ("various castings", 0, False),
    ],
)
def test_agreement_asks_for_as_many_as_stated(text, cataloged, agreed):
    assert agrees(read_stated_line(text), cataloged) is agreed
