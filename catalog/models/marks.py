"""Marks: letters and figures cast, stamped or painted on a part."""

from django.db import models
from simple_history.models import HistoricalRecords


class PartMark(models.Model):
    """A mark read off a part, character by character; ``?`` stands for an illegible one."""

    class Manner(models.TextChoices):
        CAST = "cast", "cast"
        STAMPED = "stamped", "stamped"
        PAINTED = "painted", "painted"
        SCRATCHED = "scratched", "scratched or chalked"
        UNKNOWN = "unknown", "not known"

    part = models.ForeignKey("catalog.Part", on_delete=models.CASCADE, related_name="marks")
    text = models.CharField(
        "as read", max_length=120, help_text="? for a character you cannot read."
    )
    manner = models.CharField(max_length=10, choices=Manner.choices, default=Manner.UNKNOWN)
    place = models.CharField("where on the part", max_length=120, blank=True)
    meaning = models.CharField("what it may mean", max_length=240, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(text=""),
                name="part_mark_has_text",
                violation_error_message="Write the mark as read, with ? for what you cannot read.",
            )
        ]

    def __str__(self) -> str:
        return self.text


class KnownMark(models.Model):
    """A mark or pattern number known to belong to a component, to hold worn marks against."""

    component = models.ForeignKey(
        "catalog.Component", on_delete=models.CASCADE, related_name="known_marks"
    )
    vehicle_class = models.ForeignKey(
        "catalog.VehicleClass",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="known_marks",
    )
    text = models.CharField(max_length=120)
    note = models.CharField(max_length=240, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["text"]
        constraints = [
            models.UniqueConstraint(
                fields=["component", "text"],
                name="known_mark_once",
                violation_error_message="This mark is already known for the component.",
            )
        ]

    def __str__(self) -> str:
        return self.text
