"""``python -m nesting``: the command line, where the ``nesting`` script is not on the path."""

from nesting.cli import main

if __name__ == "__main__":
    main()
