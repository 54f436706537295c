"""What all tests share: property tests are not timed; bands from few samples where none is seen."""

from collections.abc import Iterator
from functools import partial

import pytest
from hypothesis import HealthCheck, settings

from isolator.vibration import evaluation, spreads

settings.register_profile("untimed", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("untimed")


@pytest.fixture(scope="module")
def few_samples() -> Iterator[None]:
    """Bands from few samples, for tests that look at no band: most of a solve goes into them."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(evaluation, "draw", partial(spreads.draw, count=8))
        yield
