"""Worn patent markings: days, numbers, forms and what is said of them."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.reckoning.patent_markings import read_marking
from catalog.reckoning.patent_numbers import PatentError, issue_year

days = st.dates(date(1842, 1, 1), date(1927, 12, 31))


def every_day(first, last):
    """Yield each day from first through last."""
    for count in range((last - first).days + 1):
        yield first + timedelta(days=count)


def test_worn_date_gives_every_day_that_matches_tuesdays_first():
    expected = [
        day for day in every_day(date(1900, 1, 1), date(1909, 12, 31))
        if day.month == 8 and 10 <= day.day <= 19
    ]  # fmt: skip

    found = [candidate.day for candidate in read_marking("PAT'D ?UG 1? 190?").days]

    assert sorted(found) == expected
    assert found == sorted(expected, key=lambda day: (day.strftime("%A") != "Tuesday", day))


def test_marked_date_knows_its_issue_days_and_years():
    (marked,) = read_marking("PAT'D ?UG 1? 190?").dates

    assert marked.issue_days == marked.days[:14]
    assert marked.years == tuple(range(1900, 1910))


def test_many_days_are_counted_and_the_first_few_named():
    words = read_marking("PAT'D ?UG 1? 190?").in_words()

    assert words.startswith(
        "“?UG 1? 190?” fits 100 days, 14 of them usual days of issue (Tuesdays, from 1848): "
        "14 August 1900 (about No. 653,902 to 657,241), 13 August 1901"
    )
    assert "18 August 1903 (about No. 734,813 to 739,017) and 8 more. Not made before 10" in words


def test_day_outside_the_table_has_no_numbers():
    marking = read_marking("PAT. MAY 4 1830")

    assert [candidate.numbers for candidate in marking.days] == [None]
    assert marking.in_words().startswith("“MAY 4 1830”: 4 May 1830. Not made before 4 May 1830.")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("PAT FEB 30 1889", "“FEB 30 1889” is no day of the calendar; read it again."),
        ("BRIT PAT 123456", "British No. 123,456, of 1916 or later."),
        ("PATENT 4321 OF 1889", "British No. 4,321 of 1889, the year of application."),
        ("BRIT PAT 4321", "British No. 4,321; British numbers began anew each year until 1915,"),
    ],
)
def test_what_cannot_be_dated_says_why(text, sentence):
    assert read_marking(text).in_words().startswith(sentence)


def test_each_candidate_day_carries_its_number_range():
    first = read_marking("PAT'D ?UG 1? 190?").days[0]

    assert first.day == date(1900, 8, 14)
    assert issue_year(first.numbers.start) == issue_year(first.numbers.stop - 1) == 1900


@given(
    days,
    st.sampled_from(["%b %-d, %Y", "%B %-d %Y", "%-d %B %Y", "%b. %d '%y", "%m-%d-%Y"]),
    st.data(),
)
def test_wearing_a_character_away_never_loses_the_true_day(day, form, data):
    written = day.strftime(form).upper()
    place = data.draw(st.sampled_from([i for i, c in enumerate(written) if c.isdigit()]))
    worn = written[:place] + "?" + written[place + 1 :]

    marking = read_marking(f"PAT'D {worn}")

    assert day in [candidate.day for candidate in marking.days]


@given(days, st.data())
def test_wearing_letters_of_the_month_never_loses_the_true_day(day, data):
    month = list(f"{day:%B}".upper())
    for place in data.draw(st.sets(st.integers(0, len(month) - 1), max_size=len(month))):
        month[place] = "?"

    marking = read_marking(f"PATENTED {''.join(month)} {day.day}, {day.year}")

    assert day in [candidate.day for candidate in marking.days]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("PATENTED APRIL 13TH 1869", [(1869, 4, 13)]),
        ("Pat. Apr·13·1869", [(1869, 4, 13)]),
        ("PAT 4-13-69", [(1869, 4, 13)]),
        ("PAT 13-4-69", [(1869, 4, 13)]),
        ("PAT'D AUG14'88", [(1888, 8, 14)]),
        ("PAT. 0CT 9 '06", [(1906, 10, 9)]),
        ("14 JUNE 1881", [(1881, 6, 14)]),
        ("PAT AUG 3RD 1893", [(1893, 8, 3)]),
        ("PAT. JUNE 14 & AUG 2, 1881", [(1881, 6, 14), (1881, 8, 2)]),
        ("PAT. FEB 9 & 16, 1886", [(1886, 2, 9), (1886, 2, 16)]),
        ("PAT'D JUNE 14, 21, 1881", [(1881, 6, 14), (1881, 6, 21)]),
        ("PAT. MAR 3, 1885 JUN 21 1887", [(1885, 3, 3), (1887, 6, 21)]),
        ("PATENTED MAY 5. '91. OCT. 18, '92", [(1891, 5, 5), (1892, 10, 18)]),
        ("PAT FEB 30 1889", []),
    ],
)  # fmt: skip
def test_dates_are_read_in_the_forms_met_on_castings(text, expected):
    marking = read_marking(text)

    assert [candidate.day for candidate in marking.days] == [date(*parts) for parts in expected]
    assert (marking.form, marking.numbers) == ("date", ())


def test_figures_alone_count_both_orders():
    marking = read_marking("PAT 10-11-12")

    assert [one.day for one in marking.days] == [date(1912, 10, 11), date(1912, 11, 10)]
    assert "days of both orders are counted" in marking.in_words()


@pytest.mark.parametrize(
    ("text", "count"),
    [("PATENTED 1869", 365), ("PAT MAY 1869", 31), ("PAT. ??? 14 1888", 12), ("PAT AUG 14", 86)],
)
def test_missing_parts_leave_every_day_open(text, count):
    assert len(read_marking(text).days) == count


@pytest.mark.parametrize(
    ("text", "figures", "years"),
    [
        ("PAT. 821,393", ["821393"], (1906,)),
        (
            "PAT NO 1?86854",
            ["1?86854"],
            (1914, 1916, 1918, 1921, 1924, 1926, 1928, 1930, 1932, 1935),
        ),
        ("PATS. 821,393; 1,786,854 OTHERS PEND.", ["821393", "1786854"], (1906, 1930)),
        ("PAT NO 1846", ["1846"], (1840,)),
        ("PAT. 9,999,999", ["9999999"], ()),
        ("PATENT No. 4321 OF 1889", ["4321"], (1889,)),
        ("BRIT. PAT. 123456", ["123456"], ()),
    ],
)
def test_numbers_are_read_with_the_years_they_may_be_of(text, figures, years):
    marking = read_marking(text)

    assert [number.figures for number in marking.numbers] == figures
    assert (marking.form, marking.years, marking.days) == ("number", years, ())


@given(st.integers(110, 3_858_240), st.data())
def test_worn_number_has_the_years_of_all_its_readings(number, data):
    written = list(str(number))
    for place in data.draw(st.sets(st.integers(0, len(written) - 2), max_size=2)):
        written[place] = "?"
    worn = "".join(written)

    (marked,) = read_marking(f"PAT. NO. {worn}").numbers

    readings = [worn]
    while any("?" in reading for reading in readings):
        readings = [r.replace("?", digit, 1) for r in readings for digit in "0123456789"]
    sought = {int(reading) for reading in readings if reading[0] != "0"}
    assert set(marked.years) == {issue_year(n) for n in sought if n < 3_858_241}
    assert marked.readings == len(readings)


@pytest.mark.parametrize(
    "text", ["PAT. PENDING", "PATENT APPLIED FOR", "PAT. APL'D FOR", "PAT. P?ND?NG"]
)
def test_pending_is_told_in_words(text):
    marking = read_marking(text)

    assert (marking.form, marking.is_pending, marking.not_before) == ("pending", True, None)
    assert marking.in_words().startswith("A patent had been applied for and not yet granted")


@pytest.mark.parametrize("text", ["PATENTED", "PAT. ?", "TOLVANE 14", "No. 412", "??????", "£"])
def test_marking_without_date_or_number_is_answered_in_words(text):
    marking = read_marking(text)

    assert (marking.form, marking.years, marking.text) == ("neither", (), text)
    assert marking.in_words().startswith("No date and no number of a patent can be read")


def test_nothing_at_all_is_refused_in_words():
    with pytest.raises(PatentError, match=r"write \? for each character"):
        read_marking("  ")


def test_piece_is_no_older_than_the_latest_patent_on_it():
    assert read_marking("PAT. JUNE 14 & AUG 2, 1881").not_before == date(1881, 8, 2)
    assert read_marking("PAT. AUG 2 1881, NO. 821,393").not_before == date(1906, 1, 1)
    assert read_marking("PAT. AUG 2 1881, NO. 821,393").form == "date and number"


def test_patents_of_other_days_and_numbers_do_not_agree():
    by_day, by_number = read_marking("PAT AUG 2 1881"), read_marking("PAT 82?,393")

    assert by_day.agrees_with(245_000, date(1881, 8, 2))
    assert by_number.agrees_with(821_393, date(1906, 5, 22))
    assert not by_day.agrees_with(821_393, date(1906, 5, 22))
    assert not read_marking("BRIT PAT 821393").agrees_with(821_393, date(1906, 5, 22))


def test_form_of_the_marking_says_what_it_means_for_age():
    words = [read_marking(text).in_words() for text in ("PAT AUG 2 1881", "PAT 1,786,854")]

    assert "a date suggests a pattern made before about 1927" in words[0]
    assert (
        "a number in place of a date suggests a pattern made after about 1927" in words[1].lower()
    )


def test_whole_answer_reads_as_sentences():
    assert read_marking("DES. 12,345 PAT. AUG 3, 1881 & PEND.").in_words() == (
        "“AUG 3, 1881”: Wednesday 3 August 1881 (about No. 244,185 to 246,612), though US patents "
        "were not usually issued then. “DES. 12,345” is of a series of its own (design, reissue, "
        "plant or registered design) and is not looked up here. Not made before 3 August 1881. "
        "In the United States goods were marked with the date of the patent from 1842 (from memory) "
        "and with its number from April 1927, so a date suggests a pattern made before about 1927. "
        "Another patent had been applied for and not yet granted. A pattern often stayed in use long "
        "after (common practice, no source)."
    )


@given(st.text(alphabet="PATDECMRJUNLY'?0123456789 .,-&/", max_size=30))
def test_any_marking_gets_an_answer(text):
    if text.strip():
        assert read_marking(text).in_words().endswith((".", ")."))


def test_figures_behind_no_are_a_number_though_they_could_spell_a_worn_month():
    (marked,) = read_marking("PAT. NO. ?0?1").numbers

    assert (marked.figures, read_marking("PAT. NO. ?0?1").dates) == ("?0?1", ())
