"""The command line: parse, call one function of the workbench, print."""

from gudgeon.cli.main import main

__all__ = ["main"]
