import { rule } from "../rule.ts";
import { EVERYWHERE } from "../spelling.ts";

interface Found {
  readonly kind: string;
  readonly name: string;
  readonly other: string;
}

export default rule<(typeof EVERYWHERE)[number], Found>({
  id: "name/differs-in-case",
  severity: "error",
  on: EVERYWHERE,
  page: {
    what: "Two names of one kind differ only in capitals.",
    why: "BG-2 and bg-2 are two gauges here and one to whoever reads them out. A slip of the shift key would put a reading on the wrong one.",
    remedy: "Rename one of them so that the two can be told apart by ear.",
    faulty: [{ text: 'instrument BG-2 "Bore gauge"\ninstrument bg-2 "Bore gauge, small"\n' }],
    sound: [{ text: 'instrument BG-2 "Bore gauge"\ninstrument BG-3 "Bore gauge, small"\n' }],
  },
  check(block, ask, report) {
    if (
      block.name === "" ||
      block.kind === "unnamed" ||
      block.kind === "preface" ||
      block.kind === "account" ||
      block.kind === "release" ||
      block.kind === "dispatch"
    )
      return;
    const isWork = block.kind === "entry" || block.kind === "run";
    const [other] = ask.declared(block.kind, isWork ? block.ref : block.name).otherCase;
    if (other === undefined) return;
    report(
      { at: 0, role: block.kind === "limits" || block.kind === "run-in" ? "type" : "name" },
      { kind: block.kind, name: block.name, other: other.slice(isWork ? other.lastIndexOf("/") + 1 : 0) },
      {},
    );
  },
  say: ({ kind, name, other }) =>
    `${kind[0]?.toUpperCase()}${kind.slice(1)} ${name} differs from ${other} only in capitals, so one is easily taken for the other. Rename one of them.`,
});
