"""Sheets of many records as one file, told one by one while they are made."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from catalog.models import Member, Part, PrintedSheet, Vehicle
from catalog.operations.printed_sheets import Printed, issue_sheet, next_number
from catalog.printing.editions import Edition
from catalog.printing.records import record_sheet
from catalog.printing.sheets import bound

Records = Sequence[Vehicle | Part]


@dataclass(frozen=True, slots=True)
class Laid:
    """One sheet that is made: of what, and how many pages it has."""

    label: str
    pages: int


def print_run(
    records: Records,
    edition_of: Callable[[Vehicle | Part], Edition],
    title: str,
    *,
    by: Member,
) -> Iterator[Laid | PrintedSheet]:
    """Yield each sheet as it is made, and at last the issue under which all are kept."""
    number = next_number()
    sheets = []
    for record in records:
        sheets.append(record_sheet(record, replace(edition_of(record), issue=number)))
        yield Laid(str(record), len(sheets[-1].pages))

    def make(taken: int) -> bytes:
        if taken == number:
            return bound(sheets)
        return bound([record_sheet(one, replace(edition_of(one), issue=taken)) for one in records])

    edition = edition_of(records[0])
    printed = Printed(PrintedSheet.Kind.SEVERAL, None, title, edition.paper, edition.for_visitor)
    yield issue_sheet(printed, make, by=by, at=edition.at)
