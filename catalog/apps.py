"""Tell Django that this is the catalog."""

from django.apps import AppConfig


class CatalogConfig(AppConfig):
    """The one app of the site."""

    name = "catalog"
    verbose_name = "Restoration catalog"
