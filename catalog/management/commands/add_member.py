"""Add a member from the command line: how the first steward of a new catalog comes in."""

from typing import Any

from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError, CommandParser

from catalog.models import Role
from catalog.operations.members import add_member, first_password


class Command(BaseCommand):
    help = "Add a member who can sign in, and print the first password once."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("username")
        parser.add_argument("--role", choices=Role.values, default=Role.STEWARD.value)
        parser.add_argument("--dry-run", action="store_true", help="Only say what would be done.")

    def handle(self, *args: Any, **options: Any) -> None:
        username, role = options["username"], options["role"]
        if options["dry_run"]:
            self.stdout.write(f"{username} would be added as {role}.")
            return
        password = first_password()
        try:
            add_member({"username": username, "role": role}, password=password)
        except ValidationError as refusal:
            raise CommandError(" ".join(refusal.messages)) from refusal
        self.stdout.write(f"Added {username} as {role}. Password: {password}")
