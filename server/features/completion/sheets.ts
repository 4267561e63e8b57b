/** Snippets that lay out work: inspection sheets, torque sheets, signatures, run cards, the next entry. */
import { formatDate } from "../../quantity/civil-date.ts";
import {
  dayText,
  featuresToMeasure,
  gridLines,
  inspectionSheet,
  logColumns,
  lubricationClause,
  nextName,
  rolesToSign,
  torquesToDo,
} from "../../report/bench-sheet.ts";
import { count } from "../../report/wording.ts";
import { defectStates } from "../../totals/defect-states.ts";
import { routeProgress } from "../../totals/route-progress.ts";
import type { Completion } from "../feature.ts";
import { literal, offer, type Typing } from "./context.ts";

/** Makes each `?` of a sheet a stop, in order, so that figures are typed one after the other. */
class Stops {
  #next = 0;

  stop(text = ""): string {
    this.#next++;
    return text === "" ? `$${this.#next}` : `\${${this.#next}:${literal(text)}}`;
  }

  cells(line: string): string {
    return line
      .split(" ")
      .map((word) => (word === "?" ? this.stop("?") : literal(word)))
      .join(" ");
  }
}

const INDENT = "  ";

/** Lines of a block, one below the other. What is inserted is taken as it stands: a line that was begun at the margin is given its blanks. */
function laidOut(typing: Typing, lines: readonly string[]): string {
  return (typing.range.start.character === 0 ? INDENT : "") + lines.join(`\n${INDENT}`);
}

function sheet(
  typing: Typing,
  label: string,
  detail: string,
  lines: readonly string[],
  rank: number,
  order = 0,
): Completion {
  const stops = new Stops();
  return offer(
    typing,
    {
      label,
      kind: "snippet",
      snippet: true,
      insert: laidOut(
        typing,
        lines.map((line) => stops.cells(line)),
      ),
      detail,
      documentation: preview(lines),
    },
    rank,
    order,
  );
}

/** What will stand there; the foot of a long sheet is left out. */
function preview(lines: readonly string[]): string {
  const shown = lines.slice(0, 24);
  return [
    "```gudgeon",
    ...shown,
    ...(lines.length > shown.length ? [`# and ${lines.length - shown.length} lines more`] : []),
    "```",
  ].join("\n");
}

/** Sheets inside an entry: tables for what is not measured, fasteners without torque, the next signatures. */
export function entrySheets(typing: Typing): Completion[] {
  const { ask, scope, work } = typing;
  if (work?.kind !== "entry" || scope === "") return [];
  const found: Completion[] = [];
  const whole = inspectionSheet(scope, work.step, ask);
  if (whole.length > 0)
    found.push(
      sheet(
        typing,
        `sheet of step ${work.step}`,
        `every place that the step asks for: ${count(whole.length, "line")}`,
        whole,
        1,
      ),
    );
  for (const [i, { feature, wanted, missing }] of featuresToMeasure(scope, work.step, ask).entries()) {
    const lines = gridLines(scope, feature, ask);
    if (lines.length > 0)
      found.push(
        sheet(typing, `sheet of ${feature}`, `${count(missing, "place")} not yet measured`, lines, wanted ? 2 : 6, i),
      );
  }
  const torques = torquesToDo(scope, work.step, ask);
  if (torques.length > 0) {
    const stops = new Stops();
    const lines = torques.map(
      (one) =>
        `torque ${literal(one.place)} ${stops.stop()} ${literal(one.unit)}${literal(lubricationClause(one.lubrication))} with ${stops.stop()}`,
    );
    found.push(
      offer(
        typing,
        {
          label: "torque sheet",
          kind: "snippet",
          snippet: true,
          insert: laidOut(typing, lines),
          detail: `${count(
            torques.reduce((sum, one) => sum + one.missing, 0),
            "fastener",
          )} without a torque`,
          documentation: preview(
            torques.map(
              (one) =>
                `torque ${one.place} ... ${one.unit}${lubricationClause(one.lubrication)} with ...   # limit ${one.bounds}`,
            ),
          ),
        },
        3,
      ),
    );
  }
  const open = ask.total(defectStates, scope).filter((defect) => defect.standing === "open");
  for (const [i, defect] of open.entries()) {
    found.push(
      offer(
        typing,
        {
          label: `rectify ${defect.name}`,
          kind: "snippet",
          snippet: true,
          insert: `rectify ${literal(defect.name)} "$1"`,
          detail: `${defect.place}: ${defect.about}`,
        },
        7,
        i,
      ),
    );
  }
  return found;
}

/** `sign` lines for the roles that a block still wants; who signs is for the person to say. */
export function signLines(typing: Typing): Completion[] {
  const { ask, work } = typing;
  if (!work) return [];
  return rolesToSign(work, ask).map((role, i) =>
    offer(
      typing,
      {
        label: `sign ${role}`,
        kind: "snippet",
        snippet: true,
        insert: `sign ${literal(role)} $1 \${2:${dayText(work, ask)}}`,
        detail: `step ${work.step} wants it`,
      },
      4,
      i,
    ),
  );
}

/** A whole run: who, the checks before the start, the log with the stand's channels. */
export function runCard(typing: Typing): Completion[] {
  const { ask, scope } = typing;
  if (scope === "" || scope.startsWith("engine:")) return [];
  const names = ask.names("stand");
  const runs = ask.work(scope).filter((head) => head.kind === "run");
  const last = runs.at(-1) && ask.workBlock(runs.at(-1)?.ref ?? "");
  const stand = last?.stand || names[0] || "";
  const columns = logColumns(stand, scope, ask);
  const cells = columns.flatMap((column) => {
    const list = /\[([^\]]*)\]/u.exec(column)?.[1] ?? "";
    const range = /^(\d+)\.\.(\d+)$/u.exec(list);
    return Array.from(
      { length: range ? Number(range[2]) - Number(range[1]) + 1 : list === "" ? 1 : list.split(",").length },
      () => "?",
    );
  });
  const name = nextName(
    "R",
    ask.work(scope).map((head) => head.name),
  );
  const stops = new Stops();
  const lines = [
    `run ${name} ${stops.stop(formatDate(ask.asOf()))} job ${literal(scope)}${stand === "" ? "" : ` stand ${literal(stand)}`} by ${stops.stop()} second ${stops.stop()}`,
    `${INDENT}air ${stops.stop()} C ${stops.stop()} hPa ${stops.stop()} %`,
    `${INDENT}standing ${stops.stop()} h`,
    `${INDENT}check pre-oiling ${stops.stop()}`,
    `${INDENT}check ignition-off ${stops.stop()}`,
    `${INDENT}check hydraulic-lock ${stops.stop()}`,
    ...(columns.length > 0
      ? [
          `${INDENT}log time ${literal(columns.join(" "))}`,
          `${INDENT}${stops.stop("hh:mm")} ${cells.map((cell) => stops.stop(cell)).join(" ")}`,
        ]
      : []),
    `${INDENT}fuel ${stops.stop()} L`,
  ];
  return [
    offer(
      typing,
      {
        label: `run card ${name}`,
        kind: "snippet",
        snippet: true,
        insert: lines.join("\n"),
        detail: `a run of ${scope} with the checks before the start and the channels of ${stand === "" ? "the stand" : stand}`,
      },
      8,
    ),
  ];
}

/** The header of the entry that comes next: the step that the route says, begun or not. */
export function nextEntry(typing: Typing): Completion[] {
  const { ask, scope } = typing;
  if (scope === "" || scope.startsWith("engine:")) return [];
  const { steps, next } = ask.total(routeProgress, scope);
  const name = nextName(
    "E",
    ask.work(scope).map((head) => head.name),
  );
  const stops = new Stops();
  const insert = `entry ${name} ${stops.stop(formatDate(ask.asOf()))} ${stops.stop(next || (steps[0]?.name ?? "step"))} "${stops.stop("What was done")}" job ${literal(scope)}\n${INDENT}$0`;
  return [
    offer(
      typing,
      {
        label: `entry ${name}`,
        kind: "snippet",
        snippet: true,
        insert,
        detail: `the next entry of ${scope}${next === "" ? "" : `, step ${next}`}`,
      },
      8,
    ),
  ];
}
