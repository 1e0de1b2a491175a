"""Journey 12, the pen book: a messy text file is brought in, its ten questions are answered, its values become unverified history, and sending it again adds nothing."""

import pytest

from lims.decisions.models import Decision
from lims.imports import actions, queries
from lims.imports.models import HistoryLine, Import
from lims.people.queries import person
from lims.record import clock, verify
from lims.record.models import Entry
from lims.record.refusals import BadInput, WrongMove
from lims.sheets import jobs, looking
from lims.trends import queries as trends
from lims.trends.asked import Asked, Source
from specs.tables.saying import RowRole
from tests.factories import plant

BLOCK = "penbook!A2:I14"
BOOK = plant.plant.FOLDER / "penbook.csv"
CHOICES = {
    "A/letter in number": "proposed",
    "B/no such day": "leave",
    "B/no date": "leave",
    "D/letter in number": "leave",
    "D/limits": "leave",
    "D/retest": "take",
    "D/blank inside": "joined",
    "D/millimetres": "mm",
    "D/mean or reading": "reading",
    "G/unit": "kPa; 0.40 in kgf/cm²",
}
COLUMN_LEVEL = {"D/retest", "D/millimetres", "D/mean or reading", "G/unit"}
ROWS_WITH_A_CELL_ASKED = {6, 9, 11, 12, 13}  # O378, 2 81, 265-295, 31/02, 0384
# batch: (day, product, values by characteristic)
WORKED, PROLONGED = "worked-penetration", "prolonged-penetration-100000"
DROPPING, OXIDATION, COPPER = "dropping-point-block", "oxidation-drop", "copper-strip"
EXPECTED = {
    "Q1-25-0377": (
        "2025-12-03",
        "LX2",
        {
            WORKED: "280",
            PROLONGED: "301",
            DROPPING: "201",
            OXIDATION: "37.9",
            COPPER: "1b",
        },
    ),
    "Q1-25-0378": (
        "2025-12-18",
        "LX2",
        {WORKED: "279", DROPPING: "198", OXIDATION: "38", COPPER: "1a"},
    ),
    "Q1-25-0379": (
        "2025-12-12",
        "PU2",
        {WORKED: ">300", DROPPING: ">288", OXIDATION: "<2", COPPER: "1b"},
    ),
    "Q1-25-0380": (
        "2025-12-15",
        "LC2",
        {WORKED: "283", DROPPING: "262", OXIDATION: "39.2", COPPER: "pass"},
    ),
    "Q1-25-0381": (
        "2025-12-15",
        "LX2",
        {WORKED: "281", PROLONGED: "298", DROPPING: "197.8", COPPER: "1b"},
    ),
}


@pytest.fixture
def technologist(db, settings, tmp_path):
    """The technologist, on the day of the import."""
    settings.MEDIA_ROOT = tmp_path
    plant.open_plant()
    clock.set_to(plant.at("2026-02-10 09:00"))
    return person("chem-1")


@pytest.fixture
def waiting(technologist):
    """The pen book, brought in and its columns mapped as proposed."""
    row = receive(technologist)
    jobs.look(row)
    mapping = {it.block.key: it.uses for it in looking.looked(row).blocks}
    row = actions.map_columns(import_of=row, mapping=mapping, by=technologist)
    jobs.look(row)
    return row


def receive(by, name="penbook.csv", content=None):
    content = BOOK.read_bytes() if content is None else content
    return actions.receive(name=name, content=content, kind="history", by=by)


def answer(row, by, choices=CHOICES, instead=None):
    return actions.answer(
        import_of=row,
        choices={BLOCK: choices},
        instead={BLOCK: instead or {}},
        by=by,
    )


def taken_in(row, by, **more):
    row = answer(row, by, **more)
    jobs.look(row)
    jobs.take(row, by=by)
    return Import.objects.get(pk=row.pk)


def test_the_questions_are_asked_once_a_column(waiting):
    (table,) = looking.looked(waiting).blocks

    asked = {it.key: it for it in table.questions}
    assert set(asked) == set(CHOICES)
    assert {key for key, it in asked.items() if it.level == "column"} == COLUMN_LEVEL
    rows = {
        int(cell.lstrip("ABCDEFGHI"))
        for it in asked.values()
        if it.level == "cell"
        for cell in it.cells
    }
    assert rows == ROWS_WITH_A_CELL_ASKED


def test_twelve_lines_are_eight_batches(waiting, technologist):
    row = answer(waiting, technologist)

    (table,) = looking.tables_of(row)

    batches = {
        table.said["A"][place].value
        for place, role in enumerate(table.roles)
        if role in {RowRole.DATA, RowRole.HELD}
    }
    counts = table.counts
    assert len(table.roles) == 12
    assert len(batches) == 8
    assert counts["rows continuation"] == 2
    assert counts["rows duplicate"] == 1
    assert counts["rows summary"] == 1


def test_nothing_is_taken_in_before_all_is_answered(waiting, technologist):
    some = {key: choice for key, choice in CHOICES.items() if key != "G/unit"}
    row = answer(waiting, technologist, some)
    entries = Entry.objects.count()

    with pytest.raises(WrongMove, match="1 question about this file wait"):
        jobs.take(row, by=technologist)

    assert not HistoryLine.objects.exists()
    assert Entry.objects.count() == entries


def test_what_is_taken_in_is_what_the_book_says(waiting, technologist):
    brought = taken_in(waiting, technologist)

    found = {
        line.batch: (
            line.measured_on.isoformat(),
            line.product.code,
            {it["characteristic"]: it["value"] for it in line.values},
        )
        for line in queries.lines_of(brought)
    }
    assert {batch: found.get(batch) for batch in EXPECTED} == EXPECTED


def test_it_is_one_entry_and_the_record_holds(waiting, technologist):
    row = answer(waiting, technologist)
    jobs.look(row)
    entries = Entry.objects.count()

    jobs.take(row, by=technologist)

    assert Entry.objects.count() == entries + 1
    assert verify.verify().holds


def test_each_value_keeps_its_cells_raw_text_and_rule(waiting, technologist):
    brought = taken_in(waiting, technologist)

    values = {
        (line.batch, it["characteristic"]): it
        for line in queries.lines_of(brought)
        for it in line.values
    }
    worked = values["Q1-25-0377", WORKED]
    assert worked["cells"] == ["D3", "D4", "D5"]
    assert worked["raw"] == ["280,5", "281", "279"]
    assert "280.17" in worked["rule"]
    assert values["Q1-25-0377", OXIDATION]["raw"] == ["5.5 psi"]
    assert "37.9 kPa" in values["Q1-25-0377", OXIDATION]["rule"]
    assert values["Q1-25-0380", COPPER]["is_words"]
    assert brought.sha256
    assert actions.content_of(brought) == BOOK.read_bytes()


def test_cells_may_be_written_anew_instead(waiting, technologist):
    choices = {key: it for key, it in CHOICES.items() if key[0] != "B"}
    instead = {"B12": "28.01.2026", "B13": "29.01.2026", "D13": "281"}
    del choices["D/letter in number"]

    brought = taken_in(waiting, technologist, choices=choices, instead=instead)

    lines = {line.batch: line for line in queries.lines_of(brought)}
    assert lines["Q1-25-0383"].measured_on.isoformat() == "2026-01-28"
    late = {it["characteristic"]: it for it in lines["Q1-25-0384"].values}
    assert late[WORKED]["value"] == "281"
    assert late[WORKED]["raw"] == ["28l"]
    assert "written instead" in late[WORKED]["rule"]
    assert late[COPPER]["value"] == "2a"


def test_the_same_file_again_adds_nothing(waiting, technologist):
    taken_in(waiting, technologist)
    before = HistoryLine.objects.count(), Entry.objects.count()

    with pytest.raises(BadInput, match="This very file was taken in"):
        receive(technologist, name="the same.csv")

    assert (HistoryLine.objects.count(), Entry.objects.count()) == before


def test_the_same_book_saved_otherwise_is_asked_less_and_adds_nothing(
    waiting, technologist
):
    taken_in(waiting, technologist)
    lines = HistoryLine.objects.count()
    other = BOOK.read_text(encoding="cp1252").encode("utf-16")
    row = receive(technologist, name="penbook.csv", content=other)
    jobs.look(row)

    (table,) = looking.looked(row).blocks
    assert table.from_memory
    row = actions.map_columns(
        import_of=row, mapping={BLOCK: table.uses}, by=technologist
    )
    jobs.look(row)
    (table,) = looking.looked(row).blocks
    assert "G/unit" not in {it.key for it in table.questions}
    row = taken_in(row, technologist)

    assert HistoryLine.objects.count() == lines
    assert row.line_count == 0


def test_it_is_charted_as_unverified_history(waiting, technologist):
    taken_in(waiting, technologist)

    chart = trends.trend(Asked(product="LX2", characteristic=WORKED))

    series = {it.source: [point.value for point in it.points] for it in chart.series}
    assert series == {Source.HISTORY: ["280", "281", "279"]}


def test_where_values_lie_beside_the_limits_of_today_is_no_verdict(
    waiting, technologist
):
    row = answer(waiting, technologist)

    (table,) = looking.tables_of(row)

    beside = {
        (line.batch, it.characteristic): it.beside
        for line in table.lines
        for it in line.values
    }
    assert beside["Q1-25-0379", DROPPING] == "within"  # >288, at least 250
    assert beside["Q1-25-0379", WORKED] == "beyond"  # >300, at most 295
    assert not Decision.objects.exists()


def test_history_of_the_same_batch_number_is_on_no_certificate(technologist):
    told = "Batch;Date;Product;Pen W60\nQ1-26-0417;2026-02-09;LX2;299\n"
    row = receive(technologist, name="other.csv", content=told.encode())
    jobs.look(row)
    mapping = {it.block.key: it.uses for it in looking.looked(row).blocks}
    row = actions.map_columns(import_of=row, mapping=mapping, by=technologist)
    jobs.take(row, by=technologist)
    assert queries.history_of_batch("Q1-26-0417").exists()

    plant.play(plant.periodic_pass(), plant.story())
    plant.release(plant.lot())

    signed = Decision.objects.latest("pk").signature.content
    assert '"280"' in signed
    assert "299" not in signed
