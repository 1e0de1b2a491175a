"""What an edition asks of a characteristic: by name, with what is taken for granted where nothing is stated."""

from decimal import Decimal
from fractions import Fraction

import pytest

from lims.methods import queries
from lims.methods.asked import Asked
from lims.methods.figures import What
from lims.methods.models import Characteristic
from tests.factories import methods
from tests.factories.methods import figure

WORKED = Characteristic(code="worked-penetration", name="Worked", kind="number")
BLOCK = [
    figure(value="6", level_to="116"),
    figure(value="8", level_from="116", level_to="221"),
    figure(value="7", level_from="277", level_to="316"),
]


def asked(*figures, row=WORKED):
    return Asked(None, row, figures)


def test_what_is_stated_is_told_by_its_name():
    it = asked(
        figure("determinations a result", "3"),
        figure("how they combine", "median"),
        figure("reporting step", "0.1"),
        figure("direction", "lower"),
        figure("plausible from", "85"),
        figure("plausible to", "500"),
        figure("repeat rule", "ISO 4259"),
        figure("route", "two more"),
        figure("constants", "printed"),
        figure("after a rejected set", "second fill"),
    )

    assert (it.determinations, it.combining, it.step) == (3, "median", "0.1")
    assert (it.better, it.plausible) == ("lower", ("85", "500"))
    assert (it.school, it.route, it.constants) == ("ISO 4259", "two more", "printed")
    assert it.confirms is True


def test_what_is_not_stated_is_one_determination_without_any_rule():
    it = asked()

    assert (it.determinations, it.combining, it.step) == (1, "mean", "")
    assert (it.better, it.plausible, it.school, it.route) == ("", None, "", "")
    assert (it.constants, it.confirms) == ("exact", False)


@pytest.mark.parametrize("kind", ["ladder", "rating", "pass or fail", "words"])
def test_what_is_no_number_is_not_averaged_by_default(kind):
    assert asked(row=Characteristic(code="x", kind=kind)).combining == ""


def test_the_printed_constants_come_with_their_school():
    school = figure("repeat rule", "ISO 5725-6")

    assert asked(school).constants == "printed"
    assert asked(school, figure("constants", "exact")).constants == "exact"


def test_nothing_after_a_rejected_set_asks_for_no_second_fill():
    assert asked(figure("after a rejected set", "nothing")).confirms is False


@pytest.mark.parametrize(
    ("level", "value"),
    [("-5", "6"), ("116", "6"), ("116.1", "8"), ("221", "8"), ("300", "7")],
)
def test_the_figure_follows_the_level(level, value):
    it = asked(*BLOCK)

    assert it.precision(What.REPEATABILITY, Decimal(level)).value == value
    assert it.precision(What.REPEATABILITY, Fraction(level)).value == value


@pytest.mark.parametrize("level", ["221.1", "276.9", "317"])
def test_between_and_beyond_the_ranges_there_is_no_figure(level):
    assert asked(*BLOCK).precision(What.REPEATABILITY, Decimal(level)) is None


def test_another_precision_is_not_taken_in_its_place():
    assert asked(*BLOCK).precision(What.REPRODUCIBILITY, Decimal(200)) is None


def test_an_edition_asks_what_its_figures_in_force_say(technologist):
    edition, worked = methods.edition(), methods.characteristic()
    methods.in_force(edition, by=technologist, figures=[figure("direction", "lower")])
    methods.draft(edition, by=technologist, figures=[figure("direction", "higher")])

    it = queries.asked_by(edition, worked)

    assert it.better == "lower"
    assert {row.characteristic for row in it.figures} == {"worked-penetration"}


def test_without_an_edition_or_a_revision_there_is_no_figure(technologist):
    worked = methods.characteristic()

    assert queries.asked_by(None, worked).figures == ()
    assert queries.figures_of(None) == ()


EDITIONS = [("ASTM D217", "21a"), ("ASTM D2265", "20"), ("ASTM D942", "19")]


def test_many_are_asked_in_one_query(technologist, django_assert_num_queries):
    editions = [methods.edition(*it) for it in EDITIONS]
    rows = list(queries.characteristics())
    pairs = [(edition, row) for edition in [*editions, None] for row in rows]

    with django_assert_num_queries(1):
        found = queries.asked_by_all(pairs)

    assert found.keys() == {(it.pk if it else None, row.pk) for it, row in pairs}
    worked = methods.characteristic()
    at = found[editions[0].pk, worked.pk].precision(What.REPEATABILITY, Decimal(280))
    assert at.value == "7"
    assert found[None, worked.pk].figures == ()


def test_without_any_edition_nothing_is_asked_of_the_database(
    technologist, django_assert_num_queries
):
    worked = methods.characteristic()

    with django_assert_num_queries(0):
        queries.asked_by(None, worked)
