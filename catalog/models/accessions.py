"""Accessions: what came from whom, under which terms, and what was said to be in it."""

from django.core.exceptions import ValidationError
from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from catalog.models.dates import VagueDateRecord, date_order
from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet


class AccessionQuerySet(WithdrawableQuerySet["Accession"]):
    def open(self) -> "AccessionQuerySet":
        return self.kept().filter(is_open=True)

    def for_detail(self) -> "AccessionQuerySet":
        return self.select_related("party", "withdrawn_by").prefetch_related("citations__source")

    def for_list(self) -> "AccessionQuerySet":
        return (
            self.kept()
            .select_related("party")
            .annotate(
                part_count=models.Count(
                    "parts", filter=models.Q(parts__withdrawn_at__isnull=True), distinct=True
                )
            )
            .annotate(line_count=models.Count("stated_lines", distinct=True))
            .order_by("-year", "-serial")
        )


class Accession(VagueDateRecord, Withdrawable):
    """One acquisition; the date is when it was received."""

    class Method(models.TextChoices):
        GIFT = "gift", "gift"
        PURCHASE = "purchase", "purchase"
        TRANSFER = "transfer", "transfer"
        EXCHANGE = "exchange", "exchange"
        BEQUEST = "bequest", "bequest"
        LOAN = "loan", "loan in"
        FOUND = "found", "found in collection"

    class Title(models.TextChoices):
        SIGNED = "signed", "deed signed"
        UNSIGNED = "unsigned", "deed not signed yet"
        MISSING = "missing", "deed not found"
        RETAINED = "retained", "title stays with the owner"
        UNKNOWN = "unknown", "not known"

    year = models.PositiveSmallIntegerField()
    serial = models.PositiveIntegerField()
    method = models.CharField(
        "how it came", max_length=10, choices=Method.choices, default=Method.GIFT
    )
    party = models.ForeignKey(
        "catalog.Party",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="accessions",
        verbose_name="from",
    )
    summary = models.CharField("what came", max_length=240, blank=True)
    title_status = models.CharField(max_length=10, choices=Title.choices, default=Title.UNKNOWN)
    terms = models.TextField("terms and restrictions", blank=True)
    notes = models.TextField(blank=True)
    is_open = models.BooleanField("still being taken in", default=True)
    history = HistoricalRecords()

    objects = AccessionQuerySet.as_manager()

    class Meta:
        ordering = ["-year", "-serial"]
        constraints = [
            date_order("accession"),
            models.UniqueConstraint(
                fields=["year", "serial"],
                name="accession_number_once",
                violation_error_message="This accession number is already used.",
            ),
            models.CheckConstraint(
                condition=models.Q(year__gte=1800, year__lte=2999, serial__gte=1),
                name="accession_number_sensible",
                violation_error_message="An accession number is a year and a number from 1 up.",
            ),
        ]

    def __str__(self) -> str:
        return self.number

    @property
    def number(self) -> str:
        return f"{self.year}.{self.serial}"

    def get_absolute_url(self) -> str:
        return reverse("accession-detail", args=[self.year, self.serial])

    def clean(self) -> None:
        if self.is_withdrawn and self.parts.kept().exists():
            raise ValidationError(
                {"reason": "Parts are cataloged under this number; withdraw them first."}
            )

    @property
    def lacks_deed(self) -> bool:
        return self.title_status in (self.Title.UNSIGNED, self.Title.MISSING)


class StatedLine(models.Model):
    """One line of what the donor said was there: about a dozen springs."""

    accession = models.ForeignKey(Accession, on_delete=models.CASCADE, related_name="stated_lines")
    text = models.CharField("as stated", max_length=240)
    quantity = models.PositiveIntegerField(null=True, blank=True)
    is_approximate = models.BooleanField("about", default=False)
    component = models.ForeignKey(
        "catalog.Component",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="stated_lines",
    )
    settled = models.CharField(
        "how the difference was settled", max_length=240, blank=True, editable=False
    )
    sequence = models.PositiveSmallIntegerField(default=0)
    history = HistoricalRecords()

    class Meta:
        ordering = ["sequence", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(text=""),
                name="stated_line_has_words",
                violation_error_message="Write down what the donor said.",
            ),
            models.CheckConstraint(
                condition=models.Q(quantity__isnull=True) | models.Q(quantity__gt=0),
                name="stated_line_quantity_positive",
                violation_error_message="A stated quantity is 1 or more; leave it empty if none.",
            ),
        ]

    def __str__(self) -> str:
        return self.text
