/** The shape of an engine type's data in the samples, and how it is written as `places`, `limit` and `torque` lines and as readings. */
import { columns, labelsOf, rowLabel, table } from "./text.ts";

/** A measured feature of an engine type. Figures are in `unit`; `decimals` is what the shop writes down. */
export interface Feature {
  readonly name: string;
  /** First place label: `1..9`, `front,rear`, or empty for a single place. */
  readonly rows: string;
  /** Second place label, the columns of the inspection sheet. */
  readonly cols?: readonly string[];
  readonly unit: string;
  readonly decimals: number;
  /** Bounds of a new part; a missing lower bound means one-sided. */
  readonly fresh?: readonly [number | undefined, number];
  readonly wear?: readonly ["min" | "max", number];
  /** Bounds that hold whether new or worn. */
  readonly always?: readonly [number, number];
  /** Expanded uncertainty of the instrument, in `unit`. */
  readonly u: number;
  readonly instrument: string;
  readonly setOn?: string;
  readonly ref: string;
  readonly state?: "hot" | "cold";
}

export interface Fastener {
  readonly name: string;
  readonly rows: string;
  readonly sub?: string;
  readonly low: number;
  readonly high: number;
  readonly lube: string;
  readonly locking?: string;
  /** To be torqued again after the last run. */
  readonly retorque?: boolean;
  readonly instrument: string;
  /** Adapter and wrench length in mm. */
  readonly adapter?: readonly [number, number];
  readonly ref: string;
}

export function placeOf(name: string, rows: string, sub?: string): string {
  if (rows === "") return name;
  return sub ? `${name}[${rows}/${sub}]` : `${name}[${rows}]`;
}

export function placesLine(feature: Feature): string {
  return placeOf(feature.name, feature.rows, feature.cols?.join(","));
}

function boundsText(feature: Feature): string[] {
  const d = (value: number): string => value.toFixed(feature.decimals);
  const out: string[] = [];
  if (feature.always) out.push(`${d(feature.always[0])}..${d(feature.always[1])} ${feature.unit}`, "");
  else {
    const low = feature.fresh?.[0];
    const fresh = feature.fresh;
    out.push(
      !fresh
        ? ""
        : low === undefined
          ? `new max ${d(fresh[1])} ${feature.unit}`
          : `new ${d(low)}..${d(fresh[1])} ${feature.unit}`,
    );
    out.push(feature.wear ? `wear ${feature.wear[0]} ${d(feature.wear[1])} ${feature.unit}` : "");
  }
  return out;
}

/** The `limit` lines of features, one a line, aligned. */
export function limitLines(features: readonly Feature[]): string[] {
  return columns(
    features.map((feature) => [
      `limit ${placeOf(feature.name, feature.rows)}`,
      ...boundsText(feature),
      [feature.state ?? "", `ref "${feature.ref}"`].filter(Boolean).join("  "),
    ]),
  );
}

export function torqueLimitLines(fasteners: readonly Fastener[]): string[] {
  return columns(
    fasteners.map((f) => [
      `torque ${placeOf(f.name, f.rows, f.sub)}`,
      `${f.low}..${f.high} N.m`,
      f.lube,
      f.locking ? `locking ${f.locking}` : "",
      f.retorque ? "retorque" : "",
      `ref "${f.ref}"`,
    ]),
  );
}

/** A reading somewhere between new and two thirds of the wear allowance, never nearer to a bound than twice the uncertainty. */
export function wornReading(feature: Feature, random: () => number, share: number): number {
  const { fresh, wear, always, u } = feature;
  if (always) return (always[0] + always[1]) / 2 + (random() - 0.5) * 0.5 * Math.max(0, always[1] - always[0] - 4 * u);
  if (!fresh) throw new Error(`${feature.name} has no bounds`);
  const [low, high] = fresh;
  if (!wear) return (low ?? 0) + (high - (low ?? 0)) * (0.3 + 0.4 * random());
  const grain = (random() - 0.5) * 0.12;
  if (wear[0] === "max") {
    const from = low === undefined ? high * 0.45 : (low + high) / 2;
    return Math.min(wear[1] - 2 * u, from + (wear[1] - from) * Math.max(0.02, share + grain));
  }
  const from = ((low ?? high) + high) / 2;
  return Math.max(wear[1] + 2 * u, from - (from - wear[1]) * Math.max(0.02, share + grain));
}

/** A reading well inside the bounds of a new part. */
export function freshReading(feature: Feature, random: () => number): number {
  const bounds = feature.always ?? feature.fresh;
  if (!bounds) throw new Error(`${feature.name} has no bounds`);
  const low = bounds[0] ?? bounds[1] * 0.2;
  return low + (bounds[1] - low) * (0.32 + 0.36 * random());
}

/** The readings of a feature by row, each a list by column. */
export type Readings = Map<string, number[]>;

export function readAll(feature: Feature, random: () => number, how: "worn" | "fresh"): Readings {
  const out: Readings = new Map();
  const labels = feature.rows === "" ? [""] : labelsOf(feature.rows);
  for (const label of labels) {
    const share = 0.16 + 0.4 * random();
    out.set(
      label,
      (feature.cols ?? [""]).map(() =>
        how === "worn" ? wornReading(feature, random, share) : freshReading(feature, random),
      ),
    );
  }
  return out;
}

/** The reading lines of a feature: a grid where there are rows, a single line otherwise. */
export function readingLines(
  feature: Feature,
  readings: Readings,
  options: { size?: string; by?: string; comment?: string } = {},
): string[] {
  const instrument = `with ${feature.instrument}${feature.setOn ? ` set on ${feature.setOn}` : ""}`;
  const tail = [
    instrument,
    options.size ? `size ${options.size}` : "",
    feature.state ?? "",
    options.by ? `by ${options.by}` : "",
  ]
    .filter(Boolean)
    .join(" ");
  const comment = options.comment ? `  # ${options.comment}` : "";
  if (feature.rows === "") {
    return [...readings.values()].map(
      ([value]) =>
        `  measure ${feature.name} ${(value ?? 0).toFixed(feature.decimals)} ${feature.unit} ${tail}${comment}`,
    );
  }
  const head = [`grid ${feature.name}/${feature.unit}`, ...(feature.cols ?? []), tail].join("  ");
  const rows = [...readings].map(([label, values]) => [
    rowLabel(label),
    ...values.map((value) => (Number.isNaN(value) ? "?" : value.toFixed(feature.decimals))),
  ]);
  return [`  ${head}${comment}`, ...table(rows)];
}

/** One line a cylinder for nuts in groups, else one line; then how they were locked. */
export function torqueLines(
  fastener: Fastener,
  options: { by?: string; retorque?: boolean; rows?: readonly string[] } = {},
): string[] {
  const value = (fastener.low + fastener.high) / 2;
  const parts = [`${value} N.m`, fastener.lube, `with ${fastener.instrument}`];
  if (fastener.adapter) {
    const [adapter, length] = fastener.adapter;
    parts.push(`adapter ${adapter} mm on ${length} mm set ${((value * length) / (length + adapter)).toFixed(1)} N.m`);
  }
  if (options.retorque) parts.push("retorque");
  if (options.by) parts.push(`by ${options.by}`);
  const labels = options.rows ?? labelsOf(fastener.rows);
  const single = fastener.sub === undefined || (labels.length < 3 && !options.rows);
  const places = single
    ? [placeOf(fastener.name, fastener.rows, fastener.sub)]
    : labels.map((label) => placeOf(fastener.name, label, fastener.sub));
  const out = places.map((place) => `  torque ${place} ${parts.join(" ")}`);
  if (fastener.locking) {
    const how =
      {
        wire: ' "0.8 mm, double twist"',
        "split-pin": "",
        tab: ' "New tab"',
        "lock-plate": "",
        "self-locking": ' "New nut"',
      }[fastener.locking] ?? "";
    out.push(
      `  locked ${placeOf(fastener.name, options.rows?.join(",") ?? fastener.rows, fastener.sub)} ${fastener.locking}${how}`,
    );
  }
  return out;
}
