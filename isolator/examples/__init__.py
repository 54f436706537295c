"""Example briefs from the makerspace of a public library."""
