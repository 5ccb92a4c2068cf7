"""An invented engine, its readings and pictures. Nothing here is a real engine, place, maker or person."""

from gudgeon.demo.build import build

__all__ = ["build"]
