"""Render a line of template as a page would, and read it as a person does."""

import re

from django.template import Context, RequestContext, Template


def rendered(source, request=None, **context):
    return Template(source).render(
        RequestContext(request, context) if request else Context(context)
    )


def words(source, **context):
    """Return only the text that is left when every element is taken away."""
    return " ".join(re.sub(r"<[^>]+>", " ", rendered(source, **context)).split())
