"""The password rule: length, guessable words, nothing about kinds of characters."""

import pytest

from lims.people import checks
from lims.people.models import Person
from lims.record.refusals import BadInput

ADA = Person(account="ada", name="Ada Ministrator", mail="a.stone@quernstone.example")


@pytest.mark.parametrize(
    "password",
    [
        "seven quiet herons",
        "correct-grease-otter",
        "éàü ñandú über fjord",
        "пятнадцать цапель",
        "k4!Rz9#pQ2%wL7&",
        "a" * 5 + "bcdefghijk" * 25,
    ],
)
def test_a_long_password_is_taken_whatever_it_is_made_of(db, password):
    checks.check_new_password(ADA, password)


@pytest.mark.parametrize(
    ("password", "why"),
    [
        ("quiet herons 7", "has 14 characters"),
        ("x" * 100 + "quiet herons " * 13, "256 is the most"),
        ("aaaaaaaaaaaaaaaaaaaa", "repeats"),
        ("abababababababababab", "repeats"),
        ("Kettlemark-Grease-2026", "“kettlemark”"),
        ("laboratory12345678", "“laboratory”"),
        ("QUERNSTONE grease works", "“quernstone grease works”"),
        ("Q1-Q1-Q1-Quernstone", "“quernstone”"),
        ("ada ministrator 2026", "“ada ministrator”"),
        ("a.stone a.stone a.stone", "“a.stone”"),
        ("1234567890123456", "“1234567890”"),
        ("ＫＥＴＴＬＥＭＡＲＫ ＧＲＥＡＳＥ", "“kettlemark”"),
    ],
)
def test_a_password_that_is_refused_says_why(plant, password, why):
    with pytest.raises(BadInput, match=why) as refusal:
        checks.check_new_password(ADA, password)

    assert refusal.value.field == "password"


def test_a_common_password_is_refused(db):
    with pytest.raises(BadInput, match="too common"):
        checks.check_new_password(ADA, "1qaz2wsx3edc4rfv")


def test_two_ways_to_type_one_password_are_one(plant):
    plant.set_password("caf\u00e9 \ufb01fteen herons")

    assert plant.check_password("cafe\u0301 fifteen herons")
    assert not plant.check_password("cafe fifteen herons")


def test_a_password_is_hashed_by_argon2(plant):
    assert plant.password.startswith("argon2$argon2id$")


def test_checking_a_password_never_writes(plant, settings):
    settings.PASSWORD_HASHERS = [
        "django.contrib.auth.hashers.Argon2PasswordHasher"  # dearer than what is stored
    ]
    stored = plant.password

    assert plant.check_password("seven quiet herons")
    assert plant.password == Person.objects.get(pk=plant.pk).password == stored


def test_the_product_hashes_by_argon2_as_django_has_it():
    from lims import settings as product  # noqa: TID251 - the product's own, not the test's

    assert product.PASSWORD_HASHERS == [
        "django.contrib.auth.hashers.Argon2PasswordHasher"
    ]


def test_no_password_matches_none(plant):
    plant.set_password(None)

    assert not plant.check_password(None)
    assert not plant.check_password("")
    assert not plant.has_usable_password()
