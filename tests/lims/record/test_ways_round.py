"""No room writes or reads past its managers: the ways round them stand in the record's own room alone."""

import re
from pathlib import Path

import pytest

LIMS = Path(__file__).parents[3] / "lims"
AT_HOME = {"record", "management"}
ROUND = re.compile(
    r"_base_manager\b|\.raw\(|\bconnections?(\[[^\]]*\])?\.cursor\(|_raw_delete\b"
)


def test_no_room_goes_round_its_managers():
    found = [
        f"{path.relative_to(LIMS)}:{number}: {line.strip()}"
        for path in sorted(LIMS.rglob("*.py"))
        if path.relative_to(LIMS).parts[0] not in AT_HOME
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1)
        if ROUND.search(line)
    ]

    assert found == []


@pytest.mark.parametrize(
    "line",
    [
        "Lot._base_manager.update(state='x')",
        "Lot.objects.raw('SELECT 1')",
        "with connection.cursor() as cursor:",
        "with connections[using].cursor() as cursor:",
        "lots._raw_delete('default')",
    ],
)
def test_each_way_round_would_be_seen(line):
    assert ROUND.search(line)
