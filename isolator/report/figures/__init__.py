"""Drawings of the report as inline SVG."""
