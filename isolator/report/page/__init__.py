"""The page: one self-contained HTML file, its templates and what it is given."""
