"""Letting a reading count that was made on an instrument not in service: somebody answers for it by name, with a reason."""

from lims.bench import rules
from lims.bench.evaluation import IN_SERVICE
from lims.bench.models import Condition, Determination, Reading, UseAllowed
from lims.bench.reporting import settle
from lims.instruments.models import Instrument
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record.clock import now
from lims.record.gate import entry
from lims.record.refusals import BadInput, NotAllowed, WrongMove


def allow_use(*, condition: Condition, reason: str, by: Person) -> UseAllowed:
    """Let the determination count although its instrument was overdue or out of service when it was used. The state stays as it was, and both are told wherever the value is reviewed."""
    check(by, Permission.ALLOW_USES)
    test = condition.determination.test
    rules.check_takes_readings(test.sample)
    rules.check_reason_fits(reason, field="reason")
    if len(reason.strip()) < rules.SHORTEST_REASON:
        raise BadInput(
            "Say why the reading may count, such as what was found when the instrument "
            "was checked.",
            field="reason",
        )
    with entry(by=by, verb="use_allowed", about=test, reason=reason.strip()):
        condition.determination.test = rules.again(test)
        _check_use(condition)
        check_recorded_by_another(condition.determination, by)
        row = UseAllowed(
            condition=condition, reason=reason.strip(), allowed_at=now(), allowed_by=by
        )
        row.save()
        settle(condition.determination, by=by)
    return row


def check_recorded_by_another(determination: Determination, by: Person) -> None:
    """Refuse whoever recorded anything of the determination: nobody answers for a doubt of their own making alone."""
    own = (
        Reading.objects.filter(determination=determination, saved_by=by),
        Condition.objects.filter(determination=determination, saved_by=by),
    )
    if determination.begun_by_id == by.pk or any(rows.exists() for rows in own):
        raise NotAllowed(
            "You recorded readings of this set, so another person lets it count. Ask a "
            "laboratory manager or quality manager who did not record it."
        )


def _check_use(condition: Condition) -> None:
    number, state = condition.instrument, condition.instrument_state
    if condition.instrument_id is None or state == IN_SERVICE:
        raise WrongMove("The instrument was in service: the reading counts already.")
    if state == Instrument.State.RETIRED:
        raise WrongMove(
            f"{number} was retired: nothing that is read on it counts. Repeat on an "
            "instrument in service."
        )
    if Condition.objects.filter(replaces=condition).exists():
        raise WrongMove(
            "Another instrument was noted since. Open the sample again and look."
        )
    if UseAllowed.objects.filter(condition=condition).exists():
        raise WrongMove("This use is allowed already; its reason stands beside it.")
    if condition.determination.state == Determination.State.SET_ASIDE:
        raise WrongMove("This set is set aside; there is nothing to let count.")
