"""So that ``python -m cleatwright`` is the program too."""

from cleatwright.cli.main import run

if __name__ == "__main__":
    run()
