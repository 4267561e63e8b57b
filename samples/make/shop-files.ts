/** The reference side of the sample shop: settings, people, instruments, stands, engine types, routes. */
import { CURLEW_FASTENERS, CURLEW_FEATURES, CURLEW_MORE_LIMITS } from "./curlew-9.ts";
import { TERN_FASTENERS, TERN_FEATURES, TERN_MORE_LIMITS } from "./tern-4.ts";
import { columns, members } from "./text.ts";
import { type Fastener, type Feature, limitLines, placeOf, placesLine, torqueLimitLines } from "./type-data.ts";

export const SHOP = `# Settings of the shop. One folder is one shop.
shop "Saltmarsh Engine Works"
  address "Dyke Road 4, Saltmarsh"
  language 1
  decision guarded                # a reading must clear its limit by the gauge's uncertainty
  money GBP
  stand-time counts               # minutes on the stand go into the engine's hours
  notice 10 h or 30 days
  authority accept inspector, certifier
  authority concession certifier
  authority defer certifier
  authority release certifier
  authority refuse inspector, certifier
`;

export const PEOPLE = `# Who works here. Facts that change have dates; lines are added, never rubbed out.

person ATH "Ada Thorne"
  role fitter from 2019-03-01
  role run-operator from 2021-06-01
  licence "SEW-03" from 2024-06-30 until 2027-06-30

person JWB "Jos Webber"
  role fitter from 2022-09-05
  licence "SEW-07" from 2025-09-05 until 2028-09-05

person RPE "Ruth Pell"
  role inspector from 2018-01-08
  role run-operator from 2018-01-08
  licence "SEW-02" from 2024-01-08 until 2027-01-08

person CNO "Colin Noakes"
  role inspector from 2009-04-01
  role certifier from 2012-04-01
  licence "SEW-01" from 2025-04-01 until 2028-04-01

person HDM "Hanne Dorset"
  role run-operator from 2023-02-01
  role fitter from 2023-02-01
  licence "SEW-08" from 2023-02-01 until 2028-02-01
  note Holds the key of the north bay

person BLK "Bea Larkin"
  role stores from 2020-10-12
`;

interface Tool {
  readonly name: string;
  readonly title: string;
  readonly lines: readonly string[];
}

function tool(name: string, title: string, ...lines: string[]): Tool {
  return { name, title, lines };
}

const TOOLS: readonly Tool[] = [
  tool("BG-0", "Small bore gauge 6 to 10 mm", "range 6..10 mm", "resolution 0.001 mm", "uncertainty 0.001 mm", 'calibrated 2025-11-20 until 2026-11-20 "certificate 862"'),
  tool("BG-1", "Small bore gauge 9 to 26 mm", "range 9..26 mm", "resolution 0.001 mm", "uncertainty 0.001 mm", 'calibrated 2025-01-14 until 2026-01-14 "certificate 804"', 'calibrated 2026-01-12 until 2027-01-12 "certificate 880"'),
  tool("BG-2", "Bore gauge 50 to 160 mm", 'serial "881-204"', "range 50..160 mm", "resolution 0.001 mm", "uncertainty 0.002 mm           # expanded, k = 2", 'material "steel"', 'calibrated 2025-01-10 until 2026-01-10 "certificate 805"', 'calibrated 2026-01-10 until 2027-01-10 "certificate 881"'),
  tool("RG-95", "Setting ring 95 mm", "range 95.000..95.000 mm", "uncertainty 0.001 mm", 'material "steel"', 'calibrated 2025-06-30 until 2027-06-30 "certificate 840"'),
  tool("RG-98", "Setting ring 98 mm", "range 98.000..98.000 mm", "uncertainty 0.001 mm", 'material "steel"', 'calibrated 2025-06-30 until 2027-06-30 "certificate 841"'),
  tool("MIC-25", "Micrometer 0 to 25 mm", "range 0..25 mm", "resolution 0.001 mm", "uncertainty 0.001 mm", 'calibrated 2025-10-01 until 2026-10-01 "certificate 855"'),
  tool("MIC-50", "Micrometer 25 to 50 mm", "range 25..50 mm", "resolution 0.001 mm", "uncertainty 0.001 mm", 'calibrated 2025-10-01 until 2026-10-01 "certificate 856"'),
  tool("MIC-75", "Micrometer 50 to 75 mm", "range 50..75 mm", "resolution 0.001 mm", "uncertainty 0.001 mm", 'calibrated 2025-10-01 until 2026-10-01 "certificate 857"'),
  tool("MIC-100", "Micrometer 75 to 100 mm", "range 75..100 mm", "resolution 0.001 mm", "uncertainty 0.001 mm", 'calibrated 2025-10-02 until 2026-10-02 "certificate 858"'),
  tool("MIC-125", "Micrometer 100 to 125 mm", "range 100..125 mm", "resolution 0.001 mm", "uncertainty 0.002 mm", 'calibrated 2025-10-02 until 2026-10-02 "certificate 859"'),
  tool("DG-1", "Depth gauge 0 to 50 mm", "range 0..50 mm", "resolution 0.01 mm", "uncertainty 0.02 mm", 'calibrated 2025-12-01 until 2026-12-01 "certificate 870"'),
  tool("CAL-1", "Vernier caliper 0 to 150 mm", "range 0..150 mm", "resolution 0.01 mm", "uncertainty 0.03 mm", 'calibrated 2025-12-01 until 2026-12-01 "certificate 871"'),
  tool("DI-1", "Dial indicator 0 to 12 mm", "range 0..12 mm", "resolution 0.001 mm", "uncertainty 0.003 mm", 'calibrated 2025-12-01 until 2026-12-01 "certificate 872"'),
  tool("PLG-4", "Groove comparator 1 to 6 mm", "range 1..6 mm", "resolution 0.001 mm", "uncertainty 0.003 mm", 'calibrated 2025-12-02 until 2026-12-02 "certificate 873"'),
  tool("FG-1", "Feeler gauges 0.03 to 1.00 mm", "range 0.03..1.00 mm", "resolution 0.01 mm", "uncertainty 0.01 mm", 'calibrated 2025-09-15 until 2026-09-15 "certificate 850"'),
  tool("ST-1", "Spring tester 0 to 1000 N", "range 10..1000 N", "resolution 1 N", "uncertainty 2 N", 'calibrated 2025-09-16 until 2026-09-16 "certificate 851"'),
  tool("SC-1", "Bench scales 5 kg", "range 1..5000 g", "resolution 0.1 g", "uncertainty 0.2 g", 'calibrated 2025-09-16 until 2026-09-16 "certificate 852"'),
  tool("PRO-1", "Timing disc 360 deg", "range 0..360 deg", "resolution 0.1 deg", "uncertainty 0.2 deg", 'calibrated 2025-09-17 until 2027-09-17 "certificate 853"'),
  tool("TW-1", "Torque wrench 5 to 25 N.m", "range 5..25 N.m", "uncertainty 2 %", "length 220 mm", 'calibrated 2025-11-03 until 2026-11-03 "certificate 866"'),
  tool("TW-2", "Torque wrench 20 to 100 N.m", "range 20..100 N.m", "uncertainty 2 %", "length 300 mm", 'calibrated 2025-11-03 until 2026-11-03 "certificate 867"'),
  tool("TW-3", "Torque wrench 80 to 400 N.m", "range 80..400 N.m", "uncertainty 2 %", "length 600 mm", 'calibrated 2025-11-03 until 2026-11-03 "certificate 868"'),
  tool("DC-1", "Differential compression tester, 0.040 in orifice", "range 0..100 psi", "uncertainty 0.5 psi", 'calibrated 2025-10-20 until 2026-10-20 "certificate 860"'),
  tool("PG-3", "Oil pressure sender and gauge 0 to 150 psi", "range 0..150 psi", "uncertainty 1 psi", 'calibrated 2026-01-19 until 2027-01-19 "certificate 884"'),
  tool("PG-4", "Fuel pressure gauge 0 to 15 psi", "range 0..15 psi", "uncertainty 0.1 psi", 'calibrated 2026-01-19 until 2027-01-19 "certificate 885"'),
  tool("MP-1", "Manifold pressure gauge 5 to 50 inHg", "range 5..50 inHg", "uncertainty 0.1 inHg", 'calibrated 2026-01-19 until 2027-01-19 "certificate 886"'),
  tool("TC-2", "Oil thermometer -20 to 150 C", "range -20..150 C", "uncertainty 0.8 dC", 'calibrated 2026-01-20 until 2027-01-20 "certificate 887"'),
  tool("TC-9", "Thermocouple set, nine heads, -20 to 400 C", "range -20..400 C", "uncertainty 1.5 dC", 'calibrated 2026-01-20 until 2027-01-20 "certificate 888"'),
  tool("TA-1", "Tachometer 0 to 4000 rpm", "range 0..4000 rpm", "uncertainty 3 rpm", 'calibrated 2026-01-21 until 2027-01-21 "certificate 889"'),
  tool("FF-1", "Fuel flow meter 0 to 200 L/h", "range 0..200 L/h", "uncertainty 1 %", 'calibrated 2026-01-21 until 2027-01-21 "certificate 890"'),
];

/** @param leaveOut numbers of instruments that this shop does not own. */
export function instrumentsFile(leaveOut: readonly string[] = []): string {
  const blocks = TOOLS.filter((each) => !leaveOut.includes(each.name)).map((each) => [`instrument ${each.name} "${each.title}"`, ...members(each.lines)].join("\n"));
  return `# Measuring tools, wrenches and senders. A new calibration is a new line.\n\n${blocks.join("\n\n")}\n`;
}

export function standsFile(type: "curlew" | "tern" | "both"): string {
  const north = `stand TS-1 "Run stand, north bay"
  channel crank.speed with TA-1
  channel manifold.pressure with MP-1
  channel oil.pressure with PG-3
  channel oil.temp with TC-2
  channel fuel.pressure with PG-4
  channel fuel.flow with FF-1
  channel cht[1..9] with TC-9
  club CL-4 1200..2300 rpm at 1.225 kg/m3
  point 1400 rpm 62 kW
  point 1800 rpm 131 kW
  point 2200 rpm 240 kW
`;
  const south = `stand TS-2 "Small stand, south bay"
  channel crank.speed with TA-1
  channel manifold.pressure with MP-1
  channel oil.pressure with PG-3
  channel oil.temp with TC-2
  channel fuel.pressure with PG-4
  channel fuel.flow with FF-1
  channel cht[1..4] with TC-9
`;
  return `# Run stands and the instrument behind each channel.\n\n${[type === "tern" ? "" : north, type === "curlew" ? "" : south].filter(Boolean).join("\n")}`;
}

function groups(features: readonly Feature[]): Map<string, Feature[]> {
  const out = new Map<string, Feature[]>();
  for (const feature of features) {
    const group = feature.name.split(".")[0] ?? "";
    out.set(group, [...(out.get(group) ?? []), feature]);
  }
  return out;
}

const TITLES: Readonly<Record<string, string>> = {
  cylinder: "Barrels", piston: "Pistons and pins", ring: "Rings", valve: "Valves, guides and seats", spring: "Valve springs", rocker: "Rockers", pushrod: "Push rods",
  tappet: "Tappets", rod: "Connecting rods", crank: "Crankshaft", case: "Crankcase", cam: "Cam", gear: "Reduction gear", "oil-pump": "Oil pump",
  ignition: "Ignition", clearance: "Valve clearance, cold", timing: "Timing",
};

function placesPart(features: readonly Feature[], fasteners: readonly Fastener[], parts: readonly string[]): string[] {
  return [
    ...members("", "# Parts by place", ...parts, "", "# Readings by place"),
    ...features.filter((f) => f.rows !== "").map((f) => `  places ${placesLine(f)}`),
    ...members(`places ${features.filter((f) => f.rows === "").map((f) => f.name).join(" ")}`, "", "# Fasteners by place"),
    ...fasteners.filter((f) => f.rows !== "").map((f) => `  places ${placeOf(f.name, f.rows, f.sub)}`),
    ...members(`places ${fasteners.filter((f) => f.rows === "").map((f) => f.name).join(" ")}`),
  ];
}

function limitsPart(features: readonly Feature[], more: readonly string[], fasteners: readonly Fastener[]): string[] {
  const out: string[] = [];
  for (const [group, list] of groups(features)) out.push("", `  # ${TITLES[group] ?? group}`, ...limitLines(list));
  out.push(...members(more), "", "  # Torques, at the fastener", ...torqueLimitLines(fasteners));
  return out;
}

export function curlewFile(): string {
  return [
    "# The Curlew-9: layout, places, limits, running-in, recurring work, bulletins.",
    "",
    'engine-type Curlew-9 "Nine-cylinder radial with reduction gear"',
    ...members("layout radial 9", "numbering clockwise from rear", "rotation clockwise seen from rear", "mounting 0 deg", "master-rod 5", "bore 98 mm", "stroke 110 mm", "lock-check after 4 h standing",
      'material cylinder "steel 4140"', 'material piston "aluminium"', 'life "CK-9120" 3000 h', 'life "MB-9140" 1200 h or 12 years'),
    ...placesPart(CURLEW_FEATURES, CURLEW_FASTENERS, ['places cylinder[1..9] "Barrels"', 'places head[1..9] piston[1..9] valve[1..9/inlet,exhaust] "Upper end"', 'places rod[1..9] crankshaft master-bearing cam-ring crankcase "Power section"',
      'places planet-pinion[1..6] propeller-shaft "Reduction gear"', 'places magneto-unit[left,right] carburettor-unit oil-pump-unit "Accessories"', 'places baffle[1..9] rocker-cover[1..9/inlet,exhaust] "Outside"']),
    "",
    'limits Curlew-9 revision C from 2025-11-01 "Overhaul data, sheets 4 to 10"',
    ...limitsPart(CURLEW_FEATURES, CURLEW_MORE_LIMITS, CURLEW_FASTENERS),
    ...members("", "# Tests", 'compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "10-4"', 'magneto-limit drop 100 rpm split 40 rpm at 1700 rpm ref "10-3"'),
    "",
    "# First running after work on the power section: on the club, cowl off, cooling shroud on.",
    "run-in Curlew-9",
    ...members("start oil.pressure min 40 psi within 30 s", "warm oil.temp min 40 C before crank.speed 1200 rpm"),
    ...columns([
      ["step 1", "for 15 min", "at crank.speed 700..900 rpm", "cht max 160 C"],
      ["step 2", "for 15 min", "at crank.speed 1000..1200 rpm", "cht max 175 C", "oil.temp max 80 C"],
      ["step 3", "for 15 min", "at crank.speed 1300..1500 rpm", "cht max 190 C", "oil.temp max 85 C"],
      ["step 4", "for 15 min", "at crank.speed 1600..1800 rpm", "cht max 205 C", "oil.temp max 85 C"],
      ["step 5", "for 5 min", "at crank.speed 1000..1200 rpm", "cht max 205 C"],
    ]),
    ...members("cool cht max 20 C/min"),
    "",
    "run-in Curlew-9 endurance",
    ...members("start oil.pressure min 40 psi within 30 s", "warm oil.temp min 40 C before crank.speed 1200 rpm"),
    ...columns([
      ["step 1", "for 10 min", "at crank.speed 1000..1200 rpm", "cht max 175 C"],
      ["step 2", "for 15 min", "at crank.speed 1700..1900 rpm", "cht max 210 C", "oil.temp max 85 C"],
      ["step 3", "for 20 min", "at crank.speed 1900..2100 rpm", "cht max 220 C", "oil.temp max 88 C"],
      ["step 4", "for 5 min", "at crank.speed 1000..1200 rpm", "cht max 210 C"],
    ]),
    ...members("cool cht max 20 C/min"),
    "",
    "run-in Curlew-9 acceptance",
    ...members("start oil.pressure min 40 psi within 30 s", "warm oil.temp min 40 C before crank.speed 1200 rpm"),
    ...columns([
      ["step 1", "for 8 min", "at crank.speed 1000..1200 rpm", "cht max 175 C"],
      ["step 2", "for 15 min", "at crank.speed 1900..2100 rpm", "cht max 220 C", "oil.temp max 88 C"],
      ["step 3", "for 5 min", "at crank.speed 2200..2300 rpm", "cht max 225 C", "oil.temp max 88 C"],
      ["step 4", "for 5 min", "at crank.speed 1000..1200 rpm", "cht max 215 C"],
    ]),
    ...members("cool cht max 20 C/min"),
    "",
    "# Recurring work",
    "task strainer-clean Curlew-9 every 25 h or 6 months first 5 h",
    "task oil-change Curlew-9 every 50 h or 12 months tolerance 5 h",
    "task magnetic-plug-look Curlew-9 every 25 h or 6 months",
    "task compression-test Curlew-9 every 100 h or 12 months tolerance 10 h",
    "task valve-clearance Curlew-9 every 50 h tolerance 5 h sign fitter",
    "task magneto-points Curlew-9 every 100 h or 12 months",
    "task gear-backlash Curlew-9 every 50 h sign inspector",
    "",
    'bulletin B-04 Curlew-9 "Stronger rocker cover studs" recommended',
    "  note Studs of 6 mm in place of 5 mm",
    'bulletin B-07 Curlew-9 "Cam ring to revision C" mandatory by 2026-12-31',
    "  note Ring CR-C; earlier rings pit on the second exhaust lobe",
    "",
    `alert A-3 2026-03-01 "Exhaust guides below hardness, see maker's letter 9"`,
    '  suspect "CG-1102" batch B71',
    "",
  ].join("\n");
}

export function ternFile(): string {
  return [
    "# The Tern-4: layout, places, limits, running-in, recurring work.",
    "",
    'engine-type Tern-4 "Flat four, direct drive"',
    ...members("layout opposed 4", "numbering clockwise from rear", "rotation clockwise seen from rear", "bore 95 mm", "stroke 92 mm", "firing 1 3 2 4", "lock-check after 24 h standing",
      'material cylinder "steel 4140"', 'life "TK-4100" 2400 h'),
    ...placesPart(TERN_FEATURES, TERN_FASTENERS, ['places cylinder[1..4] head[1..4] piston[1..4] valve[1..4/inlet,exhaust] "Upper end"', 'places rod[1..4] crankshaft camshaft crankcase "Lower end"', 'places magneto-unit[left,right] carburettor-unit oil-pump-unit "Accessories"', 'places baffle[1..4] rocker-cover[1..4] "Outside"']),
    "",
    'limits Tern-4 revision A from 2024-05-01 "Overhaul data, sheets T 3 to T 8"',
    ...limitsPart(TERN_FEATURES, TERN_MORE_LIMITS, TERN_FASTENERS),
    ...members("", "# Tests", 'compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "T 8-3"', 'magneto-limit drop 125 rpm split 50 rpm at 1800 rpm ref "T 8-2"'),
    "",
    "run-in Tern-4",
    ...members("start oil.pressure min 20 psi within 30 s", "warm oil.temp min 30 C before crank.speed 1400 rpm"),
    ...columns([
      ["step 1", "for 10 min", "at crank.speed 900..1100 rpm", "cht max 150 C"],
      ["step 2", "for 15 min", "at crank.speed 1400..1600 rpm", "cht max 175 C", "oil.temp max 95 C"],
      ["step 3", "for 15 min", "at crank.speed 1900..2100 rpm", "cht max 195 C", "oil.temp max 98 C"],
      ["step 4", "for 10 min", "at crank.speed 2300..2500 rpm", "cht max 205 C", "oil.temp max 100 C"],
      ["step 5", "for 5 min", "at crank.speed 900..1100 rpm", "cht max 205 C"],
    ]),
    ...members("cool cht max 20 C/min"),
    "",
    "# Recurring work",
    "task oil-change-4 Tern-4 every 50 h or 6 months tolerance 5 h",
    "task compression-4 Tern-4 every 100 h or 12 months tolerance 10 h",
    "task strainer-4 Tern-4 every 50 h or 6 months",
    "task magneto-points-4 Tern-4 every 100 h or 12 months",
    "",
    'bulletin B-21 Tern-4 "Oil pump drive pin" mandatory within 50 h',
    "",
  ].join("\n");
}

export const CURLEW_ROUTE = `route top-overhaul Curlew-9
  step receive    needs photo 4; sign stores; sign fitter
  step strip      after receive    needs photo 1; sign fitter
  step inspect    after strip      needs limits wear cylinder, piston, valve, spring, rocker, pushrod, tappet, rod, crank, case, cam, gear, oil-pump; sign fitter; sign inspector independent
  step repair     after inspect    needs sign fitter; sign inspector independent
  step build      after repair     needs limits new ring, clearance, timing; torque all; sign fitter; sign inspector independent
  step run        after build      needs run-in Curlew-9; leak-check; sign run-operator
  step after-run  after run        needs compression; strainer-clean; magnetic-plug; gear-case; sign fitter
  step close      after after-run  needs torque gear-case.nut; wire-locking; tool-count; sign fitter; sign inspector independent
  step release    after close      needs no open defect; sign certifier
  step pack       after release    needs preservation; fluids-drained; blanked; sign stores
  step dispatch   after pack       needs sign stores
`;

export const TERN_ROUTES = `route top-overhaul-4 Tern-4
  step receive    needs photo 1; sign stores; sign fitter
  step strip      after receive    needs sign fitter
  step inspect    after strip      needs limits wear cylinder, piston, valve, spring, rocker; sign fitter; sign inspector independent
  step build      after inspect    needs limits new ring, clearance; torque cylinder.nut, rocker.pedestal-nut, spark-plug.body; sign fitter; sign inspector independent
  step run        after build      needs run-in Tern-4; leak-check; sign run-operator
  step after-run  after run        needs compression; strainer-4; sign fitter
  step close      after after-run  needs wire-locking; tool-count; sign fitter; sign inspector independent
  step release    after close      needs no open defect; sign certifier
`;

export const TERN_SERVICE_ROUTE = `route service-4 Tern-4
  step service   needs compression; strainer-4; oil-change-4; leak-check; sign fitter
  step release   after service    needs no open defect; sign certifier
`;
