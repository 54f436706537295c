"""Candidates of one material, outline and set of places."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from isolator.cards import Material
from isolator.design import OUTLINES, Ends, Foot
from isolator.physics.arrays import Array


@dataclass(frozen=True, slots=True, kw_only=True)
class CandidateBatch:
    """Candidates of one material, outline and set of places; arrays (n,) [m]."""

    material: Material
    shape: str
    positions: Array  # (s, 2)
    first: Array
    second: Array
    thickness: Array
    layers: NDArray[np.int64]
    ends: tuple[Ends, ...] = ()  # n, of ready-made mounts

    def __len__(self) -> int:
        return len(self.first)

    @property
    def widths(self) -> tuple[Array, Array]:
        """Return the pads' outside widths along x and along y [m]."""
        return self.first, OUTLINES[self.shape].along_y(self.first, self.second)

    @property
    def volume(self) -> Array:
        """Return what is cut from a sheet for one pad (n,) [m³]."""
        along, across = self.widths
        return along * across * self.thickness

    def take(self, rows: NDArray[np.intp] | NDArray[np.bool_]) -> CandidateBatch:
        """Return the candidates at `rows`."""
        return replace(
            self,
            first=self.first[rows],
            second=self.second[rows],
            thickness=self.thickness[rows],
            layers=self.layers[rows],
            ends=tuple(self.ends[row] for row in np.arange(len(self))[rows]) if self.ends else (),
        )


def batch_of(foot: Foot, material: Material) -> CandidateBatch:
    """Return a foot as a batch of one."""
    pad = foot.pad
    return CandidateBatch(
        material=material,
        shape=pad.shape,
        positions=np.array(foot.positions),
        first=np.array([pad.first]),
        second=np.array([pad.second]),
        thickness=np.array([pad.thickness]),
        layers=np.array([pad.layers]),
        ends=() if foot.ends is None else (foot.ends,),
    )
