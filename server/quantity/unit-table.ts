import type { Dimension } from "./dimensions.ts";

/**
 * The units that Gudgeon knows by name, each with its factor and where that factor is published.
 *
 * Sources:
 * - SP811: NIST Special Publication 811 (2008), Guide for the Use of the International System of
 *   Units, appendix B. Factors printed there in bold are exact; they are entered here by their
 *   definition, from which the printed digits follow.
 * - HB44: NIST Handbook 44, appendix C (gallon of 231 cubic inches; avoirdupois ounce of 1/16 pound).
 * - SI: the SI Brochure, 9th edition (2019).
 * - PRACTICE: a spelling or counting noun that is common practice and has no published factor.
 *
 * The page of SP811 or HB44 was read for the inch, foot, pound, standard gravity, the units of force,
 * torque and pressure made of them, bar, atmosphere, torr, conventional mercury, the gallons and US
 * measures, horsepower and the temperatures. The other citations (mile, knot, water columns, PS, BTU,
 * stokes, SI prefixes) are from memory. Every factor of either kind is compared with GNU units in the tests.
 *
 * A factor is a product of decimals and quotients (`231*0.0254*0.0254*0.0254`, `5/9`) that turns the
 * unit into the coherent SI unit of its dimension. Four dimensions keep another base so that every
 * factor stays rational: angle (degree), speed of rotation (revolution per minute), calendar (month)
 * and money or counts (one). No radian is offered for that reason.
 */

/** Where a factor is published. */
export type Source = "SP811" | "HB44" | "SI" | "PRACTICE";

/**
 * One unit: its dimension, its spellings with the preferred one first, its factor, the source, and
 * whether the factor is exact (`exact`) or an agreed value for a material such as mercury or water
 * (`conventional`), of which other published values exist.
 */
export type UnitRow = readonly [
  dimension: Dimension,
  spellings: string,
  factor: string,
  source: Source,
  kind?: "conventional",
];

const INCH = "0.0254";
const FOOT = "0.3048";
const POUND = "0.45359237";
const OUNCE = `${POUND}/16`;
const GRAVITY = "9.80665";
const US_GALLON = `231*${INCH}*${INCH}*${INCH}`;
const IMPERIAL_GALLON = "0.00454609";
const MERCURY = `13595.1*${GRAVITY}`;
const WATER = `1000*${GRAVITY}`;

/** Units by dimension; see the head of this file for the sources. */
export const UNIT_ROWS: readonly UnitRow[] = [
  ["length", "mm", "0.001", "SI"],
  ["length", "cm", "0.01", "SI"],
  ["length", "m", "1", "SI"],
  ["length", "km", "1000", "SI"],
  ["length", "dm", "0.1", "SI"],
  ["length", "um µm μm", "0.000001", "SI"],
  ["length", "in inch inches", INCH, "SP811"],
  ["length", "thou mil mils", `0.001*${INCH}`, "SP811"],
  ["length", "uin µin μin", `0.000001*${INCH}`, "SP811"],
  ["length", "ft foot feet", FOOT, "SP811"],
  ["length", "yd", `3*${FOOT}`, "SP811"],
  ["length", "nmi", "1852", "SP811"],
  ["length", "mile miles", `5280*${FOOT}`, "SP811"],

  ["area", "mm2", "0.000001", "SI"],
  ["area", "cm2", "0.0001", "SI"],
  ["area", "m2", "1", "SI"],
  ["area", "in2 sqin sq.in", `${INCH}*${INCH}`, "SP811"],
  ["area", "ft2 sqft sq.ft", `${FOOT}*${FOOT}`, "SP811"],

  ["volume", "L l litre litres liter liters", "0.001", "SI"],
  ["volume", "mL ml", "0.000001", "SI"],
  ["volume", "cL cl", "0.00001", "SI"],
  ["volume", "cm3 cc ccm", "0.000001", "SI"],
  ["volume", "m3", "1", "SI"],
  ["volume", "mm3", "0.000000001", "SI"],
  ["volume", "in3 cuin cu.in", `${INCH}*${INCH}*${INCH}`, "SP811"],
  ["volume", "ft3 cuft cu.ft", `${FOOT}*${FOOT}*${FOOT}`, "SP811"],
  ["volume", "gal usgal USgal", US_GALLON, "HB44"],
  ["volume", "qt usqt USqt", `${US_GALLON}/4`, "HB44"],
  ["volume", "pt uspt USpt", `${US_GALLON}/8`, "HB44"],
  ["volume", "floz fl.oz usfloz", `${US_GALLON}/128`, "HB44"],
  ["volume", "impgal", IMPERIAL_GALLON, "SP811"],
  ["volume", "impqt", `${IMPERIAL_GALLON}/4`, "SP811"],
  ["volume", "imppt", `${IMPERIAL_GALLON}/8`, "SP811"],
  ["volume", "impfloz", `${IMPERIAL_GALLON}/160`, "SP811"],

  ["mass", "kg", "1", "SI"],
  ["mass", "g", "0.001", "SI"],
  ["mass", "mg", "0.000001", "SI"],
  ["mass", "t tonne tonnes", "1000", "SI"],
  ["mass", "lb lbs lbm", POUND, "SP811"],
  ["mass", "oz", OUNCE, "HB44"],

  ["force", "N", "1", "SI"],
  ["force", "kN", "1000", "SI"],
  ["force", "daN", "10", "SI"],
  ["force", "kgf kp", GRAVITY, "SP811"],
  ["force", "gf", `0.001*${GRAVITY}`, "SP811"],
  ["force", "lbf", `${POUND}*${GRAVITY}`, "SP811"],
  ["force", "ozf", `${OUNCE}*${GRAVITY}`, "SP811"],

  ["torque", "N.m Nm N-m", "1", "SI"],
  ["torque", "N.cm Ncm", "0.01", "SI"],
  [
    "torque",
    "lbf.ft ft.lbf ft-lbf lbf-ft lbfft ft.lb ft-lb ftlb ft.lbs ft-lbs lb.ft lb-ft lbft lbs.ft lbs-ft",
    `${POUND}*${GRAVITY}*${FOOT}`,
    "SP811",
  ],
  [
    "torque",
    "lbf.in in.lbf in-lbf lbf-in lbfin in.lb in-lb inlb in.lbs in-lbs lb.in lb-in lbin lbs.in lbs-in",
    `${POUND}*${GRAVITY}*${INCH}`,
    "SP811",
  ],
  ["torque", "ozf.in in.ozf in-ozf ozf-in", `${OUNCE}*${GRAVITY}*${INCH}`, "SP811"],
  ["torque", "kgf.m m.kgf kgfm kp.m kpm mkp", GRAVITY, "SP811"],
  ["torque", "kgf.cm cm.kgf kgfcm kp.cm", `0.01*${GRAVITY}`, "SP811"],

  ["pressure", "kPa", "1000", "SI"],
  ["pressure", "psi lb/in2 lbf/in2 PSI", `${POUND}*${GRAVITY}/${INCH}/${INCH}`, "SP811"],
  ["pressure", "bar", "100000", "SP811"],
  ["pressure", "hPa", "100", "SI"],
  ["pressure", "mbar mb", "100", "SP811"],
  ["pressure", "Pa", "1", "SI"],
  ["pressure", "MPa", "1000000", "SI"],
  ["pressure", "inHg in.Hg", `${INCH}*${MERCURY}`, "SP811", "conventional"],
  ["pressure", "mmHg mm.Hg", `0.001*${MERCURY}`, "SP811", "conventional"],
  ["pressure", "cmHg cm.Hg", `0.01*${MERCURY}`, "SP811", "conventional"],
  ["pressure", "inH2O", `${INCH}*${WATER}`, "SP811", "conventional"],
  ["pressure", "mmH2O", `0.001*${WATER}`, "SP811", "conventional"],
  ["pressure", "torr Torr", "101325/760", "SP811"],
  ["pressure", "atm", "101325", "SP811"],
  // A mass over an area measures nothing in these records, so both spellings can only mean the pressure.
  ["pressure", "kgf/cm2 kg/cm2 kp/cm2", `10000*${GRAVITY}`, "SP811"],
  ["pressure", "kgf/mm2 kg/mm2 kp/mm2", `1000000*${GRAVITY}`, "SP811"],

  ["temperature-difference", "dC dK", "1", "SP811"],
  ["temperature-difference", "dF", "5/9", "SP811"],

  ["speed", "rpm RPM 1/min r/min rev/min", "1", "SP811"],

  ["velocity", "m/s", "1", "SI"],
  ["velocity", "km/h", "1000/3600", "SI"],
  ["velocity", "kt kts", "1852/3600", "SP811"],
  ["velocity", "mph", `5280*${FOOT}/3600`, "SP811"],
  ["velocity", "in/s ips", INCH, "SP811"],

  ["time", "h hr hrs hour hours", "3600", "SI"],
  ["time", "min", "60", "SI"],
  ["time", "s sec", "1", "SI"],
  ["time", "ms", "0.001", "SI"],
  ["time", "days day d", "86400", "SI"],
  ["time", "weeks week", "604800", "PRACTICE"],
  ["calendar", "months month", "1", "PRACTICE"],
  ["calendar", "years year yr", "12", "PRACTICE"],

  ["power", "kW", "1000", "SI"],
  ["power", "W", "1", "SI"],
  ["power", "mW", "0.001", "SI"],
  ["power", "uW µW", "0.000001", "SI"],
  ["power", "hp bhp shp BHP", `550*${POUND}*${GRAVITY}*${FOOT}`, "SP811"],
  ["power", "PS cv", `75*${GRAVITY}`, "SP811"],

  ["energy", "kJ", "1000", "SI"],
  ["energy", "J", "1", "SI"],
  ["energy", "MJ", "1000000", "SI"],
  ["energy", "kW.h kWh", "3600000", "SP811"],
  ["energy", "BTU Btu", "1055.05585262", "SP811"],

  ["angle", "deg ° degrees degree", "1", "SI"],
  ["angle", "arcmin '", "1/60", "SI"],

  ["ratio", "% percent", "0.01", "SI"],
  ["ratio", "ppm", "0.000001", "SI"],

  ["current", "A", "1", "SI"],
  ["current", "mA", "0.001", "SI"],
  ["current", "uA µA", "0.000001", "SI"],
  ["current", "kA", "1000", "SI"],
  ["voltage", "V", "1", "SI"],
  ["voltage", "mV", "0.001", "SI"],
  ["voltage", "kV", "1000", "SI"],
  ["resistance", "ohm ohms \u03a9 \u2126", "1", "SI"],
  ["resistance", "mohm", "0.001", "SI"],
  ["resistance", "kohm", "1000", "SI"],
  ["resistance", "Mohm", "1000000", "SI"],
  ["capacitance", "uF µF", "0.000001", "SI"],
  ["capacitance", "nF", "0.000000001", "SI"],
  ["capacitance", "pF", "0.000000000001", "SI"],

  ["kinematic-viscosity", "cSt mm2/s", "0.000001", "SP811"],
  ["illuminance", "lx lux", "1", "SI"],

  ["count:cycles", "cycles cycle", "1", "PRACTICE"],
  ["count:landings", "landings landing", "1", "PRACTICE"],
  ["count:starts", "starts start", "1", "PRACTICE"],
  ["count:flights", "flights flight", "1", "PRACTICE"],
  ["count:turns", "turns turn", "1", "PRACTICE"],
  ["count:strokes", "strokes stroke", "1", "PRACTICE"],
  ["count:drops", "drops drop", "1", "PRACTICE"],
  // Hardness numbers of different scales do not convert into each other by a factor.
  ["hardness:HRC", "HRC", "1", "PRACTICE"],
  ["hardness:HRB", "HRB", "1", "PRACTICE"],
  ["hardness:HBW", "HBW HB", "1", "PRACTICE"],
  ["hardness:HV", "HV", "1", "PRACTICE"],
];

/** A temperature scale: spellings, size of its degree in kelvins, and what 0 of it is in kelvins. */
export type ScaleRow = readonly [spellings: string, factor: string, offset_K: string];

/** Temperature scales. Source: NIST SP 811 (2008) B.8 and B.9, all exact. */
export const SCALE_ROWS: readonly ScaleRow[] = [
  ["C °C degC", "1", "273.15"],
  ["F °F degF", "5/9", "459.67*5/9"],
  ["K", "1", "0"],
];

/** Compound units that are worked out from the rows above and are offered by name in completion. */
export const USUAL_COMPOUNDS: readonly string[] = [
  "L/h",
  "gal/h",
  "qt/h",
  "impgal/h",
  "L/min",
  "mL/min",
  "cm3/min",
  "kg/h",
  "lb/h",
  "g/kW.h",
  "lb/hp.h",
  "g.mm",
  "oz.in",
  "kg/m3",
  "g/cm3",
  "lb/gal",
  "um/m.K",
  "C/min",
  "F/min",
  "dC/min",
  "m/s2",
  "N/mm",
  "lbf/in",
  "uW/cm2",
  "A.h",
  "rpm/s",
  "drops/min",
  "um/m",
];

/**
 * Three capital letters that look like money but are a unit in capitals or a trade abbreviation; they
 * are left unknown so that the nearest unit is offered instead of a currency that nobody meant.
 */
export const NOT_MONEY: ReadonlySet<string> = new Set([
  "KPA",
  "MPA",
  "HPA",
  "BAR",
  "ATM",
  "HRS",
  "MIN",
  "SEC",
  "LBF",
  "KGF",
  "LBS",
  "MIL",
  "KTS",
  "MPH",
  "KMH",
  "KPH",
  "GPH",
  "LPH",
  "LPM",
  "GPM",
  "CFM",
  "PPH",
  "PPM",
  "QTS",
  "GAL",
  "DEG",
  "OHM",
  "AMP",
  "CHT",
  "EGT",
  "TSN",
  "TSO",
  "OAT",
  "MAP",
  "KWH",
  "IPS",
  "NMI",
]);
