import { formatDate } from "../../quantity/civil-date.ts";
import { engineOf, partsFitted } from "../../totals/parts.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly part: string;
  readonly serial: string;
  readonly place: string;
  readonly sitting: string;
  readonly since: string;
  readonly removal: string;
}

const SHOP = JOB.replace(
  "engine C9-0412 Curlew-9\n",
  'engine C9-0412 Curlew-9\n  fit part "MG-44" serial "MG-1021" at magneto-unit[left] source "release note 3312" on 2019-05-20\n',
);
const ENTRY = "entry E1 2026-02-27 build job J26-014\n";
const FIT = '  fit part "MG-44" serial "MG-2200" at magneto-unit[left] source "release note 5530"\n';

export default rule<"engine" | "entry", Found>({
  id: "part/place-occupied",
  severity: "warning",
  on: ["engine", "entry"],
  reads: ["fits"],
  page: {
    what: "A part was fitted at a place where, as the records have it, a part with another serial number sits that nobody took out.",
    why: "Either a removal was not written down, and with it where the old part went, or the place or a number is wrong.",
    remedy: "Record the removal above the `fit` line, or correct the place.",
    faulty: [{ text: `${SHOP}${ENTRY}${FIT}` }],
    sound: [{ text: `${SHOP}${ENTRY}  remove part "MG-44" serial "MG-1021" at magneto-unit[left]\n${FIT}` }],
  },
  check(block, ask, report) {
    const engine = block.kind === "engine" ? block.name : engineOf(block, ask);
    if (engine === "") return;
    for (const conflict of ask.total(partsFitted, engine).conflicts) {
      if (conflict.ref !== block.ref) continue;
      const fit = block.fits.find((line) => line.at === conflict.at);
      if (!fit) continue;
      const { part, serial, ref, at, date } = conflict.sitting;
      report(
        { at: fit.at, role: "at" },
        {
          part: fit.part,
          serial: fit.serial,
          place: conflict.place,
          sitting: `${part} serial ${serial}`,
          since: date === undefined ? "" : formatDate(date),
          removal:
            block.kind === "entry" && block.signs.length === 0
              ? `remove part "${part}" serial "${serial}" at ${conflict.place}`
              : "",
        },
        { place: conflict.place, related: [{ ref, spot: { at }, says: "The part that sits there" }] },
      );
    }
  },
  say: ({ part, serial, place, sitting, since }) =>
    `${part}${serial === "" ? "" : ` serial ${serial}`} was fitted at ${place}, where ${sitting} sits${since === "" ? "" : ` since ${since}`} and nobody took it out. Record the removal, or correct the place.`,
  repair({ removal }, spot) {
    return removal === ""
      ? []
      : [
          {
            title: "Record the removal of the old part",
            grade: "review",
            edits: [{ kind: "insert-after", at: spot.at - 1, text: removal }],
          },
        ];
  },
});
