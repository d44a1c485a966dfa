"""The sound of an order: performed, sounded, encoded."""

from __future__ import annotations

from dataclasses import replace

from lickwright.model.orders import Recorded, SoundOrder


def record(order: SoundOrder) -> Recorded:
    """Make a stem.

    Imports numpy and the encoder, so it is called in a worker.
    """
    from lickwright.performance.perform import perform
    from lickwright.sound.encode import encode_mp3
    from lickwright.sound.render import count_samples, render
    from lickwright.sound.tables import RATE

    performance = perform(replace(order.music, picking=order.picking), order.bpm)
    starts = performance.bars
    numbers = [order.music.bars[index].number for index in order.music.order]
    return Recorded(
        mp3=encode_mp3(render(performance)),
        seconds=count_samples(performance) / RATE,
        bars=tuple(zip(numbers, starts[:-1], starts[1:], strict=True)),
        lights=performance.lights,
    )
