/** Sheet 3 of the main story: every place measured, what was found, and what was done about it. */
import { CURLEW_FEATURES } from "./curlew-9.ts";
import { members, seeded } from "./text.ts";
import { type Feature, freshReading, type Readings, readAll, readingLines } from "./type-data.ts";
import type { SampleFolder } from "./write.ts";

export function feature(name: string): Feature {
  const found = CURLEW_FEATURES.find((each) => each.name === name);
  if (!found) throw new Error(`no feature ${name}`);
  return found;
}

const random = seeded(412);

/** Barrels wear most near the top of the rings' travel and across the thrust axis. */
function boreReadings(worn: ReadonlySet<string>): Readings {
  const readings: Readings = new Map();
  for (let cylinder = 1; cylinder <= 9; cylinder++) {
    const base = 98.0155 + random() * 0.011 + (worn.has(String(cylinder)) ? 0.044 : 0);
    const levels = [0.008, 0.0125, 0.005, 0.0005].flatMap((level) => [level + 0.0045, level]);
    readings.set(
      String(cylinder),
      levels.map((level) => base + level + (random() - 0.5) * 0.0025),
    );
  }
  return readings;
}

/** What was read at inspection, so that a part that is measured again without work on it reads the same to a thousandth. */
const asFound = new Map<string, Readings>();

function one(name: string, change?: (readings: Readings) => void): string[] {
  const readings = readAll(feature(name), random, "worn");
  change?.(readings);
  asFound.set(name, readings);
  return readingLines(feature(name), readings);
}

/** Sets one cell, by row and column. */
function set(row: string, column: number, value: number): (readings: Readings) => void {
  return (readings) => {
    const cells = readings.get(row);
    if (cells) cells[column] = value;
  };
}

/** The reading lines of some rows only, new parts: what is measured again after a repair. */
export function renewed(
  name: string,
  rows: readonly string[],
  options: { size?: string; shift?: number } = {},
): string[] {
  const f = feature(name);
  const readings: Readings = new Map(
    rows.map((row) => [row, (f.cols ?? [""]).map(() => freshReading(f, random) + (options.shift ?? 0))]),
  );
  return readingLines(f, readings, options.size ? { size: options.size } : {});
}

/** The readings of the part that stood at `from`, measured again where it stands now. */
function again(name: string, from: string, to: string): string[] {
  const f = feature(name);
  const step = 10 ** -f.decimals;
  const cells = (asFound.get(name)?.get(from) ?? []).map(
    (value, i) => Number(value.toFixed(f.decimals)) + (i % 2 === 1 ? step : 0),
  );
  return readingLines(f, new Map([[to, cells]]));
}

export function inspectStage(folder: SampleFolder): void {
  const skirts = readAll(feature("piston.skirt"), random, "worn");
  // The figure that was written down with its digits crossed: 97.873 was meant.
  skirts.set("4", [97.871, 97.87, 97.837, 97.872]);
  asFound.set("piston.skirt", skirts);
  const lines = [
    "# Job J26-014, sheet 3: inspection and repair. Gauges and parts lay together over night, shop at 20 C.",
    'entry E6 2026-02-23 inspect "Barrels" job J26-014',
    ...members("air 20 C"),
    ...readingLines(feature("cylinder.bore"), boreReadings(new Set(["3"]))),
    ...members("note No. 3 is scuffed above the second ring land, thrust side, and worn beyond limits with it"),
    ...one("cylinder.spigot"),
    ...one("cylinder.flange"),
    ...members(
      'defect D2 cylinder.bore[3] "Scuffed and worn beyond the limit at the head end"',
      folder.photo("barrel-3.png", "Scuffing in barrel 3, thrust side", "crack"),
      'check fins ok "All barrels, no fin cracked or cut"',
      "labour RPE 1 h inspect",
      "labour ATH 6 h inspect",
      "sign fitter ATH 2026-02-23",
      "sign inspector RPE 2026-02-24",
    ),
    "",
    'entry E7 2026-02-24 inspect "Pistons and pins" job J26-014',
    ...members("air 20 C"),
    ...readingLines(feature("piston.skirt"), skirts),
    ...one("piston.pin-bore"),
    ...one("piston.pin"),
    ...one("piston.groove"),
    ...one("piston.weight", (readings) => {
      // Weighed as a set at the last overhaul: within a few grams of each other.
      for (const [row, cells] of readings)
        readings.set(
          row,
          cells.map((_, i) => 617.4 + ((Number(row) * 7 + i) % 5) * 0.6),
        );
    }),
    ...members(
      "crack-test piston[1..4,6..9] dye ok",
      'crack-test piston[5] dye fault "Line at the pin boss, inlet side"',
      'defect D1 piston[5] "Cracked at the pin boss, 7 mm by dye"',
      folder.photo("piston-5.png", "Dye line at the pin boss of piston 5", "piston"),
      'consumable "Dye developer" batch DV-61 expires 2026-11-30',
      "labour ATH 6.5 h inspect",
      "sign fitter ATH 2026-02-24",
      "sign inspector RPE 2026-02-25",
    ),
    "",
    'entry E8 2026-02-25 inspect "Valves, guides, seats, springs" job J26-014',
    ...members("air 20 C"),
    ...one("inlet-guide.bore"),
    ...one("exhaust-guide.bore", (readings) => readings.set("6", [11.172, 11.161, 11.166])),
    ...one("inlet-valve.stem"),
    ...one("exhaust-valve.stem"),
    ...one("inlet-valve.lip"),
    ...one("exhaust-valve.lip", set("2", 0, 1.38)),
    ...one("inlet-seat.run-out"),
    ...one("exhaust-seat.run-out"),
    ...one("valve.tip-height"),
    ...one("outer-spring.load", set("8", 1, 236)),
    ...one("inner-spring.load"),
    ...one("outer-spring.free"),
    ...one("inner-spring.free"),
    ...members(
      'defect D3 exhaust-guide[6] "Bell-mouthed, over the wear limit at both ends"',
      'defect D4 exhaust-valve[2] "Edge burnt thin, 0.12 mm below the limit"',
      'defect D5 outer-spring[8/exhaust] "Weak, 9 N below the limit"',
      "crack-test inlet-valve[1..9] dye ok",
      "crack-test exhaust-valve[1..9] dye ok",
      "crack-test head[1..9] dye ok",
      "labour JWB 8 h inspect",
      "labour RPE 1.5 h inspect",
      "sign fitter JWB 2026-02-25",
      "sign inspector RPE 2026-02-26",
    ),
    "",
    'entry E9 2026-02-26 inspect "Rockers, push rods, tappets" job J26-014',
    ...members("air 20 C"),
    ...one("rocker.bush", (readings) => readings.set("7", [15.022, 15.019])),
    ...one("rocker.shaft", (readings) => {
      // The set is well worn; one shaft stands right at its limit.
      for (const [row, cells] of Object.entries({
        "2": [14.96, 14.958],
        "3": [14.957, 14.962],
        "5": [14.959, 14.956],
        "7": [14.957, 14.95],
        "8": [14.963, 14.957],
      }))
        readings.set(row, cells);
    }),
    ...one("rocker.float"),
    ...one("pushrod.run-out"),
    ...one("tappet.body"),
    ...one("tappet.guide"),
    ...one("tappet.roller-float"),
    ...members("labour JWB 6 h inspect", "sign fitter JWB 2026-02-26", "sign inspector RPE 2026-02-27"),
    "",
    'entry E10 2026-02-27 inspect "Rods and crankshaft" job J26-014',
    ...members("air 20 C"),
    ...one("rod.pin-bush", (readings) => readings.set("7", [24.043, 24.051])),
    ...one("rod.knuckle-bush"),
    ...one("rod.knuckle-pin"),
    ...one("rod.float"),
    ...one("rod.bend"),
    ...one("rod.twist"),
    ...one("rod.master-bore"),
    ...one("crank.pin"),
    ...one("crank.journal"),
    ...one("crank.run-out"),
    ...one("case.bearing-bore"),
    ...members(
      'defect D6 rod.pin-bush[7] "Small-end bush worn oval at the rear"',
      "crack-test rod[1..9] magnetic ok",
      'crack-test crankshaft magnetic ok "Both webs, full length, demagnetised after"',
      'consumable "Magnetic ink" batch MI-19 expires 2026-12-31',
      "labour ATH 7 h inspect",
      "labour RPE 2 h inspect",
      "sign fitter ATH 2026-02-27",
      "sign inspector RPE 2026-03-02",
    ),
    "",
    'entry E11 2026-03-02 inspect "Cam drive, reduction gear, oil pump, magnetos" job J26-014',
    ...members("air 20 C", "# Readings of the new cam ring are on sheet 4"),
    ...one("gear.backlash", set("4", 0, 0.331)),
    ...one("gear.pinion-bush"),
    ...one("gear.pinion-pin"),
    ...one("gear.shaft-run-out"),
    ...one("oil-pump.end-float"),
    ...one("oil-pump.shaft"),
    ...one("ignition.point-gap"),
    ...members(
      "crack-test planet-pinion[1..6] magnetic ok",
      "crack-test propeller-shaft magnetic ok",
      "note Backlash of pinion 4 is 0.011 over; pinion and ring gear show even contact and no pitting",
      "labour HDM 5 h inspect",
      "labour RPE 1.5 h inspect",
      "sign fitter HDM 2026-03-02",
      "sign inspector RPE 2026-03-03",
    ),
    "",
    "# What was written on sheet E7 stays; this corrects it.",
    'entry E12 2026-03-03 inspect "Correction of a piston reading" job J26-014',
    ...members(
      'amends E7 "Digits of piston 4, mid.thrust, transposed: 97.837 written, 97.873 on the bench slip and on the gauge today"',
      "air 20 C",
      "measure piston.skirt[4/mid.thrust] 97.873 mm with MIC-100",
      "labour ATH 0.5 h inspect",
      "sign fitter ATH 2026-03-03",
      "sign inspector RPE 2026-03-03",
    ),
    "",
    'entry E13 2026-03-05 repair "Barrel 3 to +0.5 mm, its piston to No. 5" job J26-014',
    ...members(
      "air 20 C",
      'rework cylinder.bore[3] to size +0.5 mm "Bored and honed, cross-hatch 45 deg"',
      'rectify D2 "Bored to +0.5 mm, scuff gone, measured below"',
    ),
    ...readingLines(
      feature("cylinder.bore"),
      new Map([["3", [98.512, 98.51, 98.512, 98.511, 98.511, 98.51, 98.509, 98.509]]]),
      { size: "+0.5 mm" },
    ),
    ...members(
      'remove part "PN-88" serial "P-207" at piston[5] scrapped "Cracked at the pin boss"',
      "move piston[3] to piston[5]",
      'fit part "PN-88-05" serial "P-401" at piston[3] source "release note 5508"',
      'rectify D1 "Cracked piston scrapped; sound piston of No. 3 fitted here, dye check clear"',
      "crack-test piston[5] dye ok",
      "crack-test piston[3] dye ok",
    ),
    ...readingLines(feature("piston.skirt"), new Map([["3", [98.389, 98.388, 98.387, 98.386]]]), { size: "+0.5 mm" }),
    ...again("piston.skirt", "3", "5"),
    ...renewed("piston.pin-bore", ["3"]),
    ...again("piston.pin-bore", "3", "5"),
    ...renewed("piston.pin", ["3"]),
    ...again("piston.pin", "3", "5"),
    ...renewed("piston.groove", ["3"]),
    ...again("piston.groove", "3", "5"),
    ...readingLines(feature("piston.weight"), new Map([["3", [618.8]]])),
    ...again("piston.weight", "3", "5"),
    ...members(
      "labour ATH 6 h repair",
      "labour RPE 1 h inspect",
      "sign fitter ATH 2026-03-05",
      "sign inspector RPE 2026-03-06",
    ),
    "",
    'entry E14 2026-03-10 repair "Guides 6, valve 2, spring 8, bush 7, baffle 4" job J26-014',
    ...members(
      "air 20 C",
      'remove part "CG-1102" at exhaust-guide[6] scrapped "Bell-mouthed"',
      'fit part "CG-1102" batch B77 at exhaust-guide[6] source "release note 5512"',
      'rectify D3 "New guide pressed in hot and reamed, seat cut true to it"',
    ),
    ...renewed("exhaust-guide.bore", ["6"]),
    ...members(
      'remove part "CV-2201" at exhaust-valve[2] scrapped "Edge burnt"',
      'fit part "CV-2201" batch B80 at exhaust-valve[2] source "release note 5512"',
      'rectify D4 "Valve replaced, both seats of 2 and 6 cut and lapped"',
      'rework exhaust-seat.run-out[2,6] "Cut and lapped"',
    ),
    ...renewed("exhaust-valve.stem", ["2"]),
    ...renewed("exhaust-valve.lip", ["2"]),
    ...renewed("exhaust-seat.run-out", ["2", "6"]),
    ...members(
      'remove part "CS-30" at outer-spring[8/exhaust] scrapped "Weak"',
      'fit part "CS-30" batch B65 at outer-spring[8/exhaust] source "stock, certificate 20-114"',
      'rectify D5 "Spring replaced, pair tested"',
      "measure outer-spring.load[8/exhaust] 274 N with ST-1",
      "measure outer-spring.free[8/exhaust] 52.46 mm with CAL-1",
      'fit part "RB-24" batch B58 at rod.pin-bush[7] source "stock, certificate 21-030"',
      'rectify D6 "New bush pressed and reamed in line"',
    ),
    ...renewed("rod.pin-bush", ["7"]),
    ...members(
      'rectify D7 "Stop-drilled and welded, dye check clear"',
      folder.photo("baffle-4-repaired.png", "Baffle 4 after welding", "crack"),
      "labour JWB 9 h repair",
      "labour RPE 1 h inspect",
      "sign fitter JWB 2026-03-10",
      "sign inspector RPE 2026-03-11",
    ),
    "",
    'entry E15 2026-03-12 repair "Review of the inspection" job J26-014',
    ...members(
      'concession N1 of E11 gear.backlash[4] by CNO 2026-03-12 "0.011 mm over wear, even contact, no pitting; maker\'s letter 14 allows 0.35 with a look each 50 h"',
      'accept limit/not-proven E9 rocker.shaft[7/exhaust] by RPE 2026-03-12 "Measured three times against the setting standard, 14.950 each time, at the limit and not below it; fit with its bush is 0.069, well inside"',
      "sign fitter ATH 2026-03-12",
      "sign inspector RPE 2026-03-12",
    ),
  ];
  folder.write("J26-014-3-inspect.gudgeon", lines.join("\n"));
}
