"""``python -m lickwright``."""

from lickwright.cli import main

if __name__ == "__main__":
    main()
