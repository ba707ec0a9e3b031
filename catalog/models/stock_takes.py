"""Stock-takes: what was found at a location, against what the record said at that moment."""

from django.conf import settings
from django.db import models
from django.urls import reverse


class StockTake(models.Model):
    """One counting of one location and all that it contains; it is kept as it was found."""

    location = models.ForeignKey(
        "catalog.Location", on_delete=models.PROTECT, related_name="stock_takes"
    )
    counted_at = models.DateTimeField()
    counted_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="stock_takes"
    )

    class Meta:
        ordering = ["-counted_at", "-pk"]

    def __str__(self) -> str:
        return f"stock-take of {self.location}"

    def get_absolute_url(self) -> str:
        return reverse("stock-take-detail", args=[self.pk])


class StockTakeLine(models.Model):
    """One part, or one line that names none: what was found of it."""

    class Result(models.TextChoices):
        HERE = "here", "here as recorded"
        MISSING = "missing", "missing"
        UNEXPECTED = "unexpected", "unexpected"
        UNKNOWN = "unknown", "unknown"

    stock_take = models.ForeignKey(StockTake, on_delete=models.CASCADE, related_name="lines")
    result = models.CharField(max_length=10, choices=Result.choices)
    part = models.ForeignKey(
        "catalog.Part",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="stock_take_lines",
    )
    words = models.CharField("as scanned or typed", max_length=120, blank=True)
    recorded_at = models.CharField("where it was recorded", max_length=500, blank=True)
    note = models.CharField(max_length=240, blank=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["stock_take", "part"], name="stock_take_part_once"),
            models.CheckConstraint(
                condition=models.Q(part__isnull=False) | models.Q(result="unknown"),
                name="stock_take_line_names_part",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.part or self.words}: {self.get_result_display()}"
