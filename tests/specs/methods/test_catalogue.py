import pytest

from specs.methods.catalogue import PROCEDURES, ProcedureRefused, procedure
from specs.methods.outcome import setting
from tests.specs.methods.bench import given

NAMES = [
    "cone penetration",
    "penetration change",
    "dropping point, block",
    "dropping point, bath",
    "oxidation, pressure vessel",
    "oil separation, cone sieve",
    "copper strip",
    "appearance",
    "number as read",
    "mean of equal readings",
    "loss by weighing",
    "share by weighing",
    "low-temperature torque",
    "load of a ladder",
    "pass or fail as found",
    "majority of three bearings",
    "pair of rated bearings",
    "resistance to standing water",
    "structure recovery",
    "permanent softening",
    "retained recovery",
    "roll stability",
    "oxidation induction time, pressure DSC",
    "kinematic viscosity",
    "viscosity index",
]
ALL = pytest.mark.parametrize("name", NAMES)


def settings_of(each):
    """Every setting's choices, one at a time, the others at their defaults."""
    yield {}
    for parameter in each.parameters:
        for choice in parameter.choices:
            yield {parameter.key: choice}


def test_the_catalogue_holds_these_procedures():
    assert list(PROCEDURES) == NAMES


def test_an_unknown_procedure_is_refused_with_the_known_ones():
    with pytest.raises(ProcedureRefused, match="name one of cone penetration"):
        procedure("guessing")


@ALL
def test_nothing_read_counts_for_nothing(name):
    for parameters in settings_of(procedure(name)):
        outcome = procedure(name).carry_out(given({}, **parameters))

        assert not outcome.complete
        assert not outcome.can_count
        assert outcome.value is None


@ALL
def test_keys_and_labels_are_never_shared(name):
    each = procedure(name)
    for parameters in settings_of(each):
        places = [*each.slots(parameters), *each.conditions(parameters)]

        assert len({place.key for place in places}) == len(places)
        assert len({place.label for place in places}) == len(places)


@ALL
def test_a_default_is_among_the_choices(name):
    for parameter in procedure(name).parameters:
        assert setting({}, parameter) == parameter.default


@ALL
def test_work_that_can_hurt_names_the_usual_cautions(name):
    caution = procedure(name).caution

    if procedure(name).derive or name == "appearance":
        assert caution == ""
    else:
        assert "local codes" in caution
        assert "competent person" in caution


def test_only_a_derived_procedure_derives():
    derived = [each.name for each in PROCEDURES.values() if each.derive]

    assert derived == [
        "penetration change",
        "structure recovery",
        "permanent softening",
        "retained recovery",
        "viscosity index",
    ]
    assert all(bool(it.derive) == bool(it.derived_from) for it in PROCEDURES.values())
