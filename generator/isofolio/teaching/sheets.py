"""The six worksheets in words: what each asks, within which bounds, and who backs it.

The bounds are this project's choice: wide enough for every lesson, narrow enough to catch a
slipped point or a mistaken unit. Every example is invented. Pages and script receive all of it as
data.
"""

from isofolio.physiology.sodium import BODY_WATER_FACTORS
from isofolio.teaching.fields import Field, Sheet
from isofolio.teaching.needs import NEEDS, Backing

TEACHING_LINE = "Teaching arithmetic, not an order."
EXAMPLE_MARK = "Invented example"
EXAMPLE_CHANGED = "Invented example, changed by the reader"
POLICY = (
    "Check local policy, current product information and a second person; a licensed practitioner "
    "decides."
)


def _fluid(identifier: str, label: str, fluids: str, example: str, needed: bool = True) -> Field:
    return Field(identifier, label, "fluid", example, fluids=fluids, needed=needed)


VOLUME = Field("volume", "Volume", "number", "500", "mL", 1.0, 20000.0)
WEIGHT = Field("weight", "Weight", "number", "70", "kg", 3.0, 200.0)
ARITHMETIC = Backing("our arithmetic", "", "", "arithmetic")
LABEL_VOLUME = (
    "A bag holds more than its label says: 2 % more by the pharmacopoeia, and bags of 100 mL "
    "were measured at 109 mL. The sum takes the volume you write."
)
OVERFILL = (
    Backing("overfill: USP 1151", "usp-1151", "containers of 50 mL and over, mobile", "read"),
    Backing("Am J Crit Care 2000;9:130", "ajcc-2000-overfill", "162 bags of 100 mL", "read"),
)

CONTENTS = Sheet(
    id="contents",
    lesson="reading-a-label",
    title="Contents of any volume of a fluid",
    does="What a volume that you enter would hold, worked out from a litre.",
    fields=(_fluid("fluid", "Fluid", "any", "sodium-chloride-0-9"), VOLUME),
    formula="amount = amount in a litre × volume in mL ÷ 1000",
    worked="",
    each="{row}: {per_litre} in a litre × {volume} mL ÷ 1000 = {held}",
    backing=(ARITHMETIC, *OVERFILL),
    caution=f"{LABEL_VOLUME} A concentrate is never given as it is.",
)


def _part(number: int, fluid: str, volume: str) -> tuple[Field, Field]:
    pair = f"fluid-{number}"
    label = f"Fluid {number}"
    return (
        Field(pair, label, "fluid", fluid, fluids="hung", needed=number == 1, pair=pair),
        Field(
            *(f"volume-{number}", f"Volume of fluid {number}", "number", volume),
            *("mL", 1.0, 10000.0),
            needed=number == 1,
            pair="" if number == 1 else pair,
        ),
    )


DAY = Sheet(
    id="day",
    lesson="where-a-litre-goes",
    title="A day's plan beside published needs",
    does="What up to three volumes that you enter would hold together in a day, beside a need that "
    "was published for that weight.",
    fields=(
        Field(
            *("need", "Published need", "choice", "adult"),
            options=tuple((need.id, need.label) for need in NEEDS),
        ),
        WEIGHT,
        *_part(1, "glucose-5", "1500"),
        *_part(2, "sodium-chloride-0-9", "500"),
        *_part(3, "", ""),
    ),
    formula="each amount = sum over the fluids of amount in a litre × volume in mL ÷ 1000; "
    "per kg = amount ÷ weight",
    worked="water: {water.day} ÷ {weight} kg = {water.per_kg}; sodium: {sodium.day} ÷ {weight} kg "
    "= {sodium.per_kg}",
    backing=tuple(backing for need in NEEDS for backing in need.backing),
    caution="Drinks, food, drugs and losses are not in it. Published needs are for routine "
    "maintenance; older, frail, newborn and ill people need other figures. The hourly 4-2-1 rule "
    "and the daily rule do not agree with each other.",
)

CONCENTRATE = Sheet(
    id="concentrate",
    lesson="potassium",
    title="Adding a concentrate to a bag",
    does="What a bag would hold after an addition that you enter, by both ways of counting its "
    "volume.",
    fields=(
        _fluid("bag", "Fluid in the bag", "hung", "sodium-chloride-0-9"),
        Field("bag-volume", "Volume of the bag", "number", "1000", "mL", 50.0, 5000.0),
        _fluid("addition", "Concentrate", "added", "potassium-chloride-15"),
        Field("addition-volume", "Volume added", "number", "10", "mL", 0.1, 500.0),
    ),
    formula="volumes added: (amount in the bag + amount added) ÷ (volume of the bag + volume "
    "added); by the label volume: the same amounts ÷ volume of the bag",
    worked="",
    each="{row}: {in_bag} in the bag + {in_addition} added = {held}; ÷ {volume.mixed} = {mixed}; "
    "÷ {bag-volume} mL = {nominal}",
    backing=(ARITHMETIC, *OVERFILL),
    caution="Arithmetic does not tell whether the two may be mixed: ask pharmacy or the current "
    "monograph. A ready-mixed bag comes first. An addition that is not mixed well is given "
    f"undiluted. {LABEL_VOLUME}",
    limits=(
        ("potassium.mixed", "potassium-small-vein"),
        ("osmolarity.mixed", "vein-watch-site"),
        ("osmolarity.mixed", "vein-central-preferred"),
    ),
)

DROPS = Sheet(
    id="drops",
    lesson="sets-and-bottles",
    title="Drops and pump rate",
    does="The rate and the drops that a volume and a time you enter come to and, if you name the "
    "fluid, what an hour of it delivers.",
    fields=(
        Field("volume", "Volume", "number", "1000", "mL", 1.0, 5000.0),
        Field("hours", "Time", "number", "8", "hours", 0.05, 48.0),
        Field(
            "drops", "Drops in 1 mL (printed on the set)", "number", "20", "drops/mL", 10.0, 60.0
        ),
        _fluid("fluid", "Fluid, if its contents are to be shown", "hung", "", needed=False),
    ),
    formula="pump rate = volume ÷ hours; drops a minute = volume × drops in 1 mL ÷ minutes",
    worked="{volume} mL ÷ {hours} h = {rate}; {volume} mL × {drops} drops/mL ÷ "
    "({hours} h × 60 min/h) = {exact}, counted as {counted}",
    backing=(
        ARITHMETIC,
        Backing("ISO 8536-4:2020", "", "7.8: 20 or 60 drops of distilled water in 1 mL", "read"),
    ),
    caution="The packet of the set says how many drops make 1 mL: 20 or 60 by the standard. "
    "Drops change with fluid, temperature and height: count again.",
    limits=(
        ("potassium.per_hour", "potassium-rate-usual"),
        ("potassium.per_hour", "potassium-rate-monitored"),
    ),
)

GLUCOSE = Sheet(
    id="glucose",
    lesson="what-glucose-leaves-behind",
    title="Glucose rate",
    does="The glucose that a rate you enter would deliver, per kilogram and minute.",
    fields=(
        _fluid("fluid", "Fluid with glucose", "sugar", "glucose-10"),
        Field("rate", "Rate", "number", "100", "mL/h", 0.1, 2000.0),
        Field("weight", "Weight", "number", "70", "kg", 0.4, 200.0),
    ),
    formula="mg/kg/min = glucose in g/L × rate in mL/h ÷ (weight in kg × 60)",
    worked="{per_litre} g/L × {rate} mL/h ÷ ({weight} kg × 60) = {glucose.per_minute}",
    backing=(
        ARITHMETIC,
        Backing(
            "approved UK product text of 5 % glucose in saline: at most 5 mL/kg/h, by our "
            "arithmetic 0.25 g/kg/h or 4.2 mg/kg/min",
            "uk-smpc-sodium-chloride-glucose",
            "dose; the text carries no year of its own",
            "read",
        ),
    ),
    caution="Glucose is reckoned as anhydrous; a United States label that says 5 % counts the "
    "monohydrate, a tenth less sugar. The list knows the difference. Blood glucose is measured, "
    "not reckoned.",
)

SODIUM = Sheet(
    id="sodium",
    lesson="osmolarity-osmolality-tonicity",
    title="Sodium change for any volume",
    does="The change of plasma sodium that a volume you enter would make by arithmetic alone, "
    "exactly and by the per-litre rule.",
    fields=(
        _fluid("fluid", "Fluid", "salt", "sodium-chloride-3"),
        Field("serum", "Plasma sodium before", "number", "115", "mmol/L", 90.0, 190.0),
        Field("weight", "Weight", "number", "70", "kg", 35.0, 200.0),
        Field(
            *("body", "Body water per kg", "choice", "woman"),
            options=tuple((who, f"{who}: {part} L/kg") for who, part in BODY_WATER_FACTORS.items()),
        ),
        Field("volume", "Volume", "number", "150", "mL", 1.0, 5000.0),
    ),
    formula="exact: V × (sodium + potassium of the fluid − plasma sodium) ÷ (body water + V); "
    "per-litre rule: V × (sodium + potassium − plasma sodium) ÷ (body water + 1); V in litres",
    worked="body water {weight} kg × {factor} L/kg = {water}; {litres} L × ({fluid_sodium} + "
    "{fluid_potassium} − {serum}) ÷ ({water} + {litres} L) = {change}; by the per-litre rule "
    "{linear}",
    backing=(
        Backing("method: Adrogué and Madias, N Engl J Med 2000;342:1493", "", "", "copy"),
        Backing("any volume: Chen et al., Kidney360 2021;2:365", "", "PMC8740981", "read"),
        Backing("body water per kg: a teaching text, older from 65 years", "", "", "copy"),
    ),
    caution="Losses in urine go on meanwhile and are not in it; only measuring again tells. Adults "
    "only. It says nothing about how fast sodium may change: local policy does.",
)

SHEETS = (CONTENTS, DAY, CONCENTRATE, DROPS, GLUCOSE, SODIUM)
