/**
 * Fuel flow of a run: from a volume over a time, or by adding up a flow channel.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive, type Worked } from "./result.ts";
import { type RunTable, refuseTable, usualGap_s } from "./run-tables.ts";

/** Litres in a US gallon: 231 cubic inches. */
const litresPerUsGallon = 3.785411784;

export interface FuelFlow extends Worked {
  flow_Lph: number;
  flow_usgalph: number;
  flow_kgph: number;
}

/**
 * Mean fuel flow from the volume burnt.
 * @param volume_L fuel burnt, L
 * @param hours_h running time, h
 * @param density_kgpL density of the fuel, 0.6 to 1.1 kg/L: measured, or from the fuel's paper; never assumed here
 * Source: volume over time.
 */
export function fuelFlow(volume_L: number, hours_h: number, density_kgpL: number): Result<FuelFlow> {
  const bad = refuseNotPositive({ "fuel volume": volume_L, "running time": hours_h });
  if (bad) return bad;
  if (!(density_kgpL >= 0.6 && density_kgpL <= 1.1)) {
    return refuse(`A fuel density of ${show(density_kgpL)} kg/L is outside 0.6 to 1.1 kg/L.`);
  }
  const flow_Lph = volume_L / hours_h;
  const flow_kgph = flow_Lph * density_kgpL;
  return answer({
    flow_Lph,
    flow_usgalph: flow_Lph / litresPerUsGallon,
    flow_kgph,
    steps: [
      `Flow: ${show(volume_L, 5)} L / ${show(hours_h, 4)} h = ${show(flow_Lph, 4)} L/h (${show(flow_Lph / litresPerUsGallon, 4)} US gal/h).`,
      `Mass: ${show(flow_Lph, 4)} L/h x ${show(density_kgpL, 4)} kg/L = ${show(flow_kgph, 4)} kg/h.`,
    ],
  });
}

/**
 * Adds up a flow channel by the trapezium rule.
 * @param table the run
 * @param column index of the flow channel, L/h
 * @returns litres over the known time, and the time for which the flow was missing; the missing part is not filled in
 * Source: trapezium rule.
 */
export function fuelFromChannel(
  table: RunTable,
  column: number,
): Result<{ volume_L: number; known_s: number; missing_s: number }> {
  const bad = refuseTable(table, [column]);
  if (bad) return bad;
  const { time_s } = table;
  const values = table.columns[column];
  const gap_s = usualGap_s(table);
  let volume_L = 0;
  let known_s = 0;
  let missing_s = 0;
  for (let row = 1; row < time_s.length; row++) {
    const step_s = time_s[row] - time_s[row - 1];
    const mean_Lph = (values[row] + values[row - 1]) / 2;
    if (Number.isNaN(mean_Lph) || step_s > gap_s) {
      missing_s += step_s;
      continue;
    }
    volume_L += (mean_Lph * step_s) / 3600;
    known_s += step_s;
  }
  return answer({ volume_L, known_s, missing_s });
}
