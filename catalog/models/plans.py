"""Plans: named what-ifs about which parts go where."""

from django.conf import settings
from django.db import models
from simple_history.models import HistoricalRecords


class Plan(models.Model):
    """A named what-if: the inputs it was made from and the best use that was found."""

    name = models.CharField(max_length=120)
    inputs = models.JSONField(default=dict)
    outcome = models.JSONField(default=dict)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="plans"
    )
    applied_at = models.DateTimeField(null=True, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["-made_at", "-pk"]

    def __str__(self) -> str:
        return self.name
