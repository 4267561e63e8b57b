/** Invented data of the Tern-4, a flat four of 95 by 92 mm. No real maker's figures. */
import type { Fastener, Feature } from "./type-data.ts";

const ALL = "1..4";
const BORE_COLUMNS = ["head.thrust", "head.axial", "mid.thrust", "mid.axial", "skirt.thrust", "skirt.axial"];
const STEM = ["port", "mid", "rocker"];
const PAIR = ["inlet", "exhaust"];
const ENDS = ["front", "rear"];
const AXES = ["vertical", "horizontal"];

function mm(name: string, rows: string, cols: readonly string[] | undefined, fresh: readonly [number | undefined, number], wear: readonly ["min" | "max", number], instrument: string, u: number, ref: string, decimals = 3): Feature {
  return { name, rows, cols, unit: "mm", decimals, fresh, wear, instrument, u, ref };
}

export const TERN_FEATURES: readonly Feature[] = [
  { ...mm("cylinder.bore", ALL, BORE_COLUMNS, [95.0, 95.022], ["max", 95.08], "BG-2", 0.002, "T 3-1"), setOn: "RG-95" },
  mm("cylinder.spigot", ALL, AXES, [100.95, 100.972], ["min", 100.92], "MIC-125", 0.002, "T 3-1"),
  mm("piston.skirt", ALL, ["foot.thrust", "foot.axial", "mid.thrust", "mid.axial"], [94.9, 94.915], ["min", 94.86], "MIC-100", 0.001, "T 3-2"),
  mm("piston.pin-bore", ALL, ["left", "right"], [22.004, 22.014], ["max", 22.028], "BG-1", 0.001, "T 3-2"),
  mm("piston.pin", ALL, ["left", "middle", "right"], [21.99, 22.0], ["min", 21.978], "MIC-25", 0.001, "T 3-2"),
  { name: "piston.weight", rows: ALL, unit: "g", decimals: 1, always: [520, 532], instrument: "SC-1", u: 0.2, ref: "T 3-2" },
  mm("ring.gap", ALL, ["top", "second", "scraper"], [0.3, 0.5], ["max", 0.85], "FG-1", 0.01, "T 3-3", 2),
  mm("ring.side", ALL, ["top", "second", "scraper"], [0.03, 0.09], ["max", 0.14], "FG-1", 0.01, "T 3-3", 2),
  mm("valve.inlet-guide", ALL, STEM, [8.02, 8.035], ["max", 8.06], "BG-0", 0.001, "T 4-1"),
  mm("valve.exhaust-guide", ALL, STEM, [9.02, 9.035], ["max", 9.07], "BG-0", 0.001, "T 4-1"),
  mm("valve.inlet-stem", ALL, STEM, [7.97, 7.982], ["min", 7.95], "MIC-25", 0.001, "T 4-2"),
  mm("valve.exhaust-stem", ALL, STEM, [8.955, 8.967], ["min", 8.93], "MIC-25", 0.001, "T 4-2"),
  mm("valve.inlet-lip", ALL, undefined, [1.6, 2.0], ["min", 1.0], "CAL-1", 0.03, "T 4-2", 2),
  mm("valve.exhaust-lip", ALL, undefined, [2.0, 2.4], ["min", 1.3], "CAL-1", 0.03, "T 4-2", 2),
  mm("valve.seat", ALL, PAIR, [undefined, 0.03], ["max", 0.05], "DI-1", 0.003, "T 4-3"),
  { name: "spring.load", rows: ALL, cols: PAIR, unit: "N", decimals: 0, fresh: [225, 250], wear: ["min", 210], instrument: "ST-1", u: 2, ref: "T 4-4" },
  mm("spring.free", ALL, PAIR, [47.0, 48.0], ["min", 46.0], "CAL-1", 0.03, "T 4-4", 2),
  mm("rocker.bush", ALL, PAIR, [14.0, 14.018], ["max", 14.045], "BG-1", 0.001, "T 4-5"),
  mm("rocker.shaft", ALL, PAIR, [13.97, 13.982], ["min", 13.95], "MIC-25", 0.001, "T 4-5"),
  mm("tappet.body", ALL, PAIR, [18.965, 18.976], ["min", 18.945], "MIC-25", 0.001, "T 5-1"),
  mm("tappet.guide", ALL, PAIR, [19.0, 19.018], ["max", 19.045], "BG-1", 0.001, "T 5-1"),
  mm("rod.pin-bush", ALL, ENDS, [22.01, 22.022], ["max", 22.045], "BG-1", 0.001, "T 5-2"),
  mm("rod.big-end", ALL, AXES, [55.03, 55.048], ["max", 55.075], "BG-2", 0.002, "T 5-2"),
  mm("rod.bend", ALL, undefined, [undefined, 0.03], ["max", 0.05], "DI-1", 0.003, "T 5-2"),
  mm("crank.pin", ALL, AXES, [54.97, 54.985], ["min", 54.945], "MIC-75", 0.001, "T 5-3"),
  mm("crank.journal", "1..3", AXES, [59.97, 59.985], ["min", 59.945], "MIC-75", 0.001, "T 5-3"),
  mm("crank.run-out", "", undefined, [undefined, 0.03], ["max", 0.06], "DI-1", 0.003, "T 5-3"),
  mm("crank.end-float", "", undefined, [0.12, 0.25], ["max", 0.4], "DI-1", 0.003, "T 5-3"),
  mm("case.main-bore", "1..3", AXES, [60.03, 60.048], ["max", 60.075], "BG-2", 0.002, "T 5-4"),
  mm("cam.lobe-lift", "1..4", PAIR, [7.9, 8.0], ["min", 7.8], "DI-1", 0.003, "T 5-5"),
  mm("cam.journal", "1..3", undefined, [27.97, 27.985], ["min", 27.945], "MIC-50", 0.001, "T 5-5"),
  mm("oil-pump.end-float", "", undefined, [0.04, 0.1], ["max", 0.15], "FG-1", 0.01, "T 6-1", 2),
  { ...mm("clearance.valve", ALL, PAIR, [0.12, 0.22], ["max", 0.3], "FG-1", 0.01, "T 7-1", 2), state: "cold", wear: undefined },
  { name: "timing.magneto", rows: "left,right", unit: "deg", decimals: 1, always: [23, 26], instrument: "PRO-1", u: 0.2, ref: "T 7-2" },
];

export const TERN_MORE_LIMITS: readonly string[] = [
  "",
  "# Form, spread and fits, worked out from the readings",
  'limit taper cylinder.bore                                                               wear max 0.035 mm  ref "T 3-1"',
  'limit out-of-round cylinder.bore                                                        wear max 0.030 mm  ref "T 3-1"',
  'limit spread piston.weight                                                              max 5 g            ref "T 3-2"',
  'limit piston.fit[1..4]        = greatest cylinder.bore - greatest piston.skirt           new 0.085..0.122 mm  wear max 0.215 mm  ref "T 3-2"',
  'limit valve.inlet-fit[1..4]   = greatest valve.inlet-guide - least valve.inlet-stem      new 0.038..0.065 mm  wear max 0.100 mm  ref "T 4-1"',
  'limit valve.exhaust-fit[1..4] = greatest valve.exhaust-guide - least valve.exhaust-stem  new 0.053..0.080 mm  wear max 0.125 mm  ref "T 4-1"',
  'limit rod.fit[1..4]           = greatest rod.big-end - least crank.pin                   new 0.045..0.078 mm  wear max 0.120 mm  ref "T 5-2"',
  "",
  "# Running",
  'limit oil.pressure        min 30 psi  max 75 psi    while crank.speed 1400..2750 rpm  ref "T 8-1"',
  'limit oil.pressure        min 12 psi                while crank.speed 500..1000 rpm   ref "T 8-1"',
  'limit oil.temp            max 105 C                                                   ref "T 8-1"',
  'limit cht[1..4]           max 220 C                                                   ref "T 8-1"',
  'limit crank.speed         max 2750 rpm                                                ref "T 8-1"',
  'limit manifold.pressure   max 30.5 inHg                                               ref "T 8-1"',
  'limit fuel.pressure       min 2.0 psi  max 6.0 psi  while crank.speed 500..2750 rpm   ref "T 8-1"',
  'limit fuel.flow           max 45 L/h                                                  ref "T 8-1"',
];

export const TERN_FASTENERS: readonly Fastener[] = [
  { name: "cylinder.nut", rows: ALL, sub: "1..8", low: 40, high: 48, lube: "oiled", locking: "self-locking", instrument: "TW-2", ref: "T 3-4" },
  { name: "intake.flange-nut", rows: ALL, sub: "1..2", low: 9, high: 12, lube: "dry", locking: "tab", instrument: "TW-1", ref: "T 3-4" },
  { name: "exhaust.stub-nut", rows: ALL, sub: "1..2", low: 12, high: 16, lube: 'compound "graphite grease"', locking: "tab", instrument: "TW-1", ref: "T 3-4" },
  { name: "spark-plug.body", rows: ALL, sub: "upper,lower", low: 24, high: 30, lube: 'compound "graphite grease"', instrument: "TW-2", ref: "T 3-4" },
  { name: "rocker.pedestal-nut", rows: ALL, sub: "1..2", low: 18, high: 22, lube: "oiled", locking: "self-locking", instrument: "TW-1", ref: "T 4-5" },
  { name: "rocker.cover-screw", rows: ALL, sub: "1..6", low: 5.5, high: 7.5, lube: "dry", instrument: "TW-1", ref: "T 4-5" },
  { name: "rod.cap-nut", rows: ALL, sub: "1..2", low: 50, high: 58, lube: "oiled", locking: "split-pin", instrument: "TW-2", ref: "T 5-2" },
  { name: "case.main-nut", rows: "1..6", low: 58, high: 68, lube: "oiled", locking: "self-locking", instrument: "TW-2", ref: "T 5-4" },
  { name: "case.seam-nut", rows: "1..14", low: 18, high: 22, lube: "dry", locking: "self-locking", instrument: "TW-1", ref: "T 5-4" },
  { name: "cam.gear-bolt", rows: "1..3", low: 14, high: 18, lube: "oiled", locking: "wire", instrument: "TW-1", ref: "T 5-5" },
  { name: "rear-case.nut", rows: "1..10", low: 10, high: 13, lube: "dry", locking: "self-locking", instrument: "TW-1", ref: "T 5-4" },
  { name: "oil-pump.nut", rows: "1..4", low: 9, high: 12, lube: "dry", locking: "wire", instrument: "TW-1", ref: "T 6-1" },
  { name: "sump.nut", rows: "1..8", low: 8, high: 10, lube: "dry", locking: "wire", instrument: "TW-1", ref: "T 6-1" },
  { name: "sump.plug", rows: "", low: 26, high: 30, lube: "oiled", locking: "wire", instrument: "TW-2", ref: "T 6-1" },
  { name: "strainer.cap", rows: "", low: 28, high: 34, lube: "oiled", locking: "wire", instrument: "TW-2", ref: "T 6-1" },
  { name: "ignition.flange-nut", rows: "left,right", sub: "1..2", low: 11, high: 14, lube: "dry", locking: "tab", instrument: "TW-1", ref: "T 7-2" },
  { name: "carburettor.nut", rows: "1..4", low: 9, high: 11, lube: "dry", locking: "tab", instrument: "TW-1", ref: "T 7-3" },
  { name: "flange.bolt", rows: "1..6", low: 50, high: 58, lube: "dry", locking: "wire", instrument: "TW-2", ref: "T 5-3" },
];
