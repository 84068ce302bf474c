#!/usr/bin/env python3
"""Write gnuunits.csv: every unit of the package, converted by GNU units.

Run as: python3 gnuunits.py > gnuunits.csv   (Debian package "units")

A row names the kind and the symbol as the package writes it, then the same
unit in the language of GNU units and the SI base unit to convert to. For the
points on a shifted scale there are rows at several readings.
"""
import subprocess

BTU = "btu_IT"
DF = "degF"  # a difference, in GNU units; tempF() is the point
ROWS = {
    "pressure": ("Pa", {
        "psi": "psi", "bar": "bar", "kPa": "kPa", "Pa": "Pa", "MPa": "MPa", "GPa": "GPa", "mbar": "mbar",
        "inHg": "inHg", "inH2O": "inch H2O", "ftH2O": "foot H2O", "mH2O": "meter H2O",
        # Not here: the columns of liquid at a stated temperature, which are
        # figures that NIST SP 811 rounds.
    }),
    "absolute-pressure": ("Pa", {
        "psia": "psi", "bar abs": "bar", "kPa abs": "kPa", "Pa abs": "Pa", "MPa abs": "MPa",
        "hPa abs": "hPa", "inHg abs": "inHg", "atm": "atm",
    }),
    "volume-flow": ("m^3/s", {
        "gpm": "gal/min", "L/min": "liter/min", "cfm": "ft^3/min", "m³/h": "m^3/hour", "L/s": "liter/s",
        "m³/s": "m^3/s", "imp gpm": "brgallon/min",
    }),
    "mass-flow": ("kg/s", {
        "lb/h": "lb/hour", "lb/min": "lb/min", "lb/s": "lb/s", "kg/h": "kg/hour", "kg/min": "kg/min",
        "kg/s": "kg/s", "g/s": "g/s",
    }),
    "fuel-rate": ("m^3/s", {"gph": "gal/hour", "L/h": "liter/hour", "m³/s": "m^3/s"}),
    "length": ("m", {
        "ft": "ft", "in": "in", "m": "m", "mm": "mm", "µm": "micron", "cm": "cm", "km": "km", "mi": "mile",
    }),
    "area": ("m^2", {
        "ft²": "ft^2", "in²": "in^2", "m²": "m^2", "mm²": "mm^2", "cm²": "cm^2",
        "cmil": "circularmil", "kcmil": "1000 circularmil",
    }),
    "volume": ("m^3", {
        "gal": "gal", "fl oz": "floz", "qt": "quart", "L": "liter", "mL": "ml", "m³": "m^3", "ft³": "ft^3",
        "in³": "in^3", "imp gal": "brgallon",
    }),
    "mass": ("kg", {"lb": "lb", "kg": "kg", "g": "g", "oz": "oz"}),
    "mass-per-length": ("kg/m", {"lb/ft": "lb/ft", "kg/m": "kg/m"}),
    "density": ("kg/m^3", {"lb/gal": "lb/gal", "lb/ft³": "lb/ft^3", "kg/m³": "kg/m^3", "kg/L": "kg/liter"}),
    "dynamic-viscosity": ("Pa s", {"cP": "centipoise", "Pa·s": "Pa s", "lb/(ft·s)": "lb/ft s"}),
    "kinematic-viscosity": ("m^2/s", {"cSt": "centistokes", "m²/s": "m^2/s", "ft²/s": "ft^2/s"}),
    "force": ("N", {"lbf": "lbf", "N": "N", "kN": "kN", "kgf": "kgf"}),
    "moment": ("N m", {"ft·lbf": "ft lbf", "in·lbf": "in lbf", "N·m": "N m", "kN·m": "kN m"}),
    "power": ("W", {
        "hp": "hp", "kW": "kW", "W": "W", "BTU/h": BTU + "/hour", "hp(metric)": "metrichorsepower",
        "hp(electric)": "electrichorsepower", "hp(boiler)": "boilerhorsepower",
    }),
    "apparent-power": ("V A", {"VA": "V A", "kVA": "kV A"}),
    "energy": ("J", {"BTU": BTU, "kWh": "kWh", "Wh": "Wh", "MJ": "MJ", "kJ": "kJ", "J": "J"}),
    "heating-value-by-volume": ("J/m^3", {
        "BTU/gal": BTU + "/gal", "BTU/ft³": BTU + "/ft^3", "MJ/L": "MJ/liter", "MJ/m³": "MJ/m^3", "J/m³": "J/m^3",
    }),
    "heating-value-by-mass": ("J/kg", {
        "BTU/lb": BTU + "/lb", "MJ/kg": "MJ/kg", "kJ/kg": "kJ/kg", "J/kg": "J/kg", "kWh/kg": "kWh/kg",
    }),
    "specific-enthalpy": ("J/kg", {"BTU/lb": BTU + "/lb", "kJ/kg": "kJ/kg", "J/kg": "J/kg"}),
    "specific-heat": ("J/kg K", {
        "BTU/(lb·°F)": BTU + "/lb " + DF, "kJ/(kg·K)": "kJ/kg K", "J/(kg·K)": "J/kg K",
    }),
    "specific-fuel-consumption": ("kg/J", {"lb/(hp·h)": "lb/hp hour", "g/kWh": "g/kWh", "kg/J": "kg/J"}),
    "temperature-difference": ("K", {"°F": DF, "K": "K"}),
    "velocity": ("m/s", {"ft/s": "ft/s", "ft/min": "ft/min", "mph": "mph", "m/s": "m/s", "km/h": "km/hour"}),
    "rotational-speed": ("radian/s", {"rpm": "rev/min", "rad/s": "radian/s", "r/s": "rev/s"}),
    "frequency": ("Hz", {"Hz": "Hz", "kHz": "kHz"}),
    "voltage": ("V", {"V": "V", "mV": "mV", "kV": "kV"}),
    "current": ("A", {"A": "A", "mA": "mA"}),
    "resistance": ("ohm", {"Ω": "ohm", "mΩ": "milliohm", "kΩ": "kiloohm"}),
    "resistance-per-length": ("ohm/m", {"Ω/kft": "ohm/1000 ft", "Ω/km": "ohm/km", "Ω/m": "ohm/m"}),
    "charge": ("C", {"A·h": "A hour", "C": "C"}),
    "angle": ("radian", {"°": "degree", "rad": "radian"}),
    "duration": ("s", {"h": "hour", "min": "min", "s": "s", "ms": "ms", "d": "day"}),
    "acceleration": ("m/s^2", {"ft/s²": "ft/s^2", "m/s²": "m/s^2", "g": "gravity"}),
    "thermal-conductance": ("W/K", {"BTU/(h·°F)": BTU + "/hour " + DF, "W/K": "W/K"}),
    "thermal-conductivity": ("W/m K", {
        "BTU/(h·ft·°F)": BTU + "/hour ft " + DF, "BTU·in/(h·ft²·°F)": BTU + " in/hour ft^2 " + DF,
        "W/(m·K)": "W/m K",
    }),
    "heat-transfer-coefficient": ("W/m^2 K", {
        "BTU/(h·ft²·°F)": BTU + "/hour ft^2 " + DF, "W/(m²·K)": "W/m^2 K",
    }),
    "surface-tension": ("N/m", {"lbf/ft": "lbf/ft", "mN/m": "mN/m", "N/m": "N/m"}),
    "ratio": ("1", {"%": "percent", "": "1"}),
    "nozzle-number": ("1", {"": "1"}),
    "elevation": ("m", {"ft": "ft", "m": "m", "km": "km"}),
    "position": ("m", {"in": "in", "ft": "ft", "m": "m", "mm": "mm", "cm": "cm"}),
}
POINTS = {"°F": "tempF", "°C": "tempC", "K": "tempK"}
READINGS = [-40, 0, 32, 68, 180, 212, 1000]


def convert(have, want):
    out = subprocess.run(["units", "-t", "-o", "%.17g", have, want], capture_output=True, text=True, check=True)
    return repr(float(out.stdout.strip()))


version = subprocess.run(["units", "--version"], capture_output=True, text=True, check=True).stdout.splitlines()[0]
print(f"# source: {version} and its standard definitions, run 2026-11-25 by gnuunits.py; status: computed")
print("kind,symbol,reading,gnu units,SI base,value")
for kind, (base, rows) in ROWS.items():
    for symbol, have in rows.items():
        print(",".join([kind, symbol, "1", have, base, convert("1 " + have, base)]))
for symbol, function in POINTS.items():
    for n in READINGS:
        if symbol == "K" and n <= 0:
            continue
        have = f"{function}({n})"
        print(",".join(["temperature", symbol, str(n), have, "K", convert(have, "K")]))
