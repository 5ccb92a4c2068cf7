"""Entry point of the ``gudgeon`` command."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from gudgeon.cli.parser import build_parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. Returns 0 when done, 1 when the answer is bad news, 2 when the command could not be carried out.

    Whatever the workbench refuses is shown as its one sentence on standard error, without a traceback.
    """
    parser = build_parser()
    wanted = parser.parse_args(arguments)
    if wanted.command is None:
        parser.print_help()
        return 0
    from gudgeon.cli import actions
    from gudgeon.workbench.faults import sentences

    try:
        return int(getattr(actions, wanted.action)(wanted) or 0)
    except KeyboardInterrupt:
        print("stopped", file=sys.stderr)
        return 130
    except BrokenPipeError:
        sys.stderr.close()
        return 0
    except Exception as fault:
        if not isinstance(fault, sentences()):
            raise
        print(f"gudgeon: {fault}", file=sys.stderr)
        return 2
