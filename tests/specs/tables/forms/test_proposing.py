"""Which column is which, by the words of its head."""

import pytest

from specs.tables.forms import FORMS, LEFT_OUT, proposed
from specs.tables.forms.proposing import plain_heading, proposed_for
from tests.factories import tables


def of(kind, *heads, units=()):
    return proposed_for(
        tables.block(tables.sheet(heads, heads), units=units), FORMS[kind]
    )


@pytest.mark.parametrize("kind", FORMS)
def test_every_heading_of_a_form_leads_to_its_own_column(kind):
    form = FORMS[kind]
    heads = [it.heading for it in form.columns]

    found = proposed(tables.block(tables.sheet(heads, heads)), form)

    assert list(found.values()) == [it.key for it in form.columns]


def test_words_that_others_write_are_known():
    assert list(of("specifications", "Sorte", "Merkmal", "Norm", "Min", "Max", "Einheit").values()) == [
        "product", "characteristic", "edition", "lower", "upper", "unit",
    ]  # fmt: skip
    assert list(of("instruments", "Gerät", "Geprüft am", "Fällig am", "Befund").values()) == [
        "number", "done_on", "due_on", "found",
    ]  # fmt: skip


def test_units_signs_and_size_do_not_matter():
    assert plain_heading("  UPPER limit (0,1 mm)") == "upper limit"


def test_a_column_is_proposed_once():
    assert list(of("customers", "Customer", "Customer code").values()) == [
        "code",
        LEFT_OUT,
    ]


def test_what_nobody_knows_is_left_out():
    assert of("samples", "Batch", "Weather")["B"] == LEFT_OUT


def test_every_sensor_of_a_logger_is_a_value():
    found = of(
        "log",
        "Time",
        "Vessel 1",
        "Vessel 2",
        "Bath T (°C)",
        "Remark",
        "Ch 7",
        units={"F": "psi"},
    )

    assert list(found.values()) == [
        "time",
        "value",
        "value",
        "value",
        LEFT_OUT,
        "value",
    ]
