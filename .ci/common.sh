# Sourced by the other scripts: where things are, and how to say what went wrong.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
export PIP_DISABLE_PIP_VERSION_CHECK=1 PIP_ROOT_USER_ACTION=ignore
python=.venv/bin/python

say() { printf '%s\n' "== $*"; }
fail() {
    printf '%s\n' "error: $*" >&2
    exit 1
}
