"""How files that the tool wrote are known again, so that it replaces no other."""

from pathlib import Path

MARK = "by nesting"
"""What the first line of every drawing and page of ours says, and of every file named below."""

DXF_MARK = "999\nWritten by nesting; a plan replaces this file.\n"
"""What a layout as DXF begins with: a comment, gone once other hands have saved the file."""

LINER_MARK = "by nesting liner."
"""What tells a liner's file or drawing of ours, in its first line; in DXF that of a comment."""

ORDER_MARK = "written by nesting wall."
"""What the first line of an order ends with."""

ZONES_MARK = "by nesting zones"
"""What the first line of a job says that this command wrote."""

PDF_MARK = "/Creator (nesting)"
"""What a PDF of ours says of its origin, anywhere in it."""


def is_foreign(path: Path, mark: str) -> bool:
    """Whether a file that is there and not empty lacks the mark: in its first line, or in a PDF.

    In DXF a comment takes two lines, the first of which is its group code, 999. A file that cannot
    be read is none: what is wrong with it is told when it is written.
    """
    try:
        with path.open(encoding="utf-8", errors="replace") as stream:
            if path.suffix == ".pdf":
                head = stream.read()
            else:
                head = stream.readline(1000)
                head = stream.readline(1000) if head.strip() == "999" else head
    except OSError:
        return False
    return bool(head) and mark not in head
