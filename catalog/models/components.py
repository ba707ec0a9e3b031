"""Components, the kinds of pieces, with their other names, characteristics and mating rules."""

from django.core.exceptions import ValidationError
from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from catalog.models.histories import LinkedHistory
from catalog.models.limits import Order, in_order, refuse_crossed, refuse_without_width
from catalog.models.loops import comes_back
from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet


class Hazard(models.Model):
    """A danger that a piece can carry, with the caution shown wherever the piece is."""

    slug = models.SlugField(max_length=40, unique=True)
    label = models.CharField(max_length=60)
    caution = models.TextField()

    class Meta:
        ordering = ["label"]

    def __str__(self) -> str:
        return self.label


class ComponentQuerySet(WithdrawableQuerySet["Component"]):
    def for_list(self) -> "ComponentQuerySet":
        return (
            self.kept()
            .select_related("broader")
            .prefetch_related("aliases")
            .annotate(position_count=models.Count("positions", distinct=True))
            .order_by("name")
        )


class Component(Withdrawable):
    name = models.CharField(max_length=80, unique=True)
    slug = models.SlugField(max_length=90, unique=True, editable=False)
    definition = models.TextField(blank=True)
    broader = models.ForeignKey(
        "self",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="narrower",
        verbose_name="is a kind of",
    )
    hazards = models.ManyToManyField(Hazard, blank=True, related_name="components")
    making_hours = models.DecimalField(
        "hours to make one", max_digits=7, decimal_places=1, null=True, blank=True
    )
    repair_hours = models.DecimalField(
        "hours to repair one", max_digits=7, decimal_places=1, null=True, blank=True
    )
    making_cost = models.DecimalField(
        "cost to make one", max_digits=10, decimal_places=2, null=True, blank=True
    )
    repair_cost = models.DecimalField(
        "cost to repair one", max_digits=10, decimal_places=2, null=True, blank=True
    )
    history = LinkedHistory(m2m_fields=[hazards])

    objects = ComponentQuerySet.as_manager()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(name=""),
                name="component_has_name",
                violation_error_message="Give the component a name.",
            ),
            models.CheckConstraint(
                condition=models.Q(broader__isnull=True) | ~models.Q(broader=models.F("id")),
                name="component_not_its_own_kind",
                violation_error_message="A component cannot be a kind of itself.",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("component-detail", args=[self.slug])

    def clean(self) -> None:
        if comes_back(self, "broader"):
            raise ValidationError(
                {"broader": f"A {self.broader} is itself a kind of {self}: not both ways round."}
            )


class ComponentAlias(models.Model):
    """Another name for a component: axlebox for journal box."""

    class Usage(models.TextChoices):
        US = "us", "American"
        UK = "uk", "British"
        WORKS = "works", "works or local name"
        OTHER = "other", "other"

    component = models.ForeignKey(Component, on_delete=models.CASCADE, related_name="aliases")
    name = models.CharField(max_length=80)
    usage = models.CharField(max_length=6, choices=Usage.choices, default=Usage.OTHER)
    history = HistoricalRecords()

    class Meta:
        ordering = ["name"]
        verbose_name_plural = "component aliases"
        constraints = [
            models.UniqueConstraint(
                models.functions.Lower("name"),
                "component",
                name="component_alias_once",
                violation_error_message="The component already has this name.",
            )
        ]

    def __str__(self) -> str:
        return self.name


class Characteristic(models.Model):
    """A measurable feature of a component, and where on the piece it is measured."""

    component = models.ForeignKey(
        Component, on_delete=models.CASCADE, related_name="characteristics"
    )
    name = models.CharField(max_length=80)
    where_to_measure = models.CharField(max_length=240, blank=True)
    picture = models.ForeignKey(
        "catalog.Photo", on_delete=models.SET_NULL, null=True, blank=True, related_name="+"
    )
    sequence = models.PositiveSmallIntegerField(default=0)
    history = HistoricalRecords()

    class Meta:
        ordering = ["sequence", "name"]
        constraints = [
            models.UniqueConstraint(
                models.functions.Lower("name"),
                "component",
                name="characteristic_once",
                violation_error_message="The component already has a characteristic of this name.",
            )
        ]

    def __str__(self) -> str:
        return self.name


_ORDERS = (
    Order("least_mm", "greatest_mm", "greatest_mm", "The greatest clearance is below the least"),
    Order(
        "greatest_mm",
        "worn_greatest_mm",
        "worn_greatest_mm",
        "The greatest clearance when worn is tighter than the limit as new",
    ),
    Order(
        "least_mm",
        "worn_greatest_mm",
        "worn_greatest_mm",
        "The greatest clearance when worn is below the least",
    ),
)


class MatingRule(models.Model):
    """The clearance allowed between an outer piece's characteristic and an inner piece's."""

    outer = models.ForeignKey(
        Characteristic, on_delete=models.CASCADE, related_name="rules_as_outer"
    )
    inner = models.ForeignKey(
        Characteristic, on_delete=models.CASCADE, related_name="rules_as_inner"
    )
    least_mm = models.DecimalField(
        "least clearance", max_digits=16, decimal_places=9, null=True, blank=True
    )
    greatest_mm = models.DecimalField(
        "greatest clearance", max_digits=16, decimal_places=9, null=True, blank=True
    )
    worn_greatest_mm = models.DecimalField(
        "greatest clearance when worn", max_digits=16, decimal_places=9, null=True, blank=True
    )
    is_required = models.BooleanField("required rather than advisory", default=True)
    note = models.CharField(max_length=240, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["outer", "inner"]
        constraints = [
            models.UniqueConstraint(
                fields=["outer", "inner"],
                name="mating_rule_once",
                violation_error_message="There is already a rule for these two.",
            ),
            models.CheckConstraint(
                condition=~models.Q(outer=models.F("inner")),
                name="mating_rule_joins_two",
                violation_error_message="A mating rule joins two different characteristics.",
            ),
            models.CheckConstraint(
                condition=models.Q(least_mm__isnull=False)
                | models.Q(greatest_mm__isnull=False)
                | models.Q(worn_greatest_mm__isnull=False),
                name="mating_rule_says_something",
                violation_error_message="Give the least or the greatest clearance.",
            ),
            models.CheckConstraint(
                condition=in_order("least_mm", "greatest_mm"),
                name="mating_rule_limits_in_order",
                violation_error_message="The greatest clearance is below the least clearance.",
            ),
            models.CheckConstraint(
                condition=in_order("greatest_mm", "worn_greatest_mm"),
                name="mating_rule_worn_beyond_new",
                violation_error_message="The limit when worn is tighter than the limit as new.",
            ),
            models.CheckConstraint(
                condition=in_order("least_mm", "worn_greatest_mm"),
                name="mating_rule_worn_in_order",
                violation_error_message="The greatest clearance when worn is below the least.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.outer} over {self.inner}"

    @property
    def in_full(self) -> str:
        """Name the components too: the height of one piece over that of another reads alike."""
        return f"{self.outer.component} {self.outer} over {self.inner.component} {self.inner}"

    def clean(self) -> None:
        refuse_crossed(self, _ORDERS)
        refuse_without_width(self, "least_mm", "greatest_mm")
