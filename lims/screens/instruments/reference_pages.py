"""The pages of reference readings: the chart with its table, the form, the look-back after a failure."""

from typing import Any

from django.http import Http404
from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe

from lims.certificates.lookback import looked_back
from lims.drawing.control import Lines, Point, control_chart
from lims.instruments import failures
from lims.instruments.models import Instrument, ReferenceMaterial, ReferenceReading
from lims.instruments.reference_queries import deviation_for, materials_for, readings_of
from lims.people.days import today
from lims.screens.zone import zone
from specs.control.individuals import individuals
from specs.control.lookback import margin_of
from specs.control.reference import Finding, limits_of
from specs.numbers import Number, padded, shortened

MOST_POINTS = 120


def chart_page(row: Instrument) -> dict[str, Any]:
    """The readings of the material read last: picture, figures, and every reading beneath."""
    rows = list(readings_of(row))
    of_last = [it for it in rows if it.material_id == rows[0].material_id]
    shown = of_last[:MOST_POINTS][::-1]
    return {
        "instrument": row,
        "state": row.state_on(today()),
        "rows": rows,
        "failures": failures.failures_of(row),
        "materials": list(materials_for(row.kind, on=today())),
        "drawing": _chart(row, shown[0].material, shown) if shown else "",
        "answer": _answer(row, of_last),
        "figures": _figures(row, shown),
    }


def _answer(row: Instrument, rows: list[ReferenceReading]) -> str:
    if not rows:
        return f"No reference material was read on {row} yet."
    return f"Does {row} still measure right? Last reading: {rows[0].in_words}."


def _chart(
    row: Instrument, material: ReferenceMaterial, shown: list[ReferenceReading]
) -> SafeString:
    spread = deviation_for(material, row).value
    limits = limits_of(spread) if spread else None
    lines = Lines(
        float(material.assigned),
        float(limits.warning) if limits else None,
        float(limits.action) if limits else None,
    )
    points = [
        Point(
            it.read_at.astimezone(zone()),
            float(it.mean),
            f"#r{it.pk}",
            f"{it.read_at.astimezone(zone()).date().isoformat()}: {it.in_words}",
            it.finding == Finding.BEYOND,
        )
        for it in shown
    ]
    title = f"{material} on {row}"
    unit = material.characteristic.unit
    drawn = control_chart(title=title, points=points, lines=lines, unit=unit)
    return mark_safe(drawn)  # noqa: S308 - made by lims.drawing, which escapes texts


def _figures(row: Instrument, shown: list[ReferenceReading]) -> list[tuple[str, str]]:
    """What the chart's own readings say, beside what the limits rest on."""
    if not shown:
        return []
    spread = deviation_for(shown[0].material, row)
    told = [("Limits rest on", spread.basis)]
    if spread.value is not None:
        told.insert(0, ("Standard deviation", shortened(spread.value)))
    good = [
        Number.stored(it.mean).value for it in shown if it.finding != Finding.BEYOND
    ]
    if len(good) > 1:
        own = individuals(good)
        told += [
            (f"Mean of the last {own.count} not beyond", one_place(own.mean)),
            ("Mean moving range", shortened(own.range_mean)),
            (
                "Their standard deviation, moving range / 1.128",
                shortened(own.deviation),
            ),
            ("Their site precision R′, 2.77 s", shortened(own.site_precision)),
        ]
    return told


def one_place(value: Any) -> str:
    return padded(shortened(value, 1), 1)


def look_back_page(row: Instrument, key: str) -> dict[str, Any]:
    """Every result since the last good finding, suspect ones first; Http404 for a failure that is none."""
    failure = failures.failure_of(row, key)
    if failure is None:
        raise Http404
    rows = looked_back(failure)
    suspect = [it for it in rows if it.is_suspect]
    return {
        "instrument": row,
        "state": row.state_on(today()),
        "failure": failure,
        "key": failure.found.key,
        "rows": rows,
        "suspect": suspect,
        "margin": _margin(failure, rows),
        "others": [it for it in failures.failures_of(row) if it != failure],
        "address": reverse("instruments:look-back", args=[row.number]),
    }


def _margin(failure: failures.Failure, rows: list[Any]) -> str:
    """The margins in use, one for each uncertainty that was stated."""
    if failure.bias is None:
        return ""
    stated = sorted({it.uncertainty for it in rows if it.uncertainty is not None})
    size = one_place(abs(failure.bias))
    return "; ".join(
        f"{size} + 1.645 × {u} = {shortened(margin_of(failure.bias, u))}"
        for u in stated
    )
