"""Closed sets that the mathematics, the notebook and the commands share, each declared once."""

from typing import Literal, get_args

# What a formula can be of; how long such a bath lasts: `chemistry/capacity.TRADE`.
FormulaKind = Literal["developer", "bleach", "clearing", "fixer"]
BathKind = Literal[FormulaKind, "other"]
BATH_KINDS: tuple[BathKind, ...] = get_args(BathKind)

# What the identity of every bench begins with: 'bench', as a chip's own identity is written, in hex.
BENCH_MARK = b"bench"

# Of a strip, of a pre-flash strip, of a strip judged by eye, of a print.
ReadingKind = Literal["strip", "pre-flash", "eye", "print"]
READING_KINDS: tuple[ReadingKind, ...] = get_args(ReadingKind)
