"""Long choices that can be searched by typing."""

import pytest
from django import forms

from catalog.forms.choices import ComponentChoiceField
from tests.factories import LONG_AGO, ComponentAliasFactory, ComponentFactory

pytestmark = pytest.mark.django_db


class WhatForm(forms.Form):
    what = ComponentChoiceField(required=False)


def test_component_choice_carries_aliases_for_the_search():
    box = ComponentAliasFactory(name="axlebox", component__name="journal box").component

    page = str(WhatForm()["what"])

    assert f'<option value="{box.pk}" data-aliases="axlebox">journal box</option>' in page
    assert "data-choice-search" in page


def test_component_choice_marks_what_is_chosen():
    box = ComponentFactory(name="journal <box>")

    page = str(WhatForm({"what": box.pk})["what"])

    assert page == (
        '<select data-choice-search="" id="id_what" name="what">'
        '<option value="">not known yet</option>'
        f'<option value="{box.pk}" selected>journal &lt;box&gt;</option></select>'
    )


def test_component_choice_takes_the_same_queries_for_one_and_three(django_assert_num_queries):
    for component in ComponentFactory.create_batch(3):
        ComponentAliasFactory.create_batch(2, component=component)

    with django_assert_num_queries(2):
        str(WhatForm()["what"])


def test_component_choice_returns_the_component():
    box = ComponentFactory()
    form = WhatForm({"what": box.pk})

    assert form.is_valid()
    assert form.cleaned_data["what"] == box


def test_component_choice_refuses_a_withdrawn_one_in_words():
    form = WhatForm({"what": ComponentFactory(withdrawn_at=LONG_AGO).pk})

    assert form.errors == {
        "what": ["This component is no longer in the catalog. Choose another one."]
    }
