"""``python3 -m guidegen``: the same as the command ``guidegen``."""

from guidegen.cli import main

if __name__ == "__main__":
    main()
