"""Arrays as the arithmetic takes and returns them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Complex = NDArray[np.complex128]
Flags = NDArray[np.bool_]
