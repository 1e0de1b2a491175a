"""On the first page: files that wait for an answer, and the way to bring one in."""

from django.urls import reverse

from lims.imports.models import Import
from lims.imports.queries import imports
from lims.screens.front.home_parts import MOST, Line, Part, near


def files() -> Part:
    """What was brought in and waits, newest first."""
    waiting = list(imports().filter(state=Import.State.RECEIVED)[:MOST])
    return Part(
        "Files brought in",
        "Workbooks and logger files: nothing counts before its questions are answered.",
        tuple(
            Line(
                each.name,
                f"{each.get_kind_display()}, {near(each.received_at)}",
                reverse("imports:one", args=[each.pk]),
                aside="waits for you",
            )
            for each in waiting
        ),
        "No file waits. Bring in the plant's own workbook: its history is charted at once.",
        reverse("imports:list"),
        "Open the files",
    )
