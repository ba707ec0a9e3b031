"""The fields of the form by which photos are added on any record's page."""

from django import template

from catalog.forms.photos import PhotosForm

register = template.Library()


@register.simple_tag
def photo_fields() -> PhotosForm:
    # Other forms of the page have fields of these names too.
    return PhotosForm(auto_id="add_%s")
