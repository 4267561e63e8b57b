/** The reference side of the sample shop: settings, people, instruments, stands, routes. */
import { members } from "./text.ts";

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
  tool(
    "BG-0",
    "Small bore gauge 6 to 10 mm",
    "range 6..10 mm",
    "resolution 0.001 mm",
    "uncertainty 0.001 mm",
    'calibrated 2025-11-20 until 2026-11-20 "certificate 862"',
  ),
  tool(
    "BG-1",
    "Small bore gauge 9 to 26 mm",
    "range 9..26 mm",
    "resolution 0.001 mm",
    "uncertainty 0.001 mm",
    'calibrated 2025-01-14 until 2026-01-14 "certificate 804"',
    'calibrated 2026-01-12 until 2027-01-12 "certificate 880"',
  ),
  tool(
    "BG-2",
    "Bore gauge 50 to 160 mm",
    'serial "881-204"',
    "range 50..160 mm",
    "resolution 0.001 mm",
    "uncertainty 0.002 mm           # expanded, k = 2",
    'material "steel"',
    'calibrated 2025-01-10 until 2026-01-10 "certificate 805"',
    'calibrated 2026-01-10 until 2027-01-10 "certificate 881"',
  ),
  tool(
    "RG-95",
    "Setting ring 95 mm",
    "range 95.000..95.000 mm",
    "uncertainty 0.001 mm",
    'material "steel"',
    'calibrated 2025-06-30 until 2027-06-30 "certificate 840"',
  ),
  tool(
    "RG-98",
    "Setting ring 98 mm",
    "range 98.000..98.000 mm",
    "uncertainty 0.001 mm",
    'material "steel"',
    'calibrated 2025-06-30 until 2027-06-30 "certificate 841"',
  ),
  tool(
    "MIC-25",
    "Micrometer 0 to 25 mm",
    "range 0..25 mm",
    "resolution 0.001 mm",
    "uncertainty 0.001 mm",
    'calibrated 2025-10-01 until 2026-10-01 "certificate 855"',
  ),
  tool(
    "MIC-50",
    "Micrometer 25 to 50 mm",
    "range 25..50 mm",
    "resolution 0.001 mm",
    "uncertainty 0.001 mm",
    'calibrated 2025-10-01 until 2026-10-01 "certificate 856"',
  ),
  tool(
    "MIC-75",
    "Micrometer 50 to 75 mm",
    "range 50..75 mm",
    "resolution 0.001 mm",
    "uncertainty 0.001 mm",
    'calibrated 2025-10-01 until 2026-10-01 "certificate 857"',
  ),
  tool(
    "MIC-100",
    "Micrometer 75 to 100 mm",
    "range 75..100 mm",
    "resolution 0.001 mm",
    "uncertainty 0.001 mm",
    'calibrated 2025-10-02 until 2026-10-02 "certificate 858"',
  ),
  tool(
    "MIC-125",
    "Micrometer 100 to 125 mm",
    "range 100..125 mm",
    "resolution 0.001 mm",
    "uncertainty 0.002 mm",
    'calibrated 2025-10-02 until 2026-10-02 "certificate 859"',
  ),
  tool(
    "DG-1",
    "Depth gauge 0 to 50 mm",
    "range 0..50 mm",
    "resolution 0.01 mm",
    "uncertainty 0.02 mm",
    'calibrated 2025-12-01 until 2026-12-01 "certificate 870"',
  ),
  tool(
    "CAL-1",
    "Vernier caliper 0 to 150 mm",
    "range 0..150 mm",
    "resolution 0.01 mm",
    "uncertainty 0.03 mm",
    'calibrated 2025-12-01 until 2026-12-01 "certificate 871"',
  ),
  tool(
    "DI-1",
    "Dial indicator 0 to 12 mm",
    "range 0..12 mm",
    "resolution 0.001 mm",
    "uncertainty 0.003 mm",
    'calibrated 2025-12-01 until 2026-12-01 "certificate 872"',
  ),
  tool(
    "PLG-4",
    "Groove comparator 1 to 6 mm",
    "range 1..6 mm",
    "resolution 0.001 mm",
    "uncertainty 0.003 mm",
    'calibrated 2025-12-02 until 2026-12-02 "certificate 873"',
  ),
  tool(
    "FG-1",
    "Feeler gauges 0.03 to 1.00 mm",
    "range 0.03..1.00 mm",
    "resolution 0.01 mm",
    "uncertainty 0.01 mm",
    'calibrated 2025-09-15 until 2026-09-15 "certificate 850"',
  ),
  tool(
    "ST-1",
    "Spring tester 0 to 1000 N",
    "range 10..1000 N",
    "resolution 1 N",
    "uncertainty 2 N",
    'calibrated 2025-09-16 until 2026-09-16 "certificate 851"',
  ),
  tool(
    "SC-1",
    "Bench scales 5 kg",
    "range 1..5000 g",
    "resolution 0.1 g",
    "uncertainty 0.2 g",
    'calibrated 2025-09-16 until 2026-09-16 "certificate 852"',
  ),
  tool(
    "PRO-1",
    "Timing disc 360 deg",
    "range 0..360 deg",
    "resolution 0.1 deg",
    "uncertainty 0.2 deg",
    'calibrated 2025-09-17 until 2027-09-17 "certificate 853"',
  ),
  tool(
    "TW-1",
    "Torque wrench 5 to 25 N.m",
    "range 5..25 N.m",
    "uncertainty 2 %",
    "length 220 mm",
    'calibrated 2025-11-03 until 2026-11-03 "certificate 866"',
  ),
  tool(
    "TW-2",
    "Torque wrench 20 to 100 N.m",
    "range 20..100 N.m",
    "uncertainty 2 %",
    "length 300 mm",
    'calibrated 2025-11-03 until 2026-11-03 "certificate 867"',
  ),
  tool(
    "TW-3",
    "Torque wrench 80 to 400 N.m",
    "range 80..400 N.m",
    "uncertainty 2 %",
    "length 600 mm",
    'calibrated 2025-11-03 until 2026-11-03 "certificate 868"',
  ),
  tool(
    "DC-1",
    "Differential compression tester, 0.040 in orifice",
    "range 0..100 psi",
    "uncertainty 0.5 psi",
    'calibrated 2025-10-20 until 2026-10-20 "certificate 860"',
  ),
  tool(
    "PG-3",
    "Oil pressure sender and gauge 0 to 150 psi",
    "range 0..150 psi",
    "uncertainty 1 psi",
    'calibrated 2026-01-19 until 2027-01-19 "certificate 884"',
  ),
  tool(
    "PG-4",
    "Fuel pressure gauge 0 to 15 psi",
    "range 0..15 psi",
    "uncertainty 0.1 psi",
    'calibrated 2026-01-19 until 2027-01-19 "certificate 885"',
  ),
  tool(
    "MP-1",
    "Manifold pressure gauge 5 to 50 inHg",
    "range 5..50 inHg",
    "uncertainty 0.1 inHg",
    'calibrated 2026-01-19 until 2027-01-19 "certificate 886"',
  ),
  tool(
    "TC-2",
    "Oil thermometer -20 to 150 C",
    "range -20..150 C",
    "uncertainty 0.8 dC",
    'calibrated 2026-01-20 until 2027-01-20 "certificate 887"',
  ),
  tool(
    "TC-9",
    "Thermocouple set, nine heads, -20 to 400 C",
    "range -20..400 C",
    "uncertainty 1.5 dC",
    'calibrated 2026-01-20 until 2027-01-20 "certificate 888"',
  ),
  tool(
    "TA-1",
    "Tachometer 0 to 4000 rpm",
    "range 0..4000 rpm",
    "uncertainty 3 rpm",
    'calibrated 2026-01-21 until 2027-01-21 "certificate 889"',
  ),
  tool(
    "FF-1",
    "Fuel flow meter 0 to 200 L/h",
    "range 0..200 L/h",
    "uncertainty 1 %",
    'calibrated 2026-01-21 until 2027-01-21 "certificate 890"',
  ),
];

/** @param leaveOut numbers of instruments that this shop does not own. */
export function instrumentsFile(leaveOut: readonly string[] = []): string {
  const blocks = TOOLS.filter((each) => !leaveOut.includes(each.name)).map((each) =>
    [`instrument ${each.name} "${each.title}"`, ...members(each.lines)].join("\n"),
  );
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

export const CURLEW_ROUTE = `route top-overhaul Curlew-9
  step receive    needs photo 4; sign stores; sign fitter
  step strip      after receive    needs photo 1; sign fitter
  step inspect    after strip      needs limits wear cylinder, piston, inlet-guide, exhaust-guide, inlet-valve, exhaust-valve, inlet-seat, exhaust-seat, valve, outer-spring, inner-spring, rocker, pushrod, tappet, rod, crank.pin, crank.journal, crank.run-out, case, gear.backlash, gear.pinion-bush, gear.pinion-pin, oil-pump; sign fitter; sign inspector independent
  step repair     after inspect    needs sign fitter; sign inspector independent
  step build      after repair     needs limits new ring, cam-ring, clearance, timing; torque all; sign fitter; sign inspector independent
  step stand      after build      needs run-in Curlew-9; leak-check; sign run-operator
  step after-run  after stand      needs compression; strainer-clean; magnetic-plug; gear-case; sign fitter
  step close      after after-run  needs torque gear-case.nut; wire-locking; tool-count; sign fitter; sign inspector independent
  step release    after close      needs no open defect; sign certifier
  step pack       after release    needs preservation; fluids-drained; blanked; sign stores
`;

export const TERN_ROUTES = `route top-overhaul-4 Tern-4
  step receive    needs photo 1; sign stores; sign fitter
  step strip      after receive    needs sign fitter
  step inspect    after strip      needs limits wear cylinder, piston, inlet-guide, exhaust-guide, inlet-valve, exhaust-valve, valve, spring, rocker; sign fitter; sign inspector independent
  step build      after inspect    needs limits new ring, clearance; torque cylinder.nut, rocker.pedestal-nut, spark-plug.body; sign fitter; sign inspector independent
  step stand      after build      needs run-in Tern-4; leak-check; sign run-operator
  step after-run  after stand      needs compression; strainer-4; sign fitter
  step close      after after-run  needs wire-locking; tool-count; sign fitter; sign inspector independent
  step release    after close      needs no open defect; sign certifier
`;

export const TERN_SERVICE_ROUTE = `route service-4 Tern-4
  step service   needs compression; strainer-4; oil-change-4; leak-check; sign fitter
  step release   after service    needs no open defect; sign certifier
`;
