"""Fittings of parts at positions, trials of whether they go, and removals to be put back."""

from django.conf import settings
from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from catalog.models.sources import exactly_one
from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet


class FittingQuerySet(models.QuerySet["Fitting"]):
    def active(self) -> "FittingQuerySet":
        return self.filter(state__in=Fitting.ACTIVE)

    def for_list(self) -> "FittingQuerySet":
        return self.select_related("vehicle", "position__component", "part")


class Fitting(models.Model):
    """A part at a position of a vehicle, from reservation to removal."""

    class State(models.TextChoices):
        RESERVED = "reserved", "reserved"
        TRIAL = "trial", "on trial"
        FITTED = "fitted", "fitted"
        REMOVED = "removed", "removed"
        REJECTED = "rejected", "did not go"
        RELEASED = "released", "reservation given up"

    ACTIVE = (State.RESERVED, State.TRIAL, State.FITTED)

    vehicle = models.ForeignKey(
        "catalog.Vehicle", on_delete=models.PROTECT, related_name="fittings"
    )
    position = models.ForeignKey(
        "catalog.Position", on_delete=models.PROTECT, related_name="fittings"
    )
    part = models.ForeignKey("catalog.Part", on_delete=models.PROTECT, related_name="fittings")
    state = models.CharField(max_length=10, choices=State.choices)
    plan = models.ForeignKey(
        "catalog.Plan", on_delete=models.SET_NULL, null=True, blank=True, related_name="fittings"
    )
    note = models.CharField(max_length=240, blank=True)
    begun_at = models.DateTimeField()
    changed_at = models.DateTimeField()
    changed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="fittings"
    )
    history = HistoricalRecords()

    objects = FittingQuerySet.as_manager()

    class Meta:
        ordering = ["-changed_at", "-pk"]
        indexes = [
            models.Index(fields=["part", "state"]),
            models.Index(fields=["vehicle", "state"]),
        ]
        constraints = [
            models.UniqueConstraint(
                fields=["vehicle", "position"],
                condition=models.Q(state__in=("reserved", "trial", "fitted")),
                name="fitting_one_a_position",
                violation_error_message="Another part is already at this position.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.part} at {self.position} of {self.vehicle}"


class TrialQuerySet(WithdrawableQuerySet["Trial"]):
    pass


class Trial(Withdrawable):
    """What happened when a part was offered up: to a position, or to another part."""

    class Outcome(models.TextChoices):
        WENT = "went", "went"
        WITH_WORK = "work", "went with work"
        DID_NOT_GO = "not", "did not go"

    part = models.ForeignKey("catalog.Part", on_delete=models.CASCADE, related_name="trials")
    vehicle = models.ForeignKey(
        "catalog.Vehicle", on_delete=models.CASCADE, null=True, blank=True, related_name="trials"
    )
    position = models.ForeignKey(
        "catalog.Position", on_delete=models.CASCADE, null=True, blank=True, related_name="trials"
    )
    other_part = models.ForeignKey(
        "catalog.Part",
        on_delete=models.CASCADE,
        null=True,
        blank=True,
        related_name="trials_against",
    )
    outcome = models.CharField(max_length=4, choices=Outcome.choices)
    what_bound = models.CharField("what bound, or what work", max_length=240, blank=True)
    tried_at = models.DateTimeField()
    tried_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="trials"
    )
    history = HistoricalRecords()

    objects = TrialQuerySet.as_manager()

    class Meta:
        ordering = ["-tried_at", "-pk"]
        constraints = [
            models.CheckConstraint(
                condition=exactly_one("position", "other_part"),
                name="trial_against_one_thing",
                violation_error_message="A part is tried at a position or against another part.",
            ),
            models.CheckConstraint(
                condition=models.Q(position__isnull=True) | models.Q(vehicle__isnull=False),
                name="trial_position_on_vehicle",
            ),
            models.CheckConstraint(
                condition=models.Q(other_part__isnull=True)
                | ~models.Q(other_part=models.F("part")),
                name="trial_of_two_parts",
                violation_error_message="A part cannot be tried against itself.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.part}: {self.get_outcome_display()}"

    def get_absolute_url(self) -> str:
        """Return the fit bench with the two laid on it, where their trials are told."""
        against = f"vehicle={self.vehicle_id}&position={self.position_id}"
        if self.other_part_id is not None:
            against = f"other={self.other_part_id}"
        return f"{reverse('fit-bench')}?part={self.part_id}&{against}"


class Removal(models.Model):
    """A part taken off a vehicle, with all that is needed to put it back."""

    vehicle = models.ForeignKey(
        "catalog.Vehicle", on_delete=models.PROTECT, related_name="removals"
    )
    position = models.ForeignKey(
        "catalog.Position", on_delete=models.PROTECT, related_name="removals"
    )
    part = models.ForeignKey("catalog.Part", on_delete=models.PROTECT, related_name="removals")
    sequence = models.PositiveIntegerField("order of taking off")
    orientation = models.CharField(
        max_length=240, blank=True, help_text="Which way up, which end first."
    )
    shims = models.CharField(max_length=240, blank=True)
    fastenings = models.CharField(max_length=240, blank=True)
    note = models.TextField(blank=True)
    removed_at = models.DateTimeField()
    removed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="removals"
    )
    put_back_at = models.DateTimeField(null=True, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["vehicle", "-sequence"]
        constraints = [
            models.UniqueConstraint(
                fields=["vehicle", "sequence"],
                name="removal_order_once_a_vehicle",
                violation_error_message="Another removal already has this place in the order.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.part} off {self.vehicle}"

    def get_absolute_url(self) -> str:
        return reverse("vehicle-dismantling", args=[self.vehicle.slug])
