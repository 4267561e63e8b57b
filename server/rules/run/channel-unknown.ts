/** A column of a log that nothing in the shop knows. */
import { runContext } from "../../totals/run-context.ts";
import { logsOf } from "../../totals/run-logs.ts";
import { headingSpot } from "../../totals/run-table.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly channel: string;
  readonly type: string;
}

export default rule({
  id: "run/channel-unknown",
  severity: "information",
  on: ["run"],
  reads: ["logs", "logFiles"],
  page: {
    what: "A column of the log is named by no limit, no schedule and no channel of the stand.",
    why: "A channel that is spelled differently from its limit is not checked against it, and nobody notices.",
    remedy: "Spell the channel as the limits and the stand do, or add a limit or a `channel` line for it.",
    faulty: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  limit cht[1..9] max 230 C ref "7-1"
  magneto-limit drop 100 rpm split 40 rpm at 1700 rpm ref "7-4"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
run R1 2026-04-11 job J1 by ATH second RPE
  log time head.temp[1..2]/C
  10:02 17 17
`,
      },
    ],
    sound: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  limit cht[1..9] max 230 C ref "7-1"
  magneto-limit drop 100 rpm split 40 rpm at 1700 rpm ref "7-4"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
run R1 2026-04-11 job J1 by ATH second RPE
  log time cht[1..2]/C
  10:02 17 17
`,
      },
    ],
  },
  check(run, ask, report) {
    const { limits, stand, schedule } = runContext(ask, run);
    // With nothing to go by every channel would be unknown; that is another finding.
    if (!limits || limits.unread.includes("limit")) return;
    const known = new Set<string>(["crank.speed"]);
    for (const line of limits.limits) {
      known.add(line.place.feature);
      if (line.condition) known.add(line.condition.channel.feature);
      for (const term of line.formula) known.add(term.place.feature);
    }
    for (const channel of stand?.channels ?? []) known.add(channel.place.feature);
    for (const line of schedule?.block?.starts ?? []) known.add(line.channel.feature);
    for (const line of schedule?.block?.warms ?? []) known.add(line.channel.feature).add(line.condition.feature);
    for (const line of schedule?.block?.cools ?? []) known.add(line.channel.feature);
    for (const step of schedule?.block?.steps ?? [])
      for (const bound of step.bounds) known.add(bound.channel.feature).add(step.condition.feature);
    for (const log of logsOf(ask, run)) {
      let heading = -1;
      for (const column of log.columns) {
        if (column.heading === heading || known.has(column.feature)) continue;
        heading = column.heading;
        report(
          headingSpot(log, column),
          { channel: column.feature, type: `${limits.type} revision ${limits.revision}` },
          { place: column.place },
        );
      }
    }
  },
  say: (d: Data) =>
    `No limit of ${d.type}, no schedule and no stand knows the channel ${d.channel}, so nothing checks it. Spell it as they do, or add a limit or a channel line.`,
});
