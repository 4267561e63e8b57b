/** Sheets 5 to 9 of the main story: the runs, what was looked at after them, closing, release, packing and dispatch. */
import { CLEARANCES_AS_SET, fastener } from "./clean-build.ts";
import { feature } from "./clean-inspect.ts";
import { CURLEW_MODEL, loggerHeadings, type Phase, runLog } from "./run-model.ts";
import { members, seeded } from "./text.ts";
import { type Readings, readingLines, torqueLines } from "./type-data.ts";
import type { SampleFolder } from "./write.ts";

const random = seeded(903);

function phases(...pairs: readonly (readonly [number, number])[]): Phase[] {
  return pairs.map(([minutes, rpm]) => ({ minutes, rpm }));
}

/** @returns hours run on the stand in all. */
export function runStage(folder: SampleFolder): number {
  const plan = { air_C: 11, pressure_inHg: 29.9 };
  const r1 = runLog(CURLEW_MODEL, {
    ...plan,
    start_min: 9 * 60 + 40,
    oilAtStart_C: 30,
    headAtStart_C: 16,
    seed: 11,
    phases: phases([19, 800], [17, 1100], [17, 1400], [18, 1700], [8, 1100], [3, 800]),
  });
  const r2 = runLog(CURLEW_MODEL, {
    ...plan,
    air_C: 13,
    start_min: 10 * 60 + 5,
    oilAtStart_C: 27,
    headAtStart_C: 15,
    seed: 12,
    phases: phases([18, 800], [12, 1100], [17, 1800], [23, 2000], [8, 1100], [3, 800]),
  });
  const r3 = runLog(CURLEW_MODEL, {
    ...plan,
    air_C: 12,
    start_min: 9 * 60 + 15,
    oilAtStart_C: 28,
    headAtStart_C: 14,
    seed: 13,
    phases: phases([17, 800], [10, 1100], [18, 2000], [7, 2250], [9, 1100], [4, 800]),
  });
  const lines = [
    "# Job J26-014, sheet 5: runs on the stand, engine on club CL-4. Heads in C, oil pressure in psi.",
    'entry E25 2026-04-08 build "Before the first start" job J26-014',
    ...members(
      "oil filled 12 L",
      'check pre-oiling ok "Pressure oiler at 50 psi through the gallery until all rockers ran, 12 min, crank turned by hand"',
      'check ignition-off ok "Both magnetos earthed, leads off"',
      "labour ATH 2 h build",
      "sign fitter ATH 2026-04-08",
      "sign inspector RPE 2026-04-08",
    ),
    "",
    "run R1 2026-04-09 09:40 job J26-014 stand TS-1 by ATH second RPE",
    ...members(
      "air 11 C 1013 hPa 62 %",
      "standing 20 h",
      'check pre-oiling ok "Again this morning, 50 psi, 5 min"',
      "check ignition-off ok",
      'check hydraulic-lock ok "By hand in the direction of rotation, two full turns, lower plugs out; 4 5 6 7 drained a spoonful of oil"',
      "# First minute each ten seconds, for the oil pressure",
    ),
    ...r1.lines,
    ...members(
      `fuel ${r1.fuel_L.toFixed(0)} L`,
      "oil added 0.4 L",
      "magneto left 62 rpm right 70 rpm at 1700 rpm",
      'check ignition-off ok "Dead cut tried at idle, both off and earthed after stopping"',
      'check leak-check ok "Hot, cowl off; dry but for the weep below"',
      'defect D8 rocker-cover[6/exhaust] "Weeps at the joint when hot"',
      "labour ATH 2.5 h running",
      "labour RPE 2.5 h running",
      "sign run-operator ATH 2026-04-09",
      "sign inspector RPE 2026-04-09",
    ),
    "",
    'entry E26 2026-04-09 15:30 build "Cover 6 exhaust, nuts again" job J26-014',
    ...members("open rocker-cover-6"),
    ...members('consumable "Jointing compound" batch JC-11 expires 2026-09-30'),
    ...torqueLines(fastener("rocker.cover-nut"), { rows: ["6"] }),
    ...members(
      "close rocker-cover-6",
      'rectify D8 "New joint, face stoned flat, nuts torqued"',
      "labour JWB 2 h build",
      "sign fitter JWB 2026-04-09",
      "sign inspector RPE 2026-04-10",
    ),
    "",
    "run R2 2026-04-10 10:05 job J26-014 stand TS-1 by HDM second ATH run-in endurance",
    ...members(
      "air 13 C 1016 hPa 55 %",
      "standing 23 h",
      "check ignition-off ok",
      'check hydraulic-lock ok "By hand in the direction of rotation, two full turns, 4 5 6 7 drained, clear"',
    ),
    ...r2.lines,
    ...members(
      `fuel ${r2.fuel_L.toFixed(0)} L`,
      "oil added 0.6 L",
      "magneto left 58 rpm right 66 rpm at 1700 rpm",
      'check ignition-off ok "Dead cut tried at idle, both off and earthed after stopping"',
      'check leak-check ok "Hot, dry all round, cover 6 too"',
      "labour HDM 2.5 h running",
      "labour ATH 2.5 h running",
      "sign run-operator HDM 2026-04-10",
    ),
    "",
    "run R3 2026-04-13 09:15 job J26-014 stand TS-1 by ATH second RPE run-in acceptance",
    ...members(
      "air 12 C 1009 hPa 58 %",
      "standing 70 h",
      "check ignition-off ok",
      'check hydraulic-lock ok "By hand in the direction of rotation, three full turns; lower plugs out of 4 5 6 7, half a cup of oil from 5 and 6 drained, clear"',
    ),
    ...r3.lines,
    ...members(
      "# The logger's own file is kept with the job",
      `log from "runs/R3.csv" ${folder.data("runs/R3.csv", r3.csv)}`,
      ...loggerHeadings(9).map(([heading, column]) => `map "${heading}" to ${column}`),
    ),
    ...members(
      `fuel ${r3.fuel_L.toFixed(0)} L`,
      "oil added 0.3 L",
      "magneto left 60 rpm right 65 rpm at 1700 rpm",
      'check ignition-off ok "Dead cut tried at idle, both off and earthed after stopping"',
      'check leak-check ok "Hot, dry"',
      'check idle ok "520 rpm, even, throttle closed in 3 s without stopping"',
      "labour ATH 2 h running",
      "labour RPE 2 h running",
      "sign run-operator ATH 2026-04-13",
      "sign inspector RPE 2026-04-13",
    ),
  ];
  folder.write("J26-014-5-run.gudgeon", lines.join("\n"));
  return r1.running_h + r2.running_h + r3.running_h;
}

export function closeStage(folder: SampleFolder, stand_h: number): void {
  // Bedding in takes a hundredth here and there.
  const clearance: Readings = new Map(
    [...CLEARANCES_AS_SET].map(([row, cells]) => [row, cells.map((value) => value - (random() < 0.3 ? 0.01 : 0))]),
  );
  folder.write(
    "J26-014-6-after-run.gudgeon",
    [
      "# Job J26-014, sheet 6: after the runs.",
      'entry E27 2026-04-13 10:50 after-run "Compressions, warm" job J26-014',
      ...members(
        "air 12 C",
        "compression differential supply 80 psi orifice 0.040 in warm with DC-1",
        "1  76  heard rings",
        "2  75  heard rings",
        "3  77  heard rings",
        "4  76  heard rings",
        "5  74  heard rings",
        "6  76  heard rings",
        "7  75  heard rings",
        "8  73  heard rings",
        "9  76  heard rings",
        "done compression-test",
        "labour ATH 1.5 h after-run",
        "sign fitter ATH 2026-04-13",
      ),
      "",
      'entry E28 2026-04-14 after-run "Oil, strainer, plugs, gear case" job J26-014',
      ...members(
        'oil drained 11 L "Warm from the stand, 30 C"',
        "oil sample L-33 Fe 22 ppm Cu 6 ppm Al 9 ppm Si 4 ppm",
        "open strainer-cap",
        'done strainer-clean "A pinch of bronze from the new bush, nothing more"',
        'check magnetic-plug ok "Light fuzz at the sump, front clean"',
        "done magnetic-plug-look",
        folder.photo("magnetic-plug.png", "Sump plug after 4 h, light fuzz", "plug"),
        "open gear-case",
        'check gear-case ok "Teeth clean and evenly marked, pinion 4 as before"',
        "done gear-backlash",
        folder.photo("gear-after-run.png", "Pinions after the runs", "gear"),
        "done magneto-points",
        "labour HDM 4 h after-run",
        "sign fitter HDM 2026-04-14",
      ),
      "",
      'entry E29 2026-04-14 14:00 after-run "Barrel nuts again, clearances" job J26-014',
      ...members("air 15 C", "# Wire cut, nuts torqued again cold, wired anew"),
      ...torqueLines(fastener("cylinder.nut"), { retorque: true }),
      ...readingLines(feature("clearance.valve"), clearance),
      ...members("done valve-clearance", "labour ATH 5 h after-run", "sign fitter ATH 2026-04-14"),
    ].join("\n"),
  );
  folder.write(
    "J26-014-7-close.gudgeon",
    [
      "# Job J26-014, sheet 7: closing.",
      'entry E30 2026-04-15 close "Gear case, strainer, plugs" job J26-014',
      ...torqueLines(fastener("gear-case.nut")),
      ...members("close gear-case"),
      ...torqueLines(fastener("strainer.cap")),
      ...members("close strainer-cap"),
      ...torqueLines(fastener("magnetic-plug.body")),
      ...members(
        'oil filled 12 L "New, batch O-88"',
        "done oil-change",
        'check leak-check ok "Pressure oiler 60 psi, ten minutes; gear-case joint, strainer and plugs dry"',
        'check wire-locking ok "All fasteners of sheets 4, 5 and 7 looked at one by one"',
        'check tool-count ok "Boxes 3 and 5 complete, no rag missing"',
        "labour HDM 5 h closing",
        "labour RPE 2 h inspect",
        "sign fitter HDM 2026-04-15",
        "sign inspector RPE 2026-04-16",
      ),
      "",
      'entry E31 2026-04-17 close "Paint of cover 2 inlet" job J26-014',
      ...members(
        'defer D9 until 2027-04-30 or 50 h by CNO 2026-04-17 "Cosmetic, primed, no corrosion; to be painted at the owner\'s next wash"',
        "sign fitter ATH 2026-04-17",
        "sign inspector RPE 2026-04-17",
      ),
    ].join("\n"),
  );
  folder.write(
    "J26-014-8-release.gudgeon",
    [
      "# Job J26-014, sheet 8: release.",
      'release 2026-04-20 J26-014 by CNO "Top overhaul, bulletin B-07 and stand runs carried out to limits Curlew-9 revision C; concession N1 and deferred defect D9 as listed" except D9',
      ...members("sign certifier CNO 2026-04-20"),
    ].join("\n"),
  );
  const tsn = (1184.3 + stand_h).toFixed(1);
  const tso = (402.1 + stand_h).toFixed(1);
  folder.write(
    "J26-014-9-dispatch.gudgeon",
    [
      "# Job J26-014, sheet 9: preservation, packing, dispatch.",
      'entry E32 2026-04-22 pack "Preservation and crate" job J26-014',
      ...members(
        'oil drained 12 L "To the last turn of the crank; the tin goes with the engine"',
        'check preservation ok "Inhibiting oil sprayed through plug holes at each stroke, cylinders not turned after"',
        'consumable "Inhibiting oil" batch IO-7 expires 2027-01-31',
        'check fluids-drained ok "Oil and fuel, carburettor bowl too"',
        'check blanked ok "Nine stubs, intake, breather, both oil unions"',
        'check desiccant-plugs ok "Eighteen, blue"',
        folder.photo("crate.png", "Crate SEW-31, lid off", "crate"),
        "labour BLK 3 h pack",
        "labour JWB 3 h pack",
        "sign fitter JWB 2026-04-22",
        "sign stores BLK 2026-04-22",
      ),
      "",
      'dispatch 2026-04-24 J26-014 to "Fenland Flying Museum" by "Marsh Road Haulage" crate "SEW-31"',
      ...members(
        `hours tsn ${tsn} h tso ${tso} h`,
        'packed "Carburettor" serial "K-551"',
        'packed "Exhaust stubs" qty 9',
        'packed "Log books" qty 2',
        'packed "Engine oil, 12 L" qty 1',
        "check fluids-drained ok",
        "check blanked ok",
        'check tilt-marks ok "Two on the crate, both white"',
        "sign stores BLK 2026-04-24",
      ),
    ].join("\n"),
  );
}
