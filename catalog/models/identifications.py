"""Identifications: dated opinions of what a part is, agreed to or disputed by others."""

from django.conf import settings
from django.db import models
from simple_history.models import HistoricalRecords


class IdentificationQuerySet(models.QuerySet["Identification"]):
    def standing(self) -> "IdentificationQuerySet":
        return self.filter(superseded_at__isnull=True)


class Identification(models.Model):
    class Confidence(models.TextChoices):
        GUESS = "guess", "a guess"
        PROBABLE = "probable", "probable"
        CERTAIN = "certain", "certain"

    class Basis(models.TextChoices):
        DIMENSIONS = "dimensions", "dimensions"
        MARK = "mark", "a mark"
        FIGURE = "figure", "a patent figure"
        DRAWING = "drawing", "a drawing"
        COMPARISON = "comparison", "comparison with another piece"
        ORIGINAL = "original", "where it came off"
        OPINION = "opinion", "opinion"

    # What a part stands as follows from these, so putting back leaves them alone.
    KEPT_ELSEWHERE = ("component", "vehicle_class", "confidence", "superseded_at")

    part = models.ForeignKey(
        "catalog.Part", on_delete=models.CASCADE, related_name="identifications"
    )
    component = models.ForeignKey(
        "catalog.Component", on_delete=models.PROTECT, related_name="identifications"
    )
    vehicle_class = models.ForeignKey(
        "catalog.VehicleClass",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="identifications",
        verbose_name="class",
    )
    confidence = models.CharField(
        max_length=10, choices=Confidence.choices, default=Confidence.PROBABLE
    )
    basis = models.CharField(max_length=12, choices=Basis.choices, default=Basis.OPINION)
    reasons = models.TextField(blank=True)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="identifications"
    )
    superseded_at = models.DateTimeField(null=True, blank=True)
    history = HistoricalRecords()

    objects = IdentificationQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at", "-pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["part", "made_by"],
                condition=models.Q(superseded_at__isnull=True),
                name="identification_one_standing_a_person",
                violation_error_message="One person holds one opinion of a part at a time.",
            )
        ]

    def __str__(self) -> str:
        if self.vehicle_class is None:
            return str(self.component)
        return f"{self.component}, {self.vehicle_class}"


class Opinion(models.Model):
    """Another person's agreement with an identification, or their reasons against it."""

    identification = models.ForeignKey(
        Identification, on_delete=models.CASCADE, related_name="opinions"
    )
    agrees = models.BooleanField()
    reasons = models.TextField(blank=True)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="opinions"
    )
    history = HistoricalRecords()

    class Meta:
        ordering = ["made_at", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["identification", "made_by"],
                name="opinion_once_a_person",
                violation_error_message="You have already given your opinion on this.",
            ),
            models.CheckConstraint(
                condition=models.Q(agrees=True) | ~models.Q(reasons=""),
                name="opinion_dispute_has_reasons",
                violation_error_message="Say why you think otherwise.",
            ),
        ]

    def __str__(self) -> str:
        return "agrees" if self.agrees else "disputes"
