"""Every address of the site, one module a noun."""

from importlib import import_module
from pkgutil import iter_modules

NOUNS = sorted(module.name for module in iter_modules(__path__))
urlpatterns = [
    pattern for noun in NOUNS for pattern in import_module(f"{__name__}.{noun}").urlpatterns
]
