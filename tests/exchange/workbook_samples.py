"""Workbooks made for tests: ordinary ones, and ones no spreadsheet program would write."""

import io
import zipfile

from openpyxl import Workbook

_SHEET = "xl/worksheets/sheet1.xml"
_XML = (
    '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">'
    "{dimension}<sheetData>{rows}</sheetData></worksheet>"
)


def workbook_with(rows, *, other_sheets=()):
    """Make a workbook of ``rows``, and of one more sheet for each (title, rows, state)."""
    workbook = Workbook()
    for row in rows:
        workbook.active.append(row)
    for title, other_rows, state in other_sheets:
        sheet = workbook.create_sheet(title)
        sheet.sheet_state = state
        for row in other_rows:
            sheet.append(row)
    return bytes_of(workbook)


def bytes_of(workbook):
    file = io.BytesIO()
    workbook.save(file)
    return file.getvalue()


def workbook_of_xml(rows, *, dimension=""):
    """Make a workbook whose sheet is the given XML, row elements and all."""
    return with_member(workbook_with([["x"]]), _SHEET, _XML.format(rows=rows, dimension=dimension))


def workbook_of_shared_strings(rows, strings):
    """Make a workbook whose cells point into a list of strings, as programs write it."""
    part = "application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"
    data = with_member(workbook_of_xml(rows), "xl/sharedStrings.xml", strings)
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        types = archive.read("[Content_Types].xml").decode()
    override = f'<Override PartName="/xl/sharedStrings.xml" ContentType="{part}"/></Types>'
    return with_member(data, "[Content_Types].xml", types.replace("</Types>", override))


def with_member(data, name, content):
    """Replace one member of a ZIP archive, or add it."""
    file = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(data)) as old,
        zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for member in old.namelist():
            if member != name:
                new.writestr(member, old.read(member))
        new.writestr(name, content)
    return file.getvalue()


def row_xml(number, *texts):
    cells = "".join(
        f'<c r="{chr(65 + index)}{number}" t="inlineStr"><is><t>{text}</t></is></c>'
        for index, text in enumerate(texts)
    )
    return f'<row r="{number}">{cells}</row>'


def archive_of(**members):
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for name, content in members.items():
            archive.writestr(name, content)
    return file.getvalue()
