"""The door from the command line: `casebook`, or `python -m casebook`."""

import sys


def main() -> None:
    """Run the command line and leave with its exit status."""
    from casebook.commands.line import run

    sys.exit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
