"""Tables for patents: first numbers of the years, country codes, kind codes."""

# First US patent number of each year: USPTO, "Issue years and patent numbers", as seen
# in published copies for 1836-1903, 1920-1935 and 1960-1975. One published copy prints
# 1,106 for 1839; 1,061 keeps the order with 1838 and 1840 and with the other copies.
# fmt: off
_FIRST_NUMBERS = (
    1, 110, 546, 1_061, 1_465, 1_923, 2_413, 2_901, 3_395, 3_873, 4_348, 4_914, 5_409, 5_993,
    6_981, 7_865, 8_622, 9_512, 10_358, 12_117, 14_009, 16_324, 19_010, 22_477, 26_642, 31_005,
    34_045, 37_266, 41_047, 45_685, 51_784, 60_658, 72_959, 85_503, 98_460, 110_617, 122_304,
    134_504, 146_120, 158_350, 171_641, 185_813, 198_733, 211_078, 223_211, 236_137, 251_685,
    269_820, 291_016, 310_163, 333_494, 355_291, 375_720, 395_305, 418_665, 443_987, 466_315,
    488_976, 511_744, 531_619, 552_502, 574_369, 596_467, 616_871, 640_167, 664_827, 690_385,
    717_521, 748_567, 778_834, 808_618, 839_799, 875_679, 908_436, 945_010, 980_178, 1_013_095,
    1_049_326, 1_083_267, 1_123_212, 1_166_419, 1_210_389, 1_251_458, 1_290_027, 1_326_899,
    1_364_063, 1_401_948, 1_440_362, 1_478_996, 1_521_590, 1_568_040, 1_612_700, 1_654_521,
    1_696_897, 1_742_181, 1_787_424, 1_839_190, 1_892_663, 1_941_449, 1_985_878, 2_026_516,
    2_066_309, 2_104_004, 2_142_080, 2_185_170, 2_227_418, 2_268_540, 2_307_007, 2_338_081,
    2_366_154, 2_391_856, 2_413_675, 2_433_824, 2_457_797, 2_492_944, 2_536_016, 2_580_379,
    2_624_046, 2_664_562, 2_698_434, 2_728_913, 2_775_762, 2_818_567, 2_866_973, 2_919_443,
    2_966_681, 3_015_103, 3_070_801, 3_116_487, 3_163_865, 3_226_729, 3_295_143, 3_360_800,
    3_419_907, 3_487_470, 3_551_909, 3_631_539, 3_707_729, 3_781_914, 3_858_241,
)
# fmt: on
FIRST_YEAR = 1836
FIRST_NUMBER = dict(enumerate(_FIRST_NUMBERS, start=FIRST_YEAR))

# These years were written down from memory and wait for a printed copy.
FROM_MEMORY = frozenset(range(1904, 1920)) | frozenset(range(1936, 1960))

# WIPO Standard ST.3, annex A (from memory), as far as railway patents are likely to
# need it; DD, SU, YU and CS name states that are gone and stay valid for their documents.
COUNTRIES = {
    "AR": "Argentina",
    "AT": "Austria",
    "AU": "Australia",
    "BE": "Belgium",
    "BR": "Brazil",
    "CA": "Canada",
    "CH": "Switzerland",
    "CL": "Chile",
    "CN": "China",
    "CS": "Czechoslovakia",
    "CZ": "Czechia",
    "DD": "German Democratic Republic",
    "DE": "Germany",
    "DK": "Denmark",
    "EP": "European Patent Office",
    "ES": "Spain",
    "FI": "Finland",
    "FR": "France",
    "GB": "United Kingdom",
    "GR": "Greece",
    "HU": "Hungary",
    "IE": "Ireland",
    "IN": "India",
    "IT": "Italy",
    "JP": "Japan",
    "LU": "Luxembourg",
    "MX": "Mexico",
    "NL": "Netherlands",
    "NO": "Norway",
    "NZ": "New Zealand",
    "PL": "Poland",
    "PT": "Portugal",
    "RO": "Romania",
    "RU": "Russia",
    "SE": "Sweden",
    "SU": "Soviet Union",
    "TR": "Türkiye",
    "US": "United States of America",
    "WO": "World Intellectual Property Organization (international application)",
    "XN": "Nordic Patent Institute",
    "XU": "International Union for the Protection of New Varieties of Plants",
    "XV": "Visegrad Patent Institute",
    "XX": "unknown or unspecified",
    "YU": "Yugoslavia",
    "ZA": "South Africa",
}

# WIPO Standard ST.16: what the letter means when the office gives it no other meaning
# (from memory).
KIND_LETTERS = {
    "A": "patent, first publication",
    "B": "patent, second publication",
    "C": "patent, third publication",
    "E": "reissue",
    "F": "certificate of addition",
    "H": "statutory invention registration",
    "P": "plant patent",
    "S": "design patent",
    "T": "translation",
    "U": "utility model, first publication",
    "Y": "utility model, second publication",
}

# The United States before and from 2 January 2001 (USPTO's use of ST.16).
US_KINDS_BEFORE_2001 = {
    "A": "patent",
    "B1": "reexamination certificate, first",
    "B2": "reexamination certificate, second",
    "E": "reissue patent",
    "H": "statutory invention registration",
    "P": "plant patent",
    "S": "design patent",
}
US_KINDS_FROM_2001 = {
    "A1": "application as published",
    "A2": "application as published again",
    "A9": "application as published, corrected",
    "B1": "patent, application not published before",
    "B2": "patent, application published before",
    "C1": "reexamination certificate, first",
    "C2": "reexamination certificate, second",
    "E1": "reissue patent",
    "H1": "statutory invention registration",
    "P1": "plant patent application as published",
    "P2": "plant patent, application not published before",
    "P3": "plant patent, application published before",
    "S1": "design patent",
}
