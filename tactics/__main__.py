"""`python -m tactics`."""

from tactics.cli.main import run

if __name__ == "__main__":
    run()
