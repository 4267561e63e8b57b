/** A power line, and the air of a run: worked out step by step. */
import { show } from "../../calc/figures.ts";
import type { WorkBlock } from "../../facts/types.ts";
import type { Summary } from "../../report/summary.ts";
import type { Row } from "../../report/wording.ts";
import { standAir, standPower } from "../../totals/test-stand.ts";
import type { Subject } from "./context.ts";

const CAUTION =
  "Figures of the stand never say that an engine is fit to run: the maker's data and the people who are licensed for it decide.";

/** @param at a `power` line or an `air` line of a run; undefined for anything else */
export function testStandSummary(subject: Subject, block: WorkBlock, at: number): Summary | undefined {
  if (block.kind !== "run") return undefined;
  const line = block.powers.find((one) => one.at === at);
  if (!line) {
    if (!block.air.some((one) => one.at === at)) return undefined;
    const air = standAir(block);
    return {
      title: `Air of run ${block.name}`,
      sections: [{ heading: "", rows: (air.ok ? air.steps : [air.refused]).map((step): Row => ["", step]) }],
    };
  }
  const { power, corrected, isCorrected, steps } = standPower(subject.ask, block, line);
  const stated = corrected?.ok && isCorrected ? `, ${show(corrected.power_kW, 4)} kW corrected` : "";
  return {
    title: power.ok
      ? `Power: ${show(power.power_kW, 4)} kW (${show(power.power_hp, 4)} hp) as measured${stated}`
      : "Power: not stated",
    sections: [
      { heading: "", rows: steps.map((step): Row => ["", step]) },
      { heading: "", rows: [["", CAUTION]] },
    ],
  };
}
