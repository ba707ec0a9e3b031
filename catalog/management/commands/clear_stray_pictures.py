"""Clear away photographs whose record was never written: for the nightly round."""

from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils import timezone

from catalog.operations.stray_pictures import clear_stray_pictures, stray_pictures


class Command(BaseCommand):
    help = "Remove photographs older than a day that no record names, nor its history."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--dry-run", action="store_true", help="Only say what would be done.")

    def handle(self, *args: Any, **options: Any) -> None:
        act = stray_pictures if options["dry_run"] else clear_stray_pictures
        names = act(now=timezone.now())
        done = "would be removed" if options["dry_run"] else "removed"
        for name in names:
            self.stdout.write(name)
        self.stdout.write(f"Stray photographs {done}: {len(names)}.")
