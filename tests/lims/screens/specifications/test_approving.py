"""Approving a draft: who may, what is shown beside the signature, and when it is refused."""

import pytest

from lims.people.queries import person
from lims.products import actions, queries
from lims.products.lines import Line
from lims.products.models import Revision
from lims.record.queries import tail
from tests.factories import methods
from tests.factories.people import PASSWORD
from tests.lims.screens.specifications.conftest import address, line_of, text_of


@pytest.fixture
def changed(draft):
    """The draft with a tighter penetration, without the copper strip, with a bath dropping point."""
    chemist = person("chem-1")
    row = line_of(draft, "worked-penetration")
    actions.set_requirement(
        revision=draft,
        line=_line(row, lower="268"),
        by=chemist,
    )
    gone = line_of(draft, "copper-strip")
    gone.revision = draft
    actions.remove_requirement(requirement=gone, by=chemist)
    return Revision.objects.get(pk=draft.pk)


def _line(row, **given):
    fields = {
        "edition": row.edition,
        "lower": row.lower,
        "upper": row.upper,
        "comparing": row.comparing,
        "rule": row.rule,
        "internal_lower": row.internal_lower,
        "internal_upper": row.internal_upper,
    }
    return Line(row.characteristic, **(fields | given))


def sent(revision, **given):
    stored = Revision.objects.get(pk=revision.pk)
    return {
        "password": PASSWORD,
        "version": stored.version,
        "stood": tail().seq,
    } | given


def state_of(revision):
    return Revision.objects.get(pk=revision.pk).state


def test_the_page_shows_the_sentence_and_each_difference_from_old_to_new(as_, changed):
    text = text_of(as_("qm-1").get(address("approve", changed.pk)))

    assert "2 differences to revision 5" in text
    assert "was must be 265 to 295 × 0.1 mm → must be 268 to 295 × 0.1 mm" in text
    assert "Copper strip, 24 h, 100 °C line left out" in text
    assert f"I, {person('qm-1').name}, quality manager, reviewed and approve" in text
    assert "in place of revision 5" in text


def test_a_new_line_is_a_difference_by_what_it_asks_and_stands_whole_below(as_, draft):
    actions.set_requirement(
        revision=draft,
        line=Line(
            methods.characteristic("kinematic-viscosity-40"),
            edition=methods.edition("ASTM D445", "24"),
            lower="140",
            upper="160",
            comparing="rounding",
            rule="simple acceptance",
        ),
        by=person("chem-1"),
    )

    page = as_("qm-1").get(address("approve", draft.pk))

    [new] = page.context["changes"]
    assert new.kind == "new line"
    assert [what for what, _, _ in new.parts] == ["asks"]
    assert text_of(page).count("must be 140 to 160 mm²/s") == 2
    assert "rounding, simple acceptance" in text_of(page)


def test_a_signed_draft_is_in_force_and_the_old_one_superseded(as_, changed):
    old = queries.in_force(queries.product("LX2"))

    answered = as_("qm-1").post(address("approve", changed.pk), sent(changed))

    assert answered.status_code == 303
    assert answered["Location"] == address("revision", changed.pk)
    assert (state_of(changed), state_of(old)) == ("in force", "superseded")
    signature = Revision.objects.get(pk=changed.pk).signature
    assert signature.version == changed.version


@pytest.mark.parametrize("account", ["chem-1", "mgr-1", "aud-1", "desk-1"])
def test_who_may_not_approve_is_refused(account, as_, changed):
    client = as_(account)

    answers = [
        client.get(address("approve", changed.pk)).status_code,
        client.post(address("approve", changed.pk), sent(changed)).status_code,
    ]

    assert answers == [403, 403]
    assert state_of(changed) == "draft"


@pytest.mark.parametrize("password", ["not this one", ""])
def test_a_wrong_password_keeps_the_page_and_the_draft(password, as_, changed):
    answered = as_("qm-1").post(
        address("approve", changed.pk), sent(changed, password=password)
    )

    assert answered.status_code == 422
    assert answered.context["form"].errors["password"]
    assert "2 differences to revision 5" in text_of(answered)
    assert state_of(changed) == "draft"
    assert "not this one" not in answered.content.decode()


def test_a_draft_changed_after_it_was_opened_is_refused_and_told(as_, changed):
    seen = sent(changed)
    actions.change_draft(
        revision=changed, number="6", part_number="", note="later", by=person("chem-1")
    )
    client = as_("qm-1")

    refused = client.post(address("approve", changed.pk), seen)
    form = refused.context["form"]
    signed = client.post(
        address("approve", changed.pk),
        seen | {"version": form["version"].value()},
    )

    assert refused.status_code == 409
    assert "was changed by somebody else since you opened it" in text_of(refused)
    assert "Draft of a specification changed" in text_of(refused)
    assert signed.status_code == 303


def test_a_draft_without_lines_is_not_approved(as_, agreed):
    client = as_("qm-1")

    page = client.get(address("approve", agreed.pk))
    answered = client.post(address("approve", agreed.pk), sent(agreed))

    assert "has no requirement: add one, then approve it." in text_of(page)
    assert answered.status_code == 409
    assert "has no requirement: add one, then approve it." in text_of(answered)
    assert state_of(agreed) == "draft"


def test_a_tighter_revision_is_refused_while_a_customers_would_be_wider(as_, draft):
    row = line_of(draft, "worked-penetration")
    actions.set_requirement(
        revision=draft,
        line=_line(row, lower="279", upper="281", internal_lower="", internal_upper=""),
        by=person("chem-1"),
    )

    answered = as_("qm-1").post(address("approve", draft.pk), sent(draft))

    assert answered.status_code == 409
    assert "would be wider than this" in text_of(answered)
    assert state_of(draft) == "draft"


def test_reading_the_page_writes_nothing(as_, changed):
    before = tail()

    as_("qm-1").get(address("approve", changed.pk))

    assert tail() == before


def test_the_page_asks_few_questions(as_, changed, django_assert_max_num_queries):
    client = as_("qm-1")

    with django_assert_max_num_queries(21):
        client.get(address("approve", changed.pk))
