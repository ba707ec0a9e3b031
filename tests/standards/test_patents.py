"""Patents against published numbers and dates, and the terms of the statutes."""

import datetime as dt
from itertools import pairwise

import pytest

from catalog.reckoning.patent_tables import FIRST_NUMBER, FROM_MEMORY
from catalog.reckoning.patents import (
    check_number_and_date,
    country_in_words,
    expiry,
    issue_year,
    number_range,
    read_marking,
    year_range,
)

# Numbers and dates printed on the patents: Westinghouse's air brake, Shay's locomotive
# and the Wrights' flying machine; and two on either side of the turn of a year.
PUBLISHED = [
    (88_929, dt.date(1869, 4, 13)),
    (242_992, dt.date(1881, 6, 14)),
    (821_393, dt.date(1906, 5, 22)),
    (1_786_854, dt.date(1930, 12, 30)),
    (1_839_273, dt.date(1932, 1, 5)),
]

# USPTO, "Milestones in U.S. patenting" and "Millions of Patents".
MILESTONES = [
    (1, dt.date(1836, 7, 13)),
    (1_000_000, dt.date(1911, 8, 8)),
    (2_000_000, dt.date(1935, 4, 30)),
    (3_000_000, dt.date(1961, 9, 12)),
]

# Numbers and dates of well-known inventions, from memory.
FROM_MEMORY_PAIRS = [
    (3_633, dt.date(1844, 6, 15)),
    (6_469, dt.date(1849, 5, 22)),
    (138_405, dt.date(1873, 4, 29)),
    (174_465, dt.date(1876, 3, 7)),
    (223_898, dt.date(1880, 1, 27)),
    (388_850, dt.date(1888, 9, 4)),
    (549_160, dt.date(1895, 11, 5)),
    (775_134, dt.date(1904, 11, 15)),
    (1_102_653, dt.date(1914, 7, 7)),
    (1_773_980, dt.date(1930, 8, 26)),
    (2_292_387, dt.date(1942, 8, 11)),
    (2_524_035, dt.date(1950, 10, 3)),
]


@pytest.mark.parametrize(("number", "issued"), PUBLISHED + MILESTONES + FROM_MEMORY_PAIRS)
def test_published_number_and_date_agree(number, issued):
    assert issue_year(number) == issued.year
    assert number in number_range(issued)
    assert check_number_and_date(number, issued) == []


@pytest.mark.parametrize(("number", "issued"), PUBLISHED)
def test_published_date_as_a_marking_leads_to_its_patent(number, issued):
    marking = read_marking(f"PAT'D {issued:%b %-d %Y}")

    assert [candidate.day for candidate in marking.days] == [issued]
    assert number in marking.days[0].numbers
    assert marking.agrees_with(number, issued)


def test_boundary_pair_is_told_apart_by_the_year():
    assert check_number_and_date(1_786_854, dt.date(1932, 1, 5)) == [
        "No. 1,786,854 belongs to 1930 (1,742,181 to 1,787,423), not 1932."
    ]
    assert check_number_and_date(1_839_273, dt.date(1930, 12, 30)) == [
        "No. 1,839,273 belongs to 1932 (1,839,190 to 1,892,662), not 1930."
    ]


@pytest.mark.parametrize(
    ("year", "first"),
    # The published table, read again: one value a decade and both sides of the misprint.
    [(1838, 546), (1839, 1_061), (1840, 1_465), (1859, 22_477), (1870, 98_460), (1880, 223_211),
     (1890, 418_665), (1900, 640_167), (1903, 717_521), (1920, 1_326_899), (1930, 1_742_181),
     (1935, 1_985_878), (1960, 2_919_443), (1970, 3_487_470), (1974, 3_781_914)],
)  # fmt: skip
def test_first_number_of_a_year_is_that_of_the_published_table(year, first):
    assert year_range(year).start == first
    assert year not in FROM_MEMORY


def test_numbers_grow_from_year_to_year_without_a_leap():
    firsts = list(FIRST_NUMBER.values())
    counts = [after - before for before, after in pairwise(firsts)]

    assert list(FIRST_NUMBER) == list(range(1836, 1976))
    assert min(counts) > 0
    # From 1870 on no year gave less than half or more than double the year before;
    # a slip of a digit in a value from memory would show here.
    settled = counts[34:]
    ratios = [after / before for before, after in pairwise(settled)]
    assert min(ratios) > 0.5
    assert max(ratios) < 2


@pytest.mark.parametrize(
    ("issued", "filed", "expires", "statute"),
    [
        # Act of 4 July 1836, 14 years; Act of 2 March 1861, 17 years; 35 U.S.C. 154.
        (dt.date(1836, 7, 13), None, dt.date(1850, 7, 13), "Patent Act of 4 July 1836"),
        (dt.date(1861, 2, 26), None, dt.date(1875, 2, 26), "Patent Act of 4 July 1836"),
        (dt.date(1861, 3, 2), None, dt.date(1878, 3, 2), "Act of 2 March 1861"),
        (dt.date(1869, 4, 13), None, dt.date(1886, 4, 13), "Act of 2 March 1861"),
        (dt.date(1906, 5, 22), dt.date(1903, 3, 23), dt.date(1923, 5, 22), "Act of 2 March 1861"),
        (dt.date(1990, 1, 2), dt.date(1985, 5, 6), dt.date(2007, 1, 2), "35 U.S.C. 154(c)(1)"),
        (dt.date(1990, 1, 2), dt.date(1988, 5, 6), dt.date(2008, 5, 6), "35 U.S.C. 154(c)(1)"),
        (dt.date(1997, 1, 7), dt.date(1995, 6, 7), dt.date(2015, 6, 7), "35 U.S.C. 154(c)(1)"),
        (dt.date(1999, 3, 2), dt.date(1995, 6, 8), dt.date(2015, 6, 8), "35 U.S.C. 154(a)(2)"),
    ],
)
def test_term_is_that_of_the_statute(issued, filed, expires, statute):
    answer = expiry(issued, filed=filed)

    assert answer.date == expires
    assert answer.statute.startswith(statute)


def test_patents_of_1836_to_1861_could_be_extended_seven_years():
    assert expiry(dt.date(1849, 5, 22)).extended == dt.date(1870, 5, 22)
    assert expiry(dt.date(1869, 4, 13)).extended is None


@pytest.mark.parametrize("code", ["AA", "QM", "QZ", "XA", "XZ", "ZZ"])
def test_codes_that_iso_3166_leaves_to_users_are_named_so(code):
    # ISO 3166-1, user-assigned code elements: AA, QM to QZ, XA to XZ, ZZ.
    assert country_in_words(code) == f"user-assigned code {code}, no real country"
