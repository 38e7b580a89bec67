"""Marks this folder, so that tests in all folders below import the helpers in it."""
