/**
 * Direct compression test: the pressure that each cylinder makes while the engine is turned over.
 */
import { settle, show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive, type Worked } from "./result.ts";

export interface DirectLimits {
  readonly source: string;
  /** Least pressure of a cylinder, kPa. */
  readonly least_kPa?: number;
  /** Greatest difference between two cylinders, kPa. */
  readonly greatestSpread_kPa?: number;
  /** Least share of the highest cylinder, percent. */
  readonly leastOfHighest_percent?: number;
}

export interface DirectTest extends Worked {
  lowest: number;
  highest: number;
  lowest_kPa: number;
  highest_kPa: number;
  mean_kPa: number;
  spread_kPa: number;
  /** The lowest as a percentage of the highest. */
  lowestOfHighest_percent: number;
  /** Cylinders below the least pressure or the least share; a figure equal to its limit is inside it. */
  below: number[];
  spreadWithin: boolean | undefined;
}

/**
 * Least, spread and share of a direct compression test.
 * @param readings pressure of each cylinder in kPa, greater than zero; no cylinder twice
 * @param limits the maker's, with source; there is no universal one
 * Source: difference and ratio (common practice, no source).
 */
export function directTest(
  readings: readonly { readonly cylinder: number; readonly pressure_kPa: number }[],
  limits?: DirectLimits,
): Result<DirectTest> {
  if (readings.length === 0) return refuse("The compression test has no reading.");
  const seen = new Set<number>();
  for (const { cylinder, pressure_kPa } of readings) {
    if (seen.has(cylinder)) return refuse(`Cylinder ${show(cylinder)} has two readings in one test.`);
    seen.add(cylinder);
    const bad = refuseNotPositive({ [`reading of cylinder ${cylinder}`]: pressure_kPa });
    if (bad) return bad;
  }
  const low = readings.reduce((a, b) => (b.pressure_kPa < a.pressure_kPa ? b : a));
  const high = readings.reduce((a, b) => (b.pressure_kPa > a.pressure_kPa ? b : a));
  const spread_kPa = settle(high.pressure_kPa - low.pressure_kPa);
  const lowestOfHighest_percent = settle((100 * low.pressure_kPa) / high.pressure_kPa);
  const least = limits?.least_kPa ?? 0;
  const share = limits?.leastOfHighest_percent ?? 0;
  const below = readings
    .filter((each) => each.pressure_kPa < least || settle((100 * each.pressure_kPa) / high.pressure_kPa) < share)
    .map((each) => each.cylinder);
  return answer({
    lowest: low.cylinder,
    highest: high.cylinder,
    lowest_kPa: low.pressure_kPa,
    highest_kPa: high.pressure_kPa,
    mean_kPa: readings.reduce((sum, each) => sum + each.pressure_kPa, 0) / readings.length,
    spread_kPa,
    lowestOfHighest_percent,
    below,
    spreadWithin: limits?.greatestSpread_kPa === undefined ? undefined : spread_kPa <= limits.greatestSpread_kPa,
    steps: [
      `Lowest: cylinder ${low.cylinder}, ${show(low.pressure_kPa)} kPa; highest: cylinder ${high.cylinder}, ${show(high.pressure_kPa)} kPa.`,
      `Spread ${show(spread_kPa, 4)} kPa; the lowest is ${show(lowestOfHighest_percent, 3)} % of the highest.`,
    ],
  });
}
