"""What a report does about the collector of cycles: it comes to rest, and is woken whatever happens."""

import gc

import pytest

from stockroom.errors import Code, Refusal
from stockroom.work.judging import only_making


def test_nobody_looks_for_cycles_while_a_report_is_made() -> None:
    """Nor does a report within a report wake the collector too early."""
    with only_making():
        with only_making():
            assert not gc.isenabled()
        assert not gc.isenabled()

    assert gc.isenabled()


def test_the_collector_is_woken_after_a_refusal() -> None:
    """A report that is refused leaves nothing behind."""
    with pytest.raises(Refusal), only_making():
        raise Refusal(Code.FUTURE, "Not yet.")

    assert gc.isenabled()
