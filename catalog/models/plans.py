"""Plans: named what-ifs about which parts go where."""

from datetime import datetime, timedelta

from django.conf import settings
from django.db import models
from django.urls import reverse
from django.utils import timezone
from simple_history.models import HistoricalRecords

# A worker that has given no sign of life for so long is taken for dead; so is a request that has
# not come back so long after the time that the plan was given, as a request gives no signs.
SILENCE = timedelta(seconds=30)
GRACE = timedelta(seconds=120)


class PlanQuerySet(models.QuerySet["Plan"]):
    def for_list(self) -> "PlanQuerySet":
        return self.select_related("made_by")

    def ready(self) -> "PlanQuerySet":
        return self.filter(state=Plan.State.READY)

    def waiting(self) -> "PlanQuerySet":
        """Return what nobody works on yet, the oldest first."""
        return self.filter(state=Plan.State.WAITING).order_by("made_at", "pk")


class Plan(models.Model):
    """A named what-if: the inputs it was made from and the best use that was found.

    The plans that wait are the queue from which the worker takes them.
    """

    class State(models.TextChoices):
        WAITING = "waiting", "waiting to be worked out"
        WORKING = "working", "being worked out"
        READY = "ready", "ready"
        FAILED = "failed", "could not be worked out"

    name = models.CharField(max_length=120)
    inputs = models.JSONField(default=dict, blank=True)
    outcome = models.JSONField(default=dict, blank=True)
    state = models.CharField(max_length=8, choices=State.choices, default=State.WAITING)
    progress = models.CharField(max_length=240, blank=True, editable=False)
    error = models.CharField(max_length=240, blank=True, editable=False)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="plans"
    )
    started_at = models.DateTimeField(null=True, blank=True, editable=False)
    last_sign_at = models.DateTimeField(null=True, blank=True, editable=False)
    finished_at = models.DateTimeField(null=True, blank=True, editable=False)
    applied_at = models.DateTimeField(null=True, blank=True)
    history = HistoricalRecords(excluded_fields=["progress", "last_sign_at"])

    objects = PlanQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at", "-pk"]
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(name=""),
                name="plan_has_name",
                violation_error_message="Give the plan a name, so that others can find it.",
            )
        ]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("plan-detail", args=[self.pk])

    @property
    def is_finished(self) -> bool:
        return self.state in (self.State.READY, self.State.FAILED)

    @property
    def is_applied(self) -> bool:
        return self.applied_at is not None

    def is_abandoned(self, *, at: datetime | None = None) -> bool:
        """Say whether whoever worked on it is gone, so that another may take it up."""
        if self.state != self.State.WORKING or self.started_at is None:
            return False
        now = at or timezone.now()
        if self.last_sign_at is not None:
            return self.last_sign_at + SILENCE < now
        return self.started_at + timedelta(seconds=self.inputs.get("seconds", 0)) + GRACE < now

    def is_left_lying(self, *, at: datetime | None = None) -> bool:
        """Say whether it has waited so long that perhaps no worker is running."""
        is_waiting = self.state == self.State.WAITING
        return is_waiting and self.made_at + GRACE < (at or timezone.now())
