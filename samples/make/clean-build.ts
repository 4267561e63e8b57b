/** Sheet 4 of the main story: building up, with every fastener torqued, and a signature that was refused and answered. */
import { feature } from "./clean-inspect.ts";
import { CURLEW_FASTENERS } from "./curlew-9.ts";
import { members, seeded } from "./text.ts";
import { type Fastener, type Readings, readAll, readingLines, torqueLines } from "./type-data.ts";
import type { SampleFolder } from "./write.ts";

const random = seeded(2604);

export function fastener(name: string): Fastener {
  const found = CURLEW_FASTENERS.find((each) => each.name === name);
  if (!found) throw new Error(`no fastener ${name}`);
  return found;
}

/** Valve clearances as set cold, looked at again after the runs. */
export const CLEARANCES_AS_SET: Readings = new Map(
  ["1", "2", "3", "4", "5", "6", "7", "8", "9"].map((row) => [
    row,
    [0.25 + Math.round(random() * 2) / 100, 0.27 + Math.round(random() * 2) / 100],
  ]),
);

function fresh(name: string): string[] {
  return readingLines(feature(name), readAll(feature(name), random, "fresh"));
}

function worn(name: string): string[] {
  return readingLines(feature(name), readAll(feature(name), random, "worn"));
}

function torqued(...names: string[]): string[] {
  return names.flatMap((name) => torqueLines(fastener(name)));
}

export function buildStage(folder: SampleFolder): void {
  const lines = [
    "# Job J26-014, sheet 4: building up.",
    'entry E16 2026-03-18 build "Crankshaft, rods, case" job J26-014',
    ...members(
      "air 19 C",
      'consumable "Assembly oil" batch AO-12 expires 2027-06-30',
      'consumable "Jointing compound" batch JC-11 expires 2026-09-30',
    ),
    ...torqued("rod.knuckle-bolt", "crank.clamp-bolt", "crank.front-nut"),
    ...worn("crank.end-float"),
    ...fresh("crank.clamp-stretch"),
    ...torqued("case.through-bolt"),
    ...members(
      "close crankcase",
      'check turning ok "Free all round, no tight spot"',
      "labour ATH 8 h build",
      "labour JWB 8 h build",
      "sign fitter ATH 2026-03-18",
      "sign inspector RPE 2026-03-19",
    ),
    "",
    'entry E17 2026-03-19 build "Cam ring to revision C, cam drive" job J26-014',
    ...members(
      'fit part "CR-C" serial "CR-902" at cam-ring source "release note 5520"',
      'embodied B-07 "Ring CR-C, serial CR-902"',
    ),
    ...fresh("cam-ring.lobe-lift"),
    ...fresh("cam-ring.bush"),
    ...fresh("cam-ring.end-float"),
    ...fresh("cam-ring.backlash"),
    ...torqued("cam.hub-nut", "tappet.guide-nut"),
    ...fresh("timing.inlet-opens"),
    ...fresh("timing.exhaust-closes"),
    ...members(
      folder.photo("cam-ring.png", "Cam ring CR-902 in place, marks in line", "gear"),
      "labour ATH 6 h build",
      "sign fitter ATH 2026-03-19",
      "sign inspector RPE 2026-03-20",
    ),
    "",
    'entry E18 2026-03-23 build "Reduction gear and nose case" job J26-014',
    ...torqued("gear.carrier-bolt", "gear.shaft-nut"),
    ...worn("gear.shaft-float"),
    ...torqued("gear-case.nut"),
    ...members(
      "close gear-case",
      "labour HDM 6.5 h build",
      "labour JWB 2 h build",
      "sign fitter HDM 2026-03-23",
      "sign inspector RPE 2026-03-24",
    ),
    "",
    'entry E19 2026-03-24 build "Rear case, pump, sump, strainer" job J26-014',
    ...torqued("rear-case.nut", "oil-pump.nut"),
    ...members("close rear-case"),
    ...torqued("sump.nut", "strainer.cap", "magnetic-plug.body"),
    ...members("close sump", "labour HDM 5 h build", "sign fitter HDM 2026-03-24", "sign inspector RPE 2026-03-25"),
    "",
    'entry E20 2026-03-26 build "Rings, pistons, barrels" job J26-014',
    ...members(
      'fit part "RS-98" qty 8 batch B41 source "release note 5508"',
      'fit part "RS-98-05" qty 1 batch B42 source "release note 5508"',
      "# Gaps in the barrel that each set goes into, 20 mm from the head end",
    ),
    ...fresh("ring.gap"),
    ...fresh("ring.side"),
    ...members(
      'fit part "CN-12" qty 1 batch B33 source "stock, certificate 20-101"',
      "# Twelve nuts a barrel, in three rounds, crosswise",
    ),
    ...torqued("cylinder.nut"),
    ...members(
      "close cylinders",
      folder.photo("barrels-on.png", "Barrels on, nuts wired", "barrel"),
      "labour ATH 9 h build",
      "labour JWB 9 h build",
      "sign fitter ATH 2026-03-26",
      "sign inspector RPE 2026-03-31",
    ),
    "",
    'entry E21 2026-03-27 build "Rocker gear, clearances, outside" job J26-014',
    ...torqued("pushrod.gland", "rocker.shaft-nut"),
    ...readingLines(feature("clearance.valve"), CLEARANCES_AS_SET),
    ...torqued("rocker.cover-nut"),
    ...members("close rocker-covers"),
    ...torqued("intake.flange-nut", "intake.gland", "exhaust.stub-nut", "baffle.screw", "spark-plug.body"),
    ...members(
      "labour ATH 8 h build",
      "labour JWB 8 h build",
      "sign fitter JWB 2026-03-27",
      "sign inspector RPE 2026-03-30",
    ),
    "",
    'entry E22 2026-03-30 build "Magnetos and carburettor" job J26-014',
    ...torqued("ignition.flange-nut", "carburettor.nut"),
    ...fresh("timing.magneto"),
    ...members(
      'defect D9 rocker-cover[2/inlet] "Paint chipped to bare metal, 6 mm, touched in with primer"',
      'check controls ok "Throttle and mixture, full and free"',
      "labour HDM 5 h build",
      "sign fitter HDM 2026-03-30",
      "sign inspector RPE 2026-03-31",
    ),
    "",
    "# The inspector would not put her name to E20 as it stood.",
    'entry E23 2026-03-30 16:00 build "Sign asked for and refused" job J26-014',
    ...members(
      'refuse inspector RPE 2026-03-30 E20 "Nut 7/4 is a new nut and its torque was not witnessed"',
      "sign fitter ATH 2026-03-30",
      "sign inspector RPE 2026-03-30",
    ),
    "",
    'entry E24 2026-03-31 build "Nut 7/4 again" job J26-014',
    ...members(
      "torque cylinder.nut[7/4] 40 N.m oiled with TW-2 adapter 50 mm on 300 mm set 34.3 N.m retorque",
      'locked cylinder.nut[7/4] wire "0.8 mm, double twist"',
      'answer E20 "Nut 7/4 slackened, torqued again and wired before RPE"',
      "labour ATH 0.5 h build",
      "sign fitter ATH 2026-03-31",
      "sign inspector RPE 2026-03-31",
    ),
  ];
  folder.write("J26-014-4-build.gudgeon", lines.join("\n"));
}
