"""What two processes load, and when; light, to be had at once."""

FOR_THE_REPORT = (
    "matplotlib",
    "matplotlib.axes",
    "matplotlib.figure",
    "matplotlib.backends.backend_svg",
    "isolator.report.page.plots",
    "isolator.report.page.render",
)
"""Modules that the first process loads while it waits for the second, each a tenth of a second."""


def load() -> None:
    """Load the work on motors and parts, and the drawing kernel: the second process begins so."""
    import isolator.commands.kit  # noqa: F401
    from isolator.commands.write_parts import load_kernel

    load_kernel()
