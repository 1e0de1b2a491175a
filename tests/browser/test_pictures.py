"""The pictures of the guide: taken from the plant in mid-shift when asked for, and otherwise at least there."""

import io
import os
import re

import pytest
from PIL import Image
from playwright.sync_api import expect

from lims.certificates.models import CertificateRevision
from lims.imports import actions
from lims.management.plant import FOLDER as FOLDER_OF_STORY
from lims.management.plant import NOW
from lims.people.queries import person
from lims.record import clock
from lims.sheets import jobs, looking
from tests.browser import seeing
from tests.watch.files import ROOT

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

FOLDER = ROOT / "tests" / "browser" / "pictures"
NAMES = (
    *("bench", "bench-entry", "decisions", "lot", "certificates", "check-390"),
    *("trends", "chart", "import-questions"),
)
GUIDES = ("README.md", "DEVELOPERS.md")
WANTED = "KETTLEMARK_PICTURES"  # the variable of the environment that asks for new ones
TALLEST = 1600
LARGEST = 200 * 1024
SAMPLE = "Q1-26-0416-A-01"


def test_the_pictures_are_there_and_every_guide_names_only_those(request):
    if os.environ.get(WANTED):
        request.getfixturevalue("mid_shift")
        take_all(request.getfixturevalue("bench"))

    there = {path.name for path in FOLDER.glob("*.png")}
    assert there == {f"{name}.png" for name in NAMES}
    assert [it.name for it in FOLDER.glob("*") if it.stat().st_size > LARGEST] == []
    for guide in GUIDES:
        text = (ROOT / guide).read_text(encoding="utf-8")
        named = re.findall(r"!\[[^\]]*\]\(([^)]+)\)", text)
        assert [it for it in named if not (ROOT / it).is_file()] == [], guide


def take_all(bench):
    clock.set_to(NOW)
    seeing.in_theme(bench.page, "light")
    bench.signs_in("tech-a")
    bench.goes("bench:list")
    take(bench, "bench")
    read_a_set(bench)
    take(bench, "bench-entry")
    bench.signs_in("mgr-1")
    bench.goes("decisions:list")
    take(bench, "decisions")
    bench.goes("decisions:lot", "Q1-26-0414-A")
    take(bench, "lot")
    bench.signs_in("desk-1")
    bench.goes("certificates:list")
    take(bench, "certificates")
    take_history(bench)
    bench.page.context.clear_cookies()
    issued = CertificateRevision.objects.filter(certificate__customer__code="TT")
    bench.goes("front:check-code", issued.latest("pk").code)
    take(bench, "check-390", width=seeing.PHONE)


def take_history(bench):
    """What the plant's own workbooks come to, and what a messy one is asked."""
    bench.signs_in("chem-1")
    bench.goes("trends:product", "LX2")
    take(bench, "trends")
    bench.goes("trends:one", "LX2", "worked-penetration")
    take(bench, "chart")
    book = FOLDER_OF_STORY / "penbook.csv"
    by = person("chem-1")
    row = actions.receive(
        name=book.name, content=book.read_bytes(), kind="history", by=by
    )
    jobs.look(row)
    uses = {it.block.key: it.uses for it in looking.looked(row).blocks}
    jobs.look(actions.map_columns(import_of=row, mapping=uses, by=by))
    bench.goes("imports:questions", row.pk)
    take(bench, "import-questions")


def read_a_set(bench):
    """Unworked is reported already; of the worked set two cones of three are read, then the third."""
    bench.opens(SAMPLE)
    fill(bench, "unworked-penetration", temperature="25.1")
    fill(bench, "unworked-penetration", cone_1="273", cone_2="274", cone_3="276")
    bench.opens(SAMPLE)
    fill(bench, "worked-penetration", temperature="25.1", strokes_end="111840")
    fill(bench, "worked-penetration", cone_1="279", cone_2="281", cone_3="280")
    expect(bench.verdict("worked-penetration")).to_have_text("met")


def fill(bench, code, **typed):
    instrument = bench.box(code, "penetrometer")
    if not instrument.get_attribute("data-saved"):
        instrument.focus()
        bench.types("Enter")
        bench.saved(code, "penetrometer")
    for key, text in typed.items():
        bench.box(code, key).focus()
        bench.types(text, "Enter")
        bench.saved(code, key)


def take(bench, name, width=seeing.WIDE):
    """A small palette is enough for ink on paper, and keeps the file small."""
    seeing.at_width(bench.page, width)
    bench.page.evaluate(
        "() => { scrollTo(0, 0); return document.fonts.ready.then(() => 0); }"
    )
    shot = Image.open(io.BytesIO(bench.page.screenshot(full_page=True)))
    cut = shot.convert("RGB").crop((0, 0, width, min(TALLEST, shot.height)))
    cut.quantize(colors=192, dither=Image.Dither.NONE).save(
        FOLDER / f"{name}.png", optimize=True
    )
    seeing.at_width(bench.page, seeing.WIDE)
