"""Lists of parts that were read in, and which of their rows became which part."""

from django.conf import settings
from django.db import models
from django.db.models.functions import Coalesce
from django.urls import reverse


class ImportBatchQuerySet(models.QuerySet["ImportBatch"]):
    def for_list(self) -> "ImportBatchQuerySet":
        return self.select_related("accession", "uploaded_by").annotate(
            part_count=models.Count("rows")
        )


class ImportBatch(models.Model):
    """One uploaded list, kept from the upload on, so that each step can be left and resumed."""

    class Unit(models.TextChoices):
        REFUSE = "", "say so, I will write the units"
        INCHES = "in", "inches"
        MILLIMETERS = "mm", "millimeters"

    name = models.CharField("file name", max_length=200)
    file = models.FileField(max_length=200)
    sha256 = models.CharField(max_length=64)
    accession = models.ForeignKey(
        "catalog.Accession",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="import_batches",
    )
    columns = models.JSONField(default=list, blank=True, help_text="What each column means.")
    unit = models.CharField(
        "a length without a unit is in", max_length=2, choices=Unit.choices, blank=True
    )
    refusals = models.JSONField(
        default=dict, blank=True, help_text="What the record refused, by line."
    )
    uploaded_at = models.DateTimeField()
    uploaded_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="import_batches"
    )
    imported_at = models.DateTimeField(null=True, blank=True)

    objects = ImportBatchQuerySet.as_manager()

    class Meta:
        ordering = ["-uploaded_at", "-pk"]
        verbose_name_plural = "import batches"

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        step = "part-import-result" if self.imported_at else "part-import-preview"
        return reverse(step if self.columns else "part-import-columns", args=[self.pk])


class ImportedRow(models.Model):
    """A row of a list that became a part, by which the same row is known when it comes again.

    ``key`` is the number in the row, or else its content; ``fingerprint`` is always the content.
    """

    batch = models.ForeignKey(ImportBatch, on_delete=models.CASCADE, related_name="rows")
    accession = models.ForeignKey(
        "catalog.Accession",
        on_delete=models.CASCADE,
        null=True,
        blank=True,
        related_name="imported_rows",
    )
    key = models.CharField(max_length=120)
    fingerprint = models.CharField(max_length=64)
    line_number = models.PositiveIntegerField()
    part = models.ForeignKey("catalog.Part", on_delete=models.CASCADE, related_name="imported_rows")

    class Meta:
        ordering = ["line_number", "pk"]
        constraints = [
            models.UniqueConstraint(
                Coalesce("accession", 0),
                "key",
                name="imported_row_once",
                violation_error_message="This row became a part before.",
            )
        ]

    def __str__(self) -> str:
        return f"line {self.line_number} of {self.batch}"
