"""What a second process loads while the first still loads its own; light, to be had at once."""


def load() -> None:
    """Load the work on motors and parts, and the drawing kernel."""
    import isolator.commands.kit  # noqa: F401
    from isolator.commands.write_parts import load_kernel

    load_kernel()
