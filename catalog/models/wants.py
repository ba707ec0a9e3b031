"""Wants: needs made public, and the answers that come back."""

from django.db import models
from simple_history.models import HistoricalRecords

from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet


class WantQuerySet(WithdrawableQuerySet["Want"]):
    def published(self) -> "WantQuerySet":
        return self.kept().filter(is_published=True, closed_at__isnull=True)


class Want(Withdrawable):
    title = models.CharField(max_length=160)
    slug = models.SlugField(max_length=170, unique=True, editable=False)
    component = models.ForeignKey(
        "catalog.Component", on_delete=models.PROTECT, related_name="wants"
    )
    vehicle = models.ForeignKey(
        "catalog.Vehicle", on_delete=models.PROTECT, null=True, blank=True, related_name="wants"
    )
    position = models.ForeignKey(
        "catalog.Position", on_delete=models.SET_NULL, null=True, blank=True, related_name="wants"
    )
    quantity = models.PositiveIntegerField(default=1)
    words = models.TextField("what is wanted and what would help", blank=True)
    is_published = models.BooleanField("visitors may see it", default=False)
    published_at = models.DateTimeField(null=True, blank=True)
    closed_at = models.DateTimeField(null=True, blank=True)
    history = HistoricalRecords()

    objects = WantQuerySet.as_manager()

    class Meta:
        ordering = ["title"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(quantity__gt=0),
                name="want_quantity_positive",
                violation_error_message="Ask for one or more.",
            )
        ]

    def __str__(self) -> str:
        return self.title


class Answer(models.Model):
    """What somebody wrote in answer to a want; contact data is for stewards only."""

    want = models.ForeignKey(Want, on_delete=models.CASCADE, related_name="answers")
    name = models.CharField(max_length=120)
    contact = models.CharField(max_length=200)
    words = models.TextField()
    has_consent = models.BooleanField("may be kept and answered")
    received_at = models.DateTimeField()
    acknowledged_at = models.DateTimeField(null=True, blank=True)
    came_of_it = models.CharField("what came of it", max_length=240, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["-received_at"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(has_consent=True),
                name="answer_with_consent",
                violation_error_message="We may keep an answer only with consent.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.name} on {self.want}"
