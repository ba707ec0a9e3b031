"""How a sheet is to be printed."""

from django import forms

PAPERS = (("A4", "A4"), ("letter", "US Letter"))


class EditionForm(forms.Form):
    """The paper, and whether what is private stands on it."""

    paper = forms.ChoiceField(choices=PAPERS, initial="A4")
    public = forms.BooleanField(
        label="Without what is private, to hang where visitors see it",
        required=False,
        initial=True,
    )


class IssueForm(forms.Form):
    """The number that stands on a printed sheet."""

    number = forms.IntegerField(label="Issue number on the paper", min_value=1)
