/** The files of the two engine types: places, limits, torques, running-in, recurring work, bulletins. */
import { CURLEW_FASTENERS, CURLEW_FEATURES, CURLEW_MORE_LIMITS } from "./curlew-9.ts";
import { TERN_FASTENERS, TERN_FEATURES, TERN_MORE_LIMITS } from "./tern-4.ts";
import { columns, members } from "./text.ts";
import { type Fastener, type Feature, limitLines, placeOf, placesLine, torqueLimitLines } from "./type-data.ts";

function groups(features: readonly Feature[]): Map<string, Feature[]> {
  const out = new Map<string, Feature[]>();
  for (const feature of features) {
    const group = feature.name.split(".")[0] ?? "";
    out.set(group, [...(out.get(group) ?? []), feature]);
  }
  return out;
}

const TITLES: Readonly<Record<string, string>> = {
  cylinder: "Barrels",
  piston: "Pistons and pins",
  ring: "Rings",
  "inlet-guide": "Valve guides, inlet",
  "exhaust-guide": "Valve guides, exhaust",
  "inlet-valve": "Valves, inlet",
  "exhaust-valve": "Valves, exhaust",
  "inlet-seat": "Valve seats, inlet",
  "exhaust-seat": "Valve seats, exhaust",
  valve: "Valves as assembled",
  spring: "Valve springs",
  "outer-spring": "Valve springs, outer",
  "inner-spring": "Valve springs, inner",
  "cam-ring": "Cam ring",
  rocker: "Rockers",
  pushrod: "Push rods",
  tappet: "Tappets",
  rod: "Connecting rods",
  crank: "Crankshaft",
  case: "Crankcase",
  cam: "Cam",
  gear: "Reduction gear",
  "oil-pump": "Oil pump",
  ignition: "Ignition",
  clearance: "Valve clearance, cold",
  timing: "Timing",
};

function placesPart(features: readonly Feature[], fasteners: readonly Fastener[], parts: readonly string[]): string[] {
  return [
    ...members("", "# Parts by place", ...parts, "", "# Readings by place"),
    ...features.filter((f) => f.rows !== "").map((f) => `  places ${placesLine(f)}`),
    ...members(
      `places ${features
        .filter((f) => f.rows === "")
        .map((f) => f.name)
        .join(" ")}`,
      "",
      "# Fasteners by place",
    ),
    ...fasteners.filter((f) => f.rows !== "").map((f) => `  places ${placeOf(f.name, f.rows, f.sub)}`),
    ...members(
      `places ${fasteners
        .filter((f) => f.rows === "")
        .map((f) => f.name)
        .join(" ")}`,
    ),
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
    ...members(
      "layout radial 9",
      "numbering clockwise from rear",
      "rotation clockwise seen from rear",
      "mounting 0 deg",
      "master-rod 5",
      "bore 98 mm",
      "stroke 110 mm",
      "lock-check after 4 h standing",
      'material cylinder "steel 4140"',
      'material piston "aluminium"',
      'life "CK-9120" 3000 h',
      'life "MB-9140" 1200 h or 12 years',
    ),
    ...placesPart(CURLEW_FEATURES, CURLEW_FASTENERS, [
      'places cylinder[1..9] "Barrels"',
      'places head[1..9] piston[1..9] inlet-valve[1..9] exhaust-valve[1..9] inlet-guide[1..9] exhaust-guide[1..9] outer-spring[1..9/inlet,exhaust] inner-spring[1..9/inlet,exhaust] "Upper end"',
      'places rod[1..9] crankshaft master-bearing cam-ring crankcase "Power section"',
      'places planet-pinion[1..6] propeller-shaft "Reduction gear"',
      'places magneto-unit[left,right] carburettor-unit oil-pump-unit "Accessories"',
      'places baffle[1..9] rocker-cover[1..9/inlet,exhaust] "Outside"',
    ]),
    "",
    'limits Curlew-9 revision C from 2025-11-01 "Overhaul data, sheets 4 to 10"',
    ...limitsPart(CURLEW_FEATURES, CURLEW_MORE_LIMITS, CURLEW_FASTENERS),
    ...members(
      "",
      "# Tests",
      'compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "10-4"',
      'magneto-limit drop 100 rpm split 40 rpm at 1700 rpm ref "10-3"',
    ),
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
    ...members(
      "layout opposed 4",
      "numbering clockwise from rear",
      "rotation clockwise seen from rear",
      "bore 95 mm",
      "stroke 92 mm",
      "firing 1 3 2 4",
      "lock-check after 24 h standing",
      'material cylinder "steel 4140"',
      'life "TK-4100" 2400 h',
    ),
    ...placesPart(TERN_FEATURES, TERN_FASTENERS, [
      'places cylinder[1..4] head[1..4] piston[1..4] inlet-valve[1..4] exhaust-valve[1..4] "Upper end"',
      'places rod[1..4] crankshaft camshaft crankcase "Lower end"',
      'places magneto-unit[left,right] carburettor-unit oil-pump-unit "Accessories"',
      'places baffle[1..4] rocker-cover[1..4] "Outside"',
    ]),
    "",
    'limits Tern-4 revision A from 2024-05-01 "Overhaul data, sheets T 3 to T 8"',
    ...limitsPart(TERN_FEATURES, TERN_MORE_LIMITS, TERN_FASTENERS),
    ...members(
      "",
      "# Tests",
      'compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "T 8-3"',
      'magneto-limit drop 125 rpm split 50 rpm at 1800 rpm ref "T 8-2"',
    ),
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
