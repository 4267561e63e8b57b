/** Parts and batches: where they are fitted, where they came from, whether an alert names them. */
import type { Ask } from "../../checking/ask.ts";
import { batchKey } from "../../checking/ask.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { few, measureText, type Row, said } from "../../report/wording.ts";
import { partsFitted } from "../../totals/parts.ts";
import type { About } from "./context.ts";

function suspectRows(ask: Ask, applies: (line: { readonly part: string; readonly batch: string }) => boolean): Row[] {
  return ask
    .alerts()
    .flatMap((alert) =>
      alert.suspects
        .filter(applies)
        .map(
          (line): Row => [
            `alert ${alert.name}`,
            `${alert.title}${line.batch === "" ? "" : `, batch ${line.batch}`}${line.serials.length > 0 ? `, serials ${few(line.serials)}` : ""}`,
          ],
        ),
    );
}

export const aboutBatch: About = ({ key }, { ask }) => {
  const rows = ask
    .fitted(batchKey(key))
    .map(
      ({ ref, engine, date, fact }): Row => [
        ref,
        `${fact.part} x ${fact.quantity}${fact.place ? ` at ${fact.place.text}` : ""}${engine === "" ? "" : `, engine ${engine}`}${date === undefined ? "" : `, ${formatDate(date)}`}${fact.source === "" ? ", source not stated" : `, ${fact.source}`}`,
      ],
    );
  return {
    title: `Batch ${key}`,
    sections: [
      { heading: "Suspect", rows: suspectRows(ask, (line) => line.batch === key) },
      { heading: "Fitted", rows: rows.length === 0 ? [["", "nowhere in these records"]] : rows },
    ],
  };
};

export const aboutPart: About = ({ key }, { ask }) => {
  const fitted: Row[] = [];
  const lives: Row[] = [];
  for (const engine of ask.engines()) {
    for (const item of ask.total(partsFitted, engine.name).items) {
      if (item.part !== key) continue;
      const where = item.places.length > 0 ? ` at ${few(item.places)}` : "";
      const left = item.left
        ? `, ${item.left.kind} ${item.left.date === undefined ? "" : formatDate(item.left.date)}`
        : "";
      const from = [item.batch !== "" && `batch ${item.batch}`, item.source].filter(Boolean).join(", ");
      fitted.push([
        `${engine.name}${item.serial === "" ? "" : `, serial ${item.serial}`}`,
        `${item.quantity > 0 ? `${item.quantity} ` : ""}fitted${where}${item.date === undefined ? "" : ` ${formatDate(item.date)}`}${left}${from === "" ? "" : `; ${from}`}${item.used ? "; used part" : ""}`,
      ]);
    }
  }
  for (const name of ask.names("engine-type")) {
    for (const line of ask.engineType(name)?.lives ?? [])
      if (line.part === key) lives.push([name, line.lives.map(measureText).join(" or ")]);
  }
  return {
    title: `Part ${key}`,
    sections: [
      { heading: "Suspect", rows: suspectRows(ask, (line) => line.part === key) },
      { heading: "Life", rows: said(...lives) },
      { heading: "Fitted", rows: fitted.length === 0 ? [["", "nowhere in these records"]] : fitted },
    ],
  };
};
