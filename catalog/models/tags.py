"""Tags that were printed, so that no code is ever printed for two pieces."""

from django.conf import settings
from django.db import models


class PrintedTag(models.Model):
    """One code on one printed label; ``sheet`` counts the printings, which may run over pages."""

    code = models.CharField(max_length=12, unique=True)
    sheet = models.PositiveIntegerField(db_index=True)
    printed_at = models.DateTimeField()
    printed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="printed_tags"
    )

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.code
