"""Journey 12 in a browser: a pen book as a laboratory wrote it, from the file to unverified history, and the same file once more."""

import re

import pytest
from playwright.sync_api import expect

from lims.imports.models import HistoryLine, Import, Staging
from lims.record import clock
from tests.browser.driving import Seat
from tests.factories import plant
from tests.lims.screens.imports.conftest import PEN_BOOK

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

COLUMN_LEVEL = {"G/unit", "D/millimetres", "D/mean or reading", "D/retest"}
ROWS_ASKED = {6, 9, 11, 12, 13}
REFUSED = "status of 422"  # the browser remarks on each form that was refused
FILE = {
    "name": "penbook.csv",
    "mimeType": "text/csv",
    "buffer": PEN_BOOK.encode("cp1252"),
}


@pytest.fixture
def before_the_import(transactional_db, own_files):
    """The plant as it was founded, on 10 February 2026."""
    plant.open_plant()
    clock.set_to(plant.at("2026-02-10 09:00"))


@pytest.fixture
def seat(page, live_server):
    return Seat(page, live_server.url)


def test_j12_in_the_browser(before_the_import, seat):
    seat.signs_in("chem-1")
    bring_in(seat)
    map_the_columns(seat)
    see_what_is_asked(seat)
    send_nothing_usable(seat)
    answer(seat)
    look_at_cells(seat)
    take_in(seat)
    follow_one_line(seat)
    bring_in_again(seat)
    assert [it for it in seat.said if REFUSED not in it] == []


def test_what_is_done_in_the_background_is_told_without_a_click(
    before_the_import, seat
):
    seat.signs_in("chem-1")
    choose_the_file(seat)
    expect(seat.page.locator("main")).to_contain_text("1 table was found")
    row = Staging.objects.get()
    told = {"stage": "checking", "words": "checking penbook!A2:I14", "total": 4}
    Staging.objects.filter(pk=row.pk).update(**told)
    seat.page.reload()
    news = seat.page.get_by_role("status")
    expect(news).to_contain_text("Checking penbook!A2:I14: 0 of 4")

    Staging.objects.filter(pk=row.pk).update(done=3)
    expect(news).to_contain_text("3 of 4")

    Staging.objects.filter(pk=row.pk).update(stage="looked at", words="", total=0)
    expect(seat.page.locator("main")).to_contain_text("Say next what the columns hold")
    assert seat.said == []


def press(seat, name):
    seat.page.get_by_role("button", name=name, exact=True).click()


def choose_the_file(seat):
    seat.goes("imports:new")
    seat.page.get_by_role("radio", name="results of earlier batches").check()
    seat.page.get_by_label("File", exact=True).set_input_files(FILE)
    press(seat, "Bring the file in")


def bring_in(seat):
    """The list says what belongs there; the file is kept, and its title is no data."""
    seat.goes("imports:list")
    expect(seat.page.locator("main")).to_contain_text("No file yet")
    choose_the_file(seat)
    main = seat.page.locator("main")
    expect(main).to_contain_text("1 table was found")
    expect(main).to_contain_text("title “Quern Mill lab - pen book 2025/26”")


def map_the_columns(seat):
    """Each head is understood; nobody has to choose anything."""
    seat.page.get_by_role("link", name="Say what the columns hold").click()
    expect(seat.page.get_by_label("Column D, Pen W60")).to_have_value(
        "result:worked-penetration"
    )
    expect(seat.page.get_by_label("Column H, Cu strip")).to_have_value(
        "result:copper-strip"
    )
    assert not HistoryLine.objects.exists()
    press(seat, "Check every cell")


def cells_of(section):
    return section.locator("table th[scope=row]").all_inner_texts()


def see_what_is_asked(seat):
    """Four questions about columns; five rows with questions or refusals of single cells."""
    expect(seat.page.locator("h1")).to_have_text("Questions")
    row = Import.objects.get()
    asked = {
        question["key"]: question
        for block in row.staging.outcome["blocks"]
        for question in block["questions"]
    }
    of_columns = {key for key, it in asked.items() if it["level"] == "column"}
    assert of_columns == COLUMN_LEVEL
    shown = seat.page.locator("section.asked").all()
    assert len(shown) == len(asked)
    by_rows = {
        int(re.sub(r"\D", "", address))
        for section, it in zip(shown, asked.values(), strict=True)
        if it["level"] == "cell"
        for address in cells_of(section)
    }
    assert by_rows == ROWS_ASKED


def send_nothing_usable(seat):
    """A text that is too long: the summary comes first, has the focus and leads to the box."""
    box = seat.page.get_by_label("Write instead in D11")
    box.fill("2" * 201)
    press(seat, "Keep the answers")
    expect(seat.page.locator(".error-summary")).to_be_visible()
    assert seat.page.title().startswith("Error: ")
    assert seat.page.evaluate(
        "document.activeElement.contains(document.querySelector('.error-summary'))"
    )
    expect(box).to_have_value("2" * 201)
    seat.page.locator(".error-summary a").click()
    assert seat.focused == "id_t1-at-D11"
    box.fill("277")


def answer(seat):
    """What the sheet speaks for stands chosen; the rest is said, and three cells are written anew."""
    page = seat.page
    expect(page.get_by_role("radio", name="Take the figure")).to_be_checked()
    expect(page.get_by_role("radio", name="In millimetres")).to_be_checked()
    page.get_by_role("radio", name="kPa; 0.40 in kgf/cm²").check()
    page.get_by_role("radio", name="A reading: take the mean of the set").check()
    page.get_by_role("radio", name="Take them, marked as measured again").check()
    page.get_by_label("Write instead in B12").fill("31/01/2026")
    page.get_by_label("Write instead in B13").fill("02/02/2026")
    expect(page.get_by_label("Write instead in D13")).to_have_value("281")
    expect(page.get_by_label("Write instead in D11")).to_have_value("277")
    press(seat, "Keep the answers")
    expect(page.locator("main")).to_contain_text("Nothing is asked any more. 8 batches")


def look_at_cells(seat):
    """What was converted is shown with its rule, what was left out with its reason."""
    seat.page.get_by_role("link", name=re.compile(r"cells converted$")).click()
    main = seat.page.locator("main")
    expect(main).to_contain_text("5.5 psi = 37.9 kPa")
    expect(main).to_contain_text("0.40 kgf/cm² = 39.2 kPa")
    seat.page.get_by_label("They are").select_option("left out")
    press(seat, "Show")
    expect(main).to_contain_text("repeats row 9")
    expect(main).to_contain_text("summary")
    seat.page.go_back()
    seat.page.go_back()


def take_in(seat):
    """All or nothing, once: a click too many changes nothing."""
    button = seat.page.get_by_role("button", name=re.compile("^Take in 8 batches"))
    button.dblclick()
    expect(seat.page.locator("main")).to_contain_text("Taken in by")
    lines = HistoryLine.objects.all()
    assert {it.batch[-4:] for it in lines} == {f"03{it}" for it in range(77, 85)}
    assert lines.count() == 8


def follow_one_line(seat):
    """From the file to a line to its cells, as they stood, and the rule."""
    seat.page.get_by_role("link", name="Every line with its cells").click()
    seat.page.get_by_role("link", name="Q1-25-0377").click()
    main = seat.page.locator("main")
    expect(main).to_contain_text("Unverified history")
    for told in ("280,5", "281", "279", "D3, D4, D5", "280 × 0.1 mm", "5.5 psi"):
        expect(main).to_contain_text(told)


def bring_in_again(seat):
    """The same file adds nothing and says who brought it before."""
    choose_the_file(seat)
    expect(seat.page.locator(".error-summary")).to_contain_text(
        "This very file was taken in on"
    )
    assert HistoryLine.objects.count() == 8
    assert Import.objects.count() == 1
