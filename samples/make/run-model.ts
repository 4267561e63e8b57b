/**
 * A plain model of an engine on its stand, good enough that the logs hang together: temperatures follow power with a lag, oil pressure follows
 * speed and oil temperature, manifold pressure and fuel flow follow a club's cube law. It stands for no real engine.
 */
import { seeded, table } from "./text.ts";

export interface EngineModel {
  readonly cylinders: number;
  /** Speed at which the club takes full power, rpm. */
  readonly full_rpm: number;
  /** Oil pressure at full speed with the oil at 60 C, psi. */
  readonly oil_psi: number;
  /** Head temperature above air at full power, and at idle, C. */
  readonly headRise_C: number;
  readonly idleRise_C: number;
  readonly fuelFull_Lh: number;
  /** How much hotter or cooler each head runs, C at full power. */
  readonly offsets_C: readonly number[];
  readonly fuel_psi: number;
}

export interface Phase {
  readonly minutes: number;
  readonly rpm: number;
}

export interface RunPlan {
  /** Minutes after midnight at which the engine is turned. */
  readonly start_min: number;
  readonly air_C: number;
  readonly oilAtStart_C: number;
  readonly headAtStart_C: number;
  readonly pressure_inHg: number;
  readonly phases: readonly Phase[];
  readonly seed: number;
}

export interface RunLog {
  readonly lines: string[];
  readonly running_h: number;
  readonly fuel_L: number;
  readonly stop: string;
  /** The same samples as a data logger writes them: comma-separated, headings of its own. */
  readonly csv: string;
}

function clock(minutes: number, seconds = 0): string {
  const hh = String(Math.trunc(minutes / 60)).padStart(2, "0");
  const mm = String(Math.trunc(minutes % 60)).padStart(2, "0");
  return seconds === 0 ? `${hh}:${mm}` : `${hh}:${mm}:${String(seconds).padStart(2, "0")}`;
}

/** Headings of the stand's data logger and the channel that each is. */
export function loggerHeadings(cylinders: number): readonly (readonly [heading: string, column: string])[] {
  return [
    ["tacho, rpm", "crank.speed/rpm"],
    ["MAP, inHg", "manifold.pressure/inHg"],
    ["oil press, psi", "oil.pressure/psi"],
    ["oil in, deg C", "oil.temp/C"],
    ["fuel press, psi", "fuel.pressure/psi"],
    ["fuel flow, L/h", "fuel.flow/L/h"],
    ...Array.from({ length: cylinders }, (_, i) => [`head ${i + 1}, deg C`, `cht[${i + 1}]/C`] as const),
  ];
}

function csvOf(cylinders: number, rows: readonly (readonly string[])[]): string {
  const headings = ["clock", ...loggerHeadings(cylinders).map(([heading]) => `"${heading}"`)];
  return `${[headings, ...rows].map((row) => row.join(",")).join("\n")}\n`;
}

/** One sample a minute; each ten seconds in the minute of the start, where the oil pressure is watched. */
export function runLog(model: EngineModel, plan: RunPlan): RunLog {
  const random = seeded(plan.seed);
  const jitter = (span: number): number => (random() - 0.5) * 2 * span;
  let oil_C = plan.oilAtStart_C;
  const heads_C = model.offsets_C.map((offset) => plan.headAtStart_C + offset * 0.03);
  let fuel_L = 0;
  const rows: string[][] = [];
  const sample = (time: string, rpm: number, share: number): void => {
    const turning = rpm > 0;
    const thick = Math.max(-6, Math.min(16, (60 - oil_C) * 0.35));
    const oil_psi = turning
      ? share *
        (18 +
          (model.oil_psi - 18) * Math.min(1, rpm / model.full_rpm) ** 0.62 +
          thick * Math.min(1, 0.35 + rpm / model.full_rpm) +
          jitter(0.8))
      : 0;
    const load = (rpm / model.full_rpm) ** 2;
    const map_inHg = turning ? 11.6 + 20.5 * load ** 0.9 + jitter(0.15) : plan.pressure_inHg;
    const flow = turning ? 9 + (model.fuelFull_Lh - 9) * (rpm / model.full_rpm) ** 3 * 0.96 + jitter(0.4) : 0;
    rows.push([
      time,
      String(turning ? Math.round(rpm + jitter(9)) : 0),
      map_inHg.toFixed(1),
      String(Math.round(oil_psi)),
      String(Math.round(oil_C)),
      (turning ? model.fuel_psi + jitter(0.15) : 0).toFixed(1),
      flow.toFixed(1),
      ...heads_C.map((head) => String(Math.round(head + (turning ? jitter(0.9) : 0)))),
    ]);
    fuel_L += turning ? flow / 60 : 0;
  };
  const advance = (rpm: number, seconds: number): void => {
    const load = (rpm / model.full_rpm) ** 2.4;
    const turning = rpm > 0;
    for (const [i, head] of heads_C.entries()) {
      const target =
        plan.air_C +
        (turning
          ? model.idleRise_C +
            (model.headRise_C - model.idleRise_C) * load +
            (model.offsets_C[i] ?? 0) * (0.3 + 0.7 * load)
          : 12);
      heads_C[i] = head + (target - head) * (1 - Math.exp(-seconds / (turning ? 330 : 900)));
    }
    const oilTarget = plan.air_C + (turning ? 34 + 28 * load : 6);
    oil_C += (oilTarget - oil_C) * (1 - Math.exp(-seconds / (turning ? 620 : 2400)));
  };

  let minute = plan.start_min;
  sample(clock(minute), 0, 0);
  const first = plan.phases[0]?.rpm ?? 800;
  const risen = [0, 0.35, 0.72, 0.97, 1, 1];
  for (let ten = 1; ten <= 5; ten++) {
    advance(first, 10);
    sample(clock(minute, ten * 10), ten === 1 ? 320 : first, risen[ten] ?? 1);
  }
  let ran = 0;
  for (const phase of plan.phases) {
    for (let i = 0; i < phase.minutes; i++) {
      minute++;
      ran++;
      // The last ten seconds of the first minute are left over.
      advance(phase.rpm, ran === 1 ? 10 : 60);
      sample(clock(minute), phase.rpm, 1);
    }
  }
  for (let i = 0; i < 3; i++) {
    minute++;
    advance(0, 60);
    sample(clock(minute), 0, 0);
  }
  const head = [
    "log time crank.speed/rpm",
    "manifold.pressure/inHg",
    "oil.pressure/psi",
    "oil.temp/C",
    "fuel.pressure/psi",
    "fuel.flow/L/h",
    `cht[1..${model.cylinders}]/C`,
  ].join(" ");
  return {
    lines: [`  ${head}`, ...table(rows)],
    running_h: ran / 60,
    fuel_L,
    stop: clock(minute),
    csv: csvOf(model.cylinders, rows),
  };
}

export const CURLEW_MODEL: EngineModel = {
  cylinders: 9,
  full_rpm: 2300,
  oil_psi: 80,
  headRise_C: 185,
  idleRise_C: 92,
  fuelFull_Lh: 98,
  offsets_C: [-6, -3, 1, 5, 8, 6, 2, -2, -5],
  fuel_psi: 4.6,
};
