"""Text tables in every encoding and layout that spreadsheet programs write."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.exchange.csv_files import read_csv, write_csv
from catalog.exchange.sheets import Line, TableError

TEXT = "Item,Note\njournal box,2½ × 4 in – worn\n"
CELLS = [("Item", "Note"), ("journal box", "2½ × 4 in – worn")]


def cells(data):
    return [line.cells for line in read_csv(data).lines]


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16", "utf-16-le", "utf-16-be"]
)
def test_every_common_encoding_is_read(encoding):
    assert cells(TEXT.encode(encoding)) == CELLS


def test_a_character_that_cannot_be_read_spoils_its_own_row_only():
    lines = read_csv("Item,Note\n“box”,½ in\nhinge,x".encode() + b"\x9d\n").lines

    assert lines[1] == Line(2, ("“box”", "½ in"))
    assert lines[2] == Line(
        3, ("hinge", "x\ufffd"), "A character in this row cannot be read; it is shown as \ufffd."
    )


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_every_line_ending_is_read(ending):
    assert cells(TEXT.replace("\n", ending).encode()) == CELLS


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_every_delimiter_is_found(delimiter):
    rows = [
        ("Item", "Bore, mm", "Note; place"),
        ("brass", "63,5", "B2 | left"),
        ("hinge", "", "a\tb"),
    ]
    text = io.StringIO()
    csv.writer(text, delimiter=delimiter).writerows(rows)

    assert cells(text.getvalue().encode()) == rows


def test_decimal_commas_do_not_hide_semicolons():
    assert cells(b"Item;Bore\nbox;63,5\nbrass;64,0\n")[1] == ("box", "63,5")


def test_a_delimiter_named_in_the_first_line_is_believed():
    lines = read_csv(b"sep=;\r\nItem;Note\r\nbox;a, b\r\n").lines

    assert lines == (Line(2, ("Item", "Note")), Line(3, ("box", "a, b")))


def test_one_column_needs_no_delimiter():
    assert cells(b"Item\njournal box\nhinge\n") == [("Item",), ("journal box",), ("hinge",)]


def test_line_numbers_are_those_an_editor_shows():
    lines = read_csv(b'Item,Note\n\nbox,"first\nsecond"\n , \nhinge,x\n').lines

    assert [(line.line_number, line.cells[-1]) for line in lines] == [
        (1, "Note"),
        (3, "first\nsecond"),
        (6, "x"),
    ]


def test_inch_marks_inside_a_cell_are_no_quotation_marks():
    assert cells(b'Item,Size\nwheelset,16" wheels\n')[1] == ("wheelset", '16" wheels')


def test_a_quotation_mark_never_closed_takes_no_other_row_with_it():
    lines = read_csv(b'Item,Qty\nbox,6\n"hinge,9\nbrass,3\nlatch,2\n').lines

    assert [line.cells for line in lines if not line.problem] == [
        ("Item", "Qty"),
        ("box", "6"),
        ("brass", "3"),
        ("latch", "2"),
    ]
    assert [line for line in lines if line.problem] == [
        Line(3, ('"hinge', "9"), "The quotation marks in this line are not in pairs.")
    ]


def test_a_cell_larger_than_the_library_takes_is_a_problem_and_kept():
    long = b"x" * 200_000

    lines = read_csv(b"Item,Note\nbox," + long + b"\nhinge,y\n").lines

    assert [bool(line.problem) for line in lines] == [False, True, False]
    assert lines[1].cells == ("box", long.decode())


def test_too_many_columns_are_refused():
    with pytest.raises(TableError, match=r"Line 2 has more than 200 columns\."):
        read_csv(b"Item,Qty\n" + b",".join([b"x"] * 201))


def test_what_is_written_opens_with_its_encoding_known():
    data = write_csv(["Item", "Note"], [["box", "2½ in"]])

    assert data == "\ufeffItem,Note\r\nbox,2½ in\r\n".encode()


@pytest.mark.parametrize("cell", ["=2*3", "+1", "-1", "@SUM(A1)", "\t=2"])
def test_no_cell_that_is_written_can_run_as_a_formula(cell):
    assert write_csv(["Note"], [[cell]]).decode("utf-8-sig").splitlines()[1] == f"'{cell}"


def test_an_apostrophe_that_was_there_stays():
    assert cells(b"Item,Note\n'tis a box,''=2\nbox,'=2\n")[1:] == [
        ("'tis a box", "'=2"),
        ("box", "=2"),
    ]


@given(
    st.lists(
        st.lists(
            st.text(alphabet="ab=+-@'\",;\t\n½ ", max_size=6).map(str.strip), min_size=3, max_size=3
        ).filter(any),
        min_size=1,
        max_size=6,
    )
)
def test_what_is_written_is_read_again(rows):
    header = ("Item", "Qty", "Note")

    again = read_csv(write_csv(header, rows))

    assert [line.cells for line in again.lines] == [header, *map(tuple, rows)]
    assert not any(line.problem for line in again.lines)
