"""Whatever is done, in whatever order: each difference in the database is told by exactly one entry."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from hypothesis.extra.django import TestCase

from lims.people.models import Person, RoleGiven, Site
from lims.record import clock, differences, verify
from lims.record.gate import entry
from lims.record.models import Entry
from tests.factories import people

MODELS = (Person, RoleGiven, Site)
TEXT = st.text("abcxyz äß", min_size=1, max_size=6)
STEP = st.one_of(
    st.tuples(st.just("name"), TEXT),
    st.tuples(st.just("mail"), st.sampled_from(["", "a@b.example", "c@d.example"])),
    st.tuples(st.just("is_active"), st.booleans()),
    st.tuples(st.just("password"), TEXT),
    st.tuples(st.just("zone"), st.sampled_from(["Europe/Berlin", "UTC"])),
    st.tuples(st.just("newcomer"), TEXT),
    st.tuples(st.just("role"), st.sampled_from(["auditor", "despatch"])),
    st.tuples(st.just("no role"), st.none()),
)


def do(step, value, person, site):
    """One change inside an entry."""
    if step in {"name", "mail", "is_active"}:
        setattr(person, step, value)
        person.save(update_fields=[step])
    elif step == "password":
        person.set_password(value)
        person.save()
    elif step == "zone":
        site.zone = value
        site.save()
    elif step == "newcomer":
        account = f"{value}-{Person.objects.count()}"
        Person(account=account, name=value, created_at=clock.now()).save()
    elif step == "role" and not person.roles_given.filter(role=value).exists():
        RoleGiven(
            person=person, role=value, given_at=clock.now(), given_by="Somebody"
        ).save()
    elif step == "no role" and person.roles_given.count() > 1:
        person.roles_given.last().delete()


def stored():
    """Every field of every row, as the record would show it."""
    return {
        (row._meta.label, str(row.pk), field): (text, row)
        for model in MODELS
        for row in model.objects.all()
        for field, text in differences.state_of(row).items()
        if text
    }


def told(entries):
    return {
        (each["model"], each["id"], each["field"]): (each["before"], each["after"])
        for one in entries
        for each in one.changes
    }


def shown(place, states):
    text, row = states.get(place, (None, None))
    return differences.shown(type(row), place[2], text) if row else None


class EveryDifference(TestCase):
    @settings(
        max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow]
    )
    @given(st.lists(st.lists(STEP, min_size=1, max_size=4), max_size=5))
    def test_each_difference_is_told_by_exactly_one_entry(self, acts):
        first = people.found_plant()
        for act in acts:
            before, seq = stored(), Entry.objects.count()
            with entry(by=first, verb="x_done", about=first, note="some steps"):
                person, site = Person.objects.get(pk=first.pk), Site.objects.get()
                for step, value in act:
                    do(step, value, person, site)
            after = stored()
            new = list(Entry.objects.filter(seq__gt=seq))
            places = {
                place
                for place in before.keys() | after.keys()
                if before.get(place, (None,))[0] != after.get(place, (None,))[0]
            }

            assert len(new) == 1
            assert {
                place: tuple(text or None for text in texts)
                for place, texts in told(new).items()
            } == {
                place: (shown(place, before), shown(place, after)) for place in places
            }
        assert verify.verify().holds
