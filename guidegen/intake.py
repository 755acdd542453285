"""The way back into the content: a bench's logs become a session. Apart from ``flow``, whose other ways read no log.

logs -read-> readings -divide-> sweeps -session_of-> session -entry_of-> entry -check sense-> entry -store-> content/units/
"""

from pathlib import Path

from guidegen.errors import ContentError
from guidegen.evaluation import SenseRecords, Sweep, Told, check_sense, divide, session_of
from guidegen.flow import Report, fault_of, quiet
from guidegen.sources import Entry, entry_of, name_of, read_mapping, read_unit
from guidegen.sources.logs import read_log


def read_sweep(content: Path, unit: str, log: Path, mapping: Path, *, report: Report = quiet) -> Sweep:
    """A log read by its mapping and divided into loads; steady or not."""
    rated_power_w = read_unit(content, unit).record.rated_power_w
    rules = read_mapping(mapping, content)
    report(f"reading {log.name}")
    readings = read_log(log, rules, content)
    return Sweep(
        readings=readings, mapping=rules, mapping_file=name_of(mapping, content),
        segments=divide(readings, rules, rated_power_w=rated_power_w),
    )


def draft_session(content: Path, unit: str, sweeps: tuple[Sweep, ...], *, told: Told, suffix: str = "") -> Entry:
    """The session of one or two sweeps as it may be stored; raises ``ContentError`` with every fault, and writes nothing."""
    record = session_of(sweeps, told)
    head = f"{read_unit(content, unit).name}, sample {record.sample.id}, {record.mains.voltage_v:.0f} V; from a log."
    entry = entry_of(content, unit, record, suffix=suffix, head=head)
    _refuse_senseless(entry)
    return entry


def _refuse_senseless(entry: Entry) -> None:
    """Raise ``ContentError`` where the new session's numbers can't be, in the words in which ``proof`` would say it."""
    draft = entry.draft
    # The new session comes last: of two that are the same it is the copy, whatever its day.
    sessions = tuple(sorted(draft.sessions, key=lambda one: one.file == entry.file))
    said = check_sense(SenseRecords(guide=draft.guide, units=draft.units, sessions=sessions, complete=False))
    wrong = tuple(fault_of(one) for one in said.objections if one.origin.file == entry.file)
    if wrong:
        raise ContentError(entry.placed(wrong))
