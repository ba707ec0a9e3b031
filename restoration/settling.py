"""What a server does once before its first answer, so that no answer waits for it."""

import gc

from django.urls import get_resolver


def settle() -> None:
    """Load all views, and let the garbage collector leave alone what stays loaded for good.

    Otherwise it looks through several hundred thousand objects of the program in the middle of
    some answers, each time for as long as a page takes.
    """
    get_resolver()._populate()
    gc.collect()
    gc.freeze()
