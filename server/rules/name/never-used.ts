import { rule } from "../rule.ts";

interface Found {
  readonly kind: string;
  readonly name: string;
}

const KINDS = ["person", "instrument", "stand", "engine-type", "route"] as const;

const REST =
  "engine-type Curlew-9\nengine C9-0412 Curlew-9\njob J26-014 engine C9-0412\nentry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n";

export default rule<(typeof KINDS)[number], Found>({
  id: "name/never-used",
  severity: "information",
  on: KINDS,
  page: {
    what: "A person, instrument, stand, engine type or route is declared and named nowhere.",
    why: "It may be there for later, or a record that should name it names another by mistake.",
    remedy: "Leave it if it is for later.",
    faulty: [{ text: `instrument BG-2 "Bore gauge"\ninstrument BG-3 "Bore gauge, small"\n${REST}` }],
    sound: [{ text: `instrument BG-2 "Bore gauge"\n${REST}` }],
  },
  check(block, ask, report) {
    if (block.name === "" || ask.isUsed(block.kind, block.name)) return;
    report({ at: 0, role: "name" }, { kind: block.kind, name: block.name }, { tag: "unnecessary" });
  },
  say: ({ kind, name }) => `No record names ${kind} ${name}. Leave it if it is for later.`,
});
