import { preloadFromStretch, stretchFromPreload, threadStressArea } from "../../../server/calc/bolt-stretch.ts";
import { torqueApart, torqueWithDrag } from "../../../server/calc/prevailing-torque.ts";
import { dialSetting, fastenerTorque } from "../../../server/calc/torque-adapter.ts";
import { wrenchRange } from "../../../server/calc/wrench-range.ts";
import type { PublishedCheck, UncheckedComputation } from "./check.ts";
import { figures } from "./check.ts";

const group = 3;
/** Exact by the definitions of inch, pound and standard gravity. */
const Nm_per_lbfin = 0.1129848290276167;
const Nm_per_lbfft = 12 * Nm_per_lbfin;
const N_per_lbf = 4.4482216152605;
const mm_per_in = 25.4;
const MPa_per_psi = 0.006894757293168361;

const army = "US Army TM 1-1500-204-23-9 p. 143 (aviationmiscmanuals.tpub.com)";
const rotor =
  "helicopter maintenance manual p. 20.4 (easymanua.ls, page 224): 10 in wrench, 1.5 in adapter, 135 lbf.in";
const navy = "NAVEDTRA 14315 p. 116 (navyaviation.tpub.com)";
const piper = "PA-28-161 maintenance manual p. 2-90";
const forum = "jaguarforums.com, torque-wrench adapter offsets, 18 in and 6 in, 50 lbf.ft";
const rows = "cal11.calculator.city, extension of 3 in at 100 lbf.ft (its straight row fixes the wrench at 18 in)";
const drift = "toolcroze.com, extension a quarter of the wrench, effect of the angle";
const toolbox = "engineeringtoolbox.com, bolt stretching: 7/8 in, 9 threads, 10000 lbf, 5 in, 30e6 psi";
const machine = "machinecalcs.com, bolt elongation: M10 x 1.5, 25 kN, 50 mm, strain 0.00216";
const tare = "TM 5-2330-325-13&P p. 0095-1: table 50-70 lbf.in, drag 30 lbf.in";

function check(
  computation: string,
  what: string,
  source: string,
  expected: number,
  tolerance: number,
  got: () => number,
): PublishedCheck {
  return { computation, group, what, source, kind: "read", expected, tolerance, got };
}

const dial = (torque: number, unit_Nm: number, wrench_in: number, adapter_in: number, angle_deg: number) => () =>
  figures(
    dialSetting(torque * unit_Nm, {
      wrenchLength_mm: wrench_in * mm_per_in,
      adapterLength_mm: adapter_in * mm_per_in,
      angle_deg,
    }),
  ).dial_Nm / unit_Nm;
const effect = (angle_deg: number) => () =>
  (figures(fastenerTorque(100, { wrenchLength_mm: 400, adapterLength_mm: 100, angle_deg })).factor - 1) * 100;
const drag = (end: "low" | "high") => () => {
  const limits = figures(torqueWithDrag(50 * Nm_per_lbfin, 70 * Nm_per_lbfin, 30 * Nm_per_lbfin));
  return (end === "low" ? limits.finalLow_Nm : limits.finalHigh_Nm) / Nm_per_lbfin;
};
const inchStud = () => {
  const area = figures(threadStressArea(0.875 * mm_per_in, mm_per_in / 9, "unified"));
  return { area_in2: area.area_mm2 / mm_per_in ** 2 };
};
const stud = () =>
  figures(
    stretchFromPreload(
      10000 * N_per_lbf,
      [{ length_mm: 5 * mm_per_in, area_mm2: 0.46 * mm_per_in ** 2 }],
      30e6 * MPa_per_psi,
    ),
  );
const bolt = () => {
  const area = figures(threadStressArea(10, 1.5, "metric"));
  return figures(stretchFromPreload(25000, [{ length_mm: 50, area_mm2: area.area_mm2 }], 200000));
};
const inside = (dial_Nm: number) => () => (figures(wrenchRange(dial_Nm, 100)).verdict === "inside" ? 1 : 0);

export const checks: PublishedCheck[] = [
  check(
    "torque-adapter",
    "dial, 300 lbf.in, wrench 10 in, adapter 4 in straight, lbf.in",
    army,
    214,
    0.5,
    dial(300, Nm_per_lbfin, 10, 4, 0),
  ),
  check(
    "torque-adapter",
    "dial, adapter straight on, lbf.in",
    rotor,
    117.39,
    0.005,
    dial(135, Nm_per_lbfin, 10, 1.5, 0),
  ),
  check(
    "torque-adapter",
    "dial, adapter folded back, lbf.in",
    rotor,
    158.82,
    0.005,
    dial(135, Nm_per_lbfin, 10, 1.5, 180),
  ),
  check(
    "torque-adapter",
    "dial, 100 lbf.in, wrench 12 in, adapter 6 in, lbf.in",
    navy,
    66.7,
    0.05,
    dial(100, Nm_per_lbfin, 12, 6, 0),
  ),
  check(
    "torque-adapter",
    "dial, 30 lbf.ft, wrench 1 ft, adapter 0.25 ft, lbf.ft",
    piper,
    24,
    1e-12,
    dial(30, Nm_per_lbfft, 12, 3, 0),
  ),
  check("torque-adapter", "dial, adapter straight on, lbf.ft", forum, 37.5, 1e-12, dial(50, Nm_per_lbfft, 18, 6, 0)),
  check("torque-adapter", "dial, adapter at 45 degrees, lbf.ft", rows, 89.46, 0.01, dial(100, Nm_per_lbfft, 18, 3, 45)),
  check("torque-adapter", "dial, adapter at 90 degrees, lbf.ft", rows, 100, 1e-12, dial(100, Nm_per_lbfft, 18, 3, 90)),
  check(
    "torque-adapter",
    "torque at the fastener, adapter at 75 degrees, % above the dial",
    drift,
    6.5,
    0.05,
    effect(75),
  ),
  check(
    "torque-adapter",
    "torque at the fastener, adapter at 80 degrees, % above the dial",
    drift,
    4.3,
    0.05,
    effect(80),
  ),
  check(
    "torque-adapter",
    "torque at the fastener, adapter at 85 degrees, % above the dial",
    drift,
    2.2,
    0.05,
    effect(85),
  ),
  check(
    "torque-adapter",
    "torque at the fastener, adapter at 95 degrees, % above the dial",
    drift,
    -2.2,
    0.05,
    effect(95),
  ),
  check(
    "torque-adapter",
    "torque at the fastener, adapter at 100 degrees, % above the dial",
    drift,
    -4.3,
    0.05,
    effect(100),
  ),
  check("prevailing-torque", "least torque at the wrench, lbf.in", tare, 80, 1e-6, drag("low")),
  check("prevailing-torque", "greatest torque at the wrench, lbf.in", tare, 100, 1e-6, drag("high")),
  check(
    "prevailing-torque",
    "1075 lbf.in at the wrench less 75 lbf.in of run-on torque, lbf.in",
    "swirlzcupcakes.com, question on run-on torque",
    1000,
    1e-6,
    () => figures(torqueApart(1075 * Nm_per_lbfin, 75 * Nm_per_lbfin)).clamping_Nm / Nm_per_lbfin,
  ),
  check(
    "wrench-range",
    "a fifth of the greatest setting is inside (1)",
    "US Army TM 1-1500-204-23-9 p. 139: 4 % from 20 to 100 % of range",
    1,
    0,
    inside(20),
  ),
  check(
    "wrench-range",
    "just below a fifth is not inside (0)",
    "US Army TM 1-1500-204-23-9 p. 139: 4 % from 20 to 100 % of range",
    0,
    0,
    inside(19.9),
  ),
  check("bolt-stretch", "stress area of 7/8-9, in2", toolbox, 0.46, 0.005, () => inchStud().area_in2),
  check("bolt-stretch", "stretch of the stud, in", toolbox, 0.0036, 0.00005, () => stud().stretch_mm / mm_per_in),
  check("bolt-stretch", "stress of the stud, psi", toolbox, 21740, 5, () => stud().stress_MPa / MPa_per_psi),
  check(
    "bolt-stretch",
    "stress area of M10 x 1.5, mm2",
    machine,
    58,
    0.05,
    () => figures(threadStressArea(10, 1.5, "metric")).area_mm2,
  ),
  check("bolt-stretch", "stress of the bolt, MPa", machine, 431, 0.5, () => bolt().stress_MPa),
  check("bolt-stretch", "stretch of the bolt, mm", machine, 0.108, 0.0005, () => bolt().stretch_mm),
  check(
    "bolt-stretch",
    "preload shown by a stretch of 0.0036 in, lbf",
    toolbox,
    10000,
    70,
    () =>
      figures(
        preloadFromStretch(
          0.0036 * mm_per_in,
          [{ length_mm: 5 * mm_per_in, area_mm2: 0.46 * mm_per_in ** 2 }],
          30e6 * MPa_per_psi,
        ),
      ).preload_N / N_per_lbf,
  ),
];

export const unchecked: UncheckedComputation[] = [
  {
    computation: "tightening-sequence",
    group,
    why: "it compares a record with the maker's plan and works out no figure that a text could print",
  },
];
