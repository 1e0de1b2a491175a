"""What a draft revision would have done to the stored results: counted by the same judgement, nothing written."""

import datetime as dt

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from lims.bench.actions.samples import receive_sample
from lims.bench.models import ReportedValue
from lims.bench.reporting import active_value
from lims.decisions.rejudging import lots_of, preview_of
from lims.decisions.verdicts import held_of
from lims.people.queries import person, site_zone
from lims.products import actions, queries
from lims.products.lines import Line
from lims.record import clock
from lims.record.gate import entry
from lims.record.models import Entry
from specs.judging.verdicts import Verdict
from tests.factories import fills, plant, products
from tests.factories.methods import characteristic, edition

WORKED, CHANGE = "worked-penetration", "penetration-change-100000"


@pytest.fixture
def works(db):
    """Three lots: 280 and +22, 288 and +19, 292 and +17."""
    plant.open_plant()
    stories = [
        plant.story(
            number,
            retain=f"R-12-{number}",
            tests=plant.READY | {"worked": worked, "prolonged": f"W-2: {prolonged}"},
        )
        for number, worked, prolonged in (
            ("0417", "279 281 280", "301 303 302"),
            ("0418", "287 289 288", "306 308 307"),
            ("0419", "291 293 292", "308 310 309"),
        )
    ]
    plant.play(*stories)


@pytest.fixture
def draft(works):
    """LX2 revision 6 as it was opened: with the lines of revision 5."""
    return actions.open_draft(
        product=queries.product("LX2"), number="6", by=person("chem-1")
    )


def tightened(draft, lower="270", upper="290", **rule):
    line = products.worked_line(lower, upper, **rule)
    actions.set_requirement(revision=draft, line=line, by=person("chem-1"))
    return preview_of(draft)


def count_of(preview, code):
    found = [it for it in preview.lines if it.requirement.characteristic.code == code]
    assert len(found) == 1
    return found[0]


def test_the_lines_in_force_would_have_failed_nothing(draft):
    preview = preview_of(draft)

    assert preview.total == 18
    assert preview.not_met == preview.not_evaluated == 0
    assert preview.failures == ()
    assert [it.requirement.characteristic.code for it in preview.without_result] == [
        "oxidation-drop"
    ]


def test_a_tighter_limit_names_the_lots_that_it_would_have_failed(draft):
    preview = tightened(draft)

    line = count_of(preview, WORKED)
    assert (line.total, line.met, line.not_met) == (3, 2, 1)
    assert preview.lot_count == 1
    failure = preview.failures[0]
    assert lots_of([failure])[failure.lot_id] == plant.lot("0419")
    assert (failure.reported, failure.verdict) == ("292", Verdict.NOT_MET)


def test_the_rule_of_the_draft_decides_as_it_would_on_a_lot(draft):
    preview = tightened(
        draft,
        "265",
        "295",
        rule="guarded acceptance",
        basis="own uncertainty",
        uncertainty="2.16",
        confidence="0.95",
    )

    assert count_of(preview, WORKED).not_met == 1
    assert "outside the acceptance zone" in preview.failures[0].why


def test_every_verdict_is_the_one_that_the_lot_itself_is_given(draft):
    """The revision in force, previewed, says what the review of each lot says."""
    own = queries.in_force(queries.product("LX2"))
    told = preview_of(own)

    lines = [
        line
        for n in ("0417", "0418", "0419")
        for line in held_of(plant.lot(n))[0].lines
    ]
    met = sum(line.verdict == Verdict.MET for line in lines)
    assert met == told.total - told.not_met - told.not_evaluated == 18


def test_the_newest_value_of_a_test_counts_and_a_withdrawn_one_does_not(draft):
    corrected = plant.the_test(WORKED, "0419").reported_values.get()
    newer = store_after(corrected, "271", reported="271")
    preview = tightened(draft)
    withdrawn = store_after(newer, "271", reported="271", is_withdrawn=True)

    assert count_of(preview, WORKED).not_met == 0
    assert withdrawn.is_withdrawn
    assert count_of(preview_of(draft), WORKED).total == 2


def store_after(old, value, **given):
    """A newer value of the same test, as a correction leaves it."""
    row = ReportedValue(
        test=old.test,
        value=value,
        says="corrected",
        rule=old.rule,
        sources=old.sources,
        reported_at=old.reported_at,
        reported_by=old.reported_by,
        replaces=old,
        **given,
    )
    with entry(by=old.reported_by, verb="reading_corrected", about=old.test):
        row.save()
    return row


def test_a_value_that_cannot_be_judged_is_counted_apart(draft):
    store_after(
        plant.the_test(WORKED, "0419").reported_values.get(), ">280", reported=">280"
    )

    preview = tightened(draft)

    line = count_of(preview, WORKED)
    assert (line.met, line.not_met, line.not_evaluated) == (2, 0, 1)
    assert preview.lot_count == 0
    assert preview.failures[0].verdict == Verdict.NOT_EVALUATED


def test_another_products_results_are_not_held_against_it(draft):
    lc2 = actions.open_draft(
        product=queries.product("LC2"), number="4", by=person("chem-1")
    )

    assert preview_of(lc2).total == 0
    assert len(preview_of(lc2).without_result) == 6


def test_a_sample_from_the_kettle_is_not_held_against_it(draft):
    before = count_of(preview_of(draft), WORKED).total
    sample = receive_sample(
        batch=plant.lot().batch,
        place="kettle",
        taken_at=clock.now(),
        taken_by="",
        by=person("tech-a"),
    )
    test = sample.tests.get(characteristic__code=WORKED)
    ended = clock.now().astimezone(site_zone()) - dt.timedelta(seconds=90)
    fills.fill("279 281 280", test=test, strokes_end=f"{ended:%H:%M:%S}")

    assert active_value(test).reported == "280"
    assert count_of(preview_of(draft), WORKED).total == before


def test_a_preview_writes_nothing_and_asks_two_questions(draft):
    before = Entry.objects.count()
    with CaptureQueriesContext(connection) as few:
        preview_of(draft)

    tightened(draft)
    with CaptureQueriesContext(connection) as many:
        preview = preview_of(draft)

    assert len(few) == len(many) == 2
    assert preview.failures
    assert Entry.objects.count() == before + 1


def test_a_draft_that_only_reports_would_have_failed_nothing(works):
    line = Line(
        characteristic=characteristic(WORKED), edition=edition(), kind="report only"
    )
    draft = products.draft(
        queries.product("LX2"),
        by=person("chem-1"),
        customer=None,
        number="7",
        lines=[line],
    )
    for row in draft.requirements.filter(kind="limit"):
        actions.remove_requirement(requirement=row, by=person("chem-1"))

    assert preview_of(draft).lines == ()
    assert preview_of(draft).total == 0
