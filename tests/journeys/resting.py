"""A polyurea lot whose specification asks for structure recovery, and cones read after a rest."""

from lims.bench.actions.samples import add_test
from lims.bench.reporting import active_value
from lims.decisions.verdicts import held_of
from lims.methods import queries as methods
from lims.people.queries import person
from lims.products import actions as products
from lims.products import queries as specifications
from lims.products.lines import Line
from lims.products.models import Product
from tests.factories import plant
from tests.factories.people import PASSWORD

NUMBER = "0218"
LOT, SAMPLE = f"Q1-26-{NUMBER}-A", f"Q1-26-{NUMBER}-A-01"
HOUSE = ("QG-S1", "1")
RESTED, REWORKED = "rested-penetration-24h", "reworked-penetration-24h"
WEEK = "rested-penetration-7d"
CHANGE = "penetration-change-100000"
RECOVERY, RECOVERY_7D = "structure-recovery-24h", "structure-recovery-7d"
RETAINED, PERMANENT = "retained-recovery-24h", "permanent-softening-24h"
BEGAN = "2026-03-06 12:47:00"  # the strokes ended and the rest began


def works(prolonged):
    """PU2 in kettle K4: everything before the rest is tested; Friday 6 March 2026, 15:00."""
    plant.open_plant(first_certificate=260)
    ask_for_recovery()
    tests = {
        "appearance": "met: amber, smooth",
        "unworked": "268 268 268",
        "worked": "280 282 281",
        "prolonged": f"W-2: {prolonged}",
        "dropping": "262/288 263/288",
    }
    story = plant.story(NUMBER, product="PU2", tests=tests) | {"kettle": "K4"}
    plant.play(story, until="2026-03-06 15:00")
    for code in (RETAINED, RECOVERY_7D):
        add_test(
            sample=plant.sample(NUMBER),
            characteristic=methods.characteristic(code),
            edition=methods.edition(*HOUSE),
            by=person("tech-b"),
        )


def ask_for_recovery():
    """The specification in force asks for both, whatever it asked before."""
    pu2 = Product.objects.get(code="PU2")
    number = int(specifications.in_force(pu2).number) + 1
    draft = products.open_draft(product=pu2, number=str(number), by=person("chem-1"))
    for code, limits in (
        (CHANGE, {"lower": "-50", "upper": "+50"}),
        (RECOVERY, {"lower": "50"}),
        (PERMANENT, {"upper": "+35"}),
    ):
        edition = ("ASTM D217", "21a") if code == CHANGE else HOUSE
        line = Line(
            characteristic=methods.characteristic(code),
            edition=methods.edition(*edition),
            comparing="rounding",
            rule="simple acceptance",
            **limits,
        )
        products.set_requirement(revision=draft, line=line, by=person("chem-1"))
    products.approve_revision(revision=draft, password=PASSWORD, by=person("qm-1"))


def the_test(code):
    return plant.the_test(code, NUMBER)


def reported(code):
    value = active_value(the_test(code))
    return value.reported if value else None


def rests(hand, code, at, *cones, again=""):
    """Cones after a rest: from cups of their own, or of one cup worked again."""
    more = {"strokes_end": again} if again else {}
    hand.notes(
        code,
        f"2026-03-{at}:00",
        worker="W-2",
        started_at=BEGAN,
        penetrometer="PEN-01",
        temperature="25.0",
        **more,
    )
    named = {f"cone_{place}": text for place, text in enumerate(cones, 1)}
    return hand.types(code, f"2026-03-{at}:20", **named)


def line_of(code):
    """The line of the lot's own revision with its verdict."""
    own = next(held for held in held_of(plant.lot(NUMBER)) if held.is_own)
    return next(it for it in own.lines if it.requirement.characteristic.code == code)


def leaf_of(page, code):
    return " ".join(page.split(f'id="t-{code}"')[1].split("</section>")[0].split())
