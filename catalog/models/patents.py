"""Patents, their figures and reference characters, and how parts resemble them."""

from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from catalog.models.histories import LinkedHistory
from catalog.models.sources import exactly_one
from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet


class PatentQuerySet(WithdrawableQuerySet["Patent"]):
    def for_list(self) -> "PatentQuerySet":
        return (
            self.kept()
            .annotate(figure_count=models.Count("figures", distinct=True))
            .order_by("country", "number")
        )


class Patent(Withdrawable):
    """A patent; British numbers before 1916 restart every year, so the year is in the key."""

    country = models.CharField(max_length=2, help_text="Two letters, as in WIPO ST.3: US, GB.")
    number = models.CharField(max_length=20)
    year = models.PositiveSmallIntegerField(null=True, blank=True)
    kind = models.CharField("kind code", max_length=3, blank=True)
    title = models.CharField(max_length=240)
    inventors = models.ManyToManyField("catalog.Party", blank=True, related_name="patents")
    assignee = models.ForeignKey(
        "catalog.Party",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="patents_assigned",
    )
    filed_on = models.DateField(null=True, blank=True)
    issued_on = models.DateField(null=True, blank=True)
    notes = models.TextField(blank=True)
    is_published = models.BooleanField("visitors may see it", default=False)
    history = LinkedHistory(m2m_fields=[inventors])

    objects = PatentQuerySet.as_manager()

    class Meta:
        ordering = ["country", "number"]
        constraints = [
            models.UniqueConstraint(
                "country",
                "number",
                models.functions.Coalesce("year", 0),
                name="patent_once",
                violation_error_message="This patent is already recorded.",
            ),
            models.CheckConstraint(
                condition=models.Q(filed_on__isnull=True)
                | models.Q(issued_on__isnull=True)
                | models.Q(issued_on__gte=models.F("filed_on")),
                name="patent_issued_after_filing",
                violation_error_message="The patent is issued before it was filed.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.country} {self.number}"

    def get_absolute_url(self) -> str:
        return reverse("patent-detail", args=[self.pk])


class PatentFigure(models.Model):
    patent = models.ForeignKey(Patent, on_delete=models.CASCADE, related_name="figures")
    label = models.CharField(max_length=20, help_text="Such as Fig. 1.")
    title = models.CharField(max_length=160, blank=True)
    picture = models.ForeignKey("catalog.Photo", on_delete=models.PROTECT, related_name="figures")
    sequence = models.PositiveSmallIntegerField(default=0)
    history = HistoricalRecords()

    class Meta:
        ordering = ["sequence", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["patent", "label"],
                name="patent_figure_once",
                violation_error_message="The patent already has a figure of this label.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.patent} {self.label}"


class ReferenceCharacter(models.Model):
    """A reference character on a figure, the words of the patent for it, and our component."""

    figure = models.ForeignKey(PatentFigure, on_delete=models.CASCADE, related_name="characters")
    character = models.CharField(max_length=8)
    words = models.CharField(max_length=160, blank=True)
    component = models.ForeignKey(
        "catalog.Component",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="reference_characters",
    )
    x = models.FloatField()
    y = models.FloatField()
    history = HistoricalRecords()

    class Meta:
        ordering = ["character", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(x__gte=0, x__lte=1, y__gte=0, y__lte=1),
                name="reference_character_on_figure",
                violation_error_message="The spot lies outside the figure.",
            )
        ]

    def __str__(self) -> str:
        return self.character


class Likeness(models.Model):
    """How a part or a component resembles a figure, with the differences in words."""

    class Degree(models.TextChoices):
        SAME = "same", "same"
        SIMILAR = "similar", "similar"
        DIFFERS = "differs", "differs"

    figure = models.ForeignKey(PatentFigure, on_delete=models.CASCADE, related_name="likenesses")
    part = models.ForeignKey(
        "catalog.Part", on_delete=models.CASCADE, null=True, blank=True, related_name="likenesses"
    )
    component = models.ForeignKey(
        "catalog.Component",
        on_delete=models.CASCADE,
        null=True,
        blank=True,
        related_name="likenesses",
    )
    degree = models.CharField(max_length=8, choices=Degree.choices)
    differences = models.TextField(blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["pk"]
        verbose_name_plural = "likenesses"
        constraints = [
            models.CheckConstraint(
                condition=exactly_one("part", "component"), name="likeness_of_one_thing"
            ),
            models.CheckConstraint(
                condition=models.Q(degree="same") | ~models.Q(differences=""),
                name="likeness_says_differences",
                violation_error_message="Say in words what differs.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_degree_display()}: {self.figure}"
