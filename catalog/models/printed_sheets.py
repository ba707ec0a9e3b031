"""Printed sheets: each issue keeps its number and the very file that went to the printer."""

from django.conf import settings
from django.db import models
from django.urls import reverse


class PrintedSheetQuerySet(models.QuerySet["PrintedSheet"]):
    def of(self, kind: str, key: int) -> "PrintedSheetQuerySet":
        return self.filter(kind=kind, key=key)

    def for_list(self) -> "PrintedSheetQuerySet":
        return self.select_related("printed_by").order_by("-number")


class PrintedSheet(models.Model):
    """One issue: a paper on the wall is found again by the number that it carries.

    ``key`` is that of the record of this kind; it is empty where several records were printed
    together.
    """

    class Kind(models.TextChoices):
        VEHICLE = "vehicle", "provenance sheet"
        PART = "part", "part sheet"
        PATENT = "patent", "patent sheet"
        VEHICLE_CLASS = "vehicle-class", "class sheet"
        SEVERAL = "several", "several sheets"

    number = models.PositiveIntegerField(unique=True)
    kind = models.CharField(max_length=16, choices=Kind.choices)
    key = models.PositiveBigIntegerField(null=True, blank=True)
    title = models.CharField(max_length=240)
    paper = models.CharField(max_length=8)
    is_public = models.BooleanField("without what is private")
    file = models.FileField(max_length=200)
    sha256 = models.CharField(max_length=64)
    byte_size = models.PositiveIntegerField()
    printed_at = models.DateTimeField()
    printed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="printed_sheets"
    )

    objects = PrintedSheetQuerySet.as_manager()

    class Meta:
        ordering = ["-number"]
        indexes = [models.Index(fields=["kind", "key"])]

    def __str__(self) -> str:
        return f"issue {self.number}"

    def get_absolute_url(self) -> str:
        return reverse("printed-sheet", args=[self.number])
