"""What all tests share: property tests are not timed; bands from few samples where none is seen;
tests that share something dear run in one process."""

from collections.abc import Iterator
from functools import partial

import pytest
from hypothesis import HealthCheck, settings

from isolator.commands import beside, design
from isolator.motors import dampers
from isolator.vibration import evaluation, spreads

settings.register_profile("untimed", deadline=None, suppress_health_check=[HealthCheck.too_slow])
# the same examples on every machine; `--hypothesis-profile untimed` looks for new ones
settings.register_profile("same", settings.get_profile("untimed"), derandomize=True)
settings.load_profile("same")

DRAW = (design, evaluation, dampers)
"""Where a whole solve draws its samples."""
FEW = 8


@pytest.fixture(scope="session", autouse=True)
def few_samples() -> Iterator[None]:
    """Bands from few samples: most of a solve would go into them, and few tests look at a band."""
    with pytest.MonkeyPatch.context() as patched:
        for room in DRAW:
            patched.setattr(room, "draw", partial(spreads.draw, count=FEW))
        # tests run side by side themselves, and another process would draw all samples
        patched.setattr(beside, "processors", lambda: 1)
        yield


@pytest.fixture(scope="module")
def all_samples() -> Iterator[None]:
    """Bands as they are told, for tests that look at them."""
    with pytest.MonkeyPatch.context() as patched:
        for room in DRAW:
            patched.setattr(room, "draw", spreads.draw)
        yield


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put tests of one dear fixture, or of one drawn part, into one group of `--dist loadgroup`."""
    for item in items:
        if isinstance(item, pytest.Function) and (group := _group(item)):
            item.add_marker(pytest.mark.xdist_group(group))


def _group(item: pytest.Function) -> str:
    """Return what a test shares with others, empty for nothing."""
    if "shipped" in item.fixturenames:
        return "shipped"
    found = item._fixtureinfo.name2fixturedefs
    module = item.module.__name__
    if any(each[-1].scope == "module" for each in found.values()):
        return module
    if hasattr(item.module, "drawn") and hasattr(item, "callspec"):
        return f"{module} {item.callspec.id}"
    return ""
