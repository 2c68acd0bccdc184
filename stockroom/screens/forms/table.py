"""The one table of the forms that act on a piece; keys and codes of the wall card name them."""

from collections.abc import Mapping
from types import MappingProxyType

from stockroom.screens.forms.away import in_blank, out_blank
from stockroom.screens.forms.back import back_blank
from stockroom.screens.forms.film import flaw_blank, rewind_blank
from stockroom.screens.forms.keeping import hold_blank, put_blank, send_back_blank
from stockroom.screens.forms.measuring import count_blank
from stockroom.screens.forms.on_card import BlankFor
from stockroom.screens.forms.trials import other_trial_blank, trial_blank

FORMS: Mapping[str, BlankFor] = MappingProxyType(
    {
        "out": out_blank,
        "in": in_blank,
        "back": back_blank,
        "count": count_blank,
        "put": put_blank,
        "hold": hold_blank,
        "trial": trial_blank,
        "other-trial": other_trial_blank,
        "flaw": flaw_blank,
        "rewind": rewind_blank,
        "send-back": send_back_blank,
    }
)
