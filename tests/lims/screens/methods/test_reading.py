"""Reading methods and characteristics: each page answers for every role and hides no gap."""

import re

import pytest

from lims.methods import actions, queries
from lims.methods.models import FiguresRevision
from lims.people.queries import person
from tests.factories import methods
from tests.lims.screens.methods.conftest import address, text_of

EVERYBODY = ("chem-1", "qm-1", "mgr-1", "tech-a", "desk-1", "aud-1", "adm-1")


def pages(edition):
    return [
        address("list"),
        address("one", edition.method_id),
        address("characteristic-list"),
        address("characteristic", "worked-penetration"),
    ]


@pytest.mark.parametrize("account", EVERYBODY)
def test_everybody_who_works_here_reads_every_page(account, as_, d217):
    client = as_(account)

    answers = [client.get(page).status_code for page in pages(d217)]

    assert answers == [200] * 4


def test_every_characteristic_and_every_method_has_a_page(as_):
    client = as_("aud-1")

    codes = queries.characteristics().values_list("code", flat=True)
    methods = queries.methods_with_editions().values_list("pk", flat=True)
    answers = {client.get(address("characteristic", it)).status_code for it in codes}
    answers |= {client.get(address("one", it)).status_code for it in methods}

    assert answers == {200}


def test_a_stranger_is_asked_to_sign_in(client, d217):
    answers = [client.get(page) for page in pages(d217)]

    assert all("/sign-in/" in it["Location"] for it in answers)


def told(text, words):
    """The number before some words of a page."""
    return int(re.search(rf"(\d+) {words}", text)[1])


def test_the_list_says_how_many_figures_rest_on_memory(as_, d217):
    client = as_("aud-1")
    before = text_of(client.get(address("list")))
    own = queries.figures_in_force(d217).figures
    memory = sum(it["standing"] == "from memory" for it in own)
    actions.check_figures(
        edition=d217,
        checked_by="M. Ellingsworth",
        on=person("mgr-1").created_at.date(),
        by=person("mgr-1"),
    )

    after = text_of(client.get(address("list")))

    assert memory > 0
    assert told(before, "figures in force;") == told(after, "figures in force;")
    assert told(before, "rest on memory until") == sum(
        it["standing"] == "from memory"
        for row in FiguresRevision.objects.all()
        for it in row.figures
    )
    assert told(after, "rest on memory") == told(before, "rest on memory") - memory
    assert "by M. Ellingsworth" in after


def test_the_list_is_narrowed_by_designation(as_):
    client = as_("aud-1")
    count = queries.methods_with_editions().count()

    found = text_of(client.get(address("list"), {"q": "d2265"}))
    none = text_of(client.get(address("list"), {"q": "no such method"}))
    torque = text_of(client.get(address("list"), {"q": "torque, wheel bearing"}))

    assert f"1 of {count} editions" in found
    assert "No method fits this filter." in none
    assert f"1 of {count} editions" in torque
    assert "ASTM D4693" in torque


def test_a_method_shows_each_figure_with_level_source_and_standing(as_, d217):
    text = text_of(as_("aud-1").get(address("one", d217.method_id)))

    assert "Number; unit × 0.1 mm" in text
    assert "Determinations a result 1 source 1 How they combine" in text
    assert "Direction inside the limits source" in text
    assert "Plausible from 85 × 0.1 mm source" in text
    assert (
        "Repeatability r, from 130 to 475 7 × 0.1 mm source 8 from memory, not checked"
        in text
    )
    assert (
        "Reproducibility R, from 130 to 475 20 × 0.1 mm source 8 from memory, not checked"
        in text
    )
    assert "Sources Not checked. Common practice, no source: one set of three" in text
    assert text.count("From memory, not checked. Recalled from the precision") == 2
    assert "Figures that rest on memory" in text
    assert "revision 1 in force as shipped nobody: shipped with the program" in text


def test_where_no_precision_is_told_in_the_level_nothing_is_said_of_it(as_, d217):
    assert "m is the level" not in text_of(
        as_("aud-1").get(address("one", d217.method_id))
    )


def test_a_missing_figure_is_not_stated_and_never_nought(as_, d217):
    text = text_of(as_("aud-1").get(address("one", d217.method_id)))

    assert (
        "Not stated: repeat rule, repeatability r, reproducibility R. What is not "
        "stated is never taken to be nought." in text
    )


def test_a_method_whose_figures_nobody_entered_says_so(as_):
    bare = methods.bare_edition(by=person("mgr-1"))

    text = text_of(as_("mgr-1").get(address("one", bare.method_id)))

    assert "1 edition; no figure is in force." in text
    assert "Figures in force none" in text
    assert "Not stated: determinations a result, how they combine" in text
    assert "Open a draft of the figures" in text


def test_a_draft_is_gone_on_with(as_, d217, draft):
    text = text_of(as_("mgr-1").get(address("one", d217.method_id)))

    assert "Go on with the draft" in text
    assert "Open a draft of the figures" not in text
    assert "revision 2 draft not yet nobody yet" in text


def test_digits_and_percentages_stand_without_a_unit(as_):
    edition = queries.edition("ISO 3104", "1994")

    text = text_of(as_("aud-1").get(address("one", edition.method_id)))

    assert "Reporting step 4 digits source" in text
    assert "Repeatability r, at every level 0.11 % source" in text
    assert "m is the level of the results; % is of that level." in text


def test_a_characteristic_labels_house_figures_as_such(as_):
    text = text_of(as_("aud-1").get(address("characteristic", "dropping-point-block")))

    assert "Set points of the block 121 232 288 316 house figure" in text
    assert "two runs none house figure , not set" in text
    assert "Runs 2 as the procedure has it" in text
    assert "ASTM D2265-20" in text
    assert "Caution Before you begin Block, bath and cup are hot" in text


def test_a_derived_characteristic_names_what_it_comes_from(as_):
    text = text_of(
        as_("aud-1").get(address("characteristic", "penetration-change-100000"))
    )

    assert "Worked Worked penetration, 60 double strokes, 25 °C" in text
    assert "a change: shown with its sign" in text


def test_an_unknown_address_is_not_found(as_):
    client = as_("aud-1")

    assert client.get(address("one", 9999)).status_code == 404
    assert client.get(address("characteristic", "no-such")).status_code == 404


def test_only_who_keeps_methods_is_offered_the_changes(as_, d217):
    there = address("one", d217.method_id)

    kept = as_("mgr-1").get(there).content.decode()
    read = as_("tech-a").get(there).content.decode()

    assert address("check-figures", d217.pk) in kept
    assert address("check-figures", d217.pk) not in read


def test_more_methods_ask_no_more_questions(
    as_, d217, django_assert_num_queries, django_assert_max_num_queries
):
    client = as_("aud-1")
    client.get(address("list"))
    with django_assert_max_num_queries(12) as few:
        client.get(address("list"))
    for number in range(4):
        row = actions.add_method(
            designation=f"QG-T{number}", title="trial", by=person("mgr-1")
        )
        actions.add_edition(
            method=row,
            edition="1",
            characteristics=["appearance", "copper-strip"],
            source="own",
            standing="common practice",
            by=person("mgr-1"),
        )

    with django_assert_num_queries(len(few.captured_queries)):
        client.get(address("list"))
