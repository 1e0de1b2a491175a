"""Every address, asked as a stranger and in every role, answers as its row says; an address without a row fails."""

import pytest
from django.test import Client
from django.urls import URLResolver, get_resolver, reverse

from lims.certificates import actions as certificates
from lims.documents.printing import print_one
from lims.documents.proof import print_proof
from lims.methods import actions as methods
from lims.methods import queries as method_queries
from lims.people.queries import person as person_of
from lims.products import actions as products
from lims.products.models import Customer
from lims.record.models import Entry
from lims.screens.methods import proved
from tests.factories import bringing, plant
from tests.lims.screens.address_rows import ALL, ROWS

ACCOUNTS = dict(
    zip(
        ALL,
        ("tech-a", "mgr-1", "qm-1", "chem-1", "desk-1", "aud-1", "adm-1"),
        strict=True,
    )
)


def names(resolver, space=""):
    for pattern in resolver.url_patterns:
        if isinstance(pattern, URLResolver):
            inner = f"{pattern.namespace}:" if pattern.namespace else space
            yield from names(pattern, inner)
        else:
            yield f"{space}{pattern.name}"


def test_every_address_has_its_row():
    assert set(names(get_resolver())) == {row.name for row in ROWS}


@pytest.fixture
def proof_printed_once(monkeypatch):
    """The longest paper is the same for every role: printed once, it need not be printed again."""
    printed = {}

    def once(proof, **heading):
        if proof not in printed:
            printed[proof] = print_proof(proof, **heading)
        return printed[proof]

    monkeypatch.setattr(proved, "print_proof", once)


@pytest.fixture
def known(db, settings, tmp_path):
    """The plant with a lot in each state that the rows speak of, and what stands for their names."""
    settings.MEDIA_ROOT = tmp_path
    plant.open_plant()
    plant.play(
        plant.periodic_pass(),
        plant.story(),
        plant.story("0418", retain=None, tests={}),
    )
    lot, desk = plant.lot("0310"), person_of("desk-1")
    given = {"fill_lot": lot, "customer": Customer.objects.get(code="TT"), "by": desk}
    first = certificates.allot(order="TT-1", pack_count=1, **given)
    second = certificates.allot(order="TT-2", pack_count=1, **given)
    print_one(certificates.issue(allotment=first, by=desk), by=desk)
    draft = products.open_draft(
        product=lot.batch.product, number="6", by=person_of("chem-1")
    )
    edition = method_queries.edition("ASTM D217", "21a")
    figures = methods.open_figures_draft(edition=edition, by=person_of("chem-1"))
    chemist = person_of("chem-1")
    taken = bringing.taken_in(by=chemist, content=b"Batch;Pen\n0377;280\n")
    return {
        "WAITING": bringing.received(by=chemist, name="next.csv").pk,
        "TAKEN": taken.pk,
        "HISTORY": taken.lines.get().pk,
        "ISSUED": first.pk,
        "ALLOTMENT": second.pk,
        "DRAFT": draft.pk,
        "LINE": draft.requirements.first().pk,
        "FIGURES": figures.pk,
        "EDITION": edition.pk,
        "METHOD": edition.method_id,
    }


def ask(client, row, known):
    args = [known.get(arg, arg) for arg in row.args]
    return getattr(client, row.method)(reverse(row.name, args=args), row.data)


def test_every_address_answers_each_role_as_its_row_says(known, proof_printed_once):
    wrong = []
    for row in ROWS:
        for letter, account in ACCOUNTS.items():
            client = Client(raise_request_exception=False)
            client.force_login(person_of(account))
            expected = row.answer if letter in row.may else 403
            found = ask(client, row, known).status_code
            if found != expected:
                wrong.append(
                    f"{row.method} {row.name} as {account}: {found}, not {expected}"
                )
    assert not wrong, "\n".join(wrong)


def test_a_stranger_is_sent_to_sign_in_everywhere_but_the_public_pages(known):
    wrong = []
    for row in ROWS:
        found = ask(Client(), row, known)
        is_sent = found.status_code == 302 and found["Location"].startswith("/sign-in/")
        expected = (row.stranger or row.answer) if row.public else "sign in"
        answer = "sign in" if is_sent else found.status_code
        if answer != expected:
            wrong.append(f"{row.method} {row.name}: {answer}, not {expected}")
    assert not wrong, "\n".join(wrong)


def test_no_address_changes_anything_when_it_is_only_read(known):
    before = Entry.objects.count()
    for row in ROWS:
        client = Client(raise_request_exception=False)
        client.force_login(person_of("mgr-1"))
        args = [known.get(arg, arg) for arg in row.args]
        client.get(reverse(row.name, args=args), row.data)

    assert Entry.objects.count() == before
