"""Gudgeon: the workbench of a person bringing a very old engine back to life without a manual."""
