"""Days of the calendar, for dates that are known to the day."""

from django import forms


class DayInput(forms.DateInput):
    """A day of the calendar, which the browser asks for in its own way."""

    input_type = "date"

    def __init__(self) -> None:
        super().__init__(format="%Y-%m-%d")
