"""What changed since the last edition that was kept: one page for all, and a stretch on each bracket's and unit's page."""

from html import escape

from guidegen.evaluation import Changes
from guidegen.presentation.addresses import CHANGES, relative, unit_address
from guidegen.presentation.changes import change_lines, unit_lines
from guidegen.presentation.feeds import NewUnit
from guidegen.presentation.formatting import day
from guidegen.presentation.pages.context import Context, short_description, short_title
from guidegen.presentation.pieces import Link, Section, Since
from guidegen.presentation.sheets import ProseSheet


def changed_sheet(context: Context, changes: Changes) -> ProseSheet:
    """The page "What changed": the policy, then every bracket in which anything differs."""
    words, guide = context.words, context.assessment.library.guide
    before = changes.guides.before.library.guide.edition
    told = (("policy", words.say("changes.policy"), change_lines(changes)),
            *((f"watts-{one.id}", one.title, change_lines(changes, one.id)) for one in changes.guides.brackets))
    sections = tuple(Section(id=name, title=title, html=_list(changes, lines)) for name, title, lines in told if lines)
    lead = words.say("changes.lead" if sections else "changes.none", edition=before.name, printing=str(before.printing), day=day(before.date))
    return ProseSheet(
        kind="prose", address=CHANGES, title=short_title(words.say("changes.heading"), guide.title),
        heading=words.say("changes.heading"), description=short_description(lead),
        breadcrumbs=(Link(text=guide.title, address=""), Link(text=words.say("changes.heading"), address=CHANGES, worded=True)),
        lead=f"<p>{escape(lead)}</p>", sections=sections,
    )


def since_bracket(context: Context, bracket: str) -> Since | None:
    """What changed in a bracket, or nothing."""
    return _since(context, change_lines(context.changes, bracket) if context.changes else ())


def since_unit(context: Context, unit: str) -> Since | None:
    """What changed about a unit, or nothing."""
    return _since(context, unit_lines(context.changes, unit) if context.changes else ())


def new_units(context: Context) -> tuple[NewUnit, ...]:
    """The units that the last edition did not have, for the feeds."""
    if context.changes is None:
        return ()
    library = context.assessment.library
    found = ((library.unit(one.unit or ""), one.unit or "") for one in context.changes.among("new"))
    return tuple(NewUnit(name=unit.name, address=unit_address(unit), lines=unit_lines(context.changes, name))
                 for unit, name in found if unit is not None)


def _since(context: Context, lines: tuple[str, ...]) -> Since | None:
    if context.changes is None or not lines:
        return None
    edition = context.changes.guides.before.library.guide.edition
    return Since(title=context.words.say("changes.since", edition=edition.name, printing=str(edition.printing)), lines=lines,
                 more=Link(text=context.words.say("changes.all"), address=CHANGES, worded=True))


def _list(changes: Changes, lines: tuple[str, ...]) -> str:
    items = "".join(f"<li>{_linked(changes, line)}</li>" for line in lines)
    return f"<ul>{items}</ul>"


def _linked(changes: Changes, line: str) -> str:
    """The sentence as HTML, the unit that it names first as a link where the unit still has its page."""
    named = (unit for unit in changes.guides.after.library.units if unit.name in line)
    first = min(named, key=lambda unit: (line.index(unit.name), -len(unit.name)), default=None)
    text = escape(line, quote=False)
    if first is None:
        return text
    name = escape(first.name, quote=False)
    return text.replace(name, f'<a href="{relative(CHANGES, unit_address(first))}">{name}</a>', 1)
