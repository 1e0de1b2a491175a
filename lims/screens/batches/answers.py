"""How a page answers a form: the next page after success, the same page with its sentence after a refusal."""

from django.forms import Form
from django.http import Http404, HttpRequest, HttpResponseRedirect

from lims.batches import queries
from lims.batches.models import Batch, FillLot, Sample
from lims.people.models import Person
from lims.record.refusals import BadInput, ChangedSince, NotAllowed, Refusal

STATUS: tuple[tuple[type[Refusal], int], ...] = (
    (BadInput, 422),
    (NotAllowed, 403),
    (ChangedSince, 409),
    (Refusal, 409),
)


def see_other(address: str) -> HttpResponseRedirect:
    """On to another page, so that reading it again does not send the form again."""
    response = HttpResponseRedirect(address)
    response.status_code = 303
    return response


def take_refusal(form: Form, refusal: Refusal) -> int:
    """Put the sentence beside its box, or above the form; the status of the answer."""
    field = refusal.field if isinstance(refusal, BadInput) else None
    form.add_error(field if field in form.fields else None, refusal.sentence)
    return next(status for kind, status in STATUS if isinstance(refusal, kind))


def person_of(request: HttpRequest) -> Person:
    """The person who is signed in; the guard of the view saw to that."""
    person = request.user
    if not isinstance(person, Person):
        raise Http404
    return person


def batch_or_404(number: str) -> Batch:
    found = queries.batches().filter(number=number.strip().upper()).first()
    if found is None:
        raise Http404
    return found


def lot_or_404(number: str) -> FillLot:
    found = queries.lot_by_number(number)
    if found is None:
        raise Http404
    return found


def sample_or_404(number: str) -> Sample:
    found = queries.sample_by_number(number)
    if found is None:
        raise Http404
    return found
