"""Options that several commands have: offered to each, and handed over as one value."""

from collections.abc import Callable, Mapping
from functools import wraps
from inspect import Parameter, Signature, signature
from typing import Any

from stockroom.cli.desk import Command, Desk
from stockroom.cli.saying import Answer


def offers(options: Mapping[str, Any]) -> Callable[[Command], Command]:
    """Give a command these options; it gets what was typed as `typed`, None where nothing was."""

    def offered(work: Command) -> Command:
        @wraps(work)
        def run(desk: Desk, **given: Any) -> Answer:
            typed = {option: given.pop(option) for option in options}
            return work(desk, typed=typed, **given)

        own = signature(work, eval_str=True).parameters.values()
        shared = (
            Parameter(option, Parameter.KEYWORD_ONLY, annotation=kind, default=None)
            for option, kind in options.items()
        )
        run.__signature__ = Signature(  # type: ignore[attr-defined]
            [*(one for one in own if one.name != "typed"), *shared]
        )
        return run

    return offered
