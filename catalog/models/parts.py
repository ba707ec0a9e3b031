"""Parts, the physical objects in hand, singly or as counted lots."""

from decimal import Decimal

from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import models
from django.urls import reverse

from catalog.models.components import Hazard
from catalog.models.histories import LinkedHistory
from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet

KEPT = models.Q(withdrawn_at__isnull=True)
LISTED_BY: dict[str, list[str]] = {
    "number": [],
    "component": ["component"],
    "standing": ["identification_status"],
    "usability": ["usability"],
    "location": ["location"],
    "accession": ["accession"],
}


class PartQuerySet(WithdrawableQuerySet["Part"]):
    def unidentified(self) -> "PartQuerySet":
        return self.filter(identification_status=Part.Standing.UNIDENTIFIED)

    def in_numerical_order(self) -> "PartQuerySet":
        return self.order_by("number_sort", "pk")

    def for_list(self) -> "PartQuerySet":
        return self.kept().select_related("component", "vehicle_class", "location")

    def for_detail(self) -> "PartQuerySet":
        return self.select_related(
            "component", "vehicle_class", "location", "accession__party", "inside", "keep_with"
        )


class Part(Withdrawable):
    """A physical object in hand, or a counted lot of like objects under one number.

    ``component``, ``vehicle_class`` and ``identification_status`` follow from the
    identifications; the operations that change those keep them true, so that lists of a
    hundred thousand parts need not look.
    """

    class Usability(models.TextChoices):
        READY = "ready", "ready"
        REPAIR = "repair", "needs repair"
        PATTERN = "pattern", "pattern only"
        UNUSABLE = "unusable", "not usable"
        UNASSESSED = "unassessed", "not assessed"

    class Standing(models.TextChoices):
        UNIDENTIFIED = "unidentified", "unidentified"
        PROPOSED = "proposed", "proposed"
        AGREED = "agreed", "agreed"
        DISPUTED = "disputed", "disputed"

    # These follow from identifications, moves and splits, so putting back leaves them alone.
    KEPT_ELSEWHERE = (
        "component",
        "vehicle_class",
        "identification_status",
        "location",
        "inside",
        "quantity",
    )

    accession = models.ForeignKey(
        "catalog.Accession",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="parts",
        verbose_name="donation",
    )
    item = models.PositiveIntegerField(null=True, blank=True, editable=False)
    piece = models.CharField(max_length=4, blank=True, editable=False)
    number = models.CharField(max_length=40, unique=True, null=True, editable=False)  # noqa: DJ001
    number_sort = models.CharField(max_length=60, blank=True, editable=False, db_index=True)
    tag = models.CharField(max_length=12, unique=True, null=True, blank=True)
    capture_id = models.UUIDField(unique=True, null=True, editable=False)
    description = models.CharField("in words", max_length=240, blank=True)
    quantity = models.PositiveIntegerField(default=1)
    surviving_share = models.DecimalField(
        "how much of the piece survives", max_digits=4, decimal_places=3, default=Decimal(1)
    )
    castings_left = models.PositiveIntegerField(
        "castings that may still be made from it", null=True, blank=True
    )
    usability = models.CharField(
        max_length=10, choices=Usability.choices, default=Usability.UNASSESSED
    )
    defect = models.CharField("what is wrong with it", max_length=240, blank=True)
    material = models.CharField(max_length=60, blank=True)
    mass_kg = models.DecimalField(
        "mass in kg", max_digits=10, decimal_places=3, null=True, blank=True
    )
    condition = models.CharField(max_length=240, blank=True)
    remarks = models.TextField(blank=True, help_text="For members only.")
    hazards = models.ManyToManyField(Hazard, blank=True, related_name="parts")
    keep_with = models.ForeignKey(
        "catalog.Vehicle",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="kept_parts",
        verbose_name="keep for",
    )
    location = models.ForeignKey(
        "catalog.Location", on_delete=models.PROTECT, null=True, blank=True, related_name="parts"
    )
    inside = models.ForeignKey(
        "self",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="contents",
        verbose_name="inside another part",
    )
    split_from = models.ForeignKey(
        "self",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        editable=False,
        related_name="pieces",
    )
    component = models.ForeignKey(
        "catalog.Component",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        editable=False,
        related_name="parts",
    )
    vehicle_class = models.ForeignKey(
        "catalog.VehicleClass",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        editable=False,
        related_name="parts",
    )
    identification_status = models.CharField(
        max_length=12, choices=Standing.choices, default=Standing.UNIDENTIFIED, editable=False
    )
    recorded_at = models.DateTimeField(editable=False)
    recorded_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        on_delete=models.PROTECT,
        editable=False,
        related_name="parts_recorded",
    )
    is_published = models.BooleanField("visitors may see it", default=False)
    history = LinkedHistory(m2m_fields=[hazards])

    objects = PartQuerySet.as_manager()

    class Meta:
        ordering = ["number_sort", "pk"]
        # Lists show what is kept, in numerical order: an index of just that is read in order and
        # never looks at the rows, so that the last page of a hundred thousand comes like the first.
        indexes = [
            *(
                models.Index(
                    fields=[*fields, "number_sort", "id"],
                    condition=KEPT,
                    name=f"part_kept_by_{name}",
                )
                for name, fields in LISTED_BY.items()
            ),
            models.Index(
                fields=["number_sort", "id"],
                condition=KEPT & models.Q(tag__isnull=True),
                name="part_kept_untagged",
            ),
            # Needs look at the first few parts of each component that are free, and all that
            # decides it stands in the index itself.
            models.Index(
                fields=[
                    "component",
                    "usability",
                    "number_sort",
                    "id",
                    "vehicle_class",
                    "keep_with",
                    "quantity",
                ],
                condition=KEPT,
                name="part_kept_by_use",
            ),
            # What was taken in from month to month is added up without looking at the rows.
            models.Index(
                fields=["recorded_at", "accession", "quantity"],
                condition=KEPT,
                name="part_kept_by_intake",
            ),
            models.Index(fields=["accession", "item", "piece"]),
        ]
        constraints = [
            models.UniqueConstraint(
                fields=["accession", "item", "piece"],
                name="part_number_once",
                violation_error_message="This part number is already used.",
            ),
            models.CheckConstraint(
                condition=models.Q(quantity__gt=0),
                name="part_quantity_positive",
                violation_error_message="A part is at least one piece.",
            ),
            models.CheckConstraint(
                condition=models.Q(surviving_share__gt=0, surviving_share__lte=1),
                name="part_surviving_share_in_range",
                violation_error_message="What survives is more than nothing and at most the whole.",
            ),
            models.CheckConstraint(
                condition=models.Q(mass_kg__isnull=True) | models.Q(mass_kg__gt=0),
                name="part_mass_positive",
                violation_error_message="A mass is more than nothing.",
            ),
            models.CheckConstraint(
                condition=models.Q(inside__isnull=True) | models.Q(location__isnull=True),
                name="part_in_one_place",
                violation_error_message="A part is at a location or inside another part, not both.",
            ),
            models.CheckConstraint(
                condition=models.Q(inside__isnull=True) | ~models.Q(inside=models.F("id")),
                name="part_not_inside_itself",
                violation_error_message="A part cannot be inside itself.",
            ),
            models.CheckConstraint(
                condition=models.Q(component__isnull=False)
                | models.Q(identification_status="unidentified"),
                name="part_identified_as_something",
            ),
        ]

    def __str__(self) -> str:
        return self.label

    def get_absolute_url(self) -> str:
        return reverse("part-detail", args=[self.pk])

    def clean(self) -> None:
        if self.is_withdrawn and self.pk and self.fittings.active().exists():
            raise ValidationError("It is in use on a vehicle. Take it off there first.")

    @property
    def label(self) -> str:
        return part_label(self.number, self.tag, self.pk)


def part_label(number: str | None, tag: str | None, pk: int) -> str:
    """Return what people call a part by: its number, else its tag."""
    return number or (f"tag {tag}" if tag else f"unnumbered {pk}")
