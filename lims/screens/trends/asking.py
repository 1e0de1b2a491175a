"""From the query string of an address to what is asked of the charts, and back."""

from dataclasses import replace
from typing import Any
from urllib.parse import urlencode

from django.forms import Form
from django.http import HttpRequest, QueryDict

from lims.people.permissions import Permission, allowed, check
from lims.screens.trends.forms import WITHOUT, SideForm, TrendForm
from lims.screens.zone import zone
from lims.trends import queries
from lims.trends.asked import Along, Asked, Where
from lims.wording import dates

FIELDS = ("where", "along", "kettle", "lot", "instrument", "person")
DAYS = ("since", "until")
MORE = ("instrument", "person", "lot", "history")


def check_may_see_persons(request: HttpRequest, *names: str) -> None:
    """Refuse an address that picks persons, for those who may not compare them."""
    if any(request.GET.get(name) for name in names or ("person",)):
        check(request.user, Permission.SEE_PERSONS)


def names_for(request: HttpRequest, product: str) -> dict[str, tuple[str, ...]]:
    """The kettles, instruments and, where they may be seen, persons that the product's results bear."""
    found = queries.choices(product)
    names = {"kettle": found.kettles, "instrument": found.instruments}
    if allowed(request.user, Permission.SEE_PERSONS):
        names["person"] = found.persons
    return names


def trend_form(request: HttpRequest, product: str) -> TrendForm:
    """What the address asks, in its form."""
    return TrendForm(request.GET, names=names_for(request, product))


def asked_of(form: Form, product: str, characteristic: str) -> Asked:
    """What a form that holds sense asks for."""
    given = form.cleaned_data
    return Asked(
        product=product,
        characteristic=characteristic,
        where=Where(given.get("where") or Where.FINISHED),
        along=Along(given.get("along") or Along.TIME),
        lot=given.get("lot", ""),
        history=given.get("history") != WITHOUT,
        **side_of(form),
    )


def side_of(form: Form) -> dict[str, Any]:
    """What one side of a comparison asks for."""
    given = form.cleaned_data
    said = {name: given.get(name) or "" for name in ("kettle", "instrument", "person")}
    return said | {name: given.get(name) for name in DAYS}


def has_more(form: Form) -> bool:
    """Whether something is asked beyond samples, kettle and days."""
    return any(form.data.get(name) for name in MORE)


def query_of(asked: Asked) -> str:
    """The query string of a chart, without what is asked of itself; ``?`` before it unless it is empty."""
    plain = Asked(asked.product, asked.characteristic)
    said = {
        name: str(getattr(asked, name))
        for name in (*FIELDS, *DAYS)
        if getattr(asked, name) != getattr(plain, name)
    }
    if not asked.history:
        said["history"] = WITHOUT
    return f"?{urlencode(said)}" if said else ""


def is_narrowed(asked: Asked) -> bool:
    """Whether some of the results are left out by what is asked."""
    narrows = ("kettle", "lot", "instrument", "person", *DAYS)
    return not asked.history or any(getattr(asked, name) for name in narrows)


def narrowed_by(asked: Asked) -> list[str]:
    """What is asked beyond the product and the characteristic, in words, for empty charts and the answer."""
    said = [
        f"{name} {getattr(asked, name)}"
        for name in ("kettle", "instrument", "person")
        if getattr(asked, name)
    ]
    if asked.lot:
        said.append(f"fill lot {asked.lot}")
    if asked.since:
        said.append(f"since {dates.day(asked.since, zone())}")
    if asked.until:
        said.append(f"until {dates.day(asked.until, zone())}")
    if not asked.history:
        said.append("without unverified history")
    return said


def sides(
    data: QueryDict, names: dict[str, tuple[str, ...]]
) -> tuple[SideForm, SideForm]:
    """The two groups that a comparison holds beside each other."""
    return (
        SideForm(data, prefix="a", names=names),
        SideForm(data, prefix="b", names=names),
    )


def is_side_asked(data: QueryDict) -> bool:
    """Whether the address says anything of either group."""
    names = ("kettle", "instrument", "person", *DAYS)
    return any(data.get(f"{side}-{name}") for side in "ab" for name in names)


def both(
    common: Form, sides: tuple[Form, Form], product: str, characteristic: str
) -> tuple[Asked, Asked]:
    """What the two groups of a comparison ask for."""
    shared = asked_of(common, product, characteristic)
    first, second = (replace(shared, **side_of(form)) for form in sides)
    return first, second


def compare_query(first: Asked, second: Asked) -> str:
    """The query string of a comparison."""
    said = {}
    if first.where != Where.FINISHED:
        said["where"] = str(first.where)
    for side, asked in (("a", first), ("b", second)):
        for name in ("kettle", "instrument", "person", *DAYS):
            if getattr(asked, name):
                said[f"{side}-{name}"] = str(getattr(asked, name))
    if not first.history:
        said["history"] = WITHOUT
    return f"?{urlencode(said)}" if said else ""
