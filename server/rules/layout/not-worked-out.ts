/** A layout that no engine has, or that does not say enough. */
import { layoutRefusal } from "../../totals/engine-figures.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly type: string;
  readonly why: string;
}

export default rule({
  id: "layout/not-worked-out",
  severity: "error",
  on: ["engine-type"],
  reads: ["layout"],
  page: {
    what: "The layout of a type does not say how its cylinders stand: a radial row of an even number, a vee without its angle, a flat engine with an odd number of cylinders.",
    why: "Which cylinders hang below the horizontal follows from the layout. Without it nothing asks for the check for hydraulic lock before a start, and no cylinder is missed in a test.",
    remedy: "Write the layout as the data plate has it: `layout radial 9`, `layout radial 2x7`, `layout vee 8 90 deg`.",
    faulty: [{ text: "engine-type Snipe-8\n  layout radial 8\n" }, { text: "engine-type Snipe-8\n  layout vee 8\n" }],
    sound: [{ text: "engine-type Snipe-8\n  layout vee 8 90 deg\n" }],
  },
  check(type, _ask, report) {
    const why = layoutRefusal(type);
    if (why !== undefined && type.layout) report({ at: type.layout.at, role: "arrangement" }, { type: type.name, why });
  },
  say: (d: Data) =>
    `The layout of ${d.type} cannot be worked out: ${d.why} Until it can, no rule knows which cylinders hang low or how many there are.`,
});
