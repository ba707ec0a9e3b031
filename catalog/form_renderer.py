"""How forms are drawn: one layout for every field, through the site's own templates."""

from typing import Any

from django import forms
from django.forms.boundfield import BoundField
from django.forms.renderers import TemplatesSetting


class SheetField(BoundField):
    """A field that brings up the right keyboard on a phone."""

    def build_widget_attrs(
        self, attrs: dict[str, Any], widget: forms.Widget | None = None
    ) -> dict[str, Any]:
        """Add ``inputmode`` to number fields whose form did not choose one."""
        attrs = super().build_widget_attrs(attrs, widget)
        widget = widget or self.field.widget
        if isinstance(widget, forms.NumberInput) and "inputmode" not in widget.attrs:
            whole = type(self.field) is forms.IntegerField
            attrs["inputmode"] = "numeric" if whole else "decimal"
        return attrs


class FormRenderer(TemplatesSetting):
    """Draw forms with label, help, input and problem in that order, one below the other."""

    form_template_name = "django/forms/sheet.html"
    field_template_name = "django/forms/field.html"
    bound_field_class = SheetField
