"""Passwords of the demo's accounts."""

from lims.management.demo_passwords import WORDS, NewPasswords, new_password


def test_a_password_is_long_enough_for_a_person():
    passwords = {new_password() for _ in range(200)}

    assert len(passwords) == 200
    assert min(map(len, passwords)) >= 15


def test_the_list_holds_each_word_once():
    assert len(set(WORDS)) == len(WORDS) >= 128
    assert all(word.isalpha() and word.islower() for word in WORDS)


def test_an_account_keeps_the_password_it_was_given():
    passwords = NewPasswords()

    first = passwords["maria"]

    assert passwords["maria"] == first
    assert passwords["jonas"] != first
    assert list(passwords) == ["maria", "jonas"]
