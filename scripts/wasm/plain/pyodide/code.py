"""Runs a text as Python."""

from _pyodide._base import eval_code

__all__ = ["eval_code"]
