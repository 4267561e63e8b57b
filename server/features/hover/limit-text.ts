/** Limits in words, the same for a limit's own line, a reading and a place. */
import type { Ask } from "../../checking/ask.ts";
import type { LimitLine, TorqueLimit } from "../../facts/types.ts";
import { channelLimitText } from "../../report/run-summary.ts";
import { boundsText, measureText } from "../../report/wording.ts";
import { jobContext } from "../../totals/job-context.ts";

/** `new 98.000..98.022 mm, wear max 98.070 mm, at size +0.5 mm`. */
export function limitText(line: LimitLine): string {
  const parts = [
    line.bare && (line.condition ? channelLimitText(line) : boundsText(line.bare)),
    line.newLimits && `new ${boundsText(line.newLimits)}`,
    line.wearLimits && `wear ${boundsText(line.wearLimits)}`,
    line.size && `at size ${measureText(line.size)}`,
    line.state !== "" && line.state,
  ];
  return parts.filter(Boolean).join(", ");
}

/** `38..42 N.m, oiled, locked by wire`. */
export function torqueLimitText(line: TorqueLimit): string {
  const parts = [
    boundsText(line.bounds),
    line.lubrication,
    line.locking !== "" && `locked by ${line.locking}`,
    line.retorque && "again after the run",
  ];
  return parts.filter(Boolean).join(", ");
}

/** `Curlew-9 revision C, ref 4-2`: where a limit of the job stands. */
export function sourceOf(scope: string, reference: string, ask: Ask): string {
  const { type, revision } = ask.total(jobContext, scope);
  return `${type} revision ${revision}${reference === "" ? "" : `, ref ${reference}`}`;
}
