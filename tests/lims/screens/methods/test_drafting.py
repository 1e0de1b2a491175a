"""A draft of figures on screen: opened, changed figure by figure, or discarded."""

import pytest

from lims.methods import actions, queries
from lims.people.queries import person
from tests.factories import methods
from tests.factories.methods import figure
from tests.lims.screens.methods.conftest import address, sent_by, text_of

WORKED = {"characteristic": "worked-penetration"}
R = WORKED | {"what": "repeatability", "level_from": "130", "level_to": "475"}


def there(draft, **asked):
    """The address of one figure of a draft."""
    query = "&".join(f"{key}={text}" for key, text in asked.items())
    return f"{address('figure', draft.pk)}?{query}"


def now(edition):
    return {it.place: it for it in queries.figures_of(queries.figures_draft(edition))}


def test_a_draft_is_opened_with_a_note(as_, d217):
    client = as_("chem-1")

    page = client.get(address("figures-draft", d217.pk))
    answered = client.post(
        address("figures-draft", d217.pk), {"note": "our copy has come"}
    )

    made = queries.figures_draft(d217)
    assert "begins with the figures of revision 1" in text_of(page)
    assert answered["Location"] == address("figures", made.pk)
    assert made.note == "our copy has come"


def test_a_second_draft_is_refused_and_leads_to_the_first(as_, d217, draft):
    client = as_("chem-1")

    refused = client.post(address("figures-draft", d217.pk), {"note": "typed by hand"})

    assert refused.status_code == 409
    assert "There is a draft already, figures 2 of ASTM D217-21a" in text_of(refused)
    assert address("figures", draft.pk) in refused.content.decode()
    assert "typed by hand" in refused.content.decode()


def test_an_edition_without_figures_begins_empty(as_):
    bare = methods.bare_edition(by=person("chem-1"))

    page = text_of(as_("chem-1").get(address("figures-draft", bare.pk)))

    assert "No figure of this edition is in force: the draft begins empty." in page


def test_a_draft_shows_its_figures_to_everybody_and_its_boxes_to_who_keeps_them(
    as_, draft
):
    kept = as_("chem-1").get(address("figures", draft.pk))
    read = as_("tech-a").get(address("figures", draft.pk))

    for page in (kept, read):
        assert "Constants exact source" in text_of(page)
        assert "Sources" in text_of(page)
    assert address("figure", draft.pk) in kept.content.decode()
    assert address("figure", draft.pk) not in read.content.decode()
    assert "Not approved yet. Approving figures is for the technologist" in text_of(
        read
    )


def test_what_is_to_be_said_is_chosen_first(as_, draft):
    client = as_("chem-1")

    page = client.get(address("figure", draft.pk))
    half = client.get(address("figure", draft.pk), WORKED)

    assert "First choose of what it is and what it says" in text_of(page)
    assert "Choose what the figure says." in text_of(half)


def test_a_word_is_chosen_and_a_number_typed(as_, draft):
    client = as_("chem-1")

    direction = client.get(there(draft, what="direction", **WORKED)).context["form"]
    step = client.get(there(draft, what="reporting step", **WORKED)).context["form"]
    combining = client.get(
        there(draft, what="how they combine", characteristic="worked-penetration")
    ).context["form"]

    assert ("lower", "lower") in direction.fields["value"].choices
    assert "level_from" not in direction.fields
    assert not hasattr(step.fields["value"], "choices")
    assert ("mean", "mean") in combining.fields["value"].choices


def test_a_mark_is_not_offered_the_mean(as_):
    edition = queries.edition("ASTM D4048", "22")
    draft = methods.draft(edition, by=person("chem-1"))

    form = (
        as_("chem-1")
        .get(there(draft, what="how they combine", characteristic="copper-strip"))
        .context["form"]
    )

    offered = [key for key, _ in form.fields["value"].choices]
    assert "the worse" in offered
    assert "mean" not in offered


def test_a_figure_is_changed(as_, d217, draft):
    client = as_("chem-1")
    page = client.get(there(draft, **R))

    answered = client.post(
        there(draft, **R),
        sent_by(page, value="8", source="our copy", standing="published"),
    )

    assert "It stands as 7 now." in text_of(page)
    assert answered["Location"] == address("figures", draft.pk)
    changed = now(d217)["worked-penetration", "repeatability", "130", "475"]
    assert (changed.value, changed.source) == ("8", "our copy")


def test_a_figure_is_entered_beside_another(as_, d217, draft):
    client = as_("chem-1")
    place = there(draft, what="repeatability", **WORKED)
    page = client.get(place)

    answered = client.post(
        place,
        sent_by(
            page,
            value="9",
            level_from="475",
            level_to="500",
            source="our copy",
            standing="published",
        ),
    )

    assert "It is not stated yet." in text_of(page)
    assert answered.status_code == 303
    assert now(d217)["worked-penetration", "repeatability", "475", "500"].value == "9"


@pytest.mark.parametrize(
    ("given", "field", "sentence"),
    [
        ({"value": ""}, "value", "Write the figure, or leave it out."),
        ({"value": "some"}, "value", "some"),
        ({"value": "0"}, "value", "precision of zero"),
        ({"level_from": "low"}, "level_from", "is no number"),
        ({"level_from": "500"}, "level_to", "not above its beginning at 500"),
        ({"level_from": "500", "level_to": ""}, "source", "This field is required."),
        ({"source": ""}, "source", "This field is required."),
        ({"standing": ""}, "standing", "Say how the figures are known."),
    ],
)
def test_a_figure_that_cannot_stand_is_refused_and_kept(
    given, field, sentence, as_, draft
):
    client = as_("chem-1")
    page = client.get(there(draft, **R))
    sent = sent_by(page, value="8", source="typed by hand", standing="published")
    given = given | ({"source": ""} if field == "source" else {})

    answered = client.post(there(draft, **R), sent | given)

    assert answered.status_code == 422
    assert sentence in answered.context["form"].errors[field][0]
    if field != "source":
        assert "typed by hand" in answered.content.decode()


def test_a_range_that_overlaps_another_is_refused(as_, draft):
    client = as_("chem-1")
    place = there(draft, what="repeatability", **WORKED)
    page = client.get(place)

    answered = client.post(
        place,
        sent_by(
            page, value="9", level_from="400", source="own copy", standing="published"
        ),
    )

    assert answered.status_code == 422
    assert (
        "The repeatability from 130 to 475 is 7 already"
        in answered.context["form"].errors["level_from"][0]
    )


def test_a_late_change_is_refused_with_theirs_beside_yours(as_, d217, draft):
    client = as_("chem-1")
    page = client.get(there(draft, **R))
    sent = sent_by(page, value="8", source="our copy", standing="published")
    actions.set_figure(
        revision=queries.figures_draft(d217),
        figure=figure(value="9", level_from="130", level_to="475"),
        by=person("mgr-1"),
    )

    refused = client.post(there(draft, **R), sent)
    answered = client.post(there(draft, **R), sent_by(refused))

    assert refused.status_code == 409
    assert "yours: 8 theirs: 9" in text_of(refused)
    assert answered.status_code == 303
    assert now(d217)["worked-penetration", "repeatability", "130", "475"].value == "8"


def test_a_figure_is_taken_out(as_, d217, draft):
    client = as_("chem-1")

    answered = client.post(
        address("figure-remove", draft.pk), R | {"version": draft.version}
    )

    assert answered["Location"] == address("figures", draft.pk)
    assert ("worked-penetration", "repeatability", "130", "475") not in now(d217)


def test_a_figure_that_is_gone_is_not_taken_out(as_, draft):
    sent = R | {"version": draft.version, "level_from": "1"}

    answered = as_("chem-1").post(address("figure-remove", draft.pk), sent)

    assert answered.status_code == 409
    assert "no longer in the draft: look at it as it is now" in text_of(answered)


def test_a_draft_is_discarded(as_, d217, draft):
    answered = as_("chem-1").post(
        address("figures-discard", draft.pk), {"version": draft.version}
    )

    assert answered["Location"] == address("one", d217.method_id)
    assert queries.figures_draft(d217) is None


def test_a_draft_that_changed_is_not_discarded(as_, d217, draft):
    answered = as_("chem-1").post(
        address("figures-discard", draft.pk), {"version": draft.version - 1}
    )

    assert answered.status_code == 409
    assert queries.figures_draft(d217) == draft


@pytest.mark.parametrize("name", ["figure", "figures-approve"])
def test_what_is_in_force_is_not_changed_on_screen(name, as_, d217):
    shipped = queries.figures_in_force(d217)

    answered = as_("chem-1").get(address(name, shipped.pk))

    assert answered.status_code == 409
    assert "is in force and cannot change: open a draft" in text_of(answered)


def test_an_unknown_revision_is_not_found(as_):
    client = as_("chem-1")

    for name in ("figures", "figure", "figures-approve"):
        assert client.get(address(name, 99999)).status_code == 404
