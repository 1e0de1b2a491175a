"""Answering: proposals stand chosen, cells can be written anew, what is still asked is asked again, nothing typed is lost."""

import pytest

from lims.sheets import looking
from tests.lims.screens.imports.conftest import (
    SAYS,
    address,
    answered,
    at,
    fresh,
    questions_sent,
    text_of,
)


def keys(row):
    return {it.key for it in looking.looked(row).blocks[0].questions}


def name_of(client, row, key):
    """The name of a question's choice on the page."""
    form = client.get(address("questions", row.pk)).context["form"]
    return next(
        asked.choice.html_name
        for table in form.tables
        for asked in (*table.waiting, *table.answered)
        if asked.question.key == key
    )


def test_every_question_is_asked_once_with_its_cells_as_they_stand(chemist, mapped):
    page = text_of(chemist.get(address("questions", mapped.pk)))

    assert f"{len(keys(mapped))} questions wait for an answer" in page
    for told in ("A6", "Q1-25-O378", "D11", "265-295", "B12", "31/02/2026", "28l"):
        assert told in page


def test_what_the_sheet_speaks_for_is_chosen_and_nothing_else_is(chemist, mapped):
    sent = questions_sent(chemist, mapped)

    assert sent[name_of(chemist, mapped, "A/letter in number")] == "proposed"
    assert sent[name_of(chemist, mapped, "D/millimetres")] == "mm"
    assert not sent[name_of(chemist, mapped, "G/unit")]
    assert not sent[name_of(chemist, mapped, "D/retest")]


def test_an_answer_says_what_it_makes_of_its_first_cells(chemist, mapped):
    page = text_of(chemist.get(address("questions", mapped.pk)))

    assert "0.40 bar = 40.0 kPa" in page
    assert "0.40 kgf/cm² = 39.2 kPa" in page
    assert "27.9 mm = 279 × 0.1 mm" in page


def test_once_all_is_answered_the_file_is_ready(chemist, mapped):
    page = answered(chemist, mapped)

    assert page["Location"] == address("one", mapped.pk)
    assert looking.looked(mapped).is_ready


def test_what_is_not_answered_is_asked_again_and_the_rest_is_kept(chemist, mapped):
    some = {key: it for key, it in SAYS.items() if key not in {"G/unit", "D/retest"}}

    page = answered(chemist, mapped, some)

    assert page["Location"] == address("questions", mapped.pk)
    assert keys(mapped) == {"G/unit", "D/retest"}
    assert "2 questions still wait" in text_of(chemist.get(page["Location"]))


def test_an_answer_is_changed_until_the_file_is_taken_in(chemist, mapped):
    answered(chemist, mapped)

    answered(chemist, mapped, SAYS | {"G/unit": "kPa; 0.40 in kgf/cm²"})

    block = next(iter(fresh(mapped).mapping))
    told = looking.checked(fresh(mapped), block).at("G", 8)
    assert told.value == "39.2"


def test_a_cell_written_anew_is_read_as_if_it_stood_there(chemist, mapped):
    sent = questions_sent(
        chemist, mapped, **{"t1-at-D11": "277", "t1-at-B12": "2026-01-31"}
    )

    chemist.post(address("questions", mapped.pk), sent)

    table = looking.checked(fresh(mapped), next(iter(fresh(mapped).mapping)))
    assert table.at("D", 11).value == "277"
    assert "written instead of “265-295”" in table.at("D", 11).rule
    assert table.at("B", 12).value == "2026-01-31"
    assert not {"D/limits", "B/no such day"} & keys(mapped)


def test_what_is_written_anew_and_wrong_again_is_asked_again_with_its_text(
    chemist, mapped
):
    sent = questions_sent(chemist, mapped, **{"t1-at-D11": "about 280"})

    page = chemist.post(address("questions", mapped.pk), sent, follow=True)

    assert 'value="about 280"' in at(page, "t1-at-D11")
    assert any(key.startswith("D/") for key in keys(mapped))


def test_a_suggestion_stands_in_its_box_and_gives_way_to_a_choice(chemist, mapped):
    page = chemist.get(address("questions", mapped.pk))
    assert 'value="281"' in at(page, "t1-at-D13")

    answered(chemist, mapped, {"D/letter in number": "leave"})

    said = fresh(mapped).answers[next(iter(fresh(mapped).mapping))]
    assert said["choices"]["D/letter in number"] == "leave"
    assert "D13" not in said["instead"]


def test_a_suggestion_that_is_sent_without_a_choice_is_written(chemist, mapped):
    chemist.post(address("questions", mapped.pk), questions_sent(chemist, mapped))

    said = fresh(mapped).answers[next(iter(fresh(mapped).mapping))]
    assert said["instead"] == {"D13": "281"}


def test_an_emptied_box_takes_its_text_back(chemist, mapped):
    sent = questions_sent(chemist, mapped, **{"t1-at-D11": "277"})
    chemist.post(address("questions", mapped.pk), sent)

    sent = questions_sent(chemist, mapped, **{"t1-at-D11": ""})
    chemist.post(address("questions", mapped.pk), sent)

    assert "D/limits" in keys(mapped)


def test_a_text_that_is_too_long_is_refused_and_stays_in_its_box(chemist, mapped):
    sent = questions_sent(chemist, mapped, **{"t1-at-D11": "2" * 201})

    page = chemist.post(address("questions", mapped.pk), sent)

    assert page.status_code == 422
    assert "Write at most 200 characters in one cell." in text_of(page)
    assert "2" * 201 in page.content.decode()
    assert 'href="#id_t1-at-D11"' in page.content.decode()
    assert not fresh(mapped).answers


def test_an_answer_that_was_not_offered_is_refused(chemist, mapped):
    name = name_of(chemist, mapped, "G/unit")

    page = chemist.post(
        address("questions", mapped.pk),
        questions_sent(chemist, mapped, **{name: "furlongs"}),
    )

    assert page.status_code == 422
    assert "Choose one of the answers below." in text_of(page)


def test_a_form_that_says_nothing_is_refused(chemist, mapped):
    page = chemist.post(address("questions", mapped.pk), {"version": mapped.version})

    assert page.status_code == 422
    assert "Choose an answer, or write a cell anew." in text_of(page)


def test_who_comes_second_is_told_and_nothing_is_lost(chemist, mapped):
    old = questions_sent(chemist, mapped, **{"t1-at-D11": "277"})
    answered(chemist, mapped, {"D/retest": "take"})

    page = chemist.post(address("questions", mapped.pk), old)

    assert page.status_code == 409
    assert 'value="277"' in at(page, "t1-at-D11")


def test_without_a_question_the_page_says_so(chemist, ready):
    page = text_of(chemist.get(address("questions", ready.pk)))

    assert "Nothing is asked any more." in page


@pytest.mark.parametrize("account", ["tech-a", "aud-1", "desk-1"])
def test_others_may_not_answer(as_, mapped, account):
    assert as_(account).get(address("questions", mapped.pk)).status_code == 403
