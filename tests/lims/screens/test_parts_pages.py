"""What every page shares: who may open it, the masthead's places, the theme, refusals with a way back."""

import re

import pytest
from django.test import Client, RequestFactory

from lims.screens.paging import page_of

pytestmark = [pytest.mark.urls("tests.lims.screens.addresses"), pytest.mark.django_db]


@pytest.fixture
def browsing(person):
    """`browsing("technician")`: a client in which that person is signed in."""

    def sign_in(*given: str) -> Client:
        client = Client(raise_request_exception=False)
        client.force_login(person(*given))
        return client

    return sign_in


@pytest.fixture
def stranger(plant) -> Client:
    return Client(raise_request_exception=False)


def places(response) -> list[str]:
    nav = re.search(r'<nav class="places".*?</nav>', response.content.decode(), re.S)
    if nav is None:
        return []
    return re.findall(r'<a href="[^"]*"[^>]*>([^<]+)</a>', nav.group())


def test_a_stranger_is_led_to_the_sign_in_and_back(stranger) -> None:
    response = stranger.get("/bench/?day=today")

    assert response.status_code == 302
    assert response.headers["Location"] == "/sign-in/?next=/bench/%3Fday%3Dtoday"


def test_a_part_of_a_page_never_gets_the_sign_in_form(stranger) -> None:
    response = stranger.get("/bench/", headers={"HX-Request": "true"})

    assert response.status_code == 401
    assert response.content.decode().startswith("You are signed out.")


def test_a_person_without_the_permission_learns_who_has_it(browsing) -> None:
    response = browsing("technician").get("/authorise/")

    assert response.status_code == 403
    text = response.content.decode()
    assert "Authorising fill lots is for the laboratory manager" in text
    assert "You may not do this" in text


def test_a_person_with_the_permission_goes_through(browsing) -> None:
    assert browsing("laboratory_manager").get("/authorise/").content == b"authorised"


def test_a_person_without_a_role_reaches_the_own_account_only(browsing) -> None:
    client = browsing()

    assert client.get("/own/").status_code == 200
    assert client.get("/bench/").status_code == 403
    assert places(client.get("/refuse/move/")) == []


def test_no_browser_keeps_a_staff_page(browsing, stranger) -> None:
    kept_by_staff = browsing("technician").get("/bench/").headers["Cache-Control"]

    assert "no-store" in kept_by_staff
    assert "Cache-Control" not in stranger.get("/help/").headers


def test_the_masthead_shows_the_places_and_where_one_is(browsing) -> None:
    response = browsing("technician").get("/decisions/")

    assert places(response) == [
        *("Bench", "Batches", "Decisions", "Certificates", "Trends"),
        *("Specifications", "Methods", "Instruments", "Record", "Set-up"),
    ]
    assert '<a href="/decisions/" aria-current="page">Decisions</a>' in (
        response.content.decode()
    )


def test_the_page_says_who_works_and_whose_time_it_shows(browsing) -> None:
    text = browsing("technician").get("/bench/").content.decode()

    assert "<b>Technician</b><span>technician</span>" in text
    assert "Quernstone Grease Works, Q1" in text
    assert "Times are laboratory time, CET (UTC+1)" in text
    assert re.search(r"The record stands at entry \d+", text)
    assert "Demonstration plant" in text


@pytest.mark.parametrize(
    ("cookie", "attribute"),
    [
        ("dark", ' data-theme="dark"'),
        ("light", ' data-theme="light"'),
        ("system", ""),
        ('"><b>', ""),
    ],
)
def test_the_theme_is_what_the_person_chose(browsing, cookie, attribute) -> None:
    client = browsing("technician")
    client.cookies["theme"] = cookie

    text = client.get("/bench/").content.decode()

    assert f'<html lang="en"{attribute}>' in text


def test_the_token_for_changes_travels_in_the_page(browsing) -> None:
    text = browsing("technician").get("/bench/").content.decode()

    assert re.search(r"""hx-headers='\{"x-csrftoken": "\w{32,}"\}'""", text)


@pytest.mark.parametrize(
    ("how", "status", "sentence"),
    [
        ("move", 409, "Fill lot Q1-26-0417 A is released."),
        ("changed", 409, "It has changed since you opened it"),
        ("input", 422, "Give a reason."),
    ],
)
def test_a_refusal_is_a_page_with_its_sentence(
    browsing, how: str, status: int, sentence: str
) -> None:
    response = browsing("technician").get(f"/refuse/{how}/")

    assert response.status_code == status
    assert sentence in response.content.decode()


@pytest.mark.parametrize(
    ("came_from", "back"),
    [
        (
            "http://testserver/bench/Q1-26-0417-A/",
            "http://testserver/bench/Q1-26-0417-A/",
        ),
        ("http://elsewhere.example/", "/home/"),
        ("", "/home/"),
    ],
)
def test_the_way_back_leads_to_a_page_of_ours(browsing, came_from, back) -> None:
    response = browsing("technician").get(
        "/refuse/move/", headers={"Referer": came_from}
    )

    assert f'<a class="btn" href="{back}">' in response.content.decode()


def test_a_refused_part_of_a_page_is_a_notice_alone(browsing) -> None:
    response = browsing("technician").post(
        "/refuse/changed/", headers={"HX-Request": "true"}
    )

    text = response.content.decode().strip()
    assert response.status_code == 409
    assert text.startswith('<div class="notice is-bad" role="alert">')
    assert "Load the page again." in text


@pytest.mark.filterwarnings("ignore::RuntimeWarning")
@pytest.mark.parametrize(
    ("address", "status", "heading"),
    [
        ("/nowhere/", 404, "Nothing stands at this address"),
        ("/refuse/denied/", 403, "You may not see this"),
        ("/refuse/unreadable/", 400, "The request cannot be read"),
        ("/refuse/broken/", 500, "Something went wrong here"),
    ],
)
def test_every_failure_has_a_page_that_says_what_to_do(
    browsing, address: str, status: int, heading: str
) -> None:
    response = browsing("technician").get(address)

    assert response.status_code == status
    assert f"<h1>{heading}</h1>" in response.content.decode()


def test_the_page_of_parts_shows_every_part_without_inline_style(browsing) -> None:
    response = browsing("technician").get("/parts/")

    text = response.content.decode()
    assert response.status_code == 200
    assert "style=" not in text
    assert not re.search(r"<[^>]+ on\w+=", text)
    assert text.count('<svg class="bar" width="304"') == 14
    assert "The reading is saved." in text


def test_a_table_names_its_columns_its_rows_and_its_order(browsing) -> None:
    text = browsing("technician").get("/parts/?sort=penetration").content.decode()

    table = text[text.index('<table class="grid stuck') :]
    assert table.count('scope="col"') == 4
    assert table.count('aria-sort="ascending"') == 1
    assert '<a class="sort" href="?sort=-penetration">' in table
    rows = re.findall(
        r'<th scope="row" role="rowheader" class="code">([^<]+)</th>', table
    )
    assert rows == ["Q1-26-0427", "Q1-26-0428", "Q1-26-0426"]


@pytest.mark.parametrize(("asked", "shown"), [("2", 2), ("99", 3), ("x", 1), ("", 1)])
def test_a_wrong_page_number_shows_the_nearest_page(asked: str, shown: int) -> None:
    request = RequestFactory().get("/", {"page": asked})

    page = page_of(request, list(range(120)))

    assert page.number == shown
