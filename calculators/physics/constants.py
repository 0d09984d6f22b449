"""Exact and agreed numbers that several topics share, each with the place it comes from."""

# Exact by definition.
GRAVITY = 9.80665  # m/s2, standard acceleration of free fall (3rd CGPM, 1901)
ZERO_CELSIUS = 273.15  # K, definition of the degree Celsius
INCH = 0.0254  # m, international inch (1959)
FOOT = 12 * INCH  # m
GALLON = 231 * INCH**3  # m3, US liquid gallon: 231 cubic inches
MINUTE = 60.0  # s
HOUR = 60 * MINUTE  # s
DAY = 24 * HOUR  # s

# Agreed.
ATMOSPHERE = 101325.0  # Pa, standard atmosphere (10th CGPM, 1954)
INCH_OF_WATER = 249.08891  # Pa, conventional inch of water: 1000 kg/m3 under standard gravity
GAS_DRY_AIR = 287.055  # J/(kg K), gas constant of dry air, US Standard Atmosphere 1976 composition
GAS_VAPOUR = 461.5  # J/(kg K), gas constant of water vapour
