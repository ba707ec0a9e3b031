"""Check that a field says all that belongs to it, to eyes, thumbs and screen readers."""

import re

import pytest
from django import forms

from catalog.form_renderer import FormRenderer


class Slip(forms.Form):
    """One field of each sort."""

    default_renderer = FormRenderer

    diameter = forms.CharField(help_text="As you would write it.")
    count = forms.IntegerField(required=False)
    mass = forms.DecimalField(required=False)
    size = forms.IntegerField(required=False, widget=forms.NumberInput(attrs={"inputmode": "text"}))
    heavy = forms.BooleanField(required=False)
    usability = forms.ChoiceField(choices=[("ready", "ready")], widget=forms.RadioSelect)
    back = forms.CharField(widget=forms.HiddenInput, required=False)


def attribute(html, name, of):
    return re.search(rf'<input[^>]*name="{of}"[^>]* {name}="([^"]*)"', html)[1]


def test_problem_and_help_are_tied_to_the_field():
    html = str(Slip({})["diameter"].as_field_group())

    assert (
        attribute(html, "aria-describedby", "diameter") == "id_diameter_helptext id_diameter_error"
    )
    assert 'id="id_diameter_helptext">As you would write it.</p>' in html
    assert re.search(r'id="id_diameter_error"><p>This field is required.</p>', html)


def test_field_that_may_stay_empty_says_so():
    html = str(Slip())

    assert html.count("(can be left empty)") == 3


@pytest.mark.parametrize(
    ("field", "keyboard"), [("count", "numeric"), ("mass", "decimal"), ("size", "text")]
)
def test_numbers_bring_up_a_number_keyboard(field, keyboard):
    assert attribute(str(Slip()), "inputmode", field) == keyboard


def test_checkbox_stands_inside_its_label():
    html = str(Slip()["heavy"].as_field_group())

    assert re.search(r'<label class="field-choice" for="id_heavy"><input[^>]+> <span>Heavy<', html)
    assert html.count("<input") == 1


def test_radio_buttons_are_a_group_with_a_legend():
    html = str(Slip()["usability"].as_field_group())

    assert html.index("<fieldset>") < html.index("<legend>Usability</legend>")
    assert html.count("<fieldset") == html.count("</fieldset>") == 1


def test_problem_of_the_whole_form_is_announced():
    form = Slip({"diameter": "3 in", "usability": "ready"})
    form.add_error(None, "The tag hangs on another piece.")

    assert 'role="alert"><p>The tag hangs on another piece.</p>' in str(form)


def test_hidden_field_is_drawn_without_a_label():
    assert '<input type="hidden" name="back" id="id_back">' in str(Slip())
    assert "Back" not in str(Slip())
