"""A reading on an instrument not in service counts only when somebody else answers for it, with a reason."""

import pytest

from lims.bench.actions import entering
from lims.bench.actions.allowing import allow_use
from lims.bench.models import Condition, Determination, UseAllowed
from lims.bench.reporting import active_value
from lims.decisions.review import review_of
from lims.instruments import actions as instruments
from lims.instruments.models import Instrument
from lims.people.queries import person as person_of
from lims.record import verify
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories import plant

CODE = "dropping-point-block"
REASON = "Ice point checked today: 0.1 °C, as before."


def the_test():
    return plant.the_test(CODE)


def note(text, by, **more):
    entering.record_condition(
        test=the_test(), key="apparatus", text=text, by=by, **more
    )


def measure(by, apparatus="TH-14"):
    note(apparatus, by)
    for slot, text in (
        ("observed_1", "186"),
        ("block_1", "232"),
        ("observed_2", "188"),
        ("block_2", "232"),
    ):
        entering.record_reading(test=the_test(), slot=slot, text=text, by=by)


@pytest.fixture
def mgr(works):
    return person_of("mgr-1")


def use():
    return Condition.objects.get(
        determination__test=the_test(), key="apparatus", replaced_by=None
    )


def allow(by, reason=REASON):
    return allow_use(condition=use(), reason=reason, by=by)


def test_an_allowed_use_counts_and_its_state_stays(tech_a, mgr):
    measure(tech_a)
    assert active_value(the_test()) is None

    allow(mgr)

    assert active_value(the_test()).reported == "202"
    determination = Determination.objects.get(test=the_test())
    assert (determination.state, determination.bars) == ("accepted", [])
    assert use().instrument_state == Instrument.State.OVERDUE
    assert (Entry.objects.first().verb, Entry.objects.first().reason) == (
        "use_allowed",
        REASON,
    )
    assert verify.verify().holds


def test_it_is_part_of_what_is_signed(tech_a, mgr):
    measure(tech_a)
    before = review_of(plant.lot())

    allow(mgr)

    after = review_of(plant.lot())
    assert REASON in after.content
    assert "mgr-1" in after.content
    assert REASON not in before.content
    assert before.seen != after.seen


def test_a_correction_keeps_it_and_another_instrument_ends_it(tech_a, mgr):
    measure(tech_a)
    allow(mgr)
    entering.record_reading(
        test=the_test(), slot="observed_1", text="187", reason="misread", by=tech_a
    )
    assert active_value(the_test()) is not None

    note("DP-01", tech_a, reason="wrong apparatus noted")
    note("TH-14", tech_a, reason="it was TH-14 after all")

    assert active_value(the_test()) is None
    assert UseAllowed.objects.count() == 1


def test_who_recorded_it_does_not_let_it_count(works, mgr):
    measure(mgr)

    with pytest.raises(NotAllowed, match="another person lets it count"):
        allow(mgr)
    assert not UseAllowed.objects.exists()
    allow(person_of("qm-1"))
    assert active_value(the_test()) is not None


def test_a_technician_does_not_let_it_count(tech_a):
    measure(tech_a)

    with pytest.raises(NotAllowed, match="laboratory manager or the quality manager"):
        allow(person_of("tech-b"))


@pytest.mark.parametrize("reason", ["", "  ", "ok", "x" * 301])
def test_a_reason_is_asked_for(tech_a, mgr, reason):
    measure(tech_a)

    with pytest.raises(BadInput) as refused:
        allow(mgr, reason)
    assert refused.value.field == "reason"


def test_an_instrument_in_service_needs_no_leave(tech_a, mgr):
    measure(tech_a, "DP-01")

    with pytest.raises(WrongMove, match="counts already"):
        allow(mgr)


def test_it_is_allowed_once(tech_a, mgr):
    measure(tech_a)
    allow(mgr)

    with pytest.raises(WrongMove, match="allowed already"):
        allow(mgr)


def test_another_instrument_noted_since_is_told(tech_a, mgr):
    measure(tech_a)
    old = use()
    note("DP-01", tech_a, reason="wrong apparatus noted")

    with pytest.raises(WrongMove, match="Another instrument was noted"):
        allow_use(condition=old, reason=REASON, by=mgr)


def test_nothing_read_on_a_retired_instrument_counts(tech_a, mgr):
    row = Instrument.objects.get(number="TH-14")
    instruments.retire(instrument=row, reason="Cracked.", by=mgr)
    measure(tech_a)

    with pytest.raises(WrongMove, match="was retired: nothing"):
        allow(mgr)


def test_a_set_put_aside_is_not_let_count(tech_a, mgr):
    measure(tech_a)
    entering.set_aside(
        determination=Determination.objects.get(test=the_test()),
        reason="thermometer overdue",
        by=tech_a,
    )

    with pytest.raises(WrongMove, match="set aside"):
        allow_use(
            condition=Condition.objects.get(key="apparatus"), reason=REASON, by=mgr
        )


def test_a_temperature_is_no_use_of_an_instrument(tech_a, mgr):
    entering.record_condition(
        test=plant.the_test("worked-penetration"),
        key="temperature",
        text="25.0",
        by=tech_a,
    )

    with pytest.raises(WrongMove, match="counts already"):
        allow_use(
            condition=Condition.objects.get(key="temperature"), reason=REASON, by=mgr
        )
