"""The picture that is shown while a choice is read aloud: lying 1920 by 1080 or standing 1080 by 1920 pixels."""

from dataclasses import dataclass

from matplotlib import style
from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from guidegen.presentation.charts.descriptions import LoadStrip, PresenterCard
from guidegen.presentation.charts.drawn.card_ink import ACCENT, INK, PAPER, QUIET, SERIF, STYLE, draw_band, png_of
from guidegen.presentation.charts.drawn.fitting import TextBox, write_in
from guidegen.presentation.charts.load_strip import FULL

_DPI = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """Where things stand on a card, pixels from its lower left corner."""

    size: tuple[int, int]
    """Width and height."""
    margin: int
    """Free on every side."""
    head: int
    """Height of the line that names the publisher."""
    unit: TextBox
    """The unit."""
    number: TextBox
    """The number that decided."""
    lines: TextBox
    """Drawback and price."""
    strip: tuple[float, float]
    """Lower and upper edge of the strip."""
    labels: float
    """Width of the names of its bands."""

    @property
    def inner(self) -> float:
        """Width between the margins."""
        return self.size[0] - 2 * self.margin


_LYING = _Plan(
    size=(1920, 1080), margin=96, head=64,
    unit=TextBox(left=96, top=846, width=1728, height=140, size=104, family=SERIF),
    number=TextBox(left=96, top=690, width=640, height=190, size=120, family=SERIF, colour=ACCENT),
    lines=TextBox(left=800, top=690, width=1024, height=270, size=42),
    strip=(110, 350), labels=270,
)
_STANDING = _Plan(
    size=(1080, 1920), margin=72, head=72,
    unit=TextBox(left=72, top=1640, width=936, height=320, size=112, family=SERIF),
    number=TextBox(left=72, top=1310, width=936, height=260, size=150, family=SERIF, colour=ACCENT),
    lines=TextBox(left=72, top=1010, width=936, height=360, size=46),
    strip=(150, 580), labels=230,
)
_PLANS = {plan.size: plan for plan in (_LYING, _STANDING)}


def presenter_card(card: PresenterCard, size: tuple[int, int]) -> bytes:
    """The card as PNG, lying or standing; the same bytes for the same words."""
    with style.context(["default", STYLE]):
        return png_of(card_figure(card, size))


def card_figure(card: PresenterCard, size: tuple[int, int]) -> Figure:
    """The card before it is written as PNG."""
    plan = _PLANS[size]
    width, height = plan.size
    figure = Figure(figsize=(width / _DPI, height / _DPI), dpi=_DPI, facecolor=PAPER)
    top = height - plan.margin
    _head(figure, card, plan, top)
    heading = TextBox(left=plan.margin, top=top - plan.head - 2, width=plan.inner, height=plan.head, size=44, colour=ACCENT, bold=True)
    write_in(figure, card.heading, heading)
    write_in(figure, card.unit, plan.unit)
    _number(figure, card, plan.number)
    _paragraphs(figure, card.lines, plan.lines)
    if card.strip is not None:
        _strip(figure, card.strip, plan)
    if card.notice:
        write_in(figure, card.notice, TextBox(left=plan.margin, top=74, width=plan.inner, height=40, size=26, colour=QUIET))
    return figure


def _head(figure: Figure, card: PresenterCard, plan: _Plan, top: float) -> None:
    """Who says so, and a rule below it."""
    write_in(figure, card.publisher, TextBox(left=plan.margin, top=top + 14, width=plan.inner, height=plan.head - 8, size=36, family=SERIF))
    width, height = plan.size
    y = (top - plan.head + 14) / height
    figure.add_artist(Line2D([plan.margin / width, 1 - plan.margin / width], [y, y], color=INK, linewidth=2.5))


def _number(figure: Figure, card: PresenterCard, box: TextBox) -> None:
    """The number, large, and below it what it is."""
    whole = TextBox(left=box.left, top=box.top, width=box.width, height=box.height - 56, size=box.size, family=box.family, colour=box.colour)
    below = write_in(figure, card.number, whole)
    write_in(figure, card.number_words, TextBox(left=box.left, top=below - 4, width=box.width, height=56, size=34, colour=QUIET))


def _paragraphs(figure: Figure, lines: tuple[str, ...], box: TextBox) -> None:
    """Lines below one another: the last keeps a quarter of the room, those before share the rest."""
    top, count = box.top, len(lines)
    for i, words in enumerate(lines):
        height = box.height / 4 if i == count - 1 and count > 1 else box.height * (0.75 / max(count - 1, 1) if count > 1 else 1)
        top = write_in(figure, words, TextBox(left=box.left, top=top, width=box.width, height=height - 8, size=box.size)) - 14


def _strip(figure: Figure, strip: LoadStrip, plan: _Plan) -> None:
    """The load strip drawn large, with its bands named, a scale below it and the mark of the usual load."""
    width, height = plan.size
    low, high = plan.strip
    step = (high - low) / len(strip.bands)
    left, wide = plan.margin + plan.labels, plan.inner - plan.labels
    for i, band in enumerate(strip.bands):
        bottom = high - step * (i + 1)
        write_in(figure, band.title, TextBox(left=plan.margin, top=bottom + step * 0.66, width=plan.labels - 20, height=step, size=34))
        draw_band(figure.add_axes((left / width, (bottom + step * 0.2) / height, wide / width, step * 0.62 / height)), band)
    for load, words in ((0.0, "idle"), (50.0, "50 %"), (100.0, "100 % load")):
        x = left + wide * load / FULL
        room = 60.0 if load == 0 else 160.0
        write_in(figure, words, TextBox(left=x if load == 0 else min(x - 40, width - plan.margin - room), top=low + 2, width=room, height=34, size=24, colour=QUIET))
    if strip.mark_pct is not None:
        x = (left + wide * min(max(strip.mark_pct, 0.0), FULL) / FULL) / width
        figure.add_artist(Line2D([x, x], [(low + 4) / height, (high + 14) / height], color=ACCENT, linewidth=6))
        write_in(figure, strip.mark_words, TextBox(left=min(x * width - 90, width - plan.margin - 220), top=high + 52, width=220, height=36, size=26, colour=ACCENT))
