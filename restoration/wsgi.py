"""Serve the catalog through WSGI."""

import os

from django.core.wsgi import get_wsgi_application

from restoration.settling import settle

os.environ.setdefault("DEBUG", "0")
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "restoration.settings")
application = get_wsgi_application()
settle()
