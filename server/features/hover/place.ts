/** A feature of an engine: its limits and torques, how much of it is measured in the job. */
import { parsePlace, pathsOf } from "../../facts/place.ts";
import { count, few, type Row, said } from "../../report/wording.ts";
import { featureCoverage, placesOfType } from "../../totals/coverage.ts";
import { defectStates } from "../../totals/defect-states.ts";
import { jobContext } from "../../totals/job-context.ts";
import { limitsFor, limitsKey } from "../../totals/limits-for.ts";
import { historyKey } from "../../totals/place-history.ts";
import { featureTorques } from "../../totals/torque-coverage.ts";
import type { About } from "./context.ts";
import { limitText, torqueLimitText } from "./limit-text.ts";

export const aboutFeature: About = ({ key, from }, subject) => {
  const { ask, scope, under } = subject;
  const { block } = under;
  const context = ask.total(jobContext, scope);
  const type =
    block?.kind === "limits" || block?.kind === "run-in"
      ? block.type
      : block?.kind === "engine-type"
        ? block.name
        : context.type;
  const revision =
    block?.kind === "limits"
      ? block.revision
      : context.revision !== ""
        ? context.revision
        : (ask.revisions(type).at(-1)?.revision ?? "");
  const limits = ask.total(limitsFor, limitsKey(type, revision, key));
  const places = placesOfType(type, key, ask);
  const rows: Row[] = [...limits.readings, ...limits.formulas].map((line) => [line.place.text, limitText(line)]);
  rows.push(
    ...limits.statistics.map((line): Row => [`${line.stat} of ${line.place.text}`, limitText(line)]),
    ...limits.torques.map((line): Row => [line.place.text, `torque ${torqueLimitText(line)}`]),
  );
  const job: Row[] =
    scope === ""
      ? []
      : [
          ...ask
            .total(featureCoverage, historyKey(scope, key))
            .map(
              (line): Row => [
                "measured",
                `${line.measured} of ${line.expected - line.notApplicable}${line.isOut > 0 ? `, ${line.isOut} out of limit` : ""}${line.todo.length + line.missing.length > 0 ? `; not yet: ${few([...line.todo, ...line.missing], 9)}` : ""}${line.again.length > 0 ? `; to be measured again: ${few(line.again)}` : ""}`,
              ],
            ),
          ...ask
            .total(featureTorques, historyKey(scope, key))
            .lines.map(
              (line): Row => [
                "torqued",
                `${line.torqued} of ${line.expected}${line.missing.length > 0 ? `; not yet: ${few(line.missing, 9)}` : ""}`,
              ],
            ),
          ...ask
            .total(defectStates, scope)
            .filter((defect) => parsePlace(defect.place)?.feature === key)
            .map((defect): Row => [`defect ${defect.name}`, `${defect.place} ${defect.about}: ${defect.standing}`]),
        ];
  const written = under.tokens.find((one) => one.from <= from && from < one.to)?.text ?? key;
  const place = parsePlace(written.replace(/\/[^\]]*$/u, ""));
  return {
    title: place && place.levels.length > 0 ? `${place.text}: ${count(pathsOf(place).length, "place")}` : key,
    sections: [
      {
        heading: revision === "" ? "" : `Limits, ${type} revision ${revision}`,
        rows: rows.length === 0 ? [["", type === "" ? "The engine's type is not known here." : "none is known"]] : rows,
      },
      { heading: `In ${scope.replace(/^engine:/u, "service, ")}`, rows: said(...job) },
      { heading: "", rows: said(["places of the type", places.length === 0 ? "" : String(places.length)]) },
    ],
  };
};
