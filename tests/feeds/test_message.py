"""What a sensor sends is read, or is said to be no reading."""

import json

import pytest

from stockroom.errors import Code, Refusal
from stockroom.feeds.message import Sent, Sequences, Topic, read_message
from stockroom.feeds.reading import Reading, Unread, Wrong

AT_S = 1_741_969_800


@pytest.mark.parametrize(
    ("said", "sent"),
    [
        (
            {"at": "2025-03-14T16:30:00Z", "temperature_c": 21.5, "rh_pct": 45, "sequence": 7},
            Sent(Reading(AT_S, 21.5, 45.0), 7),
        ),
        (
            {"at": "2025-03-14T18:30:00.999+02:00", "temperature_c": 21},
            Sent(Reading(AT_S, 21.0, None), None),
        ),
        (
            {"at": AT_S, "temperature_c": -5.25, "rh_pct": None},
            Sent(Reading(AT_S, -5.25, None), None),
        ),
        ({"at": AT_S + 0.75, "temperature_c": 21}, Sent(Reading(AT_S, 21.0, None), None)),
        ({"at": AT_S * 1000 + 750, "temperature_c": 21}, Sent(Reading(AT_S, 21.0, None), None)),
        ({"at": AT_S, "temperature_c": 21, "battery": 3}, Sent(Reading(AT_S, 21.0, None), None)),
        ({"at": AT_S, "temperature_c": 21, "sequence": "7"}, Sent(Reading(AT_S, 21.0, None), None)),
        ({"at": AT_S, "temperature_c": 21, "sequence": -1}, Sent(Reading(AT_S, 21.0, None), None)),
    ],
)
def test_a_message_is_read(said: dict[str, object], sent: Sent) -> None:
    """An instant in words with its distance from UTC, or in seconds or milliseconds since 1970."""
    assert read_message(json.dumps(said).encode()) == sent


@pytest.mark.parametrize(
    ("payload", "wrong"),
    [
        ("", Wrong.NOT_A_LINE),
        ("21.5", Wrong.NOT_A_LINE),
        ("[21.5]", Wrong.NOT_A_LINE),
        ("{", Wrong.NOT_A_LINE),
        ("[" * 4000, Wrong.NOT_A_LINE),
        (" " * 5000, Wrong.NOT_A_LINE),
        ("\udcff", Wrong.NOT_A_LINE),
        ('{"at": 1741969800}', Wrong.NO_TEMPERATURE),
        ('{"at": 1741969800, "temperature_c": null}', Wrong.NO_TEMPERATURE),
        ('{"at": 1741969800, "temperature_c": "21"}', Wrong.NO_TEMPERATURE),
        ('{"at": 1741969800, "temperature_c": true}', Wrong.NO_TEMPERATURE),
        ('{"at": 1741969800, "temperature_c": NaN}', Wrong.NO_TEMPERATURE),
        ('{"at": 1741969800, "temperature_c": 1e999}', Wrong.NO_TEMPERATURE),
        ('{"at": 1741969800, "temperature_c": 1%s}' % ("0" * 400), Wrong.NO_TEMPERATURE),
        ('{"at": 1741969800, "temperature_c": 21, "rh_pct": "wet"}', Wrong.NO_HUMIDITY),
        ('{"temperature_c": 21}', Wrong.NO_INSTANT),
        ('{"at": "2025-03-14T16:30:00", "temperature_c": 21}', Wrong.NO_INSTANT),
        ('{"at": "yesterday", "temperature_c": 21}', Wrong.NO_INSTANT),
        ('{"at": "0001-01-01T00:00:00+14:00", "temperature_c": 21}', Wrong.NO_INSTANT),
        ('{"at": true, "temperature_c": 21}', Wrong.NO_INSTANT),
        ('{"at": Infinity, "temperature_c": 21}', Wrong.NO_INSTANT),
    ],
)
def test_what_is_no_reading_is_said_to_be_none(payload: str, wrong: Wrong) -> None:
    """Whatever a sensor, or somebody else, sends."""
    with pytest.raises(Unread) as caught:
        read_message(payload.encode("utf-8", "surrogateescape"))

    assert caught.value.wrong is wrong


@pytest.mark.parametrize(
    ("template", "topic", "sensor"),
    [
        ("shop/zone/+/climate", "shop/zone/north 2/climate", "north 2"),
        ("+", "north", "north"),
        ("a/+", "a/no\u202erth", "north"),
    ],
)
def test_the_topic_names_the_sensor(template: str, topic: str, sensor: str) -> None:
    """At the level of the +, in harmless text."""
    assert Topic(template).sensor_of(topic) == sensor


@pytest.mark.parametrize(
    "topic",
    ["", "shop/zone/climate", "shop/zone//climate", "shop/zone/a/b/climate", "x/zone/a/climate"],
)
def test_another_topic_names_none(topic: str) -> None:
    """It is dropped, and said."""
    with pytest.raises(Unread):
        Topic("shop/zone/+/climate").sensor_of(topic)


@pytest.mark.parametrize(
    "template", ["", "shop", "a/+/+", "a/b+", "#", "a/+/#", "$SYS/+", "a/+\n", "+" * 200]
)
def test_a_topic_without_the_level_of_the_sensor_is_refused(template: str) -> None:
    """Nobody could tell whose readings they are."""
    with pytest.raises(Refusal) as caught:
        Topic(template)

    assert caught.value.code is Code.BAD_SETTING
    assert caught.value.sentence.isprintable()


def test_numbers_that_are_missing_are_noticed() -> None:
    """A sensor that begins anew, or a message that comes again, misses nothing."""
    sequences = Sequences()

    found = [
        sequences.missing("a", number, is_sent_again=again)
        for number, again in [(5, False), (6, False), (9, False), (9, True), (7, True), (10, False),
                              (0, False), (1, False), (None, False), (4, True)]
    ]  # fmt: skip

    assert found == [0, 0, 2, 0, 0, 0, 0, 0, 0, 2]
    assert sequences.missing("b", 100, is_sent_again=False) == 0
