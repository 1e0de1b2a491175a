"""What the laboratory knows when a sheet of results is read: products, what can be measured, limits in force today."""

from decimal import Decimal, InvalidOperation

from lims.methods.figures import What
from lims.methods.models import Characteristic, FiguresRevision
from lims.people.days import today
from lims.products.models import Product, Requirement, Revision
from specs.methods.catalogue import PROCEDURES
from specs.tables.known import Known, Limits, Measured

Bounds = dict[str, dict[str, Decimal]]  # by characteristic, then by what is said
BOUNDS = (What.PLAUSIBLE_FROM, What.PLAUSIBLE_TO)


def known() -> Known:
    """Everything that results of earlier batches are held against, in five queries."""
    bounds = _bounds()
    names = dict(Product.objects.values_list("code", "name"))
    return Known(
        today=today(),
        characteristics={
            it.code: measured(it, bounds.get(it.code, {}))
            for it in Characteristic.objects.all()
        },
        products=frozenset(names),
        names=names,
        limits=_limits(),
    )


def measured(it: Characteristic, bounds: dict[str, Decimal]) -> Measured:
    """A characteristic as the numbers of a sheet are held against it."""
    return Measured(
        code=it.code,
        name=it.name,
        conditions=it.conditions,
        unit=it.unit,
        kind=it.kind,
        step=it.step,
        is_signed=it.is_signed,
        scale=tuple(PROCEDURES[it.procedure].scale),
        plausible_from=bounds.get(What.PLAUSIBLE_FROM),
        plausible_to=bounds.get(What.PLAUSIBLE_TO),
    )


def _bounds() -> Bounds:
    """The widest plausible range that any edition's figures in force state."""
    found: Bounds = {}
    in_force = FiguresRevision.objects.filter(state=FiguresRevision.State.IN_FORCE)
    for figures in in_force.order_by("pk").values_list("figures", flat=True):
        for figure in figures:
            if figure["what"] in BOUNDS:
                _widen(found.setdefault(figure["characteristic"], {}), figure)
    return found


def _widen(bounds: dict[str, Decimal], figure: dict[str, str]) -> None:
    what = figure["what"]
    try:
        value = Decimal(figure["value"])
    except InvalidOperation:
        return
    wider = min if what == What.PLAUSIBLE_FROM else max
    bounds[what] = wider(bounds.get(what, value), value)


def _limits() -> dict[tuple[str, str], Limits]:
    """The limits of each product's own revision in force."""
    rows = Requirement.objects.filter(
        kind=Requirement.Kind.LIMIT,
        revision__state=Revision.State.IN_FORCE,
        revision__specification__customer__isnull=True,
    ).values_list(
        "revision__specification__product__code",
        "characteristic__code",
        "lower",
        "upper",
    )
    return {
        (product, code): Limits(lower, upper) for product, code, lower, upper in rows
    }
