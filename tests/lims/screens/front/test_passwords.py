"""One's own password: changed knowing the present one, chosen first by the link of an invitation."""

from django.test import Client

from lims.people import tokens
from tests.factories.people import PASSWORD, invited

NEW = "copper lanterns under moss"


def link(person):
    return f"/invitation/{tokens.reference_of(person)}/{tokens.token_for(person)}/"


def test_a_password_is_changed_and_the_session_stays(browsing, person):
    client = browsing("technician")

    given = {"old": PASSWORD, "password": NEW, "again": NEW}
    response = client.post("/password/", given)

    assert response.status_code == 303
    assert client.get("/").status_code == 200
    assert person("technician").check_password(NEW)


def test_the_other_sessions_end_with_the_old_password(browsing):
    here, elsewhere = browsing("technician"), browsing("technician")

    here.post("/password/", {"old": PASSWORD, "password": NEW, "again": NEW})

    assert elsewhere.get("/").status_code == 302


def test_each_fault_stands_beside_its_box(browsing, person):
    client = browsing("technician")
    faults = {
        "old": {"old": "not this one at all", "password": NEW, "again": NEW},
        "password": {"old": PASSWORD, "password": "short", "again": "short"},
        "again": {"old": PASSWORD, "password": NEW, "again": "another one entirely"},
    }

    for box, given in faults.items():
        response = client.post("/password/", given)

        assert response.status_code == 422
        assert list(response.context["form"].errors) == [box]
    assert person("technician").check_password(PASSWORD)


def test_an_invitation_is_good_once(plant):
    newcomer = invited(plant, "newcomer", "technician")
    client, address = Client(), link(newcomer)

    page = client.get(address)
    chosen = client.post(address, {"password": NEW, "again": NEW}, follow=True)
    again = client.get(address)

    newcomer.refresh_from_db()
    assert "newcomer" in page.content.decode()
    assert page.headers["Referrer-Policy"] == "no-referrer"
    assert chosen.redirect_chain == [("/sign-in/", 303)]
    assert "Your password is chosen." in chosen.content.decode()
    assert newcomer.check_password(NEW)
    assert again.status_code == 410
    assert "no longer good" in again.content.decode()


def test_a_password_that_does_not_fit_the_rule_leaves_the_link_good(plant):
    newcomer = invited(plant, "newcomer", "technician")
    client, address = Client(), link(newcomer)

    response = client.post(address, {"password": "grease", "again": "grease"})

    assert response.status_code == 422
    assert "It needs at least 15" in response.content.decode()
    assert client.get(address).status_code == 200


def test_made_up_links_are_not_good(plant, stranger):
    right = tokens.reference_of(plant)

    for address in (f"/invitation/{right}/abc-123/", "/invitation/%21%21/abc-123/"):
        assert stranger.get(address).status_code == 410
