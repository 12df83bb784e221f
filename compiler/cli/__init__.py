"""The `hotset` command: one file a verb. This file decides exit statuses and sees that nobody meets a traceback."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence

STATUS_OK = 0
STATUS_FINDINGS = 1
STATUS_UNUSABLE = 2
STATUS_FAULT = 3
STATUS_INTERRUPTED = 130  # as shells say it: 128 + SIGINT
STATUS_PIPE_CLOSED = 141  # 128 + SIGPIPE

COMPLETION = "_HOTSET_COMPLETE"
"""The variable by which a shell asks for completion."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command with `arguments` (the process's own when None) and return its exit status."""
    args = list(sys.argv[1:] if arguments is None else arguments)
    try:
        _never_fail_on_a_letter()
        status = _dispatch(args)
        sys.stdout.flush()
        return status
    except BrokenPipeError:
        _drop_output()
        return STATUS_PIPE_CLOSED
    except KeyboardInterrupt:
        return STATUS_INTERRUPTED
    except OSError as error:
        return _unusable(error)
    except Exception as error:
        return _fault(error)


def _dispatch(args: list[str]) -> int:
    """Plain `hotset check` runs without the command-line library, whose import costs as much as reading a plan."""
    if args and args[0] == "check" and COMPLETION not in os.environ:
        from .quick import options

        quick = options(args[1:])
        if quick is not None:
            from .checking import run

            return run(quick)
    from .group import run_group

    return run_group(args)


def _never_fail_on_a_letter() -> None:
    """A terminal that cannot show a letter gets its escape: findings must come out whatever the locale."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace")


def _drop_output() -> None:
    """Whoever read our output has gone: what is still buffered goes nowhere, quietly."""
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
    except (OSError, ValueError):  # no descriptor behind the stream
        pass


def _debug(error: BaseException) -> None:
    if os.environ.get("HOTSET_DEBUG") == "1":
        import traceback

        traceback.print_exception(error, file=sys.stderr)


def _unusable(error: OSError) -> int:
    from ..report.glyphs import shown

    _debug(error)
    where = f" '{shown(os.fsdecode(error.filename))}'" if isinstance(error.filename, (str, bytes)) else ""
    why = (error.strerror or type(error).__name__).lower()
    print(f"hotset: cannot use{where or ' the output'}: {why}; nothing else was done", file=sys.stderr)
    _drop_output()
    return STATUS_UNUSABLE


def _fault(error: Exception) -> int:
    from ..report.glyphs import shown

    _debug(error)
    says = shown(str(error))[:200]
    print(
        f"hotset: this is a fault of hotset, not of the plan: {type(error).__name__}: {says}\n"
        "hotset: please report it with the plan that led to it; HOTSET_DEBUG=1 shows where it happened",
        file=sys.stderr,
    )
    return STATUS_FAULT
