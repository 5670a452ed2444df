"""The command line without its script: ``python -m levelswap check SWAP``."""

from __future__ import annotations

from levelswap.faces.command_line import main

if __name__ == "__main__":
    main()
