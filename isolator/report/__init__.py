"""Tells what a run found: as a page, as JSON and as tables on the command line."""
