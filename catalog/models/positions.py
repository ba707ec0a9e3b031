"""Positions, the places that components fill, their spots on drawings and their limits."""

from decimal import Decimal

from django.db import models
from django.db.models.functions import Coalesce
from simple_history.models import HistoricalRecords

from catalog.models.limits import Order, in_order, refuse_crossed, refuse_without_width
from catalog.models.sources import exactly_one


class PositionQuerySet(models.QuerySet["Position"]):
    def essential(self) -> "PositionQuerySet":
        return self.filter(is_essential=True)


class Position(models.Model):
    """One place that a component fills, on every vehicle of a class or on one vehicle only.

    Positions with the same code form a corner: journal box ``L1`` and brass ``L1`` belong
    together. Axle numbers count from the brake end, L and R as seen facing it.
    """

    vehicle_class = models.ForeignKey(
        "catalog.VehicleClass",
        on_delete=models.CASCADE,
        null=True,
        blank=True,
        related_name="positions",
    )
    vehicle = models.ForeignKey(
        "catalog.Vehicle",
        on_delete=models.CASCADE,
        null=True,
        blank=True,
        related_name="own_positions",
    )
    code = models.CharField(max_length=12)
    component = models.ForeignKey(
        "catalog.Component", on_delete=models.PROTECT, related_name="positions"
    )
    assembly = models.CharField(
        max_length=60, blank=True, help_text="Such as running gear or body."
    )
    is_essential = models.BooleanField("the vehicle is not complete without it", default=True)
    sequence = models.PositiveSmallIntegerField(default=0)
    note = models.CharField(max_length=240, blank=True)
    history = HistoricalRecords()

    objects = PositionQuerySet.as_manager()

    class Meta:
        ordering = ["sequence", "code", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=exactly_one("vehicle_class", "vehicle"), name="position_of_one_record"
            ),
            models.CheckConstraint(
                condition=~models.Q(code=""),
                name="position_has_code",
                violation_error_message="Give the position a code, such as L1.",
            ),
            models.UniqueConstraint(
                fields=["vehicle_class", "code", "component"],
                name="position_once_a_class",
                violation_error_message="The class already has this position.",
            ),
            models.UniqueConstraint(
                fields=["vehicle", "code", "component"],
                name="position_once_a_vehicle",
                violation_error_message="The vehicle already has this position.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.code} {self.component}"


class Drawing(models.Model):
    """A view of a class on which positions have their spots."""

    vehicle_class = models.ForeignKey(
        "catalog.VehicleClass", on_delete=models.CASCADE, related_name="drawings"
    )
    title = models.CharField(max_length=160)
    picture = models.ForeignKey("catalog.Photo", on_delete=models.PROTECT, related_name="drawings")
    source = models.ForeignKey(
        "catalog.Source", on_delete=models.SET_NULL, null=True, blank=True, related_name="drawings"
    )
    sequence = models.PositiveSmallIntegerField(default=0)
    history = HistoricalRecords()

    class Meta:
        ordering = ["sequence", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["vehicle_class", "title"],
                name="drawing_title_once_a_class",
                violation_error_message="The class already has a drawing of this title.",
            )
        ]

    def __str__(self) -> str:
        return self.title


class PositionSpot(models.Model):
    """Where a position stands on a drawing, in fractions of its width and height."""

    position = models.ForeignKey(Position, on_delete=models.CASCADE, related_name="spots")
    drawing = models.ForeignKey(Drawing, on_delete=models.CASCADE, related_name="spots")
    x = models.FloatField()
    y = models.FloatField()
    history = HistoricalRecords()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["position", "drawing"],
                name="position_spot_once_a_drawing",
                violation_error_message="The position already has a spot on this drawing.",
            ),
            models.CheckConstraint(
                condition=models.Q(x__gte=0, x__lte=1, y__gte=0, y__lte=1),
                name="position_spot_on_drawing",
                violation_error_message="The spot lies outside the drawing.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.position} at {self.x:.3f}, {self.y:.3f}"


_ORDERS = (
    Order("lower_mm", "upper_mm", "upper_mm", "The upper limit is below the lower limit"),
    Order(
        "worn_lower_mm",
        "lower_mm",
        "worn_lower_mm",
        "The lower limit when worn is tighter than the limit as new",
    ),
    Order(
        "upper_mm",
        "worn_upper_mm",
        "worn_upper_mm",
        "The upper limit when worn is tighter than the limit as new",
    ),
    Order(
        "worn_lower_mm",
        "worn_upper_mm",
        "worn_upper_mm",
        "The upper limit when worn is below the lower one",
    ),
    Order(
        "lower_mm",
        "worn_upper_mm",
        "worn_upper_mm",
        "The upper limit when worn is below the lower limit",
    ),
    Order(
        "worn_lower_mm",
        "upper_mm",
        "worn_lower_mm",
        "The lower limit when worn is above the upper limit",
    ),
)


class Specification(models.Model):
    """The limits of a characteristic: for a class, one position of it, or one vehicle.

    The narrowest statement holds: one position of one vehicle, then the vehicle, then the
    position, then the class.
    """

    vehicle_class = models.ForeignKey(
        "catalog.VehicleClass", on_delete=models.CASCADE, related_name="specifications"
    )
    characteristic = models.ForeignKey(
        "catalog.Characteristic", on_delete=models.PROTECT, related_name="specifications"
    )
    position = models.ForeignKey(
        Position, on_delete=models.CASCADE, null=True, blank=True, related_name="specifications"
    )
    vehicle = models.ForeignKey(
        "catalog.Vehicle",
        on_delete=models.CASCADE,
        null=True,
        blank=True,
        related_name="specifications",
    )
    lower_mm = models.DecimalField(
        "lower limit", max_digits=16, decimal_places=9, null=True, blank=True
    )
    upper_mm = models.DecimalField(
        "upper limit", max_digits=16, decimal_places=9, null=True, blank=True
    )
    worn_lower_mm = models.DecimalField(
        "lower limit when worn", max_digits=16, decimal_places=9, null=True, blank=True
    )
    worn_upper_mm = models.DecimalField(
        "upper limit when worn", max_digits=16, decimal_places=9, null=True, blank=True
    )
    is_required = models.BooleanField("required rather than advisory", default=True)
    note = models.CharField(max_length=240, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["characteristic", "pk"]
        constraints = [
            models.UniqueConstraint(
                "vehicle_class",
                "characteristic",
                Coalesce("position", 0),
                Coalesce("vehicle", 0),
                name="specification_once",
                violation_error_message="There are already limits for this characteristic here.",
            ),
            models.CheckConstraint(
                condition=models.Q(lower_mm__isnull=False)
                | models.Q(upper_mm__isnull=False)
                | models.Q(worn_lower_mm__isnull=False)
                | models.Q(worn_upper_mm__isnull=False),
                name="specification_says_something",
                violation_error_message="Give a lower or an upper limit, as new or when worn.",
            ),
            models.CheckConstraint(
                condition=in_order("lower_mm", "upper_mm"),
                name="specification_limits_in_order",
                violation_error_message="The upper limit is below the lower limit.",
            ),
            models.CheckConstraint(
                condition=in_order("worn_lower_mm", "lower_mm")
                & in_order("upper_mm", "worn_upper_mm"),
                name="specification_worn_beyond_new",
                violation_error_message="A limit when worn is tighter than the limit as new.",
            ),
            # A side without a limit as new has its limit when worn, so these may not cross either.
            models.CheckConstraint(
                condition=in_order("worn_lower_mm", "worn_upper_mm")
                & in_order("lower_mm", "worn_upper_mm")
                & in_order("worn_lower_mm", "upper_mm"),
                name="specification_worn_in_order",
                violation_error_message="An upper limit is below a lower limit.",
            ),
        ]

    def __str__(self) -> str:
        ends = ["" if end is None else f"{Decimal(end).normalize():f}" for end in self.ends]
        return f"{self.characteristic} {'–'.join(ends)} mm"

    def clean(self) -> None:
        refuse_crossed(self, _ORDERS)
        refuse_without_width(self, "lower_mm", "upper_mm")

    @property
    def ends(self) -> tuple[Decimal | None, Decimal | None]:
        """Return the limits as new, and those of wear on a side that has no others."""
        return (
            self.worn_lower_mm if self.lower_mm is None else self.lower_mm,
            self.worn_upper_mm if self.upper_mm is None else self.upper_mm,
        )
