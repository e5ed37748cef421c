"""``python -m precheck``."""

from precheck.cli import main

if __name__ == "__main__":
    main()
