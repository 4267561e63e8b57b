/** What may stand at a place inside a line, from what the shop has declared. */
import type { Expected } from "../../../grammar/expect.ts";
import type { BlockKind } from "../../../grammar/words.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { nextName } from "../../report/bench-sheet.ts";
import { ruleCodes } from "../../report/rule-page.ts";
import { defectStates } from "../../totals/defect-states.ts";
import { jobContext } from "../../totals/job-context.ts";
import type { Completion } from "../feature.ts";
import { kindWanted } from "../names.ts";
import { leadWord } from "../under-cursor.ts";
import { offer, type Typing, typedRole } from "./context.ts";
import { instruments } from "./instruments.ts";
import { BY_ROLE, batches, HEARD, named, type Provider, steps } from "./own-words.ts";
import { people, roles } from "./people.ts";
import { columnNames, featureWords, gridHeads, places } from "./places.ts";
import { units } from "./units.ts";

type Value = Extract<Expected, { kind: "value" }>;

function blocks(typing: Typing, kind: BlockKind): Completion[] {
  const { ask, type } = typing;
  const title = (name: string): string => {
    switch (kind) {
      case "engine": {
        const engine = ask.engine(name);
        return [engine?.type, engine?.owner].filter(Boolean).join(", ");
      }
      case "job": {
        const job = ask.job(name);
        return [job?.engine, job?.scope].filter(Boolean).join(": ");
      }
      case "engine-type":
        return ask.engineType(name)?.title ?? "";
      case "stand":
        return ask.stand(name)?.title ?? "";
      case "task":
        return ask.task(name)?.about ?? "";
      case "bulletin":
        return ask.bulletin(name)?.title ?? "";
      default:
        return "";
    }
  };
  const own = (name: string): boolean => {
    const of =
      kind === "task"
        ? ask.task(name)?.type
        : kind === "bulletin"
          ? ask.bulletin(name)?.type
          : kind === "route"
            ? ask.route(name)?.type
            : "";
    return of === "" || type === "" || of === type;
  };
  // Jobs that are still in the shop stand at the end of the list of names: the newest is the likeliest.
  const names = kind === "job" ? ask.names(kind).toReversed() : ask.names(kind);
  return [...new Set(names)].map((name, i) =>
    offer(typing, { label: name, kind: "name", detail: title(name) }, own(name) ? 0 : 1, i),
  );
}

/** Items that lines of a job may refer to: its defects, its blocks of work. */
function references(typing: Typing, kind: "defect" | "work" | "any"): Completion[] {
  const { ask, scope, work } = typing;
  if (scope === "") return [];
  const defects =
    kind === "work"
      ? []
      : ask
          .total(defectStates, scope)
          .map((one, i) =>
            offer(
              typing,
              { label: one.name, kind: "name", detail: `${one.place}: ${one.about}; ${one.standing}` },
              one.standing === "open" ? 0 : 2,
              i,
            ),
          );
  const blocksOfJob =
    kind === "defect"
      ? []
      : ask
          .work(scope)
          .filter((head) => head.kind === "entry" || head.kind === "run")
          .toReversed()
          .map((head, i) =>
            offer(
              typing,
              {
                label: head.name,
                kind: "name",
                detail: [head.date === undefined ? "" : formatDate(head.date), head.step, head.title]
                  .filter((text) => text !== "")
                  .join(" "),
              },
              head.ref === work?.ref ? 3 : 1,
              i,
            ),
          );
  return [...defects, ...blocksOfJob];
}

function needs(typing: Typing, value: Value): Completion[] {
  if (value.part === "name" && typing.before.tokens.at(-1)?.text === "sign") return roles(typing);
  if (value.part === "name")
    return named(
      typing,
      typing.ask.names("run-in").map((name) => [name.replace(/^[^/]*\//u, ""), name]),
    );
  if (value.part === "word" || value.part === "needword") {
    const tasks = typing.ask
      .names("task")
      .filter((name) => typing.type === "" || typing.ask.task(name)?.type === typing.type);
    const ofTasks =
      value.part === "needword"
        ? named(
            typing,
            tasks.map((name) => [name, "recurring task"]),
            1,
          )
        : [];
    const usual =
      value.part === "needword"
        ? named(
            typing,
            [
              ["compression", "a table of compressions"],
              ["leak-check", "a check"],
              ["locking", "every fastener locked"],
              ["tool-count", "a check"],
            ],
            0,
          )
        : [];
    return [...usual, ...ofTasks, ...featureWords(typing)];
  }
  return [];
}

/** The name that comes next for something declared in this line. */
function freshName(typing: Typing): Completion[] {
  const { ask, scope } = typing;
  const word = leadWord(typing.before);
  const offerOne = (name: string): Completion[] => [
    offer(typing, { label: name, kind: "name", detail: "the next free name" }, 0),
  ];
  switch (word) {
    case "entry":
    case "run": {
      const letter = word === "entry" ? "E" : "R";
      // The job stands behind the name: that of the block above is meant until another is written.
      return offerOne(
        nextName(
          letter,
          ask.work(scope).map((head) => head.name),
        ),
      );
    }
    case "defect":
      return offerOne(
        nextName(
          "D",
          ask.facts(scope, "defects").map(({ fact }) => fact.name),
        ),
      );
    case "concession":
      return offerOne(
        nextName(
          "N",
          ask.facts(scope, "concessions").map(({ fact }) => fact.name),
        ),
      );
    default:
      return [];
  }
}

function dates(typing: Typing): Completion[] {
  const { ask, day, work } = typing;
  const found: (readonly [string, string])[] = [];
  if (work?.date !== undefined) found.push([formatDate(day), "the day of this block"]);
  found.push([formatDate(ask.asOf()), "the day as of which the shop is judged"]);
  return found
    .filter(([text], i) => found.findIndex(([other]) => other === text) === i)
    .map(([text, detail], i) => offer(typing, { label: text, kind: "value", detail }, 0, i));
}

function columns(typing: Typing): Completion[] {
  const { ask, scope, block } = typing;
  const stand = block?.kind === "run" ? ask.stand(block.stand) : undefined;
  const { type, revision } = ask.total(jobContext, scope);
  const written = new Set(typing.before.tokens.map((token) => token.text.replace(/\/[^\]]*$/u, "")));
  return (stand?.channels ?? [])
    .filter((channel) => !written.has(channel.place.text))
    .map((channel, i) => {
      const bare = ask
        .limits(type, revision)
        ?.limits.find((line) => line.place.feature === channel.place.feature && line.bare)?.bare;
      const range = ask.instrument(channel.instrument)?.range;
      const unit = (bare?.high ?? bare?.low ?? range?.high ?? range?.low)?.unit.spelling;
      return offer(
        typing,
        {
          label: `${channel.place.text}${unit === undefined ? "" : `/${unit}`}`,
          kind: "place",
          detail: `measured with ${channel.instrument}`,
        },
        0,
        i,
      );
    });
}

/** By the kind of name that a role asks for. */
const BY_KIND: Readonly<Record<string, Provider>> = {
  person: people,
  role: roles,
  instrument: instruments,
  "engine-type": (typing) => blocks(typing, "engine-type"),
  stand: (typing) => blocks(typing, "stand"),
  task: (typing) => blocks(typing, "task"),
  bulletin: (typing) => blocks(typing, "bulletin"),
  route: (typing) => blocks(typing, "route"),
  engine: (typing) => blocks(typing, "engine"),
  job: (typing) => blocks(typing, "job"),
  REVISION: (typing) => {
    const engine = typing.ask.engine(typedRole(typing.before, "engine"))?.type ?? typing.type;
    return named(
      typing,
      typing.ask
        .revisions(engine)
        .toReversed()
        .map((one) => [
          one.revision,
          [one.from === undefined ? "" : `from ${formatDate(one.from)}`, one.title]
            .filter((text) => text !== "")
            .join(", "),
        ]),
    );
  },
  SCHEDULE: (typing) =>
    named(
      typing,
      typing.ask
        .names("run-in")
        .filter((name) => typing.type === "" || name === typing.type || name.startsWith(`${typing.type}/`))
        .map((name) => [name.replace(/^[^/]*\//u, ""), name]),
    ),
  "ROUTE-STEP": steps,
  STEP: steps,
  REF: (typing) => references(typing, leadWord(typing.before) === "concession" ? "any" : "work"),
  defect: (typing) => references(typing, "defect"),
  batch: batches,
  rule: (typing) =>
    named(
      typing,
      ruleCodes().map(([code, what]) => [code, what]),
    ),
};

/** Cells of a row: what stands for a figure that is not there. */
function cells(typing: Typing): Completion[] {
  return (
    [
      ["?", "still to be taken"],
      ["-", "does not apply"],
      ["go", ""],
      ["no-go", ""],
    ] as const
  ).map(([label, detail], i) => offer(typing, { label, kind: "value", detail }, 1, i));
}

/** @returns names and values for one thing that may come */
export function valuesFor(typing: Typing, value: Value): Completion[] {
  const word = leadWord(typing.before);
  const role = value.role;
  if (value.type === "need") return needs(typing, value);
  if (value.part === "unit" || value.type === "unit" || value.type === "unitword") return units(typing, role);
  const own = BY_ROLE[`${word} ${role}`];
  if (own) return own(typing);
  const wanted = kindWanted(word, role);
  if (wanted?.declares) return word === "step" ? [] : freshName(typing);
  const byKind = wanted && BY_KIND[wanted.kind];
  if (byKind) return byKind(typing);
  switch (value.part ?? value.type) {
    case "place":
      return places(typing);
    case "column":
      return role === "head"
        ? gridHeads(typing)
        : role === "elapsed"
          ? named(typing, [
              ["elapsed/s", ""],
              ["elapsed/min", ""],
            ])
          : columns(typing);
    case "colname":
      return columnNames(typing);
    case "date":
      return dates(typing);
    case "cell":
      return cells(typing);
    case "name":
      return role === "where" ? named(typing, HEARD) : [];
    case "stepname":
      return steps(typing);
    default:
      return [];
  }
}
