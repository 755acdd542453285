"""Which program this is: what it remembers of another version of itself is worth nothing."""

import sys
from functools import cache
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import guidegen

LIBRARIES = ("jinja2", "markdown-it-py", "matplotlib", "numpy", "pydantic", "pyyaml", "scipy")
"""Libraries that have a hand in what is published."""


@cache
def program_digest() -> str:
    """SHA-256 over the program's own files, the Python that runs it and the libraries' versions.

    Taken once a process: what runs is what was loaded, whatever becomes of the files meanwhile.
    """
    digest = sha256(f"{sys.version_info[:3]}".encode())
    for name in LIBRARIES:
        digest.update(f"{name} {_version(name)}\n".encode())
    package = Path(guidegen.__file__).parent
    for path in sorted(package.rglob("*")):
        if path.suffix in {".py", ".toml"}:
            digest.update(f"{path.relative_to(package).as_posix()}\n".encode())
            digest.update(path.read_bytes())
    return digest.hexdigest()


def versions() -> dict[str, str]:
    """The versions of those libraries, by name."""
    return {name: _version(name) for name in LIBRARIES}


def program_version() -> str:
    """The program with its version."""
    return f"guidegen {_version('guidegen')}"


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return "none"
