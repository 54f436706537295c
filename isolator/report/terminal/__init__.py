"""Results as tables and words on the command line."""
