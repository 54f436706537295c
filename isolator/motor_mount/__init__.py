"""The damper between a belt motor and its frame: what is offered, what it does, which is best."""
