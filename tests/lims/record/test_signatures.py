"""A signature is given with one's own password, for one exact content."""

import logging

import pytest

from lims.record import queries, signatures
from lims.record.gate import GateError, entry
from lims.record.models import Entry, Signature
from lims.record.refusals import BadInput
from specs import chain
from tests.factories.people import PASSWORD
from tests.lims.record.refused import refused

SEEN = '{"result":"280","verdict":"met"}'


def sign(person, password=PASSWORD, **said):
    with entry(by=person, verb="lot_authorised", about=person):
        return signatures.sign(
            by=person,
            password=password,
            meaning="I authorise this lot.",
            about=person,
            version=7,
            content=SEEN,
            **said,
        )


def test_a_signature_keeps_name_function_time_zone_and_meaning(person, morning):
    manager = person("laboratory_manager", "quality_manager")

    sign(manager)

    kept = Signature.objects.get()
    assert kept.printed_name == "Laboratory Manager Quality Manager"
    assert kept.function == "laboratory manager and quality manager"
    assert (kept.at, kept.zone) == (morning, "Europe/Berlin")
    assert kept.meaning == "I authorise this lot."
    assert (kept.about_kind, kept.about_key, kept.version) == (
        "person",
        manager.account,
        7,
    )


def test_a_person_of_several_roles_may_sign_in_one_of_them(person):
    manager = person("laboratory_manager", "quality_manager")

    assert sign(manager, function="quality manager").function == "quality manager"


def test_what_was_seen_is_kept_with_the_thing_and_version_around_it(plant):
    kept = sign(plant)

    assert signatures.signed_content(kept) == {"result": "280", "verdict": "met"}
    assert signatures.hangs_where_it_was_given(kept)
    assert kept.content_hash == signatures.hash_of(kept.content)
    assert kept.content.encode() == chain.canonical(
        {
            "about": "left out",
            "kind": "person",
            "key": "administrator",
            "version": 7,
            "meaning": "I authorise this lot.",
            "account": "administrator",
            "signed": {"result": "280", "verdict": "met"},
        }
    ).replace(b'"about":"left out",', b"")


def test_a_wrong_password_signs_nothing_and_is_logged(plant, caplog):
    before = Entry.objects.count()

    with (
        caplog.at_level(logging.WARNING),
        pytest.raises(BadInput, match="nothing was signed") as refusal,
    ):
        sign(plant, password="seven quiet heron")

    assert refusal.value.field == "password"
    assert (Signature.objects.count(), Entry.objects.count()) == (0, before)
    assert "administrator was refused" in caplog.text


def test_a_deactivated_person_does_not_sign(plant):
    plant.is_active = False

    with pytest.raises(BadInput):
        sign(plant)


def test_a_signature_is_given_inside_an_entry(plant):
    with pytest.raises(GateError, match="inside an entry"):
        signatures.sign(
            by=plant,
            password=PASSWORD,
            meaning="x",
            about=plant,
            version=1,
            content=SEEN,
        )


def test_a_signature_is_never_changed_nor_deleted(plant):
    kept = sign(plant)
    kept.meaning = "I refuse."

    with pytest.raises(GateError, match="never changed"), _open(plant):
        kept.save()
    with pytest.raises(GateError, match="never changed"), _open(plant):
        kept.delete()
    with _open(plant):
        refused("UPDATE record_signature SET meaning = 'x'")
        refused("DELETE FROM record_signature")


def test_the_record_shows_the_hash_of_what_was_signed(plant):
    kept = sign(plant)

    told = {each["field"]: each["after"] for each in Entry.objects.first().changes}
    assert told["content"] == f"sha256:{kept.content_hash}"


def test_the_signatures_of_a_thing_are_found(plant):
    kept = sign(plant)

    assert list(queries.signatures(about=plant)) == [kept]
    assert list(queries.signatures(about=("person", "someone"))) == []


def _open(person):
    return entry(by=person, verb="lot_authorised", about=person, note="x")
