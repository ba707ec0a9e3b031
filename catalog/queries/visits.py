"""Since when what others do is news to a member."""

from datetime import datetime

from catalog.models import Member, Visit
from catalog.reckoning.stays import Stay, opened


def stay_of(member: Member) -> Stay | None:
    """Return the member's visit that goes on, or the last one; nothing before their first."""
    visit = Visit.objects.filter(member=member).first()
    return visit.stay if visit else None


def is_to_be_noted(stay: Stay | None, at: datetime) -> bool:
    """Tell whether a look at this moment changes what is known of the member's visits."""
    return opened(stay, at) is not stay
