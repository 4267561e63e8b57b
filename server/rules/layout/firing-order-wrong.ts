/** A firing order that the engine cannot have. */
import { checkFiringOrder, sameFiringOrder } from "../../calc/firing-order.ts";
import { firingOrders } from "../../totals/engine-figures.ts";
import { layoutOf } from "../../totals/engine-shape.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly given: readonly number[];
  readonly cylinders: number;
  readonly missing: readonly number[];
  readonly repeated: readonly number[];
  readonly unknown: readonly number[];
  /** The order that the layout gives, where it does. */
  readonly computed: readonly (readonly number[])[];
}

const list = (label: string, numbers: readonly number[]): string[] =>
  numbers.length === 0 ? [] : [`${label} ${numbers.join(", ")}`];

export default rule({
  id: "layout/firing-order-wrong",
  severity: "error",
  on: ["engine-type"],
  reads: ["firing"],
  page: {
    what: "The firing order of a type leaves a cylinder out, names one twice or one that the engine does not have, or is not the order that a radial of this layout has. It may begin with any cylinder.",
    why: "Leads, timing and balance follow the firing order; an engine that is wired to a wrong one kicks back and burns.",
    remedy:
      "Copy the order from the data plate. A radial needs no such line: its order follows from layout, numbering and rotation.",
    faulty: [
      { text: 'engine-type Tern-4 "Flat four"\n  layout opposed 4\n  firing 1 3 2 2\n' },
      {
        text: "engine-type Curlew-9\n  layout radial 9\n  numbering clockwise from rear\n  rotation clockwise seen from rear\n  firing 1 2 3 4 5 6 7 8 9\n",
      },
    ],
    sound: [
      { text: 'engine-type Tern-4 "Flat four"\n  layout opposed 4\n  firing 1 3 2 4\n' },
      {
        text: "engine-type Curlew-9\n  layout radial 9\n  numbering clockwise from rear\n  rotation clockwise seen from rear\n  firing 5 7 9 2 4 6 8 1 3\n",
      },
    ],
  },
  check(type, _ask, report) {
    const layout = layoutOf(type);
    if (!type.firing || !layout) return;
    const { order } = type.firing;
    const cylinders = layout.cylinders.length;
    const found = checkFiringOrder(order, cylinders);
    if (!found.ok) return;
    const computed = firingOrders(type);
    const isKnown = computed.length === 0 || computed.some((one) => sameFiringOrder(order, one));
    if (found.complete && isKnown) return;
    const { missing, repeated, unknown } = found;
    report({ at: type.firing.at }, { given: order, cylinders, missing, repeated, unknown, computed });
  },
  say: (d: Data) => {
    const parts = [
      ...list("without cylinder", d.missing),
      ...list("twice or more with", d.repeated),
      ...list("with a cylinder that there is not:", d.unknown),
    ];
    const wrong =
      parts.length > 0
        ? `is ${parts.join("; ")} (the engine has ${d.cylinders})`
        : `is not that of its layout, ${d.computed.map((one) => one.join("-")).join(" or ")}`;
    return `The firing order ${d.given.join("-")} ${wrong}. Leads and timing follow it: take the order from the data plate.`;
  },
  repair: (d: Data, spot) =>
    d.computed.length === 1
      ? [
          {
            title: `Write ${d.computed[0].join("-")}, as the layout gives it`,
            grade: "review",
            edits: [{ kind: "replace", spot, text: `firing ${d.computed[0].join(" ")}` }],
          },
        ]
      : [],
});
