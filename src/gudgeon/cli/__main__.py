"""``python -m gudgeon.cli``: the same command where the script is not on the path."""

import sys

from gudgeon.cli.main import main

sys.exit(main())
