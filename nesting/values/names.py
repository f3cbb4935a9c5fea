"""What the tool names itself: each kind in a form of its own, which no mark of a panel has.

Marks of panels and names of ornaments, zones and beds are the user's. Everything else that bears a
name is named here, with the word of its kind in front of the number.
"""


def dam_name(number: int) -> str:
    """Return the name of a dam of a layout, counted from 1.

    >>> dam_name(3)
    'dam 3'
    """
    return f"dam {number}"


def call_dam(name: str) -> str:
    """Return what a dam is called in a sentence; one that a file names otherwise is quoted.

    >>> call_dam("dam 3"), call_dam("north strip")
    ('dam 3', "dam 'north strip'")
    """
    return name if name.startswith("dam ") else f"dam {name!r}"


def strip_name(number: int) -> str:
    """Return the name of a strip of a job, counted from 1 through all its layouts.

    >>> strip_name(7)
    'strip 7'
    """
    return f"strip {number}"


def kind_name(mark: str, number: int) -> str:
    """Return the name of a kind of panel: the mark, and a number where the mark has several.

    >>> kind_name("A1", 0), kind_name("A1", 2)
    ('A1', 'A1 (2)')
    """
    return f"{mark} ({number})" if number else mark


def liner_name(number: int) -> str:
    """Return the name of one of several liners alike.

    >>> liner_name(2)
    'liner 2'
    """
    return f"liner {number}"


def patch_name(number: int) -> str:
    """Return the name of a piece of ground to be made plain.

    >>> patch_name(1)
    'patch 1'
    """
    return f"patch {number}"


def sheet_number(row: int, column: int) -> str:
    """Return row and column of a template's sheet, both counted from 1, rows from above.

    >>> sheet_number(2, 12)
    '2-12'
    """
    return f"{row}-{column}"


def sheet_name(row: int, column: int) -> str:
    """Return the name of a template's sheet.

    >>> sheet_name(1, 2)
    'sheet 1-2'
    """
    return f"sheet {sheet_number(row, column)}"


def cast_range(numbers: list[int]) -> str:
    """Return numbers of casts in rising order, runs of three or more as from and to.

    >>> cast_range([1, 2, 3, 7, 9, 10]), cast_range([4])
    ('1 to 3, 7, 9, 10', '4')
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    words = (
        [f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(number) for number in run]
        for run in runs
    )
    return ", ".join(word for each in words for word in each)
