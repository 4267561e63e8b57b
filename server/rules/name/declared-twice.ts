import { scopeOf } from "../../facts/refs.ts";
import { rule } from "../rule.ts";
import { EVERYWHERE } from "../spelling.ts";

interface Found {
  readonly what: string;
  readonly name: string;
  readonly times: number;
}

const WORKING: readonly string[] = ["entry", "run", "release", "dispatch"];

export default rule<(typeof EVERYWHERE)[number], Found>({
  id: "name/declared-twice",
  severity: "error",
  on: EVERYWHERE,
  page: {
    what: "Two blocks, or two defects of a job, have the same name.",
    why: "Whoever names it may mean either. Checks take the first, and what stands in the second is overlooked.",
    remedy: "Give one of them another name. A revision of limits gets a letter of its own.",
    faulty: [
      {
        text: 'instrument BG-2 "Bore gauge"\n  range 50..100 mm\ninstrument BG-2 "Bore gauge, the old one"\n  range 50..75 mm\n',
      },
    ],
    sound: [
      {
        text: 'instrument BG-2 "Bore gauge"\n  range 50..100 mm\ninstrument BG-1 "Bore gauge, the old one"\n  range 50..75 mm\n',
      },
    ],
  },
  check(block, ask, report) {
    if (block.kind === "unnamed" || block.kind === "preface" || (block.name === "" && block.kind !== "shop")) return;
    if (block.kind === "account" || block.kind === "limits") return;
    // A job may be released again after more work, and an engine may come back and leave again.
    if (block.kind === "release" || block.kind === "dispatch") return;
    const isWork = WORKING.includes(block.kind);
    const times =
      block.kind === "shop"
        ? ask.declared("shop", block.name).refs.length
        : ask.declared(block.kind, isWork ? block.ref : block.name).refs.length;
    const what = block.kind === "shop" ? "The shop" : block.kind;
    if (times > 1)
      report(
        {
          at: 0,
          role: block.kind === "shop" ? "title" : block.kind === "run-in" ? "type" : "name",
        },
        { what, name: block.name, times },
        {},
      );
    if (!("defects" in block) || block.defects.length === 0) return;
    const all = ask.facts(scopeOf(block), "defects");
    for (const defect of block.defects) {
      const same = all.filter(({ fact }) => fact.name === defect.name);
      if (same.length < 2) continue;
      const other = same.find(({ block: head, fact }) => head.ref !== block.ref || fact.at !== defect.at);
      report(
        { at: defect.at, role: "name" },
        { what: "defect", name: defect.name, times: same.length },
        other
          ? { related: [{ ref: other.block.ref, spot: { at: other.fact.at, role: "name" }, says: "The other" }] }
          : {},
      );
    }
  },
  say: ({ what, name, times }) =>
    `${what === "The shop" ? what : `${what[0]?.toUpperCase()}${what.slice(1)} ${name}`} is declared ${times === 2 ? "twice" : `${times} times`}, so whoever names it may mean either; checks take the first. Give one of them another name.`,
});
