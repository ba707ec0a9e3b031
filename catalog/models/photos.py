"""Photos: the original kept byte for byte, and what it shows of which record."""

from django.conf import settings
from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from catalog.models.sources import exactly_one
from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet

PICTURED = (
    "part",
    "vehicle",
    "vehicle_class",
    "component",
    "source",
    "patent",
    "accession",
    "location",
    "removal",
    "trial",
)
WIDTHS = (320, 960, 2048)
SUFFIXES = {"image/webp": "webp", "image/jpeg": "jpg"}


def original_name(sha256: str, suffix: str) -> str:
    """Return where an original lies: under its own content's name, so it is kept once."""
    return f"originals/{sha256[:2]}/{sha256}.{suffix}"


def derived_folder(sha256: str) -> str:
    return f"derived/{sha256[:2]}/{sha256}"


def derived_name(sha256: str, width: int, suffix: str) -> str:
    return f"{derived_folder(sha256)}/{width}.{suffix}"


class PhotoQuerySet(WithdrawableQuerySet["Photo"]):
    def in_order(self) -> "PhotoQuerySet":
        return self.kept().order_by("-is_main", "sequence", "pk")


class Photo(Withdrawable):
    """A picture of exactly one record; width and height are those of the upright picture."""

    class PictureRole(models.TextChoices):
        OVERALL = "overall", "overall"
        MARK = "mark", "mark"
        DAMAGE = "damage", "damage"
        MEASURING = "measuring", "measuring"
        IN_PLACE = "in_place", "in place"
        AFTER_REMOVAL = "after_removal", "after removal"
        DRAWING = "drawing", "drawing"
        DOCUMENT = "document", "document"

    original = models.FileField(max_length=200)
    original_name = models.CharField(max_length=200, blank=True)
    sha256 = models.CharField(max_length=64, db_index=True)
    media_type = models.CharField(max_length=40)
    byte_size = models.PositiveBigIntegerField()
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    taken_at = models.DateTimeField(null=True, blank=True)
    capture_id = models.UUIDField(unique=True, null=True, editable=False)
    role = models.CharField(max_length=14, choices=PictureRole.choices, default=PictureRole.OVERALL)
    caption = models.CharField(max_length=240, blank=True)
    sequence = models.PositiveSmallIntegerField(default=0)
    is_main = models.BooleanField("main photo", default=False)
    is_published = models.BooleanField("visitors may see it", default=False)
    added_at = models.DateTimeField(editable=False)
    added_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, editable=False, related_name="photos"
    )
    part = models.ForeignKey(
        "catalog.Part", models.CASCADE, null=True, blank=True, related_name="photos"
    )
    vehicle = models.ForeignKey(
        "catalog.Vehicle", models.CASCADE, null=True, blank=True, related_name="photos"
    )
    vehicle_class = models.ForeignKey(
        "catalog.VehicleClass", models.CASCADE, null=True, blank=True, related_name="photos"
    )
    component = models.ForeignKey(
        "catalog.Component", models.CASCADE, null=True, blank=True, related_name="photos"
    )
    source = models.ForeignKey(
        "catalog.Source", models.CASCADE, null=True, blank=True, related_name="photos"
    )
    patent = models.ForeignKey(
        "catalog.Patent", models.CASCADE, null=True, blank=True, related_name="photos"
    )
    accession = models.ForeignKey(
        "catalog.Accession", models.CASCADE, null=True, blank=True, related_name="photos"
    )
    location = models.ForeignKey(
        "catalog.Location", models.CASCADE, null=True, blank=True, related_name="photos"
    )
    removal = models.ForeignKey(
        "catalog.Removal", models.CASCADE, null=True, blank=True, related_name="photos"
    )
    trial = models.ForeignKey(
        "catalog.Trial", models.CASCADE, null=True, blank=True, related_name="photos"
    )
    history = HistoricalRecords()

    objects = PhotoQuerySet.as_manager()

    class Meta:
        ordering = ["-is_main", "sequence", "pk"]
        constraints = [
            models.CheckConstraint(condition=exactly_one(*PICTURED), name="photo_of_one_record"),
            models.CheckConstraint(
                condition=models.Q(width__gt=0, height__gt=0), name="photo_has_size"
            ),
            *(
                models.UniqueConstraint(
                    fields=[name],
                    condition=models.Q(is_main=True, withdrawn_at__isnull=True),
                    name=f"photo_one_main_a_{name}",
                    violation_error_message="Another photo is the main one by now.",
                )
                for name in PICTURED
            ),
        ]

    def __str__(self) -> str:
        return self.caption or self.get_role_display()

    def get_absolute_url(self) -> str:
        return reverse("photo-detail", args=[self.pk])

    def address(self, width: int) -> str:
        return reverse("photo-file", args=[self.pk, width])

    @property
    def url_320(self) -> str:
        return self.address(320)

    @property
    def url_960(self) -> str:
        return self.address(960)

    @property
    def url_2048(self) -> str:
        return self.address(2048)


class PhotoSpot(models.Model):
    """A spot on a photo with words: here is the crack, here stands the mark."""

    photo = models.ForeignKey(Photo, on_delete=models.CASCADE, related_name="spots")
    x = models.FloatField()
    y = models.FloatField()
    words = models.CharField(max_length=160)
    history = HistoricalRecords()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(x__gte=0, x__lte=1, y__gte=0, y__lte=1),
                name="photo_spot_on_photo",
                violation_error_message="The spot lies outside the photo.",
            )
        ]

    def __str__(self) -> str:
        return self.words
