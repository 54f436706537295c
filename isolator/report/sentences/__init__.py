"""Every sentence about results, and how numbers are written in it."""
