"""Serve the catalog through ASGI."""

import os

from django.core.asgi import get_asgi_application

from restoration.settling import settle

os.environ.setdefault("DEBUG", "0")
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "restoration.settings")
application = get_asgi_application()
settle()
