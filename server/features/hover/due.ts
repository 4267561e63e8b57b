/** Recurring tasks and bulletins: what is laid down, and how each engine stands. */
import { formatDate } from "../../quantity/civil-date.ts";
import { dueWords } from "../../report/engine-summary.ts";
import { measureText, type Row, said } from "../../report/wording.ts";
import { type DueItem, dueItems } from "../../totals/due-items.ts";
import type { About, Subject } from "./context.ts";

function engineRows(kind: DueItem["kind"], name: string, type: string, subject: Subject): Row[] {
  const { ask } = subject;
  return ask
    .engines()
    .filter((engine) => engine.type === type)
    .flatMap((engine): Row[] => {
      const item = ask.total(dueItems, engine.name).find((one) => one.kind === kind && one.name === name);
      if (!item) return [];
      const last = item.last
        ? `${kind === "bulletin" ? "embodied" : "last done"} ${formatDate(item.last.date)}`
        : "not done yet";
      return [
        [
          engine.name,
          item.verdict === "done" || (!item.governing && item.verdict === "never-done")
            ? last
            : `${last}; ${dueWords(item)}`,
        ],
      ];
    });
}

const spans = (values: readonly Parameters<typeof measureText>[0][]): string => values.map(measureText).join(" or ");

export const aboutTask: About = ({ key }, subject) => {
  const task = subject.ask.task(key);
  if (!task) return undefined;
  return {
    title: `Task ${task.name}, ${task.type}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["", task.about],
          ["every", spans(task.every)],
          ["first after", spans(task.first)],
          ["tolerance", spans(task.tolerance)],
          ["signed by", `${task.sign}${task.independent ? ", independent" : ""}`],
        ),
      },
      { heading: "On the engines", rows: engineRows("task", key, task.type, subject) },
    ],
  };
};

export const aboutBulletin: About = ({ key }, subject) => {
  const bulletin = subject.ask.bulletin(key);
  if (!bulletin) return undefined;
  return {
    title: `Bulletin ${bulletin.name}, ${bulletin.type}: ${bulletin.title}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["force", `${bulletin.force}${bulletin.by === undefined ? "" : ` by ${formatDate(bulletin.by)}`}`],
          bulletin.within && ["within", measureText(bulletin.within)],
          bulletin.repeat && ["again every", measureText(bulletin.repeat)],
          ["serials", bulletin.serials],
        ),
      },
      { heading: "On the engines", rows: engineRows("bulletin", key, bulletin.type, subject) },
    ],
  };
};
