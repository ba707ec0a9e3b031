"""Photos for templates: the form by which they are added, and their addresses on paper."""

from functools import cache

from django import template
from django.utils.safestring import SafeString

from catalog.forms.photos import PhotosForm
from catalog.models import Photo
from catalog.models.photos import derived_name

register = template.Library()


@register.simple_tag
def photo_fields() -> PhotosForm:
    # Other forms of the page have fields of these names too.
    return PhotosForm(auto_id="add_%s")


@register.simple_tag
@cache
def drawn_photo_fields() -> SafeString:
    """Draw the same fields once: they stand, closed, on every record."""
    return photo_fields().render()


@register.filter
def paper_picture(photo: Photo, width: int = 960) -> str:
    """Return the address of the JPEG copy of a photo, as paper fetches it from the store."""
    return f"picture:{derived_name(photo.sha256, width, 'jpg')}"
