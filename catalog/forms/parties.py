"""The form of a person or organization."""

from catalog.forms.base import RecordForm
from catalog.models import Party


class PartyForm(RecordForm):
    class Meta:
        model = Party
        fields = [
            "name",
            "kind",
            "known_as",
            "place",
            "years",
            "email",
            "phone",
            "address",
            "is_name_public",
            "notes",
        ]
