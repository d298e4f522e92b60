"""Look for an input that breaks the reading: run by hand with `make torture`.

Coverage-guided fuzzing of three ways in: the bytes of a file, the record of an entry whose values
were exchanged, and the text of an amount. Each target runs in a process of its own under limits of
time and memory; the first input that breaks what oracle.py asks is kept under build/torture/ and
ends the run. Turn it into a line of test_hostile.py when it is mended.

    python tests/torture/run.py [CASES]           how many over all targets, 110 000 if not told
    python tests/torture/run.py --again FILE      the target of a kept input, once more
"""

import re
import subprocess
import sys
import time
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["isofolio.entries"], enable_loader_override=False):
    import inputs
    import oracle

    from isofolio.vocabulary.units import UNITS

PROJECT = Path(__file__).parents[2]
KEPT = PROJECT / "build" / "torture"
CASES = 110_000
# Share of all cases that each target gets.
SHARES = {"bytes": 0.35, "records": 0.35, "amounts": 0.3}
SECONDS_A_CASE = 10
MEGABYTES = 1_000
LONGEST_INPUT = 512
REPORTED = 500
FILES = oracle.files()
REAL = sorted((PROJECT / "catalogue").glob("*/*.yml"))
ENTRIES = [(f"{path.parent.name}/{path.name}", path.read_bytes()) for path in REAL]
ENTRIES += [(file, told.tree.source.encode()) for file, told in oracle.base().items()] * 40
# What stands after a colon anywhere in the catalogue: in another place it may be sound or not.
VALUES = sorted({line.partition(b": ")[2] for _, raw in ENTRIES for line in raw.split(b"\n")})


def some_bytes(data):
    """Raw bytes, or a sound entry with hostile pieces put in, as a file of some kind."""
    if data.ConsumeBool():
        file = FILES[data.ConsumeIntInRange(0, len(FILES) - 1)]
        return oracle.judge_entry(data.ConsumeBytes(LONGEST_INPUT), file, one_in_five(data))
    file, raw = ENTRIES[data.ConsumeIntInRange(0, len(ENTRIES) - 1)]
    edits = [(data.ConsumeProbability(), data.ConsumeIntInRange(0, 12), piece(data))]
    while data.remaining_bytes() > 8 and len(edits) < 4:
        edits.append((data.ConsumeProbability(), data.ConsumeIntInRange(0, 12), piece(data)))
    return oracle.judge_entry(inputs.spoiled(raw, edits), file, one_in_five(data))


def a_record(data):
    """A sound entry in which the values of some lines are others."""
    file, raw = ENTRIES[data.ConsumeIntInRange(0, len(ENTRIES) - 1)]
    edits = [(data.ConsumeIntInRange(0, 200), value(data))]
    while data.remaining_bytes() > 8 and len(edits) < 3:
        edits.append((data.ConsumeIntInRange(0, 200), value(data)))
    return oracle.judge_entry(inputs.values_replaced(raw, edits), file, one_in_five(data))


def an_amount(data):
    """Any text, or hostile pieces and units in a row."""
    if data.ConsumeBool():
        return oracle.judge_amount(data.ConsumeUnicode(LONGEST_INPUT))
    words = []
    while data.remaining_bytes() and len(words) < 8:
        words.append(data.PickValueInList([*inputs.NUMBERS, *UNITS, " ", " to ", " per "]))
    return oracle.judge_amount("".join(words))


def one_in_five(data):
    """Whether a sound case is computed and printed too, which takes ten times as long."""
    return data.ConsumeIntInRange(0, 4) == 4  # 0 is what an empty rest gives


def piece(data):
    """A piece known to be hostile, or a few bytes of the fuzzer's own."""
    if data.ConsumeIntInRange(0, 3):
        return data.PickValueInList(list(inputs.ALL))
    return data.ConsumeBytes(data.ConsumeIntInRange(0, 12))


def value(data):
    """What may stand after a colon: a value of another line, or a hostile piece."""
    if data.ConsumeBool():
        return VALUES[data.ConsumeIntInRange(0, len(VALUES) - 1)]
    return piece(data)


TARGETS = {"bytes": some_bytes, "records": a_record, "amounts": an_amount}


def attack(name, options):
    """Run one target in this process; the fuzzer ends it."""
    target = TARGETS[name]
    counts = {"refused": 0, "sound": 0}

    def one(raw):
        counts[target(atheris.FuzzedDataProvider(raw))] += 1
        if sum(counts.values()) % REPORTED == 0:
            (KEPT / f"{name}.counts").write_text(f"{counts['refused']} {counts['sound']}\n")

    atheris.Setup([sys.argv[0], *options], one)
    atheris.Fuzz()


def in_its_own_process(name, cases):
    """Run one target under limits; the line that tells what came of it, and whether all is well."""
    options = (
        *(f"-runs={cases}", "-seed=1", f"-max_len={LONGEST_INPUT}", f"-timeout={SECONDS_A_CASE}"),
        *("-len_control=0", f"-rss_limit_mb={MEGABYTES}", "-print_final_stats=1"),
        f"-artifact_prefix={KEPT}/{name}-",
    )
    began = time.monotonic()
    done = subprocess.run(
        [sys.executable, __file__, "--target", name, *options],
        capture_output=True,
        text=True,
        errors="replace",
        check=False,
    )
    took = time.monotonic() - began
    ran = re.search(r"stat::number_of_executed_units: (\d+)", done.stderr)
    peak = re.search(r"stat::peak_rss_mb: +(\d+)", done.stderr)
    refused, sound = (KEPT / f"{name}.counts").read_text().split()
    line = (
        f"{name}: {ran[1] if ran else '?'} cases in {took:.0f} s, at most "
        f"{peak[1] if peak else '?'} MB; {refused} refused, {sound} sound"
    )
    if done.returncode:
        (KEPT / f"{name}.log").write_text(done.stderr, encoding="utf-8")
        line += f"\n  FOUND: see {KEPT / name}.log and the input beside it"
    return line, done.returncode == 0


def main(arguments):
    """Attack every target, or one with the fuzzer's own options."""
    KEPT.mkdir(parents=True, exist_ok=True)
    if arguments[:1] == ["--target"]:
        return attack(arguments[1], arguments[2:])
    if arguments[:1] == ["--again"]:
        return attack(Path(arguments[1]).name.partition("-")[0], arguments[1:])
    cases = int(arguments[0]) if arguments else CASES
    sound = True
    for name, share in SHARES.items():
        line, well = in_its_own_process(name, int(cases * share))
        sys.stdout.write(f"{line}\n")
        sys.stdout.flush()
        sound &= well
    return 0 if sound else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
