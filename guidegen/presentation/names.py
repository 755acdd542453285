"""The words that readers see for the short names in records."""

from guidegen.records import InstrumentQuantity

RAILS = {"12v": "12 V", "5v": "5 V", "3v3": "3.3 V", "5vsb": "5 V standby", "minus_12v": "−12 V"}
BADGES = {
    "none": "no", "white": "White", "bronze": "Bronze", "silver": "Silver", "gold": "Gold", "platinum": "Platinum",
    "titanium": "Titanium",
}
MAINS_CLASSES = {
    "115v_internal": "115 V", "230v_eu_internal": "230 V EU", "230v_redundant": "230 V redundant",
}
OUTCOMES = {
    "pass": "pass", "conditional_pass": "pass, within the doubt", "conditional_fail": "fail, within the doubt",
    "fail": "fail", "inconclusive": "undecided", "not_tested": "not tested",
}
PROTECTION_OUTCOMES = {**OUTCOMES, "conditional_fail": "acted, outside our band"}
"""Of a protection: no doubt of a reading is meant where it acts elsewhere than it should."""
GATE_OUTCOMES = {"pass": "pass", "inconclusive": "undecided", "not_tested": "not tested", "fail": "fail"}
STANDARDS = {"atx12v_2.4": "ATX12V 2.4", "atx_2.52": "ATX 2.52", "atx_3.0": "ATX 3.0", "atx_3.1": "ATX 3.1"}
STANDINGS = {
    "seen": "read in the document", "second_hand": "read in a second text that restates the document",
    "from_memory": "quoted from memory, decides nothing", "house_rule": "the lab's own rule",
    "computed": "our own calculation",
}
READINGS: dict[InstrumentQuantity, tuple[str, str]] = {
    "input_power_w": ("input power", "W"), "delivered_power_w": ("delivered power", "W"), "power_factor": ("power factor", ""),
    "voltage_v": ("voltage", "V"), "current_a": ("current", "A"), "ripple_mv": ("ripple", "mV"), "noise_dba": ("noise", "dB(A)"),
    "time_ms": ("time", "ms"), "temperature_c": ("temperature", "°C"), "fan_rpm": ("fan speed", "rpm"),
    "standby_power_w": ("standby power", "W"), "inrush_a": ("inrush current", "A"),
}
"""What an instrument reads, and the unit of its doubt."""
CONNECTORS = {
    "main_24": "24-pin main", "cpu_8": "8-pin processor (4+4)", "cpu_4": "4-pin processor",
    "pcie_8": "8-pin graphics (6+2)", "pcie_6": "6-pin graphics", "pcie_16_12v_2x6": "16-pin graphics (12V-2x6)",
    "pcie_16_12vhpwr": "16-pin graphics (12VHPWR)", "sata": "Drive (SATA)", "peripheral_4": "4-pin peripheral",
}
PRIMARIES = {
    "half_bridge_llc": "half-bridge LLC", "full_bridge_llc": "full-bridge LLC",
    "active_clamp_forward": "active-clamp forward", "double_forward": "double forward",
}
SECONDARIES = {
    "synchronous_dc_dc": "synchronous rectification, DC-DC for the minor rails",
    "synchronous_group": "synchronous rectification, rails regulated as a group",
    "passive_group": "diodes, rails regulated as a group",
}
INRUSH_LIMITERS = {"ntc_relay": "thermistor, bypassed by a relay", "ntc": "thermistor", "none": "none"}
MAKER_CLASSES = {"first_line": "first line", "second_line": "second line", "unnamed": "no name"}
BEARINGS = {"fluid_dynamic": "fluid dynamic", "rifle": "rifle", "sleeve": "sleeve", "double_ball": "double ball"}
OBTAINED = {"bought": "bought", "loaned": "on loan", "given": "given by the maker"}
STOCKS = {
    "in_stock": "in stock", "few_left": "few left", "out_of_stock": "out of stock", "hard_to_find": "hard to find",
    "no_price": "no price seen",
}
SHOP_KINDS = {"shop": "shop", "maker": "the maker's own shop", "marketplace": "marketplace"}
PROTECTIONS = {
    "ocp": "over current", "opp": "over power", "ovp": "over voltage", "uvp": "under voltage", "scp": "short circuit",
    "otp": "over temperature", "surge": "surge", "no_load": "no load",
}


def lower_first(text: str) -> str:
    """The text with a small first letter, unless it begins with an abbreviation.

    >>> lower_first("Over power"), lower_first("ATX timing")
    ('over power', 'ATX timing')
    """
    return text if text[1:2].isupper() or not text[1:2].isalpha() else text[:1].lower() + text[1:]
