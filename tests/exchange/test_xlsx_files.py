"""Workbooks: values as the sheet shows them, formulas by their results, no bombs."""

from datetime import date, datetime

import pytest
from openpyxl import Workbook

from catalog.exchange.sheets import Line, TableError
from catalog.exchange.xlsx_files import read_xlsx
from tests.exchange.workbook_samples import (
    bytes_of,
    row_xml,
    with_member,
    workbook_of_shared_strings,
    workbook_of_xml,
    workbook_with,
)


def cells(data):
    return [line.cells for line in read_xlsx(data).lines]


def refusal(data):
    with pytest.raises(TableError) as caught:
        read_xlsx(data)
    return str(caught.value)


def test_values_are_read_as_people_would_type_them():
    received = datetime(2026, 5, 17, 14, 22)  # noqa: DTZ001 — workbooks know no zone.
    data = workbook_with(
        [["box", 3, 3.0, 63.5, 0.1 + 0.2, True, date(2026, 5, 17), received, " B2 "]]
    )

    assert cells(data) == [
        ("box", "3", "3", "63.5", "0.3", "yes", "2026-05-17", "2026-05-17 14:22", "B2")
    ]


def test_zeros_that_the_format_adds_are_kept():
    workbook = Workbook()
    workbook.active.append([7, 2026.1, 0.5])
    for cell, number_format in zip(workbook.active[1], ("000", "0.00", "00.0"), strict=True):
        cell.number_format = number_format

    assert cells(bytes_of(workbook)) == [("007", "2026.10", "00.5")]


def test_empty_rows_are_left_out_and_line_numbers_kept():
    data = workbook_with([["Item"], [], [None, "  "], ["box"]])

    assert read_xlsx(data).lines == (Line(1, ("Item",)), Line(4, ("box",)))


def test_the_first_filled_visible_sheet_is_read_and_the_others_named():
    data = workbook_with(
        [],
        other_sheets=[
            ("Old", [["secret"]], "hidden"),
            ("Parts", [["Item"], ["box"]], "visible"),
            ("Empty", [], "visible"),
            ("Notes", [["ask Ann"]], "visible"),
        ],
    )

    sheet = read_xlsx(data)

    assert [line.cells for line in sheet.lines] == [("Item",), ("box",)]
    assert sheet.notes == ("Only the sheet “Parts” was read; not read: “Notes”.",)


def test_a_workbook_without_anything_is_refused():
    assert refusal(workbook_with([])) == "This workbook has no visible sheet with anything in it."


def test_a_formula_without_result_is_a_problem_and_keeps_its_words():
    sheet = read_xlsx(workbook_with([["Item", "Qty"], ["box", "=2*3"], ["hinge", 9]]))

    assert sheet.lines[1] == Line(
        2,
        ("box", "=2*3"),
        "Cell B2 holds the formula =2*3 without a result. Open the file in the "
        "spreadsheet program, save it there, and import it again.",
    )
    assert sheet.lines[2] == Line(3, ("hinge", "9"))


def test_of_a_formula_with_a_result_the_result_is_read():
    rows = row_xml(1, "Item", "Qty") + '<row r="2"><c r="A2"><f>2*3</f><v>6</v></c></row>'

    sheet = read_xlsx(workbook_of_xml(rows))

    assert sheet.lines[1] == Line(2, ("6",))
    assert sheet.notes == (
        "This workbook has formulas; the results they had when saved were read.",
    )


def test_an_error_in_a_cell_is_a_problem():
    rows = row_xml(1, "Item") + '<row r="2"><c r="A2" t="e"><v>#REF!</v></c></row>'

    (_, line) = read_xlsx(workbook_of_xml(rows)).lines

    assert line == Line(2, ("#REF!",), "Cell A2 shows the error #REF!. Mend it or leave it empty.")


def test_words_that_look_like_a_formula_stay_words():
    assert cells(workbook_of_xml(row_xml(1, "=cmd|calc", "'=mended"))) == [("=cmd|calc", "=mended")]


def test_a_sheet_that_lies_about_its_size_is_read_whole():
    rows = row_xml(1, "Item", "Qty") + row_xml(2, "box", "6")

    data = workbook_of_xml(rows, dimension='<dimension ref="A1"/>')

    assert cells(data) == [("Item", "Qty"), ("box", "6")]


def test_a_cell_in_the_last_row_of_all_is_beyond_what_is_read():
    rows = row_xml(1, "Item") + row_xml(2, "box") + row_xml(1_048_576, "far away")

    assert cells(workbook_of_xml(rows)) == [("Item",), ("box",)]


def test_a_cell_beyond_two_hundred_columns_is_refused():
    data = workbook_with([["Item", *[None] * 199, "far away"]])

    assert refusal(data) == "Row 1 has more than 200 columns."


def test_fifty_thousand_rows_are_refused():
    data = workbook_of_xml("".join(row_xml(number, "box", "6") for number in range(1, 50_001)))

    assert refusal(data).startswith("This spreadsheet has more than 20,000 rows. Split it")


def test_a_workbook_that_unpacks_to_too_much_is_refused_unread():
    bomb = workbook_of_xml(" " * 41_000_000)
    assert len(bomb) < 100_000

    assert refusal(bomb).startswith("This workbook is too large to read in one go. Split it")


def test_a_workbook_with_swollen_styles_is_refused_unread():
    bomb = with_member(workbook_with([["x"]]), "xl/styles.xml", " " * 9_000_000)

    assert refusal(bomb).startswith("This workbook holds far more than a table.")


@pytest.mark.parametrize(
    ("member", "content"),
    [
        ("xl/worksheets/sheet1.xml", "<worksheet><sheetData><row>"),
        ("xl/workbook.xml", "not XML at all"),
        ("[Content_Types].xml", "<Types/>"),
    ],
)
def test_a_damaged_workbook_is_refused_in_words(member, content):
    data = with_member(workbook_with([["Item"], ["box"]]), member, content)

    assert refusal(data).startswith("This workbook is damaged and cannot be read.")


def test_strings_kept_in_a_list_of_their_own_are_read():
    row = '<row r="1"><c r="A1" t="s"><v>1</v></c><c r="B1" t="s"><v>0</v></c></row>'
    strings = (
        '<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">'
        "<si><t>Qty</t></si><si><r><t>It</t></r><r><t>em</t></r></si></sst>"
    )

    assert cells(workbook_of_shared_strings(row, strings)) == [("Item", "Qty")]
    assert refusal(workbook_of_shared_strings(row, "<sst")).startswith("This workbook is damaged")


def test_a_workbook_that_breaks_off_is_refused_in_words():
    data = workbook_with([["Item"], ["box"]])

    assert refusal(data[: len(data) // 2]).startswith("This workbook is damaged")
