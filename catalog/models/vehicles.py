"""Vehicles, the classes they were built to, and how each differs from its class."""

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models.functions import Lower
from django.urls import reverse
from simple_history.models import HistoricalRecords

from catalog.models.dates import VagueDateRecord, date_order
from catalog.models.loops import comes_back
from catalog.models.sources import exactly_one
from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet


class VehicleClassQuerySet(WithdrawableQuerySet["VehicleClass"]):
    def for_list(self) -> "VehicleClassQuerySet":
        return (
            self.kept()
            .select_related("builder", "based_on")
            .annotate(vehicle_count=models.Count("vehicles", distinct=True))
            .annotate(position_count=models.Count("positions", distinct=True))
            .order_by("designation")
        )


class VehicleClass(VagueDateRecord, Withdrawable):
    """Vehicles built to one design; the date is the interval in which they were built."""

    designation = models.CharField(max_length=60, unique=True)
    slug = models.SlugField(max_length=70, unique=True, editable=False)
    name = models.CharField("what it is", max_length=160, blank=True)
    builder = models.ForeignKey(
        "catalog.Party",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="classes_built",
    )
    gauge_mm = models.DecimalField(max_digits=16, decimal_places=9, null=True, blank=True)
    gauge_text = models.CharField("gauge", max_length=40, blank=True)
    wheel_arrangement = models.CharField(max_length=30, blank=True)
    based_on = models.ForeignKey(
        "self",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="variants",
        help_text="Takes over that class's positions and limits, and differs where said.",
    )
    notes = models.TextField(blank=True)
    is_published = models.BooleanField("visitors may see it", default=False)
    history = HistoricalRecords()

    objects = VehicleClassQuerySet.as_manager()

    class Meta:
        ordering = ["designation"]
        verbose_name_plural = "vehicle classes"
        constraints = [
            date_order("vehicle_class"),
            models.CheckConstraint(
                condition=~models.Q(designation=""),
                name="vehicle_class_has_designation",
                violation_error_message="Give the class a designation.",
            ),
            models.CheckConstraint(
                condition=models.Q(gauge_mm__isnull=True) | models.Q(gauge_mm__gt=0),
                name="vehicle_class_gauge_positive",
                violation_error_message="A gauge is more than nothing.",
            ),
            models.CheckConstraint(
                condition=models.Q(based_on__isnull=True) | ~models.Q(based_on=models.F("id")),
                name="vehicle_class_not_based_on_itself",
                violation_error_message="A class cannot be based on itself.",
            ),
        ]

    def __str__(self) -> str:
        return self.designation

    def get_absolute_url(self) -> str:
        return reverse("vehicle-class-detail", args=[self.slug])

    def clean(self) -> None:
        if comes_back(self, "based_on"):
            raise ValidationError(
                {"based_on": f"{self.based_on} is itself based on {self}: not both ways round."}
            )


class VehicleQuerySet(WithdrawableQuerySet["Vehicle"]):
    def published(self) -> "VehicleQuerySet":
        return self.kept().filter(is_published=True)

    def in_restoration_order(self) -> "VehicleQuerySet":
        return self.order_by(models.F("restoration_order").asc(nulls_last=True), "label")

    def for_list(self) -> "VehicleQuerySet":
        return self.kept().select_related("vehicle_class", "home_location").in_restoration_order()


class Vehicle(VagueDateRecord, Withdrawable):
    """One locomotive, car or wagon, whole or in remains; the date is when it was built."""

    class Status(models.TextChoices):
        STORED = "stored", "stored"
        DISMANTLING = "dismantling", "being taken apart"
        RESTORING = "restoring", "under restoration"
        COMPLETE = "complete", "complete"
        REMAINS = "remains", "remains"
        AWAY = "away", "away from the group"

    label = models.CharField(
        "known as", max_length=80, unique=True, help_text="As people say it: Wagon 14, Kestrel."
    )
    slug = models.SlugField(max_length=90, unique=True, editable=False)
    running_number = models.CharField(max_length=20, blank=True)
    name = models.CharField(max_length=60, blank=True)
    vehicle_class = models.ForeignKey(
        VehicleClass, on_delete=models.PROTECT, related_name="vehicles", verbose_name="class"
    )
    works_number = models.CharField(max_length=20, blank=True)
    status = models.CharField(max_length=12, choices=Status.choices, default=Status.STORED)
    restoration_order = models.PositiveSmallIntegerField(null=True, blank=True)
    home_location = models.ForeignKey(
        "catalog.Location",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="vehicles_at_home",
    )
    story = models.TextField(blank=True, help_text="What a visitor should know.")
    notes = models.TextField(blank=True, help_text="For members only.")
    is_published = models.BooleanField("visitors may see it", default=False)
    history = HistoricalRecords()

    objects = VehicleQuerySet.as_manager()

    class Meta:
        ordering = ["restoration_order", "label"]
        constraints = [
            date_order("vehicle"),
            models.CheckConstraint(
                condition=~models.Q(label=""),
                name="vehicle_has_label",
                violation_error_message="Say what the vehicle is known as.",
            ),
            models.UniqueConstraint(
                "vehicle_class",
                Lower("running_number"),
                condition=~models.Q(running_number=""),
                name="vehicle_running_number_once_a_class",
                violation_error_message="Another vehicle of this class has this running number.",
            ),
        ]

    def __str__(self) -> str:
        return self.label

    def get_absolute_url(self) -> str:
        return reverse("vehicle-detail", args=[self.slug])


class Deviation(models.Model):
    """How a vehicle differs from its class, or a class from the class it is based on."""

    class Kind(models.TextChoices):
        ADDED = "added", "position added"
        DROPPED = "dropped", "position not there"
        RESPECIFIED = "respecified", "other limits"
        NOTED = "noted", "otherwise different"

    kind = models.CharField(max_length=12, choices=Kind.choices)
    vehicle = models.ForeignKey(
        Vehicle, on_delete=models.CASCADE, null=True, blank=True, related_name="deviations"
    )
    vehicle_class = models.ForeignKey(
        VehicleClass, on_delete=models.CASCADE, null=True, blank=True, related_name="deviations"
    )
    position = models.ForeignKey(
        "catalog.Position",
        on_delete=models.CASCADE,
        null=True,
        blank=True,
        related_name="deviations",
    )
    reason = models.CharField(max_length=240)
    since = models.CharField(max_length=120, blank=True, help_text="When it changed, if known.")
    history = HistoricalRecords()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=exactly_one("vehicle", "vehicle_class"), name="deviation_of_one_record"
            ),
            models.CheckConstraint(
                condition=models.Q(kind="noted") | models.Q(position__isnull=False),
                name="deviation_names_position",
                violation_error_message="Say which position differs.",
            ),
            models.UniqueConstraint(
                fields=["vehicle", "position", "kind"],
                name="deviation_once_a_vehicle",
                violation_error_message="This difference is already recorded.",
            ),
            models.UniqueConstraint(
                fields=["vehicle_class", "position", "kind"],
                name="deviation_once_a_class",
                violation_error_message="This difference is already recorded.",
            ),
        ]

    def __str__(self) -> str:
        return self.reason
