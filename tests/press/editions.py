"""Editions of small files, published."""

from pathlib import Path

from guidegen.press import File, Press, Staging


def put(output: Path, pages: dict[str, str]) -> None:
    """An edition of these pages, by path, put in place."""
    press = Press.of(output)
    with press.held():
        staging = Staging(press)
        for path, text in pages.items():
            staging.take(File(path=path, content=text.encode()))
        staging.publish()
