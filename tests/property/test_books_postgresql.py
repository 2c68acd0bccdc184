"""The same random work on PostgreSQL, less of it, for every step takes longer there."""

from collections.abc import Callable, Iterator
from contextlib import ExitStack

import pytest
from hypothesis import settings
from hypothesis.stateful import run_state_machine_as_test

from tests.conftest import postgresql_url
from tests.engines import an_own_schema
from tests.property.test_books_film import FilmShop


@pytest.fixture
def new_schema() -> Iterator[Callable[[], str]]:
    """A new schema whenever one is asked for."""
    with ExitStack() as until_the_end:
        server = postgresql_url()
        yield lambda: until_the_end.enter_context(an_own_schema(server))


@pytest.mark.postgresql
def test_a_shop_on_postgresql_is_what_the_dictionary_says(new_schema: Callable[[], str]) -> None:
    """Its rack after every act; its evenings, its sums and its money at the end."""

    class ShopOnPostgresql(FilmShop):
        """A shop whose book is a schema."""

        def where(self) -> str:
            return new_schema()

    examples = settings.default.max_examples // 25 if settings.default else 2

    run_state_machine_as_test(
        ShopOnPostgresql,
        settings=settings(max_examples=examples, stateful_step_count=20, deadline=None),
    )
