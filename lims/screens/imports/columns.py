"""The page on which a person says what the columns of a file hold."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from lims.imports import actions
from lims.imports.models import Staging
from lims.screens.access import staff
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of
from lims.screens.imports import words
from lims.screens.imports.column_forms import ColumnsForm
from lims.screens.imports.finding import waiting
from lims.screens.imports.meanings import meanings
from lims.sheets import jobs


@require_http_methods(["GET", "HEAD", "POST"])
@staff
def show(request: HttpRequest, pk: int) -> HttpResponse:
    person = person_of(request)
    row, look = waiting(pk, person)
    sent = request.POST if request.method == "POST" else None
    initial = {"version": row.version}
    form = ColumnsForm(look.blocks, meanings(row.kind), sent, initial=initial)

    def act(given: dict[str, Any]) -> str:
        version = given["version"]
        actions.map_columns(
            import_of=row, mapping=form.mapping, version=version, by=person
        )
        jobs.look(row)
        return _onward(request, pk)

    def told() -> dict[str, Any]:
        fresh, _ = waiting(pk, person)
        count = sum(len(it.block.letters) for it in look.blocks)
        return {
            "import": fresh,
            "version": fresh.version,
            "look": look,
            "column_count": count,
            "has_units": form.meanings.has_units,
            "tables": form.tables,
        }

    return answer(request, "imports/columns.html", form, act, told)


def _onward(request: HttpRequest, pk: int) -> str:
    """To the questions, if any wait; else to the page of the file."""
    row, look = waiting(pk, person_of(request))
    messages.success(request, f"The columns of {row.name} are mapped.")
    name = "one"
    if look.stage == Staging.Stage.LOOKED_AT and words.open_questions(look):
        name = "questions"
    return reverse(f"imports:{name}", args=[pk])
