"""The circuit behind the wall: what it may carry for hours."""


def circuit_limit_w(mains_v: float, breaker_a: float) -> float:
    """What a load of three hours and more may draw from a circuit, W: 80 % of the breaker, since continuous load counts
    at 125 % (NEC 210.19(A) and 210.20(A), second-hand; local codes decide).

    >>> circuit_limit_w(120.0, 15.0), circuit_limit_w(120.0, 20.0)
    (1440.0, 1920.0)
    """
    return mains_v * breaker_a * 0.8
