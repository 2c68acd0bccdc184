"""The gamma distribution of our own against scipy's."""

import pytest
from scipy.stats import gamma

from stockroom.plan.gamma import Spread, quantile, share_below

SHAPES = [0.05, 0.3, 0.5, 0.99, 1, 1.01, 2.186, 7, 42, 900, 19_000, 21_000, 1e6]


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("share", [0.001, 0.1, 0.5, 0.8, 0.95, 0.999])
def test_a_quantile_is_the_one_of_scipy(shape: float, share: float) -> None:
    """scipy.stats.gamma.ppf; where there is next to nothing, to a millionth of the mean."""
    spread = Spread(3.0, 9.0 / shape)

    found = quantile(share, spread)

    assert found == pytest.approx(gamma.ppf(share, shape, scale=3 / shape), rel=1e-7, abs=3e-6)


@pytest.mark.parametrize("shape", SHAPES[:-1])
@pytest.mark.parametrize("times", [0.0, 0.01, 0.5, 0.999, 1.0, 1.3, 4.0])
def test_a_share_is_the_one_of_scipy(shape: float, times: float) -> None:
    """scipy.stats.gamma.cdf below, at and above the mean."""
    found = share_below(3 * times, Spread(3.0, 9.0 / shape))

    assert found == pytest.approx(gamma.cdf(3 * times, shape, scale=3 / shape), abs=1e-10)


def test_what_does_not_vary_is_certain() -> None:
    """With every chance; and nothing stays nothing."""
    assert quantile(0.95, Spread(7.5, 0)) == 7.5
    assert quantile(0.95, Spread(0, 4)) == 0
