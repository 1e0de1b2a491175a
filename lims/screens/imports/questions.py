"""The page of questions: each asked once, with the cells that raise it and what an answer makes of them."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from lims.imports import actions
from lims.imports.models import Staging
from lims.people.models import Person
from lims.record.refusals import BadInput
from lims.screens.access import staff
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of
from lims.screens.imports import words
from lims.screens.imports.finding import waiting
from lims.screens.imports.question_forms import QuestionsForm
from lims.sheets import jobs


@require_http_methods(["GET", "HEAD", "POST"])
@staff
def show(request: HttpRequest, pk: int) -> HttpResponse:
    person = person_of(request)
    row, look = waiting(pk, person)
    sent = request.POST if request.method == "POST" else None
    initial = {"version": row.version}
    form = QuestionsForm(row, look.blocks, sent, initial=initial)

    def act(given: dict[str, Any]) -> str:
        if not form.says_anything:
            raise BadInput("Choose an answer, or write a cell anew.", field="")
        actions.answer(
            import_of=row,
            choices=form.choices,
            instead=form.instead,
            version=given["version"],
            by=person,
        )
        jobs.look(row)
        return _onward(request, pk, person)

    def told() -> dict[str, Any]:
        fresh, now = waiting(pk, person)
        return {
            "import": fresh,
            "version": fresh.version,
            "look": now,
            "is_at_work": words.is_at_work(now),
            "open_count": words.open_questions(look),
            "tables": form.tables,
        }

    return answer(request, "imports/questions.html", form, act, told)


def _onward(request: HttpRequest, pk: int, person: Person) -> str:
    """Back here while anything is asked; else to the page of the file."""
    _, look = waiting(pk, person)
    asked = words.open_questions(look)
    if look.stage != Staging.Stage.LOOKED_AT or not asked:
        messages.success(request, "The answers are kept.")
        return reverse("imports:one", args=[pk])
    verb = "waits" if asked == 1 else "wait"
    told = f"The answers are kept; {words.number_of(asked, 'question')} still {verb}."
    messages.warning(request, told)
    return reverse("imports:questions", args=[pk])
