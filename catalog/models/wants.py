"""Wants: needs made public, and the answers that come back."""

from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet

# Databases differ in where they put what has no date, unless they are told.
OPEN_FIRST = models.F("closed_at").asc(nulls_first=True)
NEW_FIRST = models.F("acknowledged_at").asc(nulls_first=True)


class WantQuerySet(WithdrawableQuerySet["Want"]):
    def published(self) -> "WantQuerySet":
        return self.kept().filter(is_published=True, closed_at__isnull=True)

    def once_published(self) -> "WantQuerySet":
        """Return those that visitors read or did read, and to which an answer may be under way."""
        return self.filter(models.Q(is_published=True) | models.Q(published_at__isnull=False))

    def for_list(self) -> "WantQuerySet":
        kept = models.Q(answers__isnull=False, answers__removed_at__isnull=True)
        answers = models.Count("answers", filter=kept, distinct=True)
        waiting = kept & models.Q(answers__acknowledged_at__isnull=True)
        return (
            self.kept()
            .select_related("component", "vehicle", "position")
            .annotate(answer_count=answers)
            .annotate(waiting_count=models.Count("answers", filter=waiting, distinct=True))
            .order_by(OPEN_FIRST, "title")
        )

    def for_detail(self) -> "WantQuerySet":
        return self.select_related(
            *("component", "vehicle__vehicle_class", "position", "picture"),
            *("drawing__picture", "drawing__vehicle_class"),
        )


class Want(Withdrawable):
    title = models.CharField(max_length=160)
    slug = models.SlugField(max_length=170, unique=True, editable=False)
    component = models.ForeignKey(
        "catalog.Component", on_delete=models.PROTECT, related_name="wants"
    )
    vehicle = models.ForeignKey(
        "catalog.Vehicle", on_delete=models.PROTECT, null=True, blank=True, related_name="wants"
    )
    position = models.ForeignKey(
        "catalog.Position", on_delete=models.SET_NULL, null=True, blank=True, related_name="wants"
    )
    quantity = models.PositiveIntegerField(default=1)
    words = models.TextField("what is wanted, and why", blank=True)
    dimensions = models.TextField(
        "dimensions", blank=True, help_text="One a line, with the tolerance."
    )
    marks = models.CharField("marks to look for", max_length=240, blank=True)
    helps_piece = models.BooleanField("the piece itself", default=True)
    helps_photo = models.BooleanField("a photograph", default=True)
    helps_drawing = models.BooleanField("a drawing", default=True)
    helps_look = models.BooleanField("a look at a surviving example", default=True)
    picture = models.ForeignKey(
        "catalog.Photo", on_delete=models.SET_NULL, null=True, blank=True, related_name="+"
    )
    drawing = models.ForeignKey(
        "catalog.Drawing", on_delete=models.SET_NULL, null=True, blank=True, related_name="+"
    )
    is_published = models.BooleanField("visitors may see it", default=False)
    published_at = models.DateTimeField(null=True, blank=True)
    closed_at = models.DateTimeField(null=True, blank=True)
    closing_words = models.CharField("why it was closed", max_length=240, blank=True)
    history = HistoricalRecords()

    objects = WantQuerySet.as_manager()

    class Meta:
        ordering = ["title"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(quantity__gt=0),
                name="want_quantity_positive",
                violation_error_message="Ask for one or more.",
            ),
            models.CheckConstraint(
                condition=~models.Q(title=""),
                name="want_has_title",
                violation_error_message="Say in a few words what is wanted.",
            ),
        ]

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("want-detail", args=[self.slug])

    def get_public_url(self) -> str:
        return reverse("wanted-detail", args=[self.slug])

    @property
    def is_open(self) -> bool:
        return self.closed_at is None

    @property
    def is_public(self) -> bool:
        return self.is_published and self.is_open and not self.is_withdrawn

    @property
    def helps(self) -> list[str]:
        """Return in words what would help."""
        names = ("helps_piece", "helps_photo", "helps_drawing", "helps_look")
        fields = (self._meta.get_field(name) for name in names if getattr(self, name))
        return [str(field.verbose_name) for field in fields]  # type: ignore[union-attr]


class AnswerQuerySet(models.QuerySet["Answer"]):
    def kept(self) -> "AnswerQuerySet":
        return self.filter(removed_at__isnull=True)

    def waiting(self) -> "AnswerQuerySet":
        return self.kept().filter(acknowledged_at__isnull=True)

    def removed(self) -> "AnswerQuerySet":
        return self.for_detail().filter(removed_at__isnull=False).order_by("-removed_at")

    def for_list(self) -> "AnswerQuerySet":
        return self.for_detail().kept().order_by(NEW_FIRST, "-received_at")

    def for_detail(self) -> "AnswerQuerySet":
        linked = ("want__vehicle", "source", "accession", "party", "removed_by")
        return self.select_related(*linked)


class Answer(models.Model):
    """What somebody wrote in answer to a want, for stewards; members read what is made of it.

    One that was removed keeps no word of its writer, only that it was there and what became of it.
    """

    class Removal(models.TextChoices):
        SPAM = "spam", "it is spam"
        ASKED = "asked", "the writer asked for it"

    want = models.ForeignKey(Want, on_delete=models.CASCADE, related_name="answers")
    name = models.CharField(max_length=120)
    contact = models.CharField(max_length=200)
    words = models.TextField()
    has_consent = models.BooleanField("may be kept and answered")
    received_at = models.DateTimeField()
    acknowledged_at = models.DateTimeField(null=True, blank=True)
    came_of_it = models.CharField("what came of it", max_length=240, blank=True)
    party = models.ForeignKey(
        "catalog.Party", on_delete=models.SET_NULL, null=True, blank=True, related_name="answers"
    )
    source = models.ForeignKey(
        "catalog.Source", on_delete=models.SET_NULL, null=True, blank=True, related_name="answers"
    )
    accession = models.ForeignKey(
        "catalog.Accession",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="answers",
    )
    removed_at = models.DateTimeField(null=True, blank=True, editable=False)
    removed_by = models.ForeignKey(
        "catalog.Member",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        editable=False,
        related_name="+",
    )
    removed_why = models.CharField(
        max_length=5, choices=Removal.choices, blank=True, editable=False
    )
    # A keyed digest that changes every day: it limits how fast one sender writes, and tells
    # nobody afterwards who that was.
    sender = models.CharField(max_length=64, blank=True, editable=False, db_index=True)
    history = HistoricalRecords(excluded_fields=["sender"])

    objects = AnswerQuerySet.as_manager()

    class Meta:
        ordering = ["-received_at"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(has_consent=True) | models.Q(removed_at__isnull=False),
                name="answer_with_consent",
                violation_error_message="We may keep an answer only with consent.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.name} on {self.want}"

    @property
    def is_removed(self) -> bool:
        return self.removed_at is not None

    @property
    def has_made(self) -> bool:
        """Tell whether a record was made of it, which holds what the writer gave."""
        return any((self.party_id, self.source_id, self.accession_id))
