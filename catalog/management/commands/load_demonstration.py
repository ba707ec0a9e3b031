"""Load the invented Marrow Fell Tramway Group, and say how to sign in."""

from typing import Any

from django.core.management.base import BaseCommand

from catalog.exchange.demonstration import PASSWORD, load_demonstration
from catalog.models.members import Role


class Command(BaseCommand):
    """Load the demonstration once; a second run changes nothing."""

    help = __doc__ or ""

    def handle(self, *args: Any, **options: Any) -> None:
        loaded = load_demonstration()
        what = "Loaded" if loaded.is_new else "Already there:"
        self.stdout.write(
            f"{what} the Marrow Fell Tramway Group, invented throughout: "
            f"{loaded.vehicles} vehicles, {loaded.parts} parts."
        )
        names = ", ".join(role.value for role in Role)
        self.stdout.write(f"Sign in as {names}; the password of each is {PASSWORD}.")
