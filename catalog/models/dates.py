"""A date as people say it, kept with the bounds that sorting and reasoning need."""

from django.db import models

from catalog.reckoning.edtf_dates import VagueDate


class VagueDateRecord(models.Model):
    """One vague date: the words as typed, EDTF, and the earliest and latest possible day.

    A record with two vague dates (a class built from one year to another) keeps them as one
    interval, which EDTF can say, so that one set of columns is enough.
    """

    date_text = models.CharField("date", max_length=120, blank=True)
    date_edtf = models.CharField(max_length=120, blank=True, editable=False)
    date_earliest = models.DateField(null=True, blank=True, editable=False)
    date_latest = models.DateField(null=True, blank=True, editable=False)

    class Meta:
        abstract = True

    def set_date(self, date: VagueDate | None, text: str = "") -> None:
        self.date_text = text if date is not None else ""
        self.date_edtf = date.edtf if date is not None else ""
        self.date_earliest = date.earliest if date is not None else None
        self.date_latest = date.latest if date is not None else None


DATE_FIELDS = ("date_text", "date_edtf", "date_earliest", "date_latest")


def date_order(name: str) -> models.CheckConstraint:
    """Refuse, in the database, a date that ends before it begins."""
    return models.CheckConstraint(
        condition=models.Q(date_earliest__isnull=True)
        | models.Q(date_latest__isnull=True)
        | models.Q(date_latest__gte=models.F("date_earliest")),
        name=f"{name}_date_in_order",
    )
