import { rule } from "../rule.ts";

interface Found {
  readonly instrument: string;
}

const REST =
  "engine-type Curlew-9\nengine C9-0412 Curlew-9\njob J26-014 engine C9-0412\nentry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n";
const START = 'instrument BG-2 "Bore gauge"\n  range 50..100 mm\n  calibrated 2026-01-10 until 2027-01-10\n';

export default rule<"instrument", Found>({
  id: "instrument/no-uncertainty",
  severity: "information",
  on: ["instrument"],
  reads: ["range", "resolution", "calibrations", "uncertainty", "unread"],
  page: {
    what: "An instrument that is in use states no uncertainty, and the shop decides with a guard band.",
    why: "Without it a reading at the very edge of its limit counts as proven. Fixed gauges, which state neither range nor resolution, are not asked.",
    remedy:
      "Copy the expanded uncertainty from the certificate, or let the shop decide by the bare figure with `decision simple`.",
    faulty: [{ text: `${START}${REST}` }],
    sound: [{ text: `${START}  uncertainty 0.003 mm\n${REST}` }],
  },
  check(block, ask, report) {
    if (block.uncertainty || block.unread.includes("uncertainty") || (!block.range && !block.resolution)) return;
    if (ask.shop().decision !== "guarded" || !ask.isUsed("instrument", block.name)) return;
    report({ at: 0, role: "name" }, { instrument: block.name });
  },
  say: ({ instrument }) =>
    `${instrument} states no uncertainty, so readings at the edge of a limit count as proven. Copy it from the certificate.`,
});
