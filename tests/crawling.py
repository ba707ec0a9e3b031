"""Follow the links of the site as a person would, a few addresses of each kind of page."""

import re
from collections import defaultdict

from django.core.signals import request_finished
from django.db import close_old_connections
from django.urls import Resolver404, resolve

LINK = re.compile(r'<a\b[^>]*\bhref="([^"#]+)')


def page_name(address):
    """Return the name of the page at an address, or nothing for what is not a page."""
    try:
        return resolve(address.split("?")[0]).url_name
    except Resolver404:
        return None


def crawl(client, *, most=2, start="/", read=None):
    """Return ``{page name: {address: answer's status}}`` for what can be reached by links.

    ``read`` is given each address with its answer.
    """
    waiting, seen = [start], {start}
    found = defaultdict(dict)
    while waiting:
        address = waiting.pop(0)
        name = page_name(address)
        if len(found[name]) >= most:
            continue
        answer = client.get(address)
        found[name][address] = answer.status_code
        if read is not None:
            read(address, answer)
        new = [link for link in links(answer, address) if link not in seen]
        close(answer)
        waiting += dict.fromkeys(new)
        seen.update(new)
    return dict(found)


def close(answer):
    """Close the file that a photo's answer holds open, but not the database of the test."""
    request_finished.disconnect(close_old_connections)
    answer.close()
    request_finished.connect(close_old_connections)


def links(answer, address):
    """Return the addresses of this site to which a page links."""
    if answer.status_code != 200 or not answer.headers["Content-Type"].startswith("text/html"):
        return []
    inside = [link.replace("&amp;", "&") for link in LINK.findall(answer.content.decode())]
    path = address.split("?")[0]
    whole = [f"{path}{link}" if link.startswith("?") else link for link in inside]
    return [link for link in whole if link.startswith("/") and not link.startswith("//")]
