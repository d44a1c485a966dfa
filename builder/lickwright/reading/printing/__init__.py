"""The model as text again, in one canonical form: what is printed reads back as the same value."""

from lickwright.reading.printing.bars import print_bar, print_bars
from lickwright.reading.printing.blocks import print_block
from lickwright.reading.printing.lick import print_lick
from lickwright.reading.printing.slots import print_slots, print_strike

__all__ = ["print_bar", "print_bars", "print_block", "print_lick", "print_slots", "print_strike"]
