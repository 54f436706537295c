"""Material cards: one TOML file per material, read as package data."""
