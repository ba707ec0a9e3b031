"""When a piece was made, from all that speaks for its age."""

import datetime as dt

from catalog.reckoning.ages import AgeEvidence, made_between

PATENT = AgeEvidence("patent date cast in it", not_before=dt.date(1902, 3, 4), source="mark")
MARKING = AgeEvidence("marked with a date, not a number", not_after=dt.date(1927, 12, 31))
BUILDER = AgeEvidence(
    "the foundry's years", dt.date(1896, 1, 1), dt.date(1908, 12, 31), "directory"
)
CLOSED = AgeEvidence("the foundry had closed", not_after=dt.date(1900, 12, 31), source="register")


def test_each_bound_is_set_by_the_closest_evidence():
    made = made_between([PATENT, MARKING, BUILDER])

    assert (made.earliest, made.latest) == (dt.date(1902, 3, 4), dt.date(1908, 12, 31))
    assert (made.set_earliest, made.set_latest) == ((PATENT,), (BUILDER,))
    assert made.in_words() == (
        "Made between 4 March 1902 and 31 December 1908 (patent date cast in it; the foundry's years)."
    )


def test_evidence_on_one_side_leaves_the_other_open():
    assert (
        made_between([PATENT]).in_words() == "Made 4 March 1902 or later (patent date cast in it)."
    )
    assert made_between([MARKING]).in_words() == (
        "Made 1927 or earlier (marked with a date, not a number)."
    )


def test_no_evidence_says_nothing():
    assert made_between([]).in_words() == "Nothing recorded says when it was made."


def test_evidence_that_cannot_agree_is_named_in_pairs():
    made = made_between([PATENT, BUILDER, CLOSED])

    assert (made.earliest, made.latest) == (None, None)
    assert made.in_words() == (
        "These cannot all be true: patent date cast in it, not before 4 March 1902 (mark); "
        "the foundry had closed, not after 31 December 1900 (register)."
    )


def test_evidence_that_contradicts_itself_is_one_statement():
    turned = AgeEvidence("a misread mark", dt.date(1910, 1, 1), dt.date(1901, 1, 1))

    assert [len(one.statements) for one in made_between([turned]).contradictions] == [1]
