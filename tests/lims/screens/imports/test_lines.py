"""What a file would bring, what it brought, and where each value is from."""

from lims.imports import queries
from lims.people.queries import person
from tests.lims.screens.imports.conftest import TIDY, address, answered, fresh, text_of


def line_of(row, batch="Q1-25-0391"):
    return queries.lines_of(row).get(batch=batch)


def test_what_it_would_bring_is_told_before_it_is_taken_in(chemist, mapped):
    answered(chemist, mapped)

    page = text_of(chemist.get(address("lines", mapped.pk)))

    assert "What it would bring" in page
    assert "Q1-25-0378" in page
    assert "279 × 0.1 mm" in page
    assert "37.9 kPa 5.5 psi = 37.9 kPa" in page
    assert "beyond the limits in force today" in page


def test_nothing_there_is_called_a_verdict(chemist, mapped):
    answered(chemist, mapped)

    page = chemist.get(address("lines", mapped.pk)).content.decode()

    assert "not met" not in page.split("<main")[1]


def test_what_it_brought_links_each_line(chemist, taken):
    page = chemist.get(address("lines", taken.pk))

    assert "What it brought" in text_of(page)
    for line in queries.lines_of(taken):
        assert f'href="{address("history", line.pk)}"' in page.content.decode()


def test_a_line_of_history_says_where_each_value_is_from(chemist, taken):
    page = text_of(chemist.get(address("history", line_of(taken).pk)))

    assert "Unverified history: 1 result of LX2" in page
    for told in ("Worked penetration", "281 × 0.1 mm", "D2", "tidy, row 2", "tidy.csv"):
        assert told in page, page
    assert "no verdict rests on them, and no certificate" in page
    assert fresh(taken).sha256[:4] in page


def test_a_line_that_was_withdrawn_says_so(chemist, taken):
    chemist.post(address("withdraw", taken.pk), {"reason": "wrong units"})

    page = text_of(chemist.get(address("history", line_of(taken).pk)))

    assert "This history is withdrawn." in page
    assert "wrong units" in page


def test_a_line_that_is_not_there_is_not_found(chemist, taken):
    assert chemist.get(address("history", 99999)).status_code == 404


def test_persons_are_named_only_to_who_compares_by_person(as_, taken):
    line = line_of(taken)
    assert line.person == "R. Okonjo"

    for name, pk in (("history", line.pk), ("lines", taken.pk)):
        assert "R. Okonjo" in text_of(as_("mgr-1").get(address(name, pk)))
        assert "R. Okonjo" not in text_of(as_("tech-a").get(address(name, pk)))


def test_the_sheet_of_lines_names_persons_to_the_same_only(as_, taken):
    csv = {
        account: b"".join(as_(account).get(address("lines", taken.pk) + "?as=csv"))
        for account in ("mgr-1", "tech-a")
    }

    assert b"R. Okonjo" in csv["mgr-1"]
    assert b"R. Okonjo" not in csv["tech-a"]
    assert b"Q1-25-0391,2025-12-03,LX2" in csv["tech-a"]


def test_the_file_comes_back_byte_for_byte_under_its_name(chemist, taken):
    page = chemist.get(address("file", taken.pk))

    assert page.content == TIDY.encode()
    assert page["Content-Disposition"].startswith('attachment; filename="tidy.csv"')
    assert page["Content-Type"] == "application/octet-stream"


def test_the_file_may_name_persons_and_is_for_who_may_see_them(as_, taken):
    assert as_("tech-a").get(address("file", taken.pk)).status_code == 403
    assert as_("mgr-1").get(address("file", taken.pk)).status_code == 200
    assert "Take the file along" not in text_of(
        as_("tech-a").get(address("one", taken.pk))
    )


def test_who_brought_it_finds_a_line_by_its_batch(chemist, taken):
    others = queries.history_of_batch("Q1-25-0391")

    assert [it.pk for it in others] == [line_of(taken).pk]
    assert person("chem-1") == fresh(taken).taken_by
