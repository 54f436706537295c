"""Letters and labels engraved in parts. Text on drawings belongs to `sheets`."""
