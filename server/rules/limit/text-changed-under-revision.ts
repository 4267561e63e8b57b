import type { LimitsBlock } from "../../facts/types.ts";
import { few } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly name: string;
  readonly differing: readonly string[];
}

/** Each line as text without its position, by what it is about. */
function linesOf(block: LimitsBlock): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const one of block.limits) {
    const terms = one.formula.map((term) => `${term.sign}${term.factor}${term.stat}${term.place.text}`).join(" ");
    const about = [
      one.stat === "value" ? "" : one.stat,
      one.place.text,
      one.size ? `size ${one.size.text} ${one.size.unit.spelling}` : "",
      one.state,
    ]
      .filter(Boolean)
      .join(" ");
    found.set(
      about,
      [
        terms,
        one.bare?.text,
        one.newLimits?.text,
        one.wearLimits?.text,
        one.condition?.channel.text,
        one.condition?.range.text,
      ].join("|"),
    );
  }
  for (const one of block.torques)
    found.set(`torque ${one.place.text}`, [one.bounds.text, one.lubrication, one.locking, one.retorque].join("|"));
  for (const one of block.compressions) {
    found.set(
      `compression ${one.method} ${one.state}`,
      [one.supply, one.orifice, one.least, one.spread].map((m) => (m ? `${m.text} ${m.unit.spelling}` : "")).join("|"),
    );
  }
  for (const one of block.magnetos)
    found.set(
      "magneto",
      [one.drop, one.split, one.speed].map((m) => (m ? `${m.text} ${m.unit.spelling}` : "")).join("|"),
    );
  found.set("the date", String(block.from ?? ""));
  return found;
}

const HEAD =
  "engine-type Curlew-9\nlimits Curlew-9 revision C from 2025-11-01\n  limit cylinder.bore[1..9] wear max 98.070 mm\n";

export default rule<"limits", Found>({
  id: "limit/text-changed-under-revision",
  severity: "error",
  on: ["limits"],
  reads: ["limits", "torques", "compressions", "magnetos", "from", "headerBroken"],
  page: {
    what: "Two limits blocks of one type and one revision say different things.",
    why: "A job names the revision that it was checked against. If the text behind that name can be two things, no reading of the job was checked against anything certain.",
    remedy:
      "Give the changed text a revision of its own and its own date; keep the old one for the jobs that worked to it.",
    faulty: [
      { text: `${HEAD}limits Curlew-9 revision C from 2025-11-01\n  limit cylinder.bore[1..9] wear max 98.080 mm\n` },
    ],
    sound: [
      { text: `${HEAD}limits Curlew-9 revision D from 2026-03-01\n  limit cylinder.bore[1..9] wear max 98.080 mm\n` },
    ],
  },
  check(block, ask, report) {
    if (block.headerBroken || block.revision === "") return;
    const same = ask.revisions(block.type).filter((one) => one.revision === block.revision);
    if (same.length < 2) return;
    const own = linesOf(block);
    const differing = new Set<string>();
    for (const other of same) {
      const theirs = linesOf(other);
      for (const key of new Set([...own.keys(), ...theirs.keys()]))
        if (own.get(key) !== theirs.get(key)) differing.add(key);
    }
    if (differing.size > 0)
      report(
        { at: 0, role: "revision" },
        { name: `${block.type} revision ${block.revision}`, differing: [...differing] },
        {},
      );
  },
  say: ({ name, differing }) =>
    `${name} stands here more than once and its texts differ in ${few(differing)}, so nobody can tell which one a job was checked against. Give the changed text a revision of its own.`,
});
