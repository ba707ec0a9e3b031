"""Read a list of parts in from the command line, as the screens do."""

from pathlib import Path
from typing import Any

from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError, CommandParser

from catalog.exchange.part_columns import guess_fields
from catalog.exchange.part_lists import PartList, read_list
from catalog.exchange.part_previews import summary_of
from catalog.exchange.tables import TableError, read_table
from catalog.models import Accession, ImportBatch, Member
from catalog.operations.imports import choose_columns, import_parts, keep_list
from catalog.reckoning.numbers import AccessionNumberError, parse_accession_number


class Command(BaseCommand):
    help = "Read a CSV or XLSX list of parts in; the columns are guessed from their headings."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path)
        parser.add_argument("--by", required=True, help="The member who reads it in.")
        parser.add_argument("--accession", default="", help="Such as 2026.4.")
        parser.add_argument(
            "--unit", default="", choices=ImportBatch.Unit.values, help="Of bare lengths."
        )
        parser.add_argument("--problems", type=Path, help="Where to write rows with problems.")
        parser.add_argument("--dry-run", action="store_true", help="Only say what would be done.")

    def handle(self, *args: Any, **options: Any) -> None:
        member = _member(options["by"])
        accession = _accession(options["accession"]) if options["accession"] else None
        try:
            data = options["file"].read_bytes()
            table = read_table(options["file"].name, data)
        except (OSError, TableError) as problem:
            raise CommandError(str(problem)) from problem
        fields = guess_fields(table)
        parts = read_list(table, fields, accession=accession, unit=options["unit"])
        self._report(parts)
        if options["problems"]:
            options["problems"].write_bytes(parts.problem_file())
        if options["dry_run"]:
            self.stdout.write("Nothing is recorded: this was a dry run.")
            return
        batch = keep_list(options["file"].name, data, accession=accession, by=member)
        choose_columns(batch, fields, unit=options["unit"], by=member)
        self._record(parts, batch, member)

    def _report(self, parts: PartList) -> None:
        for row in parts.rows:
            for problem in row.problems:
                self.stdout.write(f"Line {row.line_number}: {problem}")
        self.stdout.write(f"{summary_of(parts)}.")

    def _record(self, parts: PartList, batch: ImportBatch, member: Member) -> None:
        try:
            outcome = import_parts(parts.good_parts, batch=batch, by=member)
        except ValidationError as refusal:
            raise CommandError(" ".join(refusal.messages)) from refusal
        for line, why in outcome.refused.items():
            self.stdout.write(f"Line {line}: {why}")
        self.stdout.write(f"Recorded {outcome.recorded}.")


def _member(username: str) -> Member:
    member = Member.objects.filter(username=username).first()
    if member is None or not member.is_volunteer:
        raise CommandError(f"No member “{username}” may record parts.")
    return member


def _accession(text: str) -> Accession:
    try:
        number = parse_accession_number(text)
    except AccessionNumberError as problem:
        raise CommandError(str(problem)) from problem
    rows = Accession.objects.kept().filter(year=number.year, serial=number.accession)
    accession = rows.first()
    if accession is None:
        raise CommandError(f"There is no donation {text}. Record it first.")
    return accession
