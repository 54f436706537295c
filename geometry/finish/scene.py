"""What a picture shows, ready to be turned into pixels wherever there is time."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from geometry.finish.raster import Colour, View, render
from geometry.finish.triangles import Mesh


class Scene(NamedTuple):
    """Meshes in their colours, seen from `view`, in a picture of `size` pixels.

    `numbers` are pairs of items, by index, and the number that is written under the lowest of them;
    `names` what is numbered 1, 2, 3 ….
    """

    items: Sequence[tuple[Mesh, Colour]]
    view: View
    size: tuple[int, int]
    numbers: Sequence[tuple[range, int]] = ()
    names: tuple[str, ...] = ()

    def png(self) -> bytes:
        """Return the picture as PNG."""
        return render(self.items, self.view, self.size, self.numbers)
