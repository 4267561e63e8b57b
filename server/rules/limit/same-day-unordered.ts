import { placeText } from "../../facts/place.ts";
import { scopeOf } from "../../facts/refs.ts";
import { type CivilDate, formatDate } from "../../quantity/civil-date.ts";
import { type HistoryReading, historyKey, placeHistory } from "../../totals/place-history.ts";
import { readingsOfBlock } from "../../totals/readings-of-block.ts";
import { BORES } from "../example-shops.ts";
import { spotOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly date: CivilDate;
  readonly other: string;
}

const isFigure = (one: HistoryReading): boolean =>
  one.result === "value" || one.result === "below" || one.result === "go" || one.result === "no-go";

export default rule<(typeof WORK)[number], Found>({
  id: "limit/same-day-unordered",
  severity: "warning",
  on: WORK,
  reads: ["readings", "date", "time"],
  page: {
    what: "One place was measured twice on one day, in two files, and the entries do not both give a time.",
    why: "Within a file the order of lines is the order of work. Between two files nobody can tell which reading was the later one, and the later one is what counts.",
    remedy: "Write the time on both entry headers, or put the entries in one file in the order of the work.",
    faulty: [
      {
        text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n== later.gudgeon\nentry E2 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.032 mm with BG-2\n`,
      },
    ],
    sound: [
      {
        text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\nentry E2 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.032 mm with BG-2\n`,
      },
      {
        text: `${BORES}entry E1 2026-02-19 09:10 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n== later.gudgeon\nentry E2 2026-02-19 14:30 inspect job J26-014\n  measure cylinder.bore[3] 98.032 mm with BG-2\n`,
      },
    ],
  },
  check(block, ask, report) {
    const { date } = block;
    if (date === undefined) return;
    const scope = scopeOf(block);
    // Blocks of the same day; most often there is none but this one, and nothing more is asked.
    const others = ask
      .work(scope)
      .filter(
        (head) => head.ref !== block.ref && head.date === date && (head.time === undefined || block.time === undefined),
      );
    if (others.length === 0) return;
    const own = ask.fileOf(block);
    const elsewhere = new Set(others.filter((head) => ask.fileOf(head) !== own).map((head) => head.ref));
    if (elsewhere.size === 0) return;
    for (const { feature, readings } of readingsOfBlock(block, ask)) {
      const theirs = new Map<string, HistoryReading>();
      for (const one of ask.total(placeHistory, historyKey(scope, feature)).readings) {
        // An amendment takes the place of what it amends: between those two no order is wanted.
        if (elsewhere.has(one.ref) && isFigure(one) && one.cause !== "amended")
          theirs.set(`${one.path}|${one.state}`, one);
      }
      if (theirs.size === 0) continue;
      const said = new Set<string>();
      for (const one of readings) {
        const other = isFigure(one) && one.cause !== "amended" ? theirs.get(`${one.path}|${one.state}`) : undefined;
        // Of the two the one that was taken as the later is named.
        if (!other || said.has(other.ref) || !comesAfter(block.ref, other.ref, ask.work(scope))) continue;
        said.add(other.ref);
        const place = placeText(feature, one.path);
        report(
          spotOf(one),
          { place, date, other: other.ref.slice(other.ref.lastIndexOf("/") + 1) },
          { place, related: [{ ref: other.ref, spot: spotOf(other), says: "The other reading of that day" }] },
        );
      }
    }
  },
  say: ({ place, date, other }) =>
    `${place} was also measured on ${formatDate(date)} in ${other}, in another file, and the two do not both give a time: nobody can tell which reading counts. Write the time on both headers.`,
});

function comesAfter(ref: string, other: string, work: readonly { readonly ref: string }[]): boolean {
  return work.findIndex((head) => head.ref === ref) > work.findIndex((head) => head.ref === other);
}
