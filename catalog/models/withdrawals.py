"""Withdrawing: a mistaken record leaves the lists, keeps its reason, and can come back."""

from typing import Self, TypeVar

from django.conf import settings
from django.db import models

Row = TypeVar("Row", bound=models.Model, covariant=True)


class WithdrawableQuerySet(models.QuerySet[Row]):
    def kept(self) -> Self:
        return self.filter(withdrawn_at__isnull=True)

    def withdrawn(self) -> Self:
        return self.filter(withdrawn_at__isnull=False)


class Withdrawable(models.Model):
    """Nothing is deleted: a record says when, by whom and why it was withdrawn."""

    withdrawn_at = models.DateTimeField(null=True, blank=True, editable=False)
    withdrawn_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        editable=False,
        related_name="+",
    )
    withdrawn_reason = models.CharField(max_length=240, blank=True, editable=False)

    class Meta:
        abstract = True

    @property
    def is_withdrawn(self) -> bool:
        return self.withdrawn_at is not None
