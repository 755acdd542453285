"""The guide read aloud: scripts, what a presenter can check, picture cards."""
