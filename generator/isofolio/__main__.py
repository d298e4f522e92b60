"""Run the command line as `python -m isofolio`."""

from isofolio.cli import main

if __name__ == "__main__":
    main()
