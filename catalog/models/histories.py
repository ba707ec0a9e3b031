"""The history of records that are linked with several others, such as a part with its hazards."""

from typing import Any

from simple_history.models import HistoricalRecords


class LinkedHistory(HistoricalRecords):  # type: ignore[misc]
    """Keep the links with each entry, and look for them only where there can be some.

    A row has no links at the moment when it is recorded, so asking for them is for nothing.
    """

    def create_historical_record_m2ms(self, history_instance: Any, instance: Any) -> None:
        if history_instance.history_type != "+":
            super().create_historical_record_m2ms(history_instance, instance)
