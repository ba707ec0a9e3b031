"""Measurements with the instrument that took them and how far they can be trusted."""

from django.conf import settings
from django.db import models
from django.db.models.functions import Lower
from django.urls import reverse
from simple_history.models import HistoricalRecords

from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet
from catalog.reckoning.uncertainty import Measured


class InstrumentQuerySet(WithdrawableQuerySet["Instrument"]):
    def for_list(self) -> "InstrumentQuerySet":
        """Return those in use, each with the number of readings that were taken with it."""
        kept = models.Q(measurements__withdrawn_at__isnull=True)
        return self.kept().annotate(readings=models.Count("measurements", filter=kept))


class Instrument(Withdrawable):
    """What pieces are measured with, and the doubt that every reading with it starts from.

    A reading keeps the uncertainty that it was written down with, whatever is learned later.
    """

    slug = models.SlugField(max_length=70, unique=True)
    name = models.CharField(max_length=80)
    resolution_mm = models.DecimalField(
        "finest division in mm", max_digits=12, decimal_places=9, null=True, blank=True
    )
    uncertainty_mm = models.DecimalField(
        "standard uncertainty in mm", max_digits=12, decimal_places=9
    )
    note = models.CharField(max_length=240, blank=True)
    sequence = models.PositiveSmallIntegerField(default=0)
    objects = InstrumentQuerySet.as_manager()
    history = HistoricalRecords()

    class Meta:
        ordering = ["sequence", "name"]
        constraints = [
            models.UniqueConstraint(
                Lower("name"),
                condition=models.Q(withdrawn_at__isnull=True),
                name="instrument_named_once",
                violation_error_message="There is an instrument of this name already.",
            ),
            models.CheckConstraint(
                condition=models.Q(resolution_mm__isnull=True) | models.Q(resolution_mm__gt=0),
                name="instrument_resolution_positive",
                violation_error_message="The finest division is more than nothing.",
            ),
            models.CheckConstraint(
                condition=models.Q(uncertainty_mm__gt=0),
                name="instrument_uncertainty_positive",
                violation_error_message="No instrument is perfect: give an uncertainty above zero.",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("instrument-detail", args=[self.pk])


class MeasurementQuerySet(WithdrawableQuerySet["Measurement"]):
    pass


class Measurement(Withdrawable):
    """One reading: the words as typed, the value in mm, and its standard uncertainty.

    ``name`` is the characteristic's own name, or words for a feature of a casting that
    nobody has identified yet.
    """

    part = models.ForeignKey("catalog.Part", on_delete=models.CASCADE, related_name="measurements")
    characteristic = models.ForeignKey(
        "catalog.Characteristic",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="measurements",
    )
    name = models.CharField("what was measured", max_length=80)
    text = models.CharField("reading", max_length=60)
    value_mm = models.DecimalField(max_digits=18, decimal_places=9)
    resolution_mm = models.DecimalField(max_digits=16, decimal_places=9)
    instrument = models.ForeignKey(
        Instrument, on_delete=models.PROTECT, null=True, blank=True, related_name="measurements"
    )
    allowance_mm = models.DecimalField(
        "allowance for rust or wear", max_digits=12, decimal_places=9, null=True, blank=True
    )
    uncertainty_mm = models.DecimalField(max_digits=16, decimal_places=9)
    note = models.CharField(max_length=240, blank=True)
    measured_at = models.DateTimeField()
    measured_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="measurements"
    )
    history = HistoricalRecords()

    objects = MeasurementQuerySet.as_manager()

    class Meta:
        ordering = ["name", "measured_at", "pk"]
        indexes = [models.Index(fields=["characteristic", "value_mm"])]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(value_mm__gt=0),
                name="measurement_positive",
                violation_error_message="A length is more than nothing.",
            ),
            models.CheckConstraint(
                condition=models.Q(uncertainty_mm__gt=0),
                name="measurement_uncertainty_positive",
                violation_error_message="No reading is perfect: give an uncertainty above zero.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.name} {self.text}"

    @property
    def measured(self) -> Measured:
        return Measured(float(self.value_mm), float(self.uncertainty_mm))
