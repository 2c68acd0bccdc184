"""Whole numbers become what people expect to read, no more exact than it is useful.

length       3.2 m    300 mm    10' 6 1/2"     to 10 mm, 0.1 mm below a metre, 1/8 in
width        1524 mm    60 in                  to 0.1 mm, 1/8 in
size         300 by 1000 mm, 12 by 40 in      to the same
thickness    50.8 µm    2 mil                  to 0.1 µm, 0.01 mil
area         4.65 m²    50 sq ft               to 0.01 m², 0.1 sq ft
temperature  22.5 °C    72.5 °F                to 0.1
mass         4.1 kg    350 g    9 lb    8 oz   to 0.1 kg, 1 g, 0.1 lb, 0.1 oz
"""

from fractions import Fraction

from stockroom.units import (
    FOOT,
    GRAM,
    INCH,
    KG,
    MIL,
    MM,
    OUNCE,
    POUND,
    SQUARE_FOOT_MM2,
    UM,
    M,
    System,
)

_TIMES = "\N{MULTIPLICATION SIGN}"
_EIGHTH = INCH // 8
_EIGHTHS_A_FOOT = FOOT // _EIGHTH


def _decimal(value: Fraction, places: int) -> str:
    """The value to so many decimals, without zeros that say nothing."""
    scaled = round(value * 10**places)
    whole, part = divmod(abs(scaled), 10**places)
    digits = f"{part:0{places}d}".rstrip("0") if places else ""
    return f"{'-' if scaled < 0 else ''}{whole}{'.' if digits else ''}{digits}"


def _inches(eighths: int) -> str:
    """A number of inches and the fraction a tape measure shows."""
    whole, rest = divmod(eighths, 8)
    part = str(Fraction(rest, 8)) if rest else ""
    return " ".join(filter(None, (str(whole) if whole or not part else "", part)))


def _feet_and_inches(length_nm: int) -> str:
    """A length as it is read from a tape in feet and inches."""
    eighths = round(Fraction(abs(length_nm), _EIGHTH))
    feet, rest = divmod(eighths, _EIGHTHS_A_FOOT)
    parts = (f"{feet}'" if feet else "", f'{_inches(rest)}"' if rest or not feet else "")
    return ("-" if length_nm < 0 and eighths else "") + " ".join(filter(None, parts))


def show_length(length_nm: int, system: System = System.METRIC) -> str:
    """A length along the roll, in metres from one metre on, or in feet and inches."""
    if system is System.US:
        return _feet_and_inches(length_nm)
    if round(Fraction(abs(length_nm), MM), 1) < M // MM:
        return f"{_decimal(Fraction(length_nm, MM), 1)} mm"
    return f"{_decimal(Fraction(length_nm, M), 2)} m"


def _side(width_nm: int, system: System) -> str:
    """A width in millimetres or inches, without the unit."""
    if system is System.US:
        return _inches(round(Fraction(width_nm, _EIGHTH)))
    return _decimal(Fraction(width_nm, MM), 1)


def _side_unit(system: System) -> str:
    """The unit of a width."""
    return "in" if system is System.US else "mm"


def show_width(width_nm: int, system: System = System.METRIC) -> str:
    """A width, diameter or trim: always millimetres or inches."""
    return f"{_side(width_nm, system)} {_side_unit(system)}"


def show_size(across_nm: int, along_nm: int, system: System = System.METRIC) -> str:
    """A size across the roll and along it."""
    sides = f"{_side(across_nm, system)} {_TIMES} {_side(along_nm, system)}"
    return f"{sides} {_side_unit(system)}"


def show_thickness(thickness_nm: int, system: System = System.METRIC) -> str:
    """A thickness of film or of a layer."""
    if system is System.US:
        return f"{_decimal(Fraction(thickness_nm, MIL), 2)} mil"
    return f"{_decimal(Fraction(thickness_nm, UM), 1)} \N{MICRO SIGN}m"


def show_area(area_mm2: int, system: System = System.METRIC) -> str:
    """An area of film."""
    if system is System.US:
        return f"{_decimal(area_mm2 / SQUARE_FOOT_MM2, 1)} sq ft"
    return f"{_decimal(Fraction(area_mm2, 1_000_000), 2)} m\N{SUPERSCRIPT TWO}"


def show_mass(mass_mg: int, system: System = System.METRIC) -> str:
    """A mass, in the smaller unit below one kilogram or one pound."""
    if system is System.US:
        small = abs(mass_mg) < POUND
        return f"{_decimal(mass_mg / (OUNCE if small else POUND), 1)} {'oz' if small else 'lb'}"
    if abs(mass_mg) < KG:
        return f"{_decimal(Fraction(mass_mg, GRAM), 0)} g"
    return f"{_decimal(Fraction(mass_mg, KG), 1)} kg"


def show_temperature(temperature_c: float, system: System = System.METRIC) -> str:
    """A temperature, to the tenth of a degree."""
    if system is System.US:
        return f"{round(temperature_c * 1.8 + 32, 1):g} °F"
    return f"{round(temperature_c, 1):g} °C"
