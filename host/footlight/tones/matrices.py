"""Small matrices as lists of rows: enough for a few dozen numbers, and no numpy in a base install."""

from collections.abc import Sequence

Matrix = list[list[float]]


def transposed(matrix: Matrix) -> Matrix:
    """Rows for columns."""
    return [list(column) for column in zip(*matrix, strict=True)]


def product(left: Matrix, right: Matrix) -> Matrix:
    """left times right; zeros of the left cost nothing."""
    rows = []
    for row in left:
        total = [0.0] * len(right[0])
        for value, others in zip(row, right, strict=True):
            if value:
                total = [sum_ + value * other for sum_, other in zip(total, others, strict=True)]
        rows.append(total)
    return rows


def solved(matrix: Matrix, right: Matrix) -> Matrix:
    """x of matrix x = right, for a symmetric positive matrix, by elimination without exchange."""
    rows = [[*row, *more] for row, more in zip(matrix, right, strict=True)]
    count = len(matrix)
    for place in range(count):
        lead = rows[place]
        for below in rows[place + 1 :]:
            _subtract(below, lead, below[place] / lead[place], place)
    for place in reversed(range(count)):
        lead = rows[place]
        lead[count:] = [value / lead[place] for value in lead[count:]]
        for above in rows[:place]:
            factor = above[place]
            above[count:] = [
                value - factor * other for value, other in zip(above[count:], lead[count:], strict=True)
            ]
    return [row[count:] for row in rows]


def _subtract(row: list[float], lead: Sequence[float], factor: float, start: int) -> None:
    row[start:] = [value - factor * other for value, other in zip(row[start:], lead[start:], strict=True)]
