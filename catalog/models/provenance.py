"""Provenance: the dated events in the life of a vehicle or a part."""

from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from catalog.models.dates import VagueDateRecord, date_order
from catalog.models.sources import exactly_one
from catalog.models.withdrawals import Withdrawable, WithdrawableQuerySet


class ProvenanceEventQuerySet(WithdrawableQuerySet["ProvenanceEvent"]):
    def for_chain(self) -> "ProvenanceEventQuerySet":
        return (
            self.kept()
            .select_related("from_party", "to_party", "keeper")
            .prefetch_related("citations__source")
            .in_chain()
        )

    def in_chain(self) -> "ProvenanceEventQuerySet":
        return self.order_by(
            models.F("sequence").asc(nulls_last=True),
            models.F("date_earliest").asc(nulls_last=True),
            "pk",
        )


class ProvenanceEvent(VagueDateRecord, Withdrawable):
    class Kind(models.TextChoices):
        BUILT = "built", "built"
        SOLD = "sold", "sold"
        TRANSFERRED = "transferred", "transferred"
        GIVEN = "given", "given"
        LENT = "lent", "lent"
        MOVED = "moved", "moved"
        LISTED = "listed", "listed or seen"
        REBUILT = "rebuilt", "rebuilt"
        RENUMBERED = "renumbered", "renumbered or renamed"
        LAID_UP = "laid_up", "laid up"
        RETURNED = "returned", "returned to service"
        SCRAPPED = "scrapped", "scrapped"
        ACQUIRED = "acquired", "acquired by the group"

    class Certainty(models.TextChoices):
        DOCUMENTED = "documented", "documented"
        PROBABLE = "probable", "probable"
        SUPPOSED = "supposed", "supposed"

    vehicle = models.ForeignKey(
        "catalog.Vehicle", on_delete=models.CASCADE, null=True, blank=True, related_name="events"
    )
    part = models.ForeignKey(
        "catalog.Part", on_delete=models.CASCADE, null=True, blank=True, related_name="events"
    )
    kind = models.CharField(max_length=12, choices=Kind.choices)
    from_party = models.ForeignKey(
        "catalog.Party", on_delete=models.PROTECT, null=True, blank=True, related_name="events_from"
    )
    to_party = models.ForeignKey(
        "catalog.Party", on_delete=models.PROTECT, null=True, blank=True, related_name="events_to"
    )
    keeper = models.ForeignKey(
        "catalog.Party",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="events_keeping",
        help_text="Who had it, where that is not the owner.",
    )
    place = models.CharField(max_length=160, blank=True)
    words = models.TextField("what happened", blank=True)
    certainty = models.CharField(
        max_length=10, choices=Certainty.choices, default=Certainty.DOCUMENTED
    )
    is_preferred = models.BooleanField("preferred where sources disagree", default=False)
    preference_reason = models.CharField(max_length=240, blank=True)
    sequence = models.PositiveSmallIntegerField("place in the chain", null=True, blank=True)
    history = HistoricalRecords()

    objects = ProvenanceEventQuerySet.as_manager()

    class Meta:
        ordering = ["sequence", "date_earliest", "pk"]
        constraints = [
            date_order("event"),
            models.CheckConstraint(
                condition=exactly_one("vehicle", "part"), name="event_of_one_record"
            ),
            models.CheckConstraint(
                condition=models.Q(is_preferred=False) | ~models.Q(preference_reason=""),
                name="event_preference_has_reason",
                violation_error_message="Say why this statement is preferred.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_kind_display()} {self.date_text}".strip()

    def get_absolute_url(self) -> str:
        kind, key = ("vehicle", self.vehicle_id) if self.vehicle_id else ("part", self.part_id)
        return reverse("provenance", args=[kind, key])
