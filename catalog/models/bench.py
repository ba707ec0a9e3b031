"""What was looked at on the bench and needs no second look."""

from django.conf import settings
from django.db import models


class SeenApart(models.Model):
    """Somebody looked at a doubtful part and found it to be a piece of its own."""

    part = models.OneToOneField("catalog.Part", on_delete=models.CASCADE, related_name="seen_apart")
    seen_at = models.DateTimeField()
    seen_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="seen_apart"
    )

    class Meta:
        verbose_name_plural = "parts seen apart"

    def __str__(self) -> str:
        return f"{self.part} is a piece of its own"
