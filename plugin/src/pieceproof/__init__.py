"""Builds correct, sellable patchwork patterns from text files."""
