"""Verdict signs in their colours."""

from stockroom.screens.marks import marked


def test_each_sign_colours_its_own_words_as_far_as_the_next_wide_gap() -> None:
    """The colour ends with the words of the sign."""
    content = marked(" ▲ 3 to test    ◐ 9 to use first    2 jobs short")

    assert [(content.plain[span.start : span.end], span.style) for span in content.spans] == [
        ("▲ 3 to test", "$verdict-test"),
        ("◐ 9 to use first", "$verdict-first"),
    ]


def test_markup_in_a_name_stays_the_characters_it_is() -> None:
    """A material called PET [/] 90% is shown so."""
    hostile = "✕ PET [/] 90% [@click=app.quit]x[/]"

    assert marked(hostile).plain == hostile
