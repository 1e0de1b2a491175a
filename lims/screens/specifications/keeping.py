"""Adding and changing products, customers and sampling plans."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from lims.people.permissions import Permission
from lims.products import actions
from lims.screens.access import needs
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of
from lims.screens.specifications import presenting
from lims.screens.specifications.forms import (
    CustomerForm,
    NewCustomerForm,
    NewProductForm,
    PlanForm,
    ProductForm,
)
from lims.screens.specifications.theirs import conflicts

asked = require_http_methods(["GET", "HEAD", "POST"])


def sent(request: HttpRequest) -> QueryDict | None:
    """What a form sent, or nothing where the page is only opened."""
    return request.POST if request.method == "POST" else None


@asked
@needs(Permission.DRAFT_SPECIFICATIONS)
def add_product(request: HttpRequest) -> HttpResponse:
    form = NewProductForm(sent(request))

    def act(given: dict[str, Any]) -> str:
        row = actions.add_product(**given, by=person_of(request))
        messages.success(
            request, f"Product {row} is added. Open a draft of its specification next."
        )
        return reverse("specifications:product", args=[row.code])

    return answer(
        request,
        "specifications/product_new.html",
        form,
        act,
        lambda: {"has_plans": presenting.plans().exists()},
    )


@asked
@needs(Permission.DRAFT_SPECIFICATIONS)
def change_product(request: HttpRequest, code: str) -> HttpResponse:
    row = presenting.product_or_404(code)
    form = ProductForm(sent(request), initial=presenting.now_of(ProductForm, row))

    def act(given: dict[str, Any]) -> str:
        actions.change_product(product=row, **given, by=person_of(request))
        messages.success(request, f"Product {row} is changed.")
        return reverse("specifications:product", args=[row.code])

    def told() -> dict[str, Any]:
        fresh = presenting.product_or_404(code)
        now = presenting.now_of(ProductForm, fresh)
        return {
            "product": fresh,
            "version": fresh.version,
            "conflicts": conflicts(form, now),
        }

    return answer(request, "specifications/product_change.html", form, act, told)


@asked
@needs(Permission.KEEP_CUSTOMERS)
def add_customer(request: HttpRequest) -> HttpResponse:
    form = NewCustomerForm(sent(request))

    def act(given: dict[str, Any]) -> str:
        row = actions.add_customer(**given, by=person_of(request))
        messages.success(request, f"Customer {row} is added.")
        return reverse("specifications:customer", args=[row.code])

    return answer(request, "specifications/customer_new.html", form, act, dict)


@asked
@needs(Permission.KEEP_CUSTOMERS)
def change_customer(request: HttpRequest, code: str) -> HttpResponse:
    row = presenting.customer_or_404(code)
    form = CustomerForm(sent(request), initial=presenting.now_of(CustomerForm, row))

    def act(given: dict[str, Any]) -> str:
        actions.change_customer(customer=row, **given, by=person_of(request))
        messages.success(request, f"Customer {row} is changed.")
        return reverse("specifications:customer", args=[row.code])

    def told() -> dict[str, Any]:
        fresh = presenting.customer_or_404(code)
        now = presenting.now_of(CustomerForm, fresh)
        return {
            "customer": fresh,
            "version": fresh.version,
            "conflicts": conflicts(form, now),
        }

    return answer(request, "specifications/customer_change.html", form, act, told)


@asked
@needs(Permission.DRAFT_SPECIFICATIONS)
def add_plan(request: HttpRequest) -> HttpResponse:
    form = PlanForm(sent(request), initial={"hours_after_filling": 12})

    def act(given: dict[str, Any]) -> str:
        row = actions.add_sampling_plan(**given, by=person_of(request))
        messages.success(request, f"Sampling plan {row} is added.")
        return reverse("specifications:list")

    return answer(request, "specifications/plan_new.html", form, act, dict)
