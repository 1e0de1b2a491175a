"""A curve is read in with a name and a reason where it replaces another; a released lot takes none."""

import pytest
from django.db import Error

from lims.bench import traces
from lims.bench.actions.traces import LONGEST_NAME, import_trace, named
from lims.bench.models import Determination, Trace
from lims.bench.rules import NeedsReason
from lims.people.queries import person as person_of
from lims.record.gate import entry
from lims.record.models import Entry
from lims.record.refusals import BadInput, GateError, NotAllowed, WrongMove
from tests.factories import curves, plant

CONTENT = curves.run_of(23)


@pytest.fixture
def induction(works):
    return curves.ask_for_induction()


def the_test():
    return plant.the_test(curves.INDUCTION)


def read_in(by, content=CONTENT, name="run-1.csv", **more):
    return import_trace(test=the_test(), name=name, content=content, by=by, **more)


def test_the_first_curve_begins_the_set(induction, tech_a):
    before = Entry.objects.count()

    it = read_in(tech_a)

    assert (it.place, it.begun_by) == (1, tech_a)
    row = Trace.objects.get()
    assert (row.name, row.count, row.replaces) == ("run-1.csv", 1201, None)
    assert row.sha256 == traces.print_of(CONTENT)
    assert traces.unpacked(row) == CONTENT
    assert Entry.objects.count() == before + 1
    assert Entry.objects.order_by("seq").last().verb == "trace_imported"


def test_a_second_curve_replaces_the_first_with_a_reason(induction, tech_a):
    read_in(tech_a)

    read_in(tech_a, curves.run_of(24), "run-2.csv", reason="wrong file chosen")

    old, new = Trace.objects.order_by("pk")
    assert (new.replaces, new.reason) == (old, "wrong file chosen")
    assert traces.unpacked(old) == CONTENT
    last = Entry.objects.order_by("seq").last()
    assert (last.verb, last.reason) == ("trace_replaced", "wrong file chosen")
    assert Determination.objects.filter(test=the_test()).count() == 1


def refused(by, why, match, **more):
    before = Entry.objects.count(), Trace.objects.count()

    with pytest.raises(why, match=match):
        read_in(by, **more)

    assert (Entry.objects.count(), Trace.objects.count()) == before


@pytest.mark.parametrize("reason", ["", "  ", "no"])
def test_it_does_not_without_one(induction, tech_a, reason):
    read_in(tech_a)

    refused(
        tech_a,
        NeedsReason,
        "run-1.csv was saved here before. Say why it changes",
        content=curves.run_of(24),
        reason=reason,
    )


def test_the_same_file_again_is_told(induction, tech_a):
    read_in(tech_a)

    refused(
        tech_a,
        BadInput,
        "kept for the run already, as run-1.csv",
        name="copy.csv",
        reason="again",
    )


def test_a_reason_that_does_not_fit_is_told(induction, tech_a):
    refused(tech_a, BadInput, "at most 300 characters", reason="x" * 301)


@pytest.mark.parametrize(
    ("content", "match"),
    [
        (b"", "The file is empty"),
        (b"\x00\x01", "The file is no text"),
        (b"0,1\n1,two\n", "Line 2: “two” is no number"),
        (b"0" * (traces.LARGEST + 1), "more than 4000000"),
    ],
)
def test_what_is_no_curve_is_not_kept(induction, tech_a, content, match):
    refused(tech_a, BadInput, match, content=content)


def test_a_curve_without_an_onset_is_kept_and_cannot_count(induction, tech_a):
    level = b"\n".join(b"%d,1" % it for it in range(60))

    it = curves.carry_out(the_test(), level, by=tech_a, answer="rejected")

    assert Trace.objects.get().count == 60
    assert any("no rise after the baseline" in bar["sentence"] for bar in it.bars)


def test_a_test_without_a_curve_takes_none(works, tech_a):
    with pytest.raises(WrongMove, match="is not worked out from a curve: type its"):
        import_trace(
            test=plant.the_test("worked-penetration"),
            name="a.csv",
            content=CONTENT,
            by=tech_a,
        )


@pytest.mark.parametrize("account", ["aud-1", "desk-1", "adm-1", "qm-1"])
def test_who_records_no_readings_reads_no_curve_in(induction, account):
    refused(person_of(account), NotAllowed, "Recording readings")


def test_a_curve_goes_to_the_set_named(induction, tech_a):
    first = curves.carry_out(the_test(), CONTENT, by=tech_a)
    read_in(tech_a, curves.run_of(24))

    read_in(
        tech_a,
        curves.run_of(23.2),
        "again.csv",
        reason="more points",
        determination=first,
    )

    assert [it.determination.place for it in Trace.objects.order_by("pk")] == [1, 2, 1]


@pytest.mark.parametrize(
    ("given", "kept"),
    [
        ("run.csv", "run.csv"),
        ("C:\\data\\run 7.csv", "run 7.csv"),
        ("../../etc/run.csv", "run.csv"),
        ("a\x00b\x1b.csv", "ab.csv"),
        ("", "curve.csv"),
        ("/", "curve.csv"),
        ("..", "curve.csv"),
        ("a\r\nb.csv", "a b.csv"),
        ("x" * 130 + ".csv", "x" * (LONGEST_NAME - 4) + ".csv"),
    ],
)
def test_a_file_keeps_its_own_name_alone(given, kept):
    assert named(given) == kept


# ---- A released lot


@pytest.fixture
def tested(db):
    """A lot ready for release, with the curve of a run beside it."""
    plant.open_plant()
    plant.play(plant.periodic_pass(), plant.story(), until="2026-03-09 09:00")
    curves.ask_for_induction()
    read_in(person_of("tech-a"))
    return person_of("tech-a")


def _copy(old):
    kept = {f.name: getattr(old, f.name) for f in old._meta.concrete_fields}
    return Trace(**kept | {"id": None, "replaces": old, "reason": "by hand"})


def test_a_page_opened_before_the_release_reads_nothing_in_after_it(tested):
    opened_before = the_test()
    plant.release(plant.lot())
    before = Entry.objects.count()

    with pytest.raises(WrongMove, match="is released; its readings stand"):
        import_trace(
            test=opened_before,
            name="late.csv",
            content=curves.run_of(24),
            reason="wrong file",
            by=tested,
        )

    assert Entry.objects.count() == before


def test_the_database_refuses_a_curve_of_a_released_lot(tested):
    plant.release(plant.lot())

    with (
        pytest.raises(Error, match="the lot is released"),
        entry(by=tested, verb="trace_imported", about=plant.lot()),
    ):
        _copy(Trace.objects.get()).save()

    assert Trace.objects.count() == 1


def test_the_database_takes_the_same_curve_before_the_release(tested):
    with entry(by=tested, verb="trace_imported", about=plant.lot()):
        _copy(Trace.objects.get()).save()

    assert Trace.objects.count() == 2


def test_the_database_refuses_a_replacement_without_a_reason(tested):
    row = _copy(Trace.objects.get())
    row.reason = ""

    with (
        pytest.raises(Error),
        entry(by=tested, verb="trace_imported", about=plant.lot()),
    ):
        row.save()


def test_a_kept_curve_never_changes(tested):
    row = Trace.objects.get()
    row.name = "other.csv"

    with (
        pytest.raises(GateError, match="never"),
        entry(by=tested, verb="trace_imported", about=plant.lot()),
    ):
        row.save()
