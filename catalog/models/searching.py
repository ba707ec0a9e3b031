"""The words by which records are found, one row a record, kept by the operations."""

from django.db import models


class SearchEntry(models.Model):
    kind = models.CharField(max_length=20)
    object_id = models.BigIntegerField()
    title = models.CharField(max_length=240)
    detail = models.CharField(max_length=240, blank=True)
    words = models.TextField(blank=True)

    class Meta:
        constraints = [
            # Most entries are parts, so an index that begins with the kind would only mislead.
            models.UniqueConstraint(fields=["object_id", "kind"], name="search_entry_once")
        ]

    def __str__(self) -> str:
        return self.title
