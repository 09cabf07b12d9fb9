"""Casebook: from a damaged wooden woodwind on the bench to a record that can be found again."""

__version__ = "0.1.0"
