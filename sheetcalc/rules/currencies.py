"""Codes and symbols of currencies."""

from typing import Final

_MONEY: Final = """
    AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP
    BYN BZD CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP
    GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR
    KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK
    MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR
    SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS
    UAH UGX USD UYU UZS VED VES VND VUV WST XAF XCD XCG XOF XPF YER ZAR ZMW ZWG
"""

CODES: Final = frozenset(_MONEY.split())
"""Codes of money that is paid with: no metals, funds, units of account and test codes.

ISO 4217, as listed in the iso-codes data set (read second-hand); XCG and ZWG from memory, not
verified.
"""

OF_SYMBOL: Final = {
    "€": ("EUR",),
    "£": ("GBP", "EGP", "FKP", "GIP", "SHP"),
    "$": (
        "USD", "CAD", "AUD", "NZD", "SGD", "HKD", "TWD", "MXN", "ARS", "CLP", "COP", "CUP", "DOP",
        "UYU", "BBD", "BMD", "BND", "BSD", "BZD", "FJD", "GYD", "JMD", "KYD", "LRD", "NAD", "SBD",
        "SRD", "TTD", "XCD",
    ),
    "¥": ("JPY", "CNY"),
    "₹": ("INR",),
    "₺": ("TRY",),
    "₽": ("RUB",),
    "₩": ("KRW", "KPW"),
    "₪": ("ILS",),
    "₫": ("VND",),
    "₱": ("PHP", "CUP"),
    "₴": ("UAH",),
    "฿": ("THB",),
    "₦": ("NGN",),
}  # fmt: skip
"""Symbol -> the currencies that it may stand for; common practice, no source."""
