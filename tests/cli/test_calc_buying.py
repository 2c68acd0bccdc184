"""`calc reorder`, `eoq`, `newsvendor`: the textbook's numbers out, bad input refused in a sentence."""

import json
from pathlib import Path
from typing import Any

import pytest

from stockroom.cli.app import main

TYPED = ("reorder", "--draws-per-day", "0.5", "--draw-mean", "3m", "--draw-var", "5.76")
LEAD = ("--lead", "7d", "--lead-var", "9")
ORDER = ("--position", "12m", "--roll", "30.48m", "--limit", "365d")
EOQ = ("eoq", "--demand", "1300", "--order-cost", "8")
BREAKS = ("--break", "0:0.75", "--break", "400:0.72")
ONCE = ("newsvendor", "--mean", "50", "--sd", "8", "--under-cost", "0.7", "--over-cost", "0.18")


def _said(capture: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["calc", *arguments]) == 0
    return capture.readouterr().out


def _values(capture: pytest.CaptureFixture[str], *arguments: str) -> dict[str, Any]:
    values: dict[str, Any] = json.loads(_said(capture, *arguments, "--json"))
    return values


def test_a_reorder_point_from_typed_demand(capsys: pytest.CaptureFixture[str]) -> None:
    """Gamma quantile by scipy; the mean by hand; one roll lifts 12 m over the point."""
    assert _said(capsys, *TYPED, *LEAD, *ORDER) == (
        "Order when less than 29.89 m is there or on order; "
        "until it comes, 10.5 m is drawn on average.\n"
        "Order 1 roll: it covers 4 weeks.\n"
    )
    values = _values(capsys, *TYPED, *LEAD, *ORDER)
    assert values["reorder_point_m"] == pytest.approx(29.894954, abs=1e-6)
    assert (values["lead_demand_m"], values["order_rolls"], values["why"]) == (10.5, 1, "below")


def test_without_a_position_nothing_is_said_of_rolls(capsys: pytest.CaptureFixture[str]) -> None:
    """The point alone; per cent is a share too."""
    values = _values(capsys, *TYPED, *LEAD, "--service", "95%")

    assert "order_rolls" not in values
    assert values["reorder_point_m"] == pytest.approx(29.894954, abs=1e-6)


def test_film_that_would_outlive_its_limit_is_not_ordered(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Two draws a month do not use four rolls in a year; one roll they do, and two would be old."""
    seldom = ("reorder", "--draws-per-day", "0.0658", "--draw-mean", "3m", "--draw-var", "5.76")
    asked = (*seldom, *LEAD, "--position", "2m", "--roll", "30.48m", "--limit", "365d")

    assert "Order nothing: the smallest order would outlive its storage limit." in _said(
        capsys, *asked, "--pack", "4"
    )
    said = _said(capsys, *asked)
    assert "Order 1 roll: it covers 5 months; one more would be " in said
    assert " past its limit.\n" in said


def test_the_number_of_rolls_that_costs_least_a_year(capsys: pytest.CaptureFixture[str]) -> None:
    """547.5 m a year; calculated by trying each number apart."""
    priced = (
        "--order-cost",
        "25",
        "--holding-rate",
        "0.25",
        "--break",
        "0:240",
        "--break",
        "6:200",
    )

    def yearly(rolls: int) -> float:
        price = (200 if rolls >= 6 else 240) / 30.48
        return price * 547.5 + 25 * 547.5 / (rolls * 30.48) + 0.25 * price * rolls * 30.48 / 2

    found = _values(capsys, *TYPED, *LEAD, *ORDER, *priced)

    assert found["order_rolls"] == min(range(1, 40), key=yearly) == 6
    assert found["why"] == "cheapest"
    short = _values(capsys, *TYPED, *LEAD, *ORDER, *priced, "--limit", "60d")
    assert (short["order_rolls"], short["why"]) == (1, "limit")


def test_demand_is_read_from_a_list_of_draws(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two cuts for a job on a day are one draw; what came back is taken off; days without count."""
    path = tmp_path / "demand.csv"
    path.write_text(
        "at;length;job\n2026-01-01;0;\n2026-01-05T08:00;2,5 m;A\n2026-01-05T16:00;1500;A\n"
        "2026-01-20;7m;B\n2026-01-21;-1m;B\n\n2026-02-09;2m;C\n2026-02-09;0;\n",
        encoding="utf-8",
    )

    values = _values(capsys, "reorder", str(path), "--lead", "10d")

    assert (values["days"], values["pattern"]) == (40, "intermittent")
    assert values["draws_per_day"] == pytest.approx(3 / 40)
    assert (values["draw_mean_m"], values["draw_variance_m2"]) == (4, 4)
    assert values["lead_demand_m"] == pytest.approx(3)


def test_a_week_of_draws_is_enough_and_is_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Beside the answer, for it is not sure."""
    path = tmp_path / "demand.csv"
    path.write_text("at,length\n2026-01-05,2m\n2026-01-11,40m\n", encoding="utf-8")

    values = _values(capsys, "reorder", str(path), "--lead", "10d")
    assert (values["pattern"], values["days"]) == ("new", 7)
    assert main(["calc", "reorder", str(path), "--lead", "10d"]) == 0
    assert (
        capsys.readouterr().err
        == "These are draws of 7 days only: the answer is no surer than that.\n"
    )


def test_order_quantities_are_those_of_the_textbook(capsys: pytest.CaptureFixture[str]) -> None:
    """Snyder and Shen, examples 3.1, 3.6 without its last break, 3.7 and 4.3."""
    whole = (*EOQ, "--holding-rate", "0.3", *BREAKS)

    assert _values(capsys, *EOQ, "--holding", "0.225") == {
        "quantity": pytest.approx(304.0467800264, abs=1e-8),
        "cost": pytest.approx(68.4105255059, abs=1e-8),
    }
    assert _values(capsys, *whole) == {"quantity": 400, "cost": pytest.approx(1005.2)}
    assert _values(capsys, *whole, "--incremental")["cost"] == pytest.approx(1043.4105255059)
    assert _values(capsys, *ONCE) == {"quantity": pytest.approx(56.6039559274, abs=1e-8)}
    assert _said(capsys, *whole) == "Order 400.00 at once: all costs 1,005.20 a year.\n"
    assert _said(capsys, *ONCE) == "Order 56.60.\n"


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((*TYPED, "--lead", "-3d"), "no span of time"),
        ((*TYPED, "--lead", "nan"), "no span of time"),
        ((*TYPED, *LEAD, "--service", "1"), "not a service"),
        ((*TYPED, *LEAD, "--service", "20%"), "not a service"),
        ((*TYPED, *LEAD, "--lead-var", "-1"), "not a variance in days"),
        ((*TYPED, *LEAD, "--draw-var", "nan"), "not a variance in m"),
        ((*TYPED, *LEAD, "--draws-per-day", "0"), "not a number of draws a day"),
        ((*TYPED, *LEAD, "--draw-mean", "0m"), "A length is more than zero"),
        ((*TYPED, *LEAD, "--position", "12m"), "--position and --roll"),
        ((*TYPED, *LEAD, "--limit", "1y"), "--position and --roll"),
        ((*TYPED, *LEAD, *ORDER, "--roll", "0"), "A length is more than zero"),
        ((*TYPED, *LEAD, *ORDER, "--pack", "0"), "not a number of pieces"),
        ((*TYPED, *LEAD, "--break", "0:240"), "--position and --roll"),
        ((*TYPED, *LEAD, *ORDER, "--break", "0:240"), "needs all of --order-cost"),
        ((*TYPED, *LEAD, *ORDER, "--order-cost", "25"), "needs all of --order-cost"),
        (("reorder", "--lead", "7d"), "Give a file of draws"),
        (("reorder", "nowhere.csv", "--lead", "7d"), "nowhere.csv cannot be read"),
        ((*EOQ,), "Give --holding alone"),
        ((*EOQ, "--holding", "0.2", *BREAKS), "Give --holding alone"),
        ((*EOQ, "--holding-rate", "0.3"), "Give --holding alone"),
        ((*EOQ, "--holding", "0"), "not a holding cost"),
        ((*EOQ, "--demand", "1,300", "--holding", "0.2"), "can be read in two ways"),
        ((*EOQ, "--holding-rate", "0.3", "--break", "400"), "is no price break"),
        ((*EOQ, "--holding-rate", "0.3", "--break", "400:0.7"), "first price break is at 0"),
        ((*EOQ, "--holding-rate", "0.3", *BREAKS, "--break", "400:0.7"), "Two price breaks"),
        ((*EOQ, "--holding-rate", "0.3", *BREAKS, "--break", "800:0.9"), "costs more than before"),
        ((*ONCE, "--sd", "0"), "not a standard deviation"),
        ((*ONCE, "--over-cost", "-1"), "not a cost"),
    ],
)
def test_bad_input_is_one_sentence(
    capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], says: str
) -> None:
    """With exit code 2, and nothing printed."""
    assert main(["calc", *arguments]) == 2
    said = capsys.readouterr()

    assert said.out == ""
    assert says in said.err
    assert len(said.err.splitlines()) == 1


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("", "The file is empty"),
        ("day,metres\n2026-01-05,2m\n", "not the heading"),
        ("at,length\n2026-01-05,2m\n2026-01-05,3m\n", "a single day"),
        ("at,length\n2026-01-05,0\n2026-02-05,0\n", "Nothing was drawn"),
        ("at,length\n2026-01-05,2m\n2026-01-06,-2m\n", "Nothing was drawn"),
        ("at,length\n05/01/2026,2m\n", "Line 2: “05/01/2026” is no day"),
        ("at,length\n2026-01-05,nan\n", "Line 2: “nan” is not a length"),
        ("at,length\n2026-01-05\n", "Line 2 has 1 cells"),
        ("at,length\n1026-01-05,2m\n", "Line 2: '1026-01-05' is no date"),
    ],
)
def test_a_bad_list_is_refused_with_its_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], content: str, says: str
) -> None:
    """Nothing is passed over."""
    path = tmp_path / "demand.csv"
    path.write_text(content, encoding="utf-8")

    assert main(["calc", "reorder", str(path), "--lead", "7d"]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert says in said.err
