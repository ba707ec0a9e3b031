"""People and organizations: builders, donors, owners, inventors, speakers."""

from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet


class PartyQuerySet(WithdrawableQuerySet["Party"]):
    def organizations(self) -> "PartyQuerySet":
        return self.filter(kind=Party.Kind.ORGANIZATION)

    def for_list(self) -> "PartyQuerySet":
        return (
            self.kept().annotate(accession_count=models.Count("accessions")).order_by("sort_name")
        )


class Party(Withdrawable):
    class Kind(models.TextChoices):
        PERSON = "person", "person"
        ORGANIZATION = "organization", "organization"

    kind = models.CharField(max_length=12, choices=Kind.choices, default=Kind.PERSON)
    name = models.CharField(max_length=160)
    sort_name = models.CharField(max_length=160, blank=True, editable=False)
    known_as = models.CharField(
        "also known as", max_length=240, blank=True, help_text="Other names, separated by commas."
    )
    place = models.CharField(max_length=160, blank=True)
    years = models.CharField(
        max_length=80, blank=True, help_text="Lived or traded, such as 1871–1934."
    )
    email = models.EmailField(blank=True)
    phone = models.CharField(max_length=60, blank=True)
    address = models.TextField(blank=True)
    is_name_public = models.BooleanField(
        "name may be shown to visitors", default=False, help_text="Contact data never is."
    )
    notes = models.TextField(blank=True)
    history = HistoricalRecords()

    objects = PartyQuerySet.as_manager()

    class Meta:
        ordering = ["sort_name", "name"]
        verbose_name_plural = "parties"
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(name=""),
                name="party_has_name",
                violation_error_message="Give the person or organization a name.",
            )
        ]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("party-detail", args=[self.pk])
