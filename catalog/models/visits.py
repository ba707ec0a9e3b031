"""When a member was here last, so that the shop's page can tell what others did since."""

from django.conf import settings
from django.db import models

from catalog.reckoning.stays import Stay


class Visit(models.Model):
    """A member's visit that goes on, or the last one.

    When somebody was here is nobody else's business: it is kept apart from the member, leaves
    no history, and no page or file tells it to anybody but themselves.
    """

    member = models.OneToOneField(
        settings.AUTH_USER_MODEL, on_delete=models.CASCADE, primary_key=True, related_name="+"
    )
    opened_at = models.DateTimeField()
    since = models.DateTimeField(null=True, blank=True)
    is_over = models.BooleanField(default=False)

    def __str__(self) -> str:
        return "a visit"

    @property
    def stay(self) -> Stay:
        return Stay(self.opened_at, self.since, self.is_over)
