"""How a grease takes up its structure again after prolonged working and a rest.

softening            prolonged − worked
structure recovery   (prolonged − rested) / softening · 100, three cups undisturbed
permanent softening  reworked − worked, reworked being 60 strokes after the rest
retained recovery    (prolonged − reworked) / softening · 100

Common practice with polyurea greases; no standard states it, so each is named where it
is printed. A share of a softening that is within the repeatability of prolonged working
(15 units, ASTM D217, from memory) means nothing and has no value. All four start from
unrounded penetrations in 0.1 mm and are rounded once, half to even.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from specs.judging.rounding import round_to_step
from specs.methods.change import (
    PROLONGED,
    WORKED,
    no_conditions,
    no_slots,
    nothing_to_carry_out,
)
from specs.methods.outcome import (
    REPEATABILITY,
    Bar,
    Derive,
    Outcome,
    Parameter,
    Parameters,
    Procedure,
    above_nought,
    number_in,
    setting,
)
from specs.methods.resting import REST
from specs.numbers import Number, shortened, to_decimal

RESTED, REWORKED = "rested", "reworked"
R_PROLONGED = Decimal(15)  # 0.1 mm; where the edition states none
LIMIT = Parameter(
    REPEATABILITY,
    "Repeatability after prolonged working",
    f"{R_PROLONGED}",
    check=above_nought,
)
STEP = Parameter("step", "Reported to", "0.1", ("1", "0.1"))
ASKED = {
    WORKED: "The worked penetration is still to be read.",
    PROLONGED: "The prolonged penetration is still to be read.",
    RESTED: "The penetration after the rest is still to be read.",
    REWORKED: "The penetration after the rest and 60 strokes is still to be read.",
}

Penetration = Decimal | Fraction


@dataclass(frozen=True)
class Structure:
    """What four penetrations say; a share is None where it means nothing."""

    softening: Fraction
    is_meaningful: bool
    recovery_percent: Fraction | None
    permanent_softening: Fraction | None
    retained_percent: Fraction | None


def structure(
    worked: Penetration,
    prolonged: Penetration,
    rested: Penetration | None = None,
    reworked: Penetration | None = None,
    repeatability: Decimal = R_PROLONGED,
) -> Structure:
    """Softening, recovery, permanent softening and retained recovery, unrounded.

    Penetrations in 0.1 mm, shares in percent. A softening below the repeatability,
    or none at all, is not meaningful and has no share.
    """
    softening = _difference(prolonged, worked)
    is_meaningful = softening >= Fraction(repeatability) and softening > 0

    def share(last: Penetration | None) -> Fraction | None:
        if last is None or not is_meaningful:
            return None
        return _difference(prolonged, last) * 100 / softening

    return Structure(
        softening=softening,
        is_meaningful=is_meaningful,
        recovery_percent=share(rested),
        permanent_softening=None if reworked is None else _difference(reworked, worked),
        retained_percent=share(reworked),
    )


def derive_recovery(values: Mapping[str, Number], parameters: Parameters) -> Outcome:
    """The share of the softening that an undisturbed rest took back, in percent."""
    return _derive_share(values, parameters, RESTED)


def derive_retained(values: Mapping[str, Number], parameters: Parameters) -> Outcome:
    """The share of the softening still taken back after 60 strokes more, in percent."""
    return _derive_share(values, parameters, REWORKED)


def derive_permanent(values: Mapping[str, Number], parameters: Parameters) -> Outcome:
    """Reworked minus worked in 0.1 mm, signed (+ is softer), rounded once to 1."""
    lacking = _lacking(values, (WORKED, REWORKED))
    if lacking is not None:
        return lacking
    worked, reworked = values[WORKED], values[REWORKED]
    change = reworked.exact - worked.exact
    reported = round_to_step(change, "1")
    return Outcome(
        complete=True,
        accepted=True,
        value=Number.of(to_decimal(change)),
        reported=Number(text=signed(reported, 0), value=reported),
        says=(
            f"{shortened(reworked.value)} after {_rest(parameters)} and 60 strokes less "
            f"worked {shortened(worked.value)} is {signed(reported, 0)}"
        ),
        parts={
            WORKED: worked.canonical,
            REWORKED: reworked.canonical,
            "signed": signed(reported, 0),
        },
    )


def signed(value: Fraction | Decimal, places: int = 2) -> str:
    """A change as it stands in a sentence: "+9", "-4.67", "0"."""
    short = shortened(value, places)
    return short if short.startswith("-") or short == "0" else f"+{short}"


def _derive_share(
    values: Mapping[str, Number], parameters: Parameters, last: str
) -> Outcome:
    lacking = _lacking(values, (WORKED, PROLONGED, last))
    if lacking is not None:
        return lacking
    repeatability = number_in(setting(parameters, LIMIT)).value
    worked, prolonged, end = (values[role].exact for role in (WORKED, PROLONGED, last))
    found = structure(
        worked,
        prolonged,
        rested=end if last == RESTED else None,
        reworked=end if last == REWORKED else None,
        repeatability=repeatability,
    )
    parts = {role: values[role].canonical for role in (WORKED, PROLONGED, last)}
    parts["softening"] = signed(found.softening)
    percent = found.recovery_percent if last == RESTED else found.retained_percent
    if percent is None:
        return _not_meaningful(found.softening, repeatability, parts)
    strokes = "" if last == RESTED else " and 60 strokes"
    return Outcome(
        complete=True,
        accepted=True,
        value=Number.of(to_decimal(percent)),
        reported=Number.of(round_to_step(percent, setting(parameters, STEP))),
        says=(
            f"{signed(_difference(prolonged, end))} of the softening "
            f"{signed(found.softening)} taken back by {_rest(parameters)}{strokes}"
        ),
        parts=parts,
    )


def _not_meaningful(
    softening: Fraction, repeatability: Decimal, parts: Mapping[str, str]
) -> Outcome:
    why = f"softening {signed(softening)} is within the repeatability {shortened(repeatability, 4)}"
    if softening <= -repeatability:
        why = f"prolonged working hardened the grease ({signed(softening)})"
    bar = Bar(
        "not_meaningful",
        f"Not meaningful: {why}.",
        "State the penetrations themselves; there is no softening to recover from.",
    )
    return Outcome(
        complete=True,
        accepted=True,
        bars=(bar,),
        says=f"not meaningful: {why}",
        parts=parts,
    )


def _lacking(values: Mapping[str, Number], roles: tuple[str, ...]) -> Outcome | None:
    """The outcome while a penetration is missing or only a bound; else None."""
    asks = tuple(ASKED[role] for role in roles if role not in values)
    if asks:
        return Outcome(complete=False, accepted=True, asks=asks)
    if not any(values[role].is_censored for role in roles):
        return None
    bar = Bar(
        "bound",
        "Stored, cannot count: a recovery needs plain numbers, not a bound.",
        "Read the penetrations within the range of the cone.",
    )
    return Outcome(complete=True, accepted=True, bars=(bar,))


def _difference(one: Penetration, other: Penetration) -> Fraction:
    return Fraction(one) - Fraction(other)


def _rest(parameters: Parameters) -> str:
    hours = setting(parameters, REST)
    return f"{hours} h of rest" if hours else "the rest"


def _derived(
    name: str, unit: str, last: str, *, is_share: bool, derive: Derive
) -> Procedure:
    return Procedure(
        name=name,
        kind="number",
        unit=unit,
        slots=no_slots,
        conditions=no_conditions,
        carry_out=nothing_to_carry_out,
        caution="",
        parameters=(REST, LIMIT, STEP) if is_share else (REST,),
        derived_from=(WORKED, PROLONGED, last) if is_share else (WORKED, last),
        derive=derive,
    )


STRUCTURE_RECOVERY = _derived(
    "structure recovery", "%", RESTED, is_share=True, derive=derive_recovery
)
RETAINED_RECOVERY = _derived(
    "retained recovery", "%", REWORKED, is_share=True, derive=derive_retained
)
PERMANENT_SOFTENING = _derived(
    "permanent softening", "0.1 mm", REWORKED, is_share=False, derive=derive_permanent
)
