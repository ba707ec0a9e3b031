"""The computation in plain Python: no Django, no database, no settings."""
