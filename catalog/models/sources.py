"""Sources, the documents behind statements, and the citations that tie the two."""

from django.core.exceptions import ValidationError
from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from catalog.models.dates import VagueDateRecord, date_order
from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet


class SourceQuerySet(WithdrawableQuerySet["Source"]):
    def for_detail(self) -> "SourceQuerySet":
        return self.select_related("holder", "speaker", "withdrawn_by")

    def for_list(self) -> "SourceQuerySet":
        return (
            self.kept()
            .select_related("holder")
            .annotate(citation_count=models.Count("citations"))
            .order_by("title")
        )


class Source(VagueDateRecord, Withdrawable):
    class Kind(models.TextChoices):
        DRAWING = "drawing", "drawing"
        PHOTOGRAPH = "photograph", "photograph"
        BOOK = "book", "book or article"
        LETTER = "letter", "letter"
        REGISTER = "register", "register or inventory"
        PATENT = "patent", "patent"
        ORAL = "oral", "oral account"
        SURVIVOR = "survivor", "surviving example elsewhere"
        REGULATION = "regulation", "published rule or standard"
        OTHER = "other", "other"

    kind = models.CharField(max_length=12, choices=Kind.choices, default=Kind.OTHER)
    title = models.CharField(max_length=240)
    creator = models.CharField("made by", max_length=160, blank=True)
    reference_number = models.CharField(max_length=120, blank=True)
    holder = models.ForeignKey(
        "catalog.Party",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="held_sources",
        help_text="Who has the original.",
    )
    original_place = models.CharField("where the original is", max_length=240, blank=True)
    rights = models.CharField(max_length=240, blank=True)
    speaker = models.ForeignKey(
        "catalog.Party",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="accounts_given",
    )
    recorder = models.CharField("recorded by", max_length=160, blank=True)
    has_consent = models.BooleanField("speaker agreed to the use of the account", default=False)
    notes = models.TextField(blank=True)
    is_published = models.BooleanField("visitors may see it", default=False)
    history = HistoricalRecords()

    objects = SourceQuerySet.as_manager()

    class Meta:
        ordering = ["title"]
        constraints = [
            date_order("source"),
            models.CheckConstraint(
                condition=~models.Q(title=""),
                name="source_has_title",
                violation_error_message="Give the source a title by which others will know it.",
            ),
        ]

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("source-detail", args=[self.pk])

    @property
    def is_survivor(self) -> bool:
        return self.kind == self.Kind.SURVIVOR

    def clean(self) -> None:
        """Refuse to show visitors what somebody told who has not agreed to that."""
        if self.kind == self.Kind.ORAL and self.is_published and not self.has_consent:
            raise ValidationError(
                "What somebody told is shown to visitors only when the speaker has agreed. "
                "Ask, note the consent here, then publish it."
            )


class SourceFile(models.Model):
    """A scan or document kept with a source; pictures are kept as photos instead."""

    source = models.ForeignKey(Source, on_delete=models.CASCADE, related_name="files")
    file = models.FileField(upload_to="sources/%Y/")
    name = models.CharField(max_length=200)
    sha256 = models.CharField(max_length=64)
    byte_size = models.PositiveBigIntegerField()
    history = HistoricalRecords()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(
                fields=["source", "sha256"],
                name="source_file_once",
                violation_error_message="This file is already kept with the source.",
            )
        ]

    def __str__(self) -> str:
        return self.name


CITED = (
    "event",
    "identification",
    "specification",
    "mating_rule",
    "measurement",
    "accession",
    "vehicle",
    "vehicle_class",
    "part",
    "patent",
    "deviation",
)


def exactly_one(*names: str) -> models.Q:
    """Say that one of the named links is set and all others are empty."""
    answer = models.Q()
    for chosen in names:
        answer |= models.Q(**{f"{name}__isnull": name != chosen for name in names})
    return answer


class Citation(models.Model):
    """A source and a place in it, standing behind exactly one statement."""

    source = models.ForeignKey(Source, on_delete=models.PROTECT, related_name="citations")
    locator = models.CharField("page, sheet or minute", max_length=120, blank=True)
    says = models.TextField("what it says", blank=True)
    event = models.ForeignKey(
        "catalog.ProvenanceEvent", models.CASCADE, null=True, blank=True, related_name="citations"
    )
    identification = models.ForeignKey(
        "catalog.Identification", models.CASCADE, null=True, blank=True, related_name="citations"
    )
    specification = models.ForeignKey(
        "catalog.Specification", models.CASCADE, null=True, blank=True, related_name="citations"
    )
    mating_rule = models.ForeignKey(
        "catalog.MatingRule", models.CASCADE, null=True, blank=True, related_name="citations"
    )
    measurement = models.ForeignKey(
        "catalog.Measurement", models.CASCADE, null=True, blank=True, related_name="citations"
    )
    accession = models.ForeignKey(
        "catalog.Accession", models.CASCADE, null=True, blank=True, related_name="citations"
    )
    vehicle = models.ForeignKey(
        "catalog.Vehicle", models.CASCADE, null=True, blank=True, related_name="citations"
    )
    vehicle_class = models.ForeignKey(
        "catalog.VehicleClass", models.CASCADE, null=True, blank=True, related_name="citations"
    )
    part = models.ForeignKey(
        "catalog.Part", models.CASCADE, null=True, blank=True, related_name="citations"
    )
    patent = models.ForeignKey(
        "catalog.Patent", models.CASCADE, null=True, blank=True, related_name="citations"
    )
    deviation = models.ForeignKey(
        "catalog.Deviation", models.CASCADE, null=True, blank=True, related_name="citations"
    )
    history = HistoricalRecords()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=exactly_one(*CITED),
                name="citation_behind_one_statement",
                violation_error_message="A citation stands behind exactly one statement.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.source}, {self.locator}" if self.locator else str(self.source)
