"""The forms of members: who they are, what they may do, and their passwords."""

from typing import Any

from django import forms

from catalog.forms.base import RecordForm
from catalog.models import Member

_ROLES = (
    "Visitors see what is published. Volunteers record, photograph, measure and propose. "
    "Curators also agree, fit, plan and edit classes. Stewards also look after the members."
)


def _password_field(label: str, **options: Any) -> forms.CharField:
    kind = "current-password" if label == "Your password as it is now" else "new-password"
    widget = forms.PasswordInput(attrs={"autocomplete": kind})
    return forms.CharField(label=label, strip=False, widget=widget, **options)


class MemberForm(RecordForm):
    class Meta:
        model = Member
        fields = ["username", "first_name", "last_name", "role"]
        labels = {"username": "Name to sign in with"}
        help_texts = {
            "username": "Letters, digits and @ . + - _ only; it cannot be changed later.",
            "role": _ROLES,
        }


class MemberAddForm(MemberForm):
    password = forms.CharField(
        label="First password",
        required=False,
        strip=False,
        help_text="Left empty, one is made up. Either is shown once, for you to pass on.",
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )


class MemberChangeForm(MemberForm):
    class Meta(MemberForm.Meta):
        fields = ["first_name", "last_name", "role", "is_active"]
        labels = {"is_active": "May sign in"}
        help_texts = {"role": _ROLES, "is_active": "Members who left stay in the history."}


class PasswordForm(forms.Form):
    """One's own new password."""

    old = _password_field("Your password as it is now")
    password = _password_field(
        "New password", help_text="Eight characters or more; no common word, not digits only."
    )
