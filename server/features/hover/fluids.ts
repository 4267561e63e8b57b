/** Lines about oil: what was used by the run and by the job so far, and what a sample says for each hour since the oil was changed. */
import { show } from "../../calc/figures.ts";
import { deviationFromBase, metalRate } from "../../calc/trend.ts";
import type { WorkBlock } from "../../facts/types.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import type { Summary, SummarySection } from "../../report/summary.ts";
import { count, type Row } from "../../report/wording.ts";
import { oilOfJob, oilOfRun } from "../../totals/oil-use.ts";
import { engineOfScope, oilSamples } from "../../totals/trends.ts";
import type { Subject } from "./context.ts";

const plain = (steps: readonly string[]): Row[] => steps.map((step): Row => ["", step]);

/** @param at an `oil` line; undefined for anything else */
export function oilSummary(subject: Subject, block: WorkBlock, at: number): Summary | undefined {
  const { ask } = subject;
  const sample = block.samples.find((one) => one.at === at);
  if (!sample) {
    if (block.kind !== "run" || !block.oils.some((one) => one.at === at)) return undefined;
    const own = oilOfRun(ask, block);
    const sections: SummarySection[] = [{ heading: "This run", rows: plain(own.ok ? own.steps : [own.refused]) }];
    const all = oilOfJob(ask, block);
    if (all.runs.length > 1)
      sections.push({
        heading: `Runs of the job so far: ${all.runs.join(", ")}`,
        rows: plain(all.ok ? all.steps : [all.refused]),
      });
    return { title: `Oil of run ${block.name}`, sections };
  }
  const engine = engineOfScope(ask, subject.scope);
  const series = engine === "" ? [] : ask.total(oilSamples, engine);
  const here = series.find((one) => one.ref === block.ref && one.name === sample.name);
  const sections: SummarySection[] = [];
  for (const metal of sample.metals) {
    const rows: Row[] = [];
    const ppm = here?.metals[metal.element];
    if (here?.sinceChange_h !== undefined && ppm !== undefined) {
      const rate = metalRate(ppm, here.sinceChange_h);
      rows.push(...plain(rate.ok ? rate.steps : [rate.refused]));
    } else rows.push(["", "Hours since the oil was changed are not known, so no rate follows."]);
    const earlier = here
      ? series.slice(0, series.indexOf(here)).flatMap((one) => {
          const then = one.metals[metal.element];
          return then === undefined || one.sinceChange_h === undefined ? [] : [then / one.sinceChange_h];
        })
      : [];
    if (here?.sinceChange_h !== undefined && ppm !== undefined) {
      const against = deviationFromBase(earlier, ppm / here.sinceChange_h, `${metal.element} for each hour`);
      rows.push(["", against.ok ? against.words : against.refused]);
    }
    sections.push({ heading: `${metal.element} ${metal.value.text} ${metal.value.unit.spelling}`, rows });
  }
  const since = here?.sinceChange_h === undefined ? "" : `, ${show(here.sinceChange_h, 4)} h since the oil was changed`;
  return {
    title: `Oil sample ${sample.name}${block.date === undefined ? "" : `, ${formatDate(block.date)}`}${since}`,
    sections: [...sections, { heading: "", rows: [["samples of this engine", count(series.length, "sample")]] }],
  };
}
