"""Reading a group's spreadsheet: the header is found, and no row is ever lost."""

from random import Random

import pytest

from catalog.exchange.tables import (
    ProblemRow,
    Row,
    Table,
    TableError,
    read_table,
    write_problems,
)
from tests.exchange.workbook_samples import archive_of, workbook_with

HOW_TO_SPLIT = (
    "Split it into files of at most 20,000 rows, each with the header on top, "
    "and import them one after another."
)


def read(text):
    return read_table("parts.csv", text.encode())


def refusal(data, name="parts.csv"):
    with pytest.raises(TableError) as caught:
        read_table(name, data)
    return str(caught.value)


def cells(table):
    return [row.cells for row in table.rows]


def test_a_plain_table_is_read():
    table = read("No.,Description,Qty\n1,journal box,6\n2,strap hinge,9\n")

    assert table == Table(
        header=("No.", "Description", "Qty"),
        rows=(Row(2, ("1", "journal box", "6")), Row(3, ("2", "strap hinge", "9"))),
        problems=(),
    )


def test_the_header_is_found_below_a_title():
    table = read("Brannock Vale gift,,\nlisted by Ann,,May\n\nItem,Qty,Shelf\nbrass,3,B2\n")

    assert table.header == ("Item", "Qty", "Shelf")
    assert table.rows == (Row(5, ("brass", "3", "B2")),)
    assert table.notes == (
        "Line 1 stands above the header and was left out: “Brannock Vale gift”.",
        "Line 2 stands above the header and was left out: “listed by Ann May”.",
    )


def test_headings_nobody_knows_are_a_header_all_the_same():
    table = read("wat,waar,hoeveel\nveer,kist 2,4\n")

    assert table.header == ("wat", "waar", "hoeveel")
    assert cells(table) == [("veer", "kist 2", "4")]


def test_without_a_header_the_first_row_is_kept():
    table = read("brass,3,B2\nhinge,9,B4\n")

    assert table.header == ("Column 1", "Column 2", "Column 3")
    assert cells(table) == [("brass", "3", "B2"), ("hinge", "9", "B4")]
    assert table.notes == ("There is no header, so the columns are only numbered.",)


def test_rows_of_the_wrong_width_become_problems_and_keep_their_words():
    table = read("Item,Qty,Shelf\nbrass,3\nhinge,left, bent,9,B4\nlatch,2,B1\n")

    assert table.rows == (Row(4, ("latch", "2", "B1")),)
    assert table.problems == (
        ProblemRow(
            2,
            ("brass", "3"),
            "This row has 2 cells where the header has 3. A cell is missing.",
        ),
        ProblemRow(
            3,
            ("hinge", "left", "bent", "9", "B4"),
            "This row has 5 cells where the header has 3. "
            "A cell may hold a comma without quotation marks.",
        ),
    )


def test_a_row_of_one_cell_is_named_in_the_singular():
    (problem,) = read("Item,Qty\nbrass,3\nhinge\n").problems

    assert problem.problem == "This row has 1 cell where the header has 2. A cell is missing."


def test_empty_cells_beyond_the_header_do_no_harm():
    table = read("Item,Qty,,\nbrass,3,,\nlatch,2,,,,\n")

    assert table.header == ("Item", "Qty")
    assert cells(table) == [("brass", "3"), ("latch", "2")]
    assert table.problems == ()


def test_a_filled_column_without_a_heading_is_numbered():
    table = read("Item,Qty,\nbrass,3,cracked\n")

    assert table.header == ("Item", "Qty", "Column 3")
    assert cells(table) == [("brass", "3", "cracked")]


def test_in_a_workbook_a_short_row_is_no_problem():
    data = workbook_with([["Item", "Qty", "Shelf"], ["brass"], ["latch", 2, "B1", "spare"]])

    table = read_table("parts.xlsx", data)

    assert table.header == ("Item", "Qty", "Shelf", "Column 4")
    assert cells(table) == [("brass", "", "", ""), ("latch", "2", "B1", "spare")]
    assert table.problems == ()


def test_what_looks_like_a_formula_is_kept_as_words_and_said():
    table = read("Item,Note\nbrass,=cmd|' /C calc'!A0\n")

    assert table.rows == (
        Row(
            2,
            ("brass", "=cmd|' /C calc'!A0"),
            (
                "“=cmd|' /C calc'!A0” begins like a formula; it is kept as words and never computed.",
            ),
        ),
    )


def test_problem_rows_come_back_mended():
    table = read("Item,Qty\nbrass,3\nhinge,left,9\n=latch\n")

    text = write_problems(table.header, table.problems).decode("utf-8-sig")
    mended = text.replace("hinge,left,9", '"hinge, left",9').replace("'=latch", "'=latch,1")
    again = read(mended)

    assert again.header == ("Problem", "Item", "Qty")
    assert [row.cells[1:] for row in again.rows] == [("hinge, left", "9"), ("=latch", "1")]
    assert again.problems == ()


def test_problem_rows_that_were_not_mended_stay_problems():
    table = read("Item,Qty\nbrass,3\nhinge,left,9\n")

    again = read_table("problems.csv", write_problems(table.header, table.problems))

    assert again.rows == ()
    assert [problem.cells[1:] for problem in again.problems] == [("hinge", "left", "9")]


@pytest.mark.parametrize("count", [1, 20_000])
def test_every_row_is_in_rows_or_problems(count):
    lines = [f"part {number},{number}" if number % 7 else "lost" for number in range(count)]

    table = read("Item,Qty\n" + "\n".join(lines))

    assert len(table.rows) + len(table.problems) == count
    assert [problem.line_number for problem in table.problems] == list(range(2, count + 2, 7))


@pytest.mark.parametrize("count", [20_001, 50_000])
def test_too_many_rows_are_refused_with_the_way_out(count):
    data = ("Item,Qty\n" + "brass,3\n" * count).encode()

    assert refusal(data) == f"This spreadsheet has more than 20,000 rows. {HOW_TO_SPLIT}"


def test_a_file_of_many_megabytes_is_refused_unread():
    words = refusal(b"brass,3\n" * 3_200_000)

    assert words == f"“parts.csv” is larger than 25 MB. {HOW_TO_SPLIT}"


def test_an_empty_file_is_refused_in_words():
    assert refusal(b"") == "“parts.csv” is empty."
    assert refusal(b"\n \n\t\n") == "“parts.csv” is empty."
    assert refusal(b",,\n,,\n") == "“parts.csv” is empty."


def test_a_header_alone_is_refused_in_words():
    assert refusal(b"Item,Qty\n") == "“parts.csv” has a header but no rows below it."


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (
            b"\xd0\xcf\x11\xe0\xa1\xb1",
            "“x” is an old workbook (.xls) or one locked with a password.",
        ),
        (archive_of(**{"content.xml": "<x/>"}), "This is an OpenDocument file (.ods)"),
        (archive_of(**{"Index/Document.iwa": "x"}), "This is a Numbers document"),
        (archive_of(**{"word/document.xml": "<x/>"}), "This is a text document"),
        (archive_of(**{"xl/workbook.bin": "x"}), "This is a binary workbook (.xlsb)"),
        (archive_of(**{"list.txt": "brass"}), "This is a ZIP archive without a workbook in it."),
        (b"PK\x03\x04 broken", "This workbook is damaged and cannot be read."),
        (b"<html><table><tr><td>brass", "This is a web page or another document with markup."),
        (b"Item\0\x01\x02\xff\x81", "This file is not a spreadsheet. If it should be one:"),
    ],
)
def test_other_files_are_refused_with_the_way_to_save_them(data, words):
    refused = refusal(data, "x")

    assert refused.startswith(words)
    assert refused.endswith(
        "Open it in the spreadsheet program, choose “Save as” or “Export”, pick XLSX or CSV, "
        "and import that file."
    )


def test_text_named_like_a_workbook_is_refused():
    words = refusal(b"seven journal boxes\nand ten hinges\n", "List.XLSX")

    assert words.startswith("“List.XLSX” is named like a workbook but is none. Open it in")


def test_chance_damage_gives_a_table_or_a_refusal_and_nothing_else():
    chance = Random(1889)
    whole = workbook_with([["Item", "Qty"], *[["box", number] for number in range(30)]])
    text = "Item,Qty\n" + "“box”,6\n" * 30
    outcomes = set()
    for data in (bytearray(sample) for sample in (whole, text.encode()) for _ in range(80)):
        for _ in range(5):
            data[chance.randrange(len(data))] = chance.randrange(256)
        try:
            outcomes.add(type(read_table("parts", bytes(data))))
        except TableError as error:
            outcomes.add(type(error))

    assert outcomes == {Table, TableError}


@pytest.mark.parametrize(
    ("start", "kind"),
    [
        (b"%PDF-1.7", "a PDF document"),
        (b"\x89PNG\r\n", "a picture"),
        (b"{\\rtf1", "a text document"),
    ],
)
def test_pictures_and_documents_are_named(start, kind):
    assert refusal(start, "list.xlsx") == f"“list.xlsx” is {kind}, not a spreadsheet."
