"""Locations, from the site down to the box, and every move between them."""

from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet


class LocationQuerySet(WithdrawableQuerySet["Location"]):
    def for_detail(self) -> "LocationQuerySet":
        return self.select_related("parent", "withdrawn_by")

    def for_list(self) -> "LocationQuerySet":
        return (
            self.kept()
            .annotate(
                part_count=models.Count(
                    "parts", filter=models.Q(parts__withdrawn_at__isnull=True), distinct=True
                )
            )
            .order_by("path")
        )


class Location(Withdrawable):
    class Kind(models.TextChoices):
        SITE = "site", "site"
        BUILDING = "building", "building"
        RACK = "rack", "rack"
        SHELF = "shelf", "shelf"
        BOX = "box", "box"
        OUTDOORS = "outdoors", "outdoors"

    kind = models.CharField(max_length=10, choices=Kind.choices, default=Kind.SHELF)
    name = models.CharField(max_length=80)
    parent = models.ForeignKey(
        "self",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="children",
        verbose_name="in",
    )
    path = models.CharField(max_length=500, editable=False, db_index=True)
    lineage = models.CharField(
        max_length=200,
        blank=True,
        editable=False,
        db_index=True,
        help_text="Keys from the site down.",
    )
    tag = models.CharField(max_length=12, unique=True, null=True, blank=True)
    notes = models.TextField(blank=True)
    history = HistoricalRecords()

    objects = LocationQuerySet.as_manager()

    class Meta:
        ordering = ["path"]
        constraints = [
            models.UniqueConstraint(
                models.functions.Coalesce("parent", 0),
                models.functions.Lower("name"),
                name="location_name_once_a_place",
                violation_error_message="There is already a location of this name there.",
            ),
            models.CheckConstraint(
                condition=~models.Q(name=""),
                name="location_has_name",
                violation_error_message="Give the location a name.",
            ),
            models.CheckConstraint(
                condition=models.Q(parent__isnull=True) | ~models.Q(parent=models.F("id")),
                name="location_not_in_itself",
                violation_error_message="A location cannot be inside itself.",
            ),
        ]

    def __str__(self) -> str:
        return self.path or self.name

    def get_absolute_url(self) -> str:
        return reverse("location-detail", args=[self.pk])

    def clean(self) -> None:
        if not self.is_withdrawn or not self.pk:
            return
        if self.children.kept().exists() or self.parts.kept().exists():
            raise ValidationError(
                {"reason": "Something is still in there; move what it contains first."}
            )

    @property
    def depth(self) -> int:
        """How many locations it is inside of; the lineage of a site is ``/1/``."""
        return max(0, self.lineage.count("/") - 2)


class Move(models.Model):
    """One change of place of a part: from where, to where, when, and by whom."""

    # With these words it stands in the part's own history, where it is looked for by its date.
    IN_HISTORY = "moved to"

    part = models.ForeignKey("catalog.Part", on_delete=models.CASCADE, related_name="moves")
    from_location = models.ForeignKey(
        Location, on_delete=models.PROTECT, null=True, blank=True, related_name="moves_from"
    )
    to_location = models.ForeignKey(
        Location, on_delete=models.PROTECT, null=True, blank=True, related_name="moves_to"
    )
    from_inside = models.ForeignKey(
        "catalog.Part", on_delete=models.PROTECT, null=True, blank=True, related_name="moves_out"
    )
    to_inside = models.ForeignKey(
        "catalog.Part", on_delete=models.PROTECT, null=True, blank=True, related_name="moves_in"
    )
    note = models.CharField(max_length=240, blank=True)
    moved_at = models.DateTimeField()
    moved_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="moves"
    )

    class Meta:
        ordering = ["-moved_at", "-pk"]

    def __str__(self) -> str:
        return f"{self.part} to {self.to_location or self.to_inside or 'nowhere recorded'}"

    @property
    def in_words(self) -> str:
        """Where from and where to, for a row that was fetched with its places."""
        to = self.to_location or (self.to_inside and f"inside {self.to_inside}")
        former = self.from_location or (self.from_inside and f"inside {self.from_inside}")
        words = f"To {to}" if to else "To nowhere recorded"
        return f"{words}, from {former}" if former else words
