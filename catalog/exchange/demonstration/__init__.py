"""The demonstration: the invented Marrow Fell Tramway Group, recorded as its members would.

Everything goes through the operations that people use. What is recorded stands in plain files
under ``fixtures/demonstration``.
"""

from catalog.exchange.demonstration.loading import PASSWORD, Loaded, load_demonstration

__all__ = ["PASSWORD", "Loaded", "load_demonstration"]
