/** Blocks of work and the items that stand in them: entries, defects, concessions. */
import { shortRef } from "../../facts/refs.ts";
import type { WorkBlock } from "../../facts/types.ts";
import { formatDate, formatTime } from "../../quantity/civil-date.ts";
import { runSummaryOf } from "../../report/run-summary.ts";
import type { Summary } from "../../report/summary.ts";
import { count, few, type Row, said } from "../../report/wording.ts";
import { defectStates } from "../../totals/defect-states.ts";
import { blockReadings } from "../../totals/place-history.ts";
import { routeSteps, stepOfBlock } from "../../totals/route-steps.ts";
import type { About, Subject } from "./context.ts";

/** Findings of a block, in a word or two. */
function findingRow(ref: string, subject: Subject): Row | undefined {
  const open = subject.ctx.checker
    .findingsOf(subject.ctx.checker.entryOf(ref)?.document.path ?? "")
    .filter((one) => one.finding.ref === ref && !one.quiet);
  if (open.length === 0) return ["findings", "none open"];
  const by = (severity: string): number => open.filter((one) => one.severity === severity).length;
  return [
    "findings",
    [
      [by("error"), "error"],
      [by("warning"), "warning"],
      [by("information"), "information"],
      [by("hint"), "hint"],
    ]
      .filter(([n]) => n !== 0)
      .map(([n, what]) => (what === "information" ? `${n} for information` : count(n as number, what as string)))
      .join(", "),
  ];
}

function readingsRow(block: WorkBlock, scope: string, subject: Subject): Row | undefined {
  const features = [...new Set(block.readings.map((one) => one.feature))];
  if (features.length === 0) return undefined;
  const judged = features.flatMap((feature) => subject.ask.total(blockReadings, `${scope}|${feature}|${block.ref}`));
  const taken = judged.filter((one) => one.result !== "todo" && one.result !== "none");
  const todo = judged.filter((one) => one.result === "todo" && one.status !== "superseded").length;
  const out = judged.filter((one) => one.verdict === "out" && one.status !== "superseded").length;
  return [
    "readings",
    `${taken.length} of ${few(features, 5)}${todo > 0 ? `; ${todo} still to be taken` : ""}${out > 0 ? `; ${out} out of limit` : ""}`,
  ];
}

/** An entry, release or dispatch; runs have their own sums. */
export function blockSummary(block: WorkBlock, subject: Subject): Summary {
  const { ask } = subject;
  const run = block.kind === "run" ? runSummaryOf(ask, block.ref) : undefined;
  if (run) return run;
  const scope = block.job !== "" ? block.job : `engine:${block.engine}`;
  const missing =
    block.job === ""
      ? []
      : (stepOfBlock(ask.total(routeSteps, block.job), block.ref)?.blocks.find((one) => one.ref === block.ref)
          ?.missing ?? []);
  const when = `${block.date === undefined ? "" : formatDate(block.date)}${block.time === undefined ? "" : ` ${formatTime(block.time)}`}`;
  const lines = [
    [block.torques.length, "line of torque", "lines of torque"],
    [block.fits.length, "part fitted", "parts fitted"],
    [block.removes.length, "part removed", "parts removed"],
    [block.checks.length, "check", "checks"],
    [block.photos.length, "photo", "photos"],
  ] as const;
  return {
    title: `${block.kind[0]?.toUpperCase()}${block.kind.slice(1)} ${block.kind === "entry" ? block.ref : block.job}${block.title === "" ? "" : `: ${block.title}`}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["day", when],
          ["step", block.kind === "entry" ? block.step : ""],
          ["statement", block.statement],
          ["except", few(block.except)],
          readingsRow(block, scope, subject),
          [
            "holds",
            lines
              .filter(([n]) => n > 0)
              .map(([n, one, many]) => count(n, one, many))
              .join(", "),
          ],
          ["defects", few(block.defects.map((defect) => `${defect.name} at ${defect.place.text}`))],
          ...block.amends.map((line): Row => ["amends", `${line.ref}: ${line.reason}`]),
          [
            "signed",
            few(
              block.signs.map(
                (sign) => `${sign.role} ${sign.person} ${formatDate(sign.on)}${sign.seal === "" ? "" : ", sealed"}`,
              ),
              4,
            ),
          ],
          [
            "wants",
            few(missing.map((one) => `sign ${one.roles.join(" or ")}${one.independent ? ", independent" : ""}`)),
          ],
          findingRow(block.ref, subject),
        ),
      },
    ],
  };
}

export const aboutWork: About = ({ key }, subject) => {
  const block = subject.ask.workBlock(key);
  return block && blockSummary(block, subject);
};

export const aboutDefect: About = ({ key }, { ask }) => {
  const scope = key.slice(0, key.lastIndexOf("/"));
  const defect = ask.total(defectStates, scope).find((one) => one.name === shortRef(key));
  if (!defect) return undefined;
  return {
    title: `Defect ${key}: ${defect.about}`,
    sections: [
      {
        heading: "",
        rows: [
          ["place", defect.place],
          ["found", `${defect.date === undefined ? "" : `${formatDate(defect.date)} `}in ${defect.ref}`],
          ["standing", defect.standing],
          ...defect.changes.map(
            (change): Row => [
              `${change.standing}${change.date === undefined ? "" : ` ${formatDate(change.date)}`}`,
              `${change.ref}${change.by === "" ? "" : ` by ${change.by}`}${change.until === undefined ? "" : ` until ${formatDate(change.until)}`}: ${change.reason}`,
            ],
          ),
        ],
      },
    ],
  };
};

export const aboutConcession: About = ({ key }, { ask }) => {
  const scope = key.slice(0, key.lastIndexOf("/"));
  const found = ask.facts(scope, "concessions").find(({ fact }) => fact.name === shortRef(key));
  if (!found) return undefined;
  const { block, fact } = found;
  return {
    title: `Concession ${key}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["of", `${fact.of}${fact.place ? ` ${fact.place.text}` : ""}`],
          ["by", `${fact.by}, ${formatDate(fact.on)}, in ${block.ref}`],
          ["why", fact.reason],
        ),
      },
    ],
  };
};
