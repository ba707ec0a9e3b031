"""How a sheet is printed: on which paper, for whom, and as which issue."""

import datetime as dt
from dataclasses import dataclass

from catalog.printing.papers import Paper


@dataclass(frozen=True, slots=True)
class Edition:
    """One way of printing; without an ``issue`` number it is a mere view of the record.

    ``address`` is where the QR code leads. For a visitor nothing private is printed.
    """

    address: str
    paper: Paper = Paper.A4
    for_visitor: bool = False
    issue: int | None = None
    at: dt.datetime | None = None

    @property
    def named(self) -> dict[str, object]:
        """Return what every template is told of the edition."""
        return {"paper": self.paper, "issue": self.issue, "is_public": self.for_visitor}
