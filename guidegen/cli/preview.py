"""``guidegen preview``: the guide on this machine, refreshed as it is edited, with the editor's desk."""

import tempfile
import threading
from pathlib import Path

import click
from watchfiles import watch

from guidegen.cli.terminal import answering, content_option, quiet_option
from guidegen.errors import ContentError, GuidegenError, RequestError
from guidegen.flow import show
from guidegen.preview import Rounds, ended_page, fault_page, serve, waiting_page


@click.command("preview")
@content_option
@click.option("--port", type=click.IntRange(0, 65535), default=8300, show_default=True, help="Port on 127.0.0.1; 0 takes a free one.")
@quiet_option
def command(*, content: Path, port: int, quiet: bool) -> None:
    """Show the guide on this machine alone, refreshed at every save, and the editor's desk beside it."""
    with answering():
        if not content.is_dir():
            raise RequestError(f"{content}: came no folder, expected one with the records of the guide")
        _preview(content, port, quiet=quiet)


def _preview(content: Path, port: int, *, quiet: bool) -> None:
    """Serve until interrupted, while a thread makes the pages anew."""
    with tempfile.TemporaryDirectory(prefix="guidegen-preview-") as place:
        rounds, ended = Rounds(Path(place) / "site"), threading.Event()
        keeper = threading.Thread(target=_keep, args=(content, rounds, ended), daemon=True)

        def ready(taken: int) -> None:
            keeper.start()
            if not quiet:
                click.echo(f"http://127.0.0.1:{taken}/ shows the guide, http://127.0.0.1:{taken}/desk/ the editor's desk; Ctrl-C ends it")

        rounds.bad(waiting_page(rounds.token))
        try:
            serve(rounds, port, ready=ready)
        except KeyboardInterrupt:
            pass
        finally:
            ended.set()
            if keeper.ident is not None:
                keeper.join()


def _keep(content: Path, rounds: Rounds, ended: threading.Event) -> None:
    """A round at once, and one after every change of content or theme, those during a round among them."""
    places, begun = [place for place in (content, content.parent / "themes") if place.is_dir()], False
    try:
        for changes in watch(*places, stop_event=ended, debounce=60, step=20, rust_timeout=100, yield_on_timeout=True):
            if changes or not begun:
                _round(content, rounds)
            begun = True
    finally:
        rounds.bad(ended_page(rounds.token))


def _round(content: Path, rounds: Rounds) -> None:
    """The guide made anew; what stands in the way becomes a page."""
    try:
        rounds.laid(show(content, rounds.folder, shown=rounds.good))
    except ContentError as error:
        rounds.bad(fault_page(error.faults, rounds.token))
    except (GuidegenError, OSError) as error:
        rounds.bad(fault_page((), rounds.token, str(error)))
