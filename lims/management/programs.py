"""Programs that some tests drive. Where one is missing its tests are left out, and counted."""

import os
import shutil
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pytest

CHROMIUM_NAMES = ("chromium", "chromium-browser", "google-chrome")
JAXB = Path("/usr/share/java/jaxb-api.jar")  # Debian's libjaxb-java

WAYS = {
    "browser": "Chromium is missing; on Debian or Ubuntu: sudo apt-get install -y chromium",
    "java": "Java or its JAXB is missing; on Debian or Ubuntu: sudo apt-get install -y default-jre-headless libjaxb-java",
}


def chromium() -> str | None:
    """The browser's path: the one that CHROMIUM names, else the first found."""
    named = os.environ.get("CHROMIUM")
    if named:
        return shutil.which(named)
    found = (shutil.which(name) for name in CHROMIUM_NAMES)
    return next((path for path in found if path), None)


def missing() -> dict[str, str]:
    """Marker of the tests that cannot run here -> why, and what to do."""
    present = {
        "browser": chromium() is not None,
        "java": shutil.which("java") is not None and JAXB.exists(),
    }
    return {marker: WAYS[marker] for marker, is_here in present.items() if not is_here}


class LeftOut:
    """A plugin of pytest: takes out the tests of the given markers and says how many."""

    def __init__(self, reasons: dict[str, str]) -> None:
        self.reasons = reasons
        self.count: Counter[str] = Counter()

    def pytest_collection_modifyitems(
        self, config: "pytest.Config", items: "list[pytest.Item]"
    ) -> None:
        kept, left_out = [], []
        for item in items:
            marker = next((m for m in self.reasons if item.get_closest_marker(m)), None)
            if marker is None:
                kept.append(item)
            else:
                self.count[marker] += 1
                left_out.append(item)
        if left_out:
            config.hook.pytest_deselected(items=left_out)
            items[:] = kept

    def pytest_terminal_summary(
        self, terminalreporter: "pytest.TerminalReporter"
    ) -> None:
        for marker, count in sorted(self.count.items()):
            terminalreporter.write_line(
                f"{count} {marker} tests were left out: {self.reasons[marker]}",
                yellow=True,
            )
