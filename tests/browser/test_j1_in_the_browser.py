"""Journey 1 in a browser: a good batch, from the scanned sample to the certificate that a customer compares."""

import base64

import pytest
from django.urls import reverse
from playwright.sync_api import expect

from lims.batches.models import FillLot
from lims.bench.reporting import active_value
from lims.certificates.models import CertificateRevision
from lims.record import clock
from tests.browser.driving import Seat, no_request_leaves
from tests.factories import plant
from tests.factories.people import PASSWORD

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

LOT, SAMPLE = "Q1-26-0417-A", "Q1-26-0417-A-01"
UNWORKED, WORKED = "unworked-penetration", "worked-penetration"
PROLONGED = "prolonged-penetration-100000"
DROPPING = "dropping-point-block"
TOPS = """() => [...document.querySelectorAll('main section, main [data-box], main .outcome')]
  .map(it => [it.id, Math.round(it.getBoundingClientRect().top + scrollY)])"""
DROP = """text => {
  const bytes = Uint8Array.from(atob(text), it => it.charCodeAt(0));
  const carried = new DataTransfer();
  carried.items.add(new File([bytes], 'certificate.pdf', {type: 'application/pdf'}));
  document.getElementById('drop').dispatchEvent(
    new DragEvent('drop', {dataTransfer: carried, bubbles: true, cancelable: true}));
}"""


def test_j1_in_the_browser(works, bench, new_context):
    bench.signs_in("tech-a")
    receive_and_keep(bench)
    scan(bench)
    read_unworked(bench)
    read_worked(bench)
    start_the_strokes(bench)
    read_too_early(bench)
    read_prolonged(bench)
    read_the_rest(bench)
    release_as_manager(bench)
    issued, content = issue_at_the_desk(bench)
    assert bench.said == []
    customer = Seat(new_context().new_page(), bench.server)
    compare_as_customer(customer, issued, content)
    assert customer.said == []


def at(text):
    clock.set_to(plant.at(text))


def reported(code):
    return active_value(plant.the_test(code)).reported


def receive_and_keep(bench):
    """Step 1: the sample is received, its retain stands on R-12-04."""
    page = bench.page
    bench.goes("batches:lot", LOT)
    page.get_by_role("link", name="Receive a sample").click()
    page.get_by_role("radio", name="pack").check()
    page.get_by_label("Where exactly").fill("drum 11 of 30")
    page.get_by_label("Taken at").fill("2026-03-05 07:30")
    page.get_by_role("button", name="Receive the sample").click()
    expect(page.get_by_role("link", name=SAMPLE).first).to_be_visible()
    bench.goes("batches:lot", LOT)
    page.get_by_role("link", name="Note its place").click()
    page.get_by_role("textbox", name="Place").fill("R-12-04")
    page.get_by_role("button", name="Note the place").click()
    expect(page.get_by_text("R-12-04").first).to_be_visible()


def scan(bench):
    """The list waits for a code; a scanner types it and ends with Enter."""
    bench.goes("bench:list")
    assert bench.focused == "scan"
    bench.types(SAMPLE, "Enter")
    expect(bench.page.locator("h1")).to_contain_text(SAMPLE)


def walk_to(bench, code, key):
    """Tab on until the box has the focus: no mouse on this page."""
    wanted = f"{code}-{key}"
    for _ in range(80):
        if bench.focused == wanted:
            return
        bench.types("Tab")
    raise AssertionError(f"Tab does not reach {wanted}; it stands at {bench.focused}")


def choose(bench, code, key, text):
    """In a list, the first letters choose and Enter goes on."""
    walk_to(bench, code, key)
    bench.types(text, "Enter")
    bench.saved(code, key)


def enter(bench, code, **typed):
    """Type each text and Enter; the focus is in the next box at once."""
    for key, text in typed.items():
        assert bench.focused == f"{code}-{key}"
        bench.types(text, "Enter")
    bench.saved(code, *typed)


def read_unworked(bench):
    """Step 2: digits and Enter walk the boxes; the verdict comes without moving anything."""
    at("2026-03-05 07:50")
    choose(bench, UNWORKED, "penetrometer", "PEN-01")
    enter(bench, UNWORKED, temperature="25.1", cone_1="272", cone_2="274")
    expect(bench.outcome(UNWORKED)).to_contain_text("no verdict")
    before = bench.page.evaluate(TOPS)
    bench.types("275", "Enter")
    goes_on = bench.focused
    bench.saved(UNWORKED, "cone_3")
    expect(bench.outcome(UNWORKED)).to_contain_text("274")
    assert bench.page.evaluate(TOPS) == before
    assert bench.focused == goes_on == f"{WORKED}-penetrometer"
    assert reported(UNWORKED) == "274"


def read_worked(bench):
    """Step 3: the strokes ended at 08:52:10; each cone at its own time; met at the third."""
    at("2026-03-05 08:52:40")
    choose(bench, WORKED, "penetrometer", "PEN-01")
    enter(bench, WORKED, temperature="25.1", strokes_end="085210")
    at("2026-03-05 08:53:05")
    enter(bench, WORKED, cone_1="279")
    at("2026-03-05 08:54:20")
    enter(bench, WORKED, cone_2="281")
    before = bench.page.evaluate(TOPS)
    at("2026-03-05 08:55:40")
    bench.types("280", "Enter")
    goes_on = bench.focused
    outcome = bench.outcome(WORKED)
    expect(bench.verdict(WORKED)).to_have_text("met")
    expect(bench.verdict(WORKED).locator("svg")).to_be_visible()
    expect(outcome).to_contain_text("280")
    expect(outcome).to_contain_text("spread 2")
    assert bench.page.evaluate(TOPS) == before
    assert bench.focused == goes_on
    assert reported(WORKED) == "280"


def start_the_strokes(bench):
    """Step 4: 100 000 strokes from 09:00 at 60 a minute end on Friday at 12:46:40."""
    at("2026-03-05 09:00")
    choose(bench, PROLONGED, "worker", "W-2")
    enter(bench, PROLONGED, started_at="09:00:00")
    expect(bench.outcome(PROLONGED)).to_contain_text("12:46:40")


def read_too_early(bench):
    """Before Friday 08:49 the strokes cannot have ended: stored, and barred from any verdict."""
    at("2026-03-06 08:40")
    bench.opens(SAMPLE)
    choose(bench, PROLONGED, "penetrometer", "PEN-01")
    enter(bench, PROLONGED, temperature="25.0", strokes_end="08:39:00")
    enter(bench, PROLONGED, cone_1="299", cone_2="300", cone_3="299")
    said = bench.page.locator(f"#says-{PROLONGED}")
    expect(said).to_contain_text("08:49")
    expect(bench.outcome(PROLONGED).locator(".mark.good")).to_have_count(0)
    assert active_value(plant.the_test(PROLONGED)) is None
    assert plant.the_test(PROLONGED).determinations.get().readings.count() == 3
    walk_to(bench, PROLONGED, "aside")
    bench.types("read before the strokes had ended", "Enter")
    expect(bench.page.get_by_text("Set 1 is set aside.")).to_be_visible()


def read_prolonged(bench):
    """Friday 14:30: 302, which is 22 above the worked set."""
    at("2026-03-06 14:30")
    bench.opens(SAMPLE)
    choose(bench, PROLONGED, "worker", "W-2")
    enter(bench, PROLONGED, started_at="2026-03-05 09:00:00")
    choose(bench, PROLONGED, "penetrometer", "PEN-01")
    enter(bench, PROLONGED, temperature="25.0", strokes_end="14:29:30")
    at("2026-03-06 14:31")
    enter(bench, PROLONGED, cone_1="301", cone_2="303", cone_3="302")
    change = "penetration-change-100000"
    expect(bench.outcome(change)).to_contain_text("+22")
    expect(bench.verdict(change)).to_have_text("met")
    assert reported(PROLONGED) == "302"


def read_the_rest(bench):
    """Steps 5 and 6: dropping point with the block at 232, oil separation, copper strip, appearance."""
    at("2026-03-06 15:00")
    choose(bench, DROPPING, "apparatus", "DP-01")
    enter(bench, DROPPING, observed_1="186", block_1="232")
    enter(bench, DROPPING, observed_2="188", block_2="232")
    expect(bench.outcome(DROPPING)).to_contain_text("202")
    walk_to(bench, "oil-separation", "sample")
    enter(bench, "oil-separation", sample="10.02", oil="0.28")
    expect(bench.outcome("oil-separation")).to_contain_text("2.8")
    walk_to(bench, "copper-strip", "strip_1")
    enter(bench, "copper-strip", strip_1="1a")
    bench.opens(SAMPLE)
    choose(bench, "appearance", "finding", "met")
    expect(bench.page.locator("#state-appearance")).to_contain_text("reported")
    assert plant.lot().state == FillLot.State.AWAITING_DECISION


def switches(bench, account):
    bench.page.get_by_role("button", name="Switch person").click()
    bench.page.wait_for_url("**" + reverse("front:sign-in") + "*")
    bench.signs_in(account)


def release_as_manager(bench):
    """Step 7: the review names the periodic batch; the signature releases the lot."""
    at("2026-03-06 15:48")
    switches(bench, "mgr-1")
    page = bench.page
    bench.goes("decisions:list")
    page.get_by_role("link", name="Q1-26-0417").first.click()
    expect(page.locator("main")).to_contain_text("Q1-26-0310")
    page.get_by_role("radio", name="Release").check()
    page.get_by_label("Password of").fill(PASSWORD)
    page.locator("button.sign").click()
    expect(page.locator(".title .mark")).to_contain_text("released")
    assert plant.lot().state == FillLot.State.RELEASED


def issue_at_the_desk(bench):
    """Four of thirty drums for order TT-7781: allotted, looked at, issued, downloaded."""
    at("2026-03-06 16:05")
    switches(bench, "desk-1")
    page = bench.page
    bench.goes("certificates:can-leave")
    page.get_by_role("link", name="Allot packs of Q1-26-0417 A").click()
    page.get_by_label("Customer", exact=True).select_option(
        label="Tallow & Thimble Bearings"
    )
    page.get_by_label("Order", exact=True).fill("TT-7781")
    page.get_by_label("Packs", exact=True).fill("4")
    page.get_by_role("button", name="Allot the packs").click()
    page.get_by_label("Delivery note").fill("DN-26-0912")
    look_at_a_preview(page)
    page.get_by_role("button", name="Issue the certificate").click()
    expect(page.locator("h1")).to_contain_text("Q1-C-2026-00001")
    issued = CertificateRevision.objects.get(certificate__fill_lot=plant.lot())
    return issued, downloaded(bench, issued)


def look_at_a_preview(page):
    with page.expect_popup() as opened:
        page.get_by_role("button", name="Look at a preview").click()
    opened.value.close()
    assert not CertificateRevision.objects.filter(
        certificate__fill_lot=plant.lot()
    ).exists()


def downloaded(bench, issued):
    """What the link on the page gives, with the person's own session."""
    link = bench.page.get_by_role("link", name="Open the PDF").get_attribute("href")
    answer = bench.page.request.get(bench.server + link)
    assert answer.headers["content-type"] == "application/pdf"
    content = answer.body()
    assert content.startswith(b"%PDF-")
    return content


def compare_as_customer(customer, issued, content):
    """Without signing in: genuine, the results as printed, and the file itself compared in the browser."""
    page = customer.page
    customer.goes("front:check-code", issued.code)
    expect(page.locator("h1")).to_contain_text("enuine and current")
    expect(page.locator("main")).to_contain_text("280")
    expect(page.locator("body")).not_to_contain_text("TT-7781")
    other = bytearray(content)
    other[len(other) // 2] ^= 1
    with no_request_leaves(page):
        drops(page, content)
        expect(page.locator("#compared.good")).to_have_text(told(page, "same"))
        drops(page, bytes(other))
        expect(page.locator("#compared.bad")).to_have_text(told(page, "other"))


def told(page, key):
    return page.locator("#drop").get_attribute(f"data-{key}")


def drops(page, content):
    page.evaluate(DROP, base64.b64encode(content).decode())
