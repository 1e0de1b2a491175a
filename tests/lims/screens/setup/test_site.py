"""The settings of the site: changed with a reason, never over somebody else's change."""

import pytest
from django.urls import reverse

from lims.people.models import Site
from lims.record.models import Entry
from tests.factories.people import SITE

ADDRESS, NUMBERS = reverse("setup:site"), reverse("setup:certificate-numbers")


def typed(**given):
    site = Site.objects.get()
    settings = {name: SITE[name] for name in SITE if name != "code"}
    return (
        settings
        | {
            "zone": site.zone,
            "language": site.language,
            "version": site.version,
            "reason": "moved house",
        }
        | given
    )


def test_settings_are_changed_and_the_record_says_why(keeper):
    answer = keeper.post(ADDRESS, typed(laboratory="Upper laboratory"))

    assert answer.status_code == 303
    assert Site.objects.get().laboratory == "Upper laboratory"
    assert Entry.objects.filter(verb="site_changed").get().reason == "moved house"


@pytest.mark.parametrize(
    ("language", "called"), [("fr", "French"), ("es", "Spanish"), ("pl", "Polish")]
)
def test_the_site_may_speak_any_language_of_the_papers(keeper, language, called):
    keeper.post(ADDRESS, typed(language=language))

    assert Site.objects.get().language == language
    shown = keeper.get(reverse("setup:list")).content.decode()
    assert f"<dd>{called}</dd>" in shown


@pytest.mark.parametrize(
    ("box", "text"),
    [
        ("zone", "Mars/Olympus"),
        ("mail", "nobody"),
        ("check_address", "check.example"),
        ("name", ""),
        ("reason", ""),
        ("language", "la"),
    ],
)
def test_a_box_that_cannot_be_taken_says_so_and_everything_typed_stays(
    keeper, box, text
):
    answer = keeper.post(ADDRESS, typed(laboratory="Upper laboratory") | {box: text})

    assert answer.status_code == 422
    assert answer.context["form"].errors[box]
    assert 'value="Upper laboratory"' in answer.content.decode()
    assert Site.objects.get().laboratory == SITE["laboratory"]


def test_somebody_elses_change_is_not_undone(keeper):
    late = typed(laboratory="Upper laboratory")
    keeper.post(ADDRESS, typed(mail="new@quernstone.example"))

    answer = keeper.post(ADDRESS, late)

    text = answer.content.decode()
    assert answer.status_code == 409
    assert "changed by somebody else" in text
    assert 'value="Upper laboratory"' in text
    assert "new@quernstone.example" in text
    assert Site.objects.get().mail == "new@quernstone.example"


def test_the_same_settings_again_are_no_entry(keeper):
    answer = keeper.post(ADDRESS, typed())

    assert answer.status_code == 409
    assert "Nothing was changed." in answer.content.decode()
    assert not Entry.objects.filter(verb="site_changed").exists()


def test_letting_a_deputy_decide_alone_warns_of_what_it_means(keeper):
    page = keeper.get(ADDRESS).content.decode()
    keeper.post(ADDRESS, typed(allow_deputy_alone="on"))

    assert "release it alone and has to say why" in page
    assert Site.objects.get().allow_deputy_alone


def test_reading_the_form_writes_nothing(keeper):
    before = Entry.objects.count()

    keeper.get(ADDRESS)

    assert Entry.objects.count() == before
    assert keeper.get(NUMBERS).status_code == 405


def test_certificates_begin_at_the_number_given(keeper):
    answer = keeper.post(NUMBERS, {"first_certificate": "231"})

    assert answer.status_code == 303
    assert Site.objects.get().first_certificate == 231


@pytest.mark.parametrize("number", ["0", "100000", "many", ""])
def test_a_number_that_cannot_be_printed_is_refused_beside_its_box(keeper, number):
    answer = keeper.post(NUMBERS, {"first_certificate": number})

    assert answer.status_code == 422
    assert answer.context["form"].errors["first_certificate"]
    assert Site.objects.get().first_certificate == 1


def test_once_a_certificate_is_issued_the_numbers_are_not_offered(keeper, monkeypatch):
    monkeypatch.setattr("lims.certificates.rules.can_begin_numbers", lambda: False)

    assert NUMBERS not in keeper.get(ADDRESS).content.decode()
