"""The first page by role, finding, help and the theme."""

import pytest
from django.urls import reverse

from lims.certificates import actions
from lims.people.queries import person as person_of
from lims.products.actions.drafts import open_draft
from lims.products.models import Customer, Product
from lims.record import clock
from lims.screens.front import finding
from tests.factories import plant as factory

HEADINGS = {
    "tech-a": ["At the bench"],
    "mgr-1": [
        *("Awaiting a decision", "On hold"),
        *("Instruments", "At the bench"),
        "Files brought in",
    ],
    "qm-1": [
        *("Awaiting a decision", "On hold"),
        *("Drafts of specifications", "Instruments"),
    ],
    "chem-1": ["Drafts of specifications", "Files brought in", "Filled last"],
    "desk-1": ["What can leave", "Papers to see to"],
    "aud-1": ["Latest entries of the record", "Awaiting a decision"],
    "adm-1": ["Invited, no password yet", "Latest entries of the record"],
}


@pytest.fixture
def works(db):
    """Lot 0310 A is released; lot 0417 A awaits a decision."""
    factory.open_plant()
    factory.play(factory.periodic_pass(), factory.story())


def as_(client, account):
    client.force_login(person_of(account))
    return client


def test_each_role_finds_its_own_question_answered(works, client):
    answers = {}
    for account, headings in HEADINGS.items():
        response = as_(client, account).get("/")
        assert [part.heading for part in response.context["parts"]] == headings
        answers[account] = response.context["answer"]

    assert answers["tech-a"].startswith("No test is due")
    assert answers["mgr-1"].startswith("1 fill lot awaits a decision.")
    assert answers["desk-1"].startswith("1 released fill lot has packs left.")
    assert answers["aud-1"].startswith("The record stands at entry ")
    assert answers["adm-1"].endswith("people work here.")


RUNNING = factory.READY | {"prolonged": "W-2: "}


def bench_lines(client):
    (part,) = as_(client, "tech-a").get("/").context["parts"]
    return part.lines


def test_a_run_that_has_ended_waits_for_its_reading(db, client):
    factory.open_plant()
    factory.play(factory.story(tests=RUNNING), until="2026-03-05 18:00")
    going = bench_lines(client)[-1]
    clock.set_to(factory.at("2026-03-06 20:00"))
    ended = bench_lines(client)[-1]

    assert going.mark == "running"
    assert going.note.startswith("Q1-26-0417-A-01, ends Fri 6 March ")
    assert not ended.mark
    assert ended.aside == "read it now"
    assert ended.note.startswith("Q1-26-0417-A-01, ended today ")


def test_the_samples_that_are_not_listed_are_counted(db, client):
    factory.open_plant()
    stories = [
        factory.story(f"042{n}", retain=f"R-30-0{n}", tests={}) for n in range(8)
    ]
    factory.play(*stories, until="2026-03-05 18:00")

    last = bench_lines(client)[-1]

    assert (last.words, last.address) == ("and 2 more samples", reverse("bench:list"))


def test_a_draft_of_a_specification_leads_to_itself(works, client):
    draft = open_draft(
        product=Product.objects.get(code="LX2"), number="99", by=person_of("chem-1")
    )

    page = as_(client, "chem-1").get("/").content.decode()

    assert reverse("specifications:revision", args=[draft.pk]) in page


def test_a_person_without_a_role_learns_what_to_do(browsing):
    page = browsing().get("/").content.decode()

    assert "You have no role here yet." in page


def test_two_roles_share_a_page_and_no_part_stands_twice(browsing):
    parts = browsing("laboratory_manager", "quality_manager").get("/").context["parts"]

    headings = [part.heading for part in parts]
    assert len(headings) == len(set(headings)) == 6


def test_a_stranger_signs_in_first(stranger):
    assert stranger.get("/").headers["Location"] == "/sign-in/?next=/"


def test_a_number_that_is_typed_whole_opens_its_page(works, client):
    as_(client, "desk-1")
    allotment = actions.allot(
        fill_lot=factory.lot("0310"),
        customer=Customer.objects.get(code="TT"),
        order="TT-7781",
        pack_count=4,
        by=person_of("desk-1"),
    )
    issued = actions.issue(allotment=allotment, by=person_of("desk-1"))
    number = issued.certificate.number
    expected = {
        "q1-26-0417 a": reverse("batches:lot", args=["Q1-26-0417-A"]),
        "Q1-26-0417-A-01": reverse("bench:sample", args=["Q1-26-0417-A-01"]),
        "Q1-26-0417": reverse("batches:batch", args=["Q1-26-0417"]),
        number.lower(): reverse("certificates:one", args=[number]),
        "R-12-04": reverse("bench:sample", args=["Q1-26-0417-A-01"]),
        "lx2": reverse("specifications:product", args=["LX2"]),
        "TT": reverse("specifications:customer", args=["TT"]),
    }

    found = {
        text: client.get("/find/", {"q": text}).headers.get("Location")
        for text in expected
    }

    assert found == expected


def test_a_part_of_a_number_or_a_name_lists_what_bears_it(works, client):
    as_(client, "desk-1")

    by_number = client.get("/find/", {"q": "0417"})
    by_name = client.get("/find/", {"q": "thimble"})

    kinds = [group.kind for group in by_number.context["found"].groups]
    assert kinds == ["Fill lots", "Samples", "Batches"]
    assert "Tallow &amp; Thimble Bearings" in by_name.content.decode()
    assert 'value="thimble"' in by_name.content.decode()


def test_finding_nothing_says_what_to_do(works, client):
    as_(client, "desk-1")

    assert "Type the number" in client.get("/find/").content.decode()
    assert "at least 2 characters" in client.get("/find/?q=x").content.decode()
    page = client.get("/find/", {"q": "9999 50%_"}).content.decode()
    assert "Nothing here bears “9999 50%_”." in page


def test_finding_asks_one_query_a_kind(works, django_assert_num_queries):
    with django_assert_num_queries(len(finding.KINDS)):
        finding.find("26")


def test_the_help_says_what_each_place_answers(browsing, stranger):
    told = browsing("technician").get("/help/").content.decode()
    to_strangers = stranger.get("/help/").content.decode()

    assert "What must I test next" in told
    assert "safety data sheet" in told
    assert "What must I test next" not in to_strangers
    assert "not evaluated" in to_strangers


def test_the_theme_is_kept_in_the_browser(stranger):
    dark = stranger.post("/theme/", {"theme": "dark", "next": "/help/"})

    assert dark.headers["Location"] == "/help/"
    assert stranger.cookies["theme"].value == "dark"
    assert 'data-theme="dark"' in stranger.get("/help/").content.decode()

    stranger.post("/theme/", {"theme": "system", "next": "//elsewhere.example"})
    assert stranger.cookies["theme"].value == ""
