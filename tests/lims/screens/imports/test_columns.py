"""Saying what the columns hold: proposals stand chosen, what cannot be is refused in words, nothing typed is lost."""

from lims.imports import actions
from lims.people.queries import person
from lims.sheets import looking
from tests.lims.screens.imports.conftest import (
    TIDY,
    address,
    answered,
    at,
    brought,
    columns_sent,
    fresh,
    map_as_proposed,
    text_of,
)


def test_what_the_heads_say_is_chosen_already(chemist, pen_book):
    form = chemist.get(address("columns", pen_book.pk)).context["form"]

    assert form["t1-A"].value() == "batch"
    assert form["t1-B"].value() == "date"
    assert form["t1-D"].value() == "result:worked-penetration"
    assert form["t1-I"].value() == "remark"


def test_the_page_shows_head_and_first_texts_of_each_column(chemist, pen_book):
    page = text_of(chemist.get(address("columns", pen_book.pk)))

    assert "9 columns in 1 table" in page
    assert "D Pen W60" in page
    assert "280,5" in page
    assert "5.5 psi" in page


def test_mapped_columns_lead_to_the_questions(chemist, pen_book):
    page = map_as_proposed(chemist, pen_book)

    assert page.status_code == 303
    assert page["Location"] == address("questions", pen_book.pk)


def test_columns_without_a_question_lead_to_the_file(chemist, tidy):
    page = map_as_proposed(chemist, tidy)

    assert page["Location"] == address("one", tidy.pk)


def test_a_unit_that_is_said_of_a_column_is_asked_no_more(chemist, pen_book):
    map_as_proposed(chemist, pen_book, **{"t1-G-unit": "kPa"})

    asked = {it.key for it in looking.looked(pen_book).blocks[0].questions}
    assert asked
    assert "G/unit" not in asked or "lies far" in _sentence(pen_book, "G/unit")


def _sentence(row, key):
    questions = looking.looked(row).blocks[0].questions
    return next(it.sentence for it in questions if it.key == key)


def test_a_meaning_given_twice_is_refused_and_what_was_chosen_stays(chemist, pen_book):
    twice = {"t1-E": "result:worked-penetration", "t1-I": "left out"}

    page = map_as_proposed(chemist, pen_book, **twice)

    assert page.status_code == 422
    assert "<title>Error: " in page.content.decode()
    assert "Column D is taken for Worked penetration" in text_of(page)
    assert page.context["form"]["t1-I"].value() == "left out"
    assert 'href="#id_t1-E"' in page.content.decode()
    assert 'aria-invalid="true"' in at(page, "t1-E")
    assert not fresh(pen_book).mapping


def test_several_remarks_are_no_fault(chemist, tidy):
    page = map_as_proposed(chemist, tidy, **{"t1-E": "remark"})

    assert page.status_code == 303


def test_a_table_without_batch_or_date_is_refused_by_name(chemist, pen_book):
    page = map_as_proposed(chemist, pen_book, **{"t1-A": "left out", "t1-B": "remark"})

    assert page.status_code == 422
    assert "No column of this table is taken for: batch, date." in text_of(page)


def test_a_table_without_a_result_is_refused(chemist, tidy):
    page = map_as_proposed(chemist, tidy, **{"t1-D": "left out"})

    assert page.status_code == 422
    assert "No column of this table is taken for a result" in text_of(page)


def test_a_table_may_be_left_out_whole(chemist, tidy):
    page = map_as_proposed(chemist, tidy, **{"t1-out": "on", "t1-A": "left out"})

    assert page.status_code == 303
    uses = next(iter(fresh(tidy).mapping.values()))
    assert {it["role"] for it in uses.values()} == {"left out"}
    assert "Nothing of this file would be taken in" in text_of(
        chemist.get(address("one", tidy.pk))
    )


def test_a_meaning_that_is_not_offered_is_refused(chemist, tidy):
    page = map_as_proposed(chemist, tidy, **{"t1-D": "result:no-such-thing"})

    assert page.status_code == 422


def test_who_comes_second_is_told_and_what_was_chosen_stays(chemist, tidy):
    old = columns_sent(chemist, tidy, **{"t1-E": "remark"})
    map_as_proposed(chemist, tidy)

    page = chemist.post(address("columns", tidy.pk), old)

    assert page.status_code == 409
    assert page.context["form"]["t1-E"].value() == "remark"
    assert page.context["form"]["version"].value() == str(fresh(tidy).version)


def test_the_same_layout_is_proposed_as_it_was_mapped(chemist, tidy):
    map_as_proposed(chemist, tidy, **{"t1-E": "remark"})
    chemist.post(address("take", tidy.pk), {"version": fresh(tidy).version})

    again = brought(TIDY.replace("0391", "0491"), "next.csv")
    page = chemist.get(address("columns", again.pk))

    assert page.context["form"]["t1-E"].value() == "remark"
    assert "This layout came before" in text_of(page)


def test_columns_of_a_file_that_was_left_change_no_more(chemist, tidy):
    actions.leave(import_of=tidy, reason="wrong year", by=person("chem-1"))

    page = chemist.get(address("columns", tidy.pk))

    assert page.status_code == 409
    assert "nothing about it changes any more" in text_of(page)


def test_a_technician_may_not_say_what_a_history_holds(as_, tidy):
    assert as_("tech-a").get(address("columns", tidy.pk)).status_code == 403


def test_a_file_of_one_product_needs_no_column_for_it(chemist, opened):
    told = "Batch;Date;Pen W60\nQ1-25-0391;2025-12-03;281\nQ1-25-0392;2025-12-04;283\n"
    waiting = brought(told, "one product.csv")

    page = map_as_proposed(chemist, waiting)

    assert page.status_code == 303
    assert chemist.get(address("questions", waiting.pk)).status_code == 200
    (table,) = looking.looked(fresh(waiting)).blocks
    assert [it.key for it in table.questions] == ["/product of all"]
    answered(chemist, waiting, {"/product of all": "LX2"})
    (table,) = looking.looked(fresh(waiting)).blocks
    assert table.is_ready
    assert table.counts["batches with values"] == 2
