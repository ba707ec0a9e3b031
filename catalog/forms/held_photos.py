"""Photos that were sent with a form that came back: held, so that nobody takes them again."""

from base64 import b64encode
from dataclasses import dataclass
from typing import Any, Self

from django import forms
from django.core import signing
from django.core.exceptions import ValidationError
from django.core.files.storage import default_storage

from catalog.models.photos import derived_name
from catalog.operations.picture_files import KeptPicture, keep_picture

SALT = "held photo"
GONE = "A photo that was kept for you is gone. Take it again."


@dataclass(frozen=True, slots=True)
class HeldPhoto:
    """A held photo as the form shows it: what comes back when it is sent, and a small copy."""

    token: str
    name: str
    preview: str

    @classmethod
    def of(cls, picture: KeptPicture) -> Self:
        # Signed, since whoever could name a file of the store could claim others' photos.
        token = signing.dumps([picture.original, picture.name], salt=SALT)
        with default_storage.open(derived_name(picture.facts.sha256, 320, "webp")) as file:
            preview = b64encode(file.read()).decode()
        return cls(token, picture.name, f"data:image/webp;base64,{preview}")


class HeldPhotosField(forms.Field):
    widget = forms.MultipleHiddenInput

    def clean(self, value: Any) -> list[KeptPicture]:
        return [_held(token) for token in value or ()]


def _held(token: str) -> KeptPicture:
    try:
        original, name = signing.loads(token, salt=SALT)
        with default_storage.open(original) as file:
            return keep_picture(file, name=name)
    except (signing.BadSignature, FileNotFoundError) as problem:
        raise ValidationError(GONE) from problem
