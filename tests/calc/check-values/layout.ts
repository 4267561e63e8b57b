import { camRing } from "../../../server/calc/cam-ring.ts";
import { type Arrangement, engineLayout } from "../../../server/calc/engine-layout.ts";
import { firingInterval, radialFiringOrder } from "../../../server/calc/firing-order.ts";
import { magnetoRatio } from "../../../server/calc/magneto-ratio.ts";
import { crankTravel, valveTiming } from "../../../server/calc/valve-timing.ts";
import { figures, type PublishedCheck, type UncheckedComputation } from "./check.ts";

const handbook = "text of FAA-H-8083-32, aircraftsystemstech.com on firing order";
const dictionary = "aviation dictionary, two public copies (number 1 is the top one, as its misprint meant)";
const lobes = "experts123.com on the number of cam lobes";

const layoutOf = (arrangement: Arrangement, count: string) => figures(engineLayout(arrangement, count)).layout;
const orderOf = (count: string) => figures(radialFiringOrder(layoutOf("radial", count))).order;

/** How many places of the computed order agree with the printed one. */
const agreeing = (count: string, printed: readonly number[]) =>
  orderOf(count).filter((number, index) => number === printed[index]).length;

const orders: readonly (readonly [count: string, source: string, printed: readonly number[]])[] = [
  ["5", handbook, [1, 3, 5, 2, 4]],
  ["7", handbook, [1, 3, 5, 7, 2, 4, 6]],
  ["9", handbook, [1, 3, 5, 7, 9, 2, 4, 6, 8]],
  [
    "2x9",
    "faa-powerplant.examzify.com, order of an 18-cylinder radial",
    [1, 12, 5, 16, 9, 2, 13, 6, 17, 10, 3, 14, 7, 18, 11, 4, 15, 8],
  ],
];

/** Cylinder that follows another in the computed order. */
function next(count: string, number: number): number {
  const order = orderOf(count);
  return order[(order.indexOf(number) + 1) % order.length];
}

const layout = (computation: string) => ({ computation, group: 7 }) as const;

export const checks: PublishedCheck[] = [
  ...orders.map(
    ([count, source, printed]): PublishedCheck => ({
      ...layout("firing-order"),
      what: `places of the order of a radial ${count} that agree`,
      source,
      kind: "read",
      expected: printed.length,
      tolerance: 0,
      got: () => agreeing(count, printed),
    }),
  ),
  ...(
    [
      [8, 3],
      [3, 12],
      [12, 7],
      [7, 2],
    ] as const
  ).map(
    ([number, follows]): PublishedCheck => ({
      ...layout("firing-order"),
      what: `cylinder that fires after ${number} of a radial 2x7`,
      source: handbook,
      kind: "read",
      expected: follows,
      tolerance: 0,
      got: () => next("2x7", number),
    }),
  ),
  {
    ...layout("firing-order"),
    what: "firing interval of nine cylinders, degrees",
    source: "enginehistory.org bulletin board, topic 61",
    kind: "read",
    expected: 80,
    tolerance: 0,
    got: () => figures(firingInterval(9)).interval_deg,
  },
  {
    ...layout("engine-layout"),
    what: "angle of cylinder 1 of a radial 9, degrees from the top",
    source: dictionary,
    kind: "read",
    expected: 0,
    tolerance: 0,
    got: () => layoutOf("radial", "9").cylinders[0].angle_deg,
  },
  {
    ...layout("engine-layout"),
    what: "cylinders of the rear row of a radial 2x7 that have odd numbers",
    source: dictionary,
    kind: "read",
    expected: 7,
    tolerance: 0,
    got: () => layoutOf("radial", "2x7").cylinders.filter((each) => each.row === 1 && each.number % 2 === 1).length,
  },
  ...[5, 7, 9].flatMap((cylinders): PublishedCheck[] =>
    (["against-crank", "with-crank"] as const).flatMap((turning): PublishedCheck[] => {
      const printed = {
        "against-crank": { 5: [2, 4], 7: [3, 6], 9: [4, 8] },
        "with-crank": { 5: [3, 6], 7: [4, 8], 9: [5, 10] },
      };
      const [count, denominator] = printed[turning][cylinders as 5 | 7 | 9];
      return [
        {
          ...layout("cam-ring"),
          what: `lobes for ${cylinders} cylinders, ring ${turning}`,
          source: lobes,
          kind: "read",
          expected: count,
          tolerance: 0,
          got: () => figures(camRing(cylinders, turning)).lobes,
        },
        {
          ...layout("cam-ring"),
          what: `turns of the crank for one of the ring, ${cylinders} cylinders, ${turning}`,
          source: lobes,
          kind: "read",
          expected: denominator,
          tolerance: 0,
          got: () => figures(camRing(cylinders, turning)).denominator,
        },
      ];
    }),
  ),
  {
    ...layout("magneto-ratio"),
    what: "distributor speed over crank speed",
    source: "enginehistory.org, magnetos; US Army TM 9-8000 p. 363",
    kind: "read",
    expected: 0.5,
    tolerance: 0,
    got: () => figures(magnetoRatio(9, 4)).distributorRatio,
  },
  ...(
    [
      [9, 4, 1.125],
      [14, 8, 0.875],
      [6, 2, 1.5],
      [4, 2, 1],
    ] as const
  ).map(
    ([cylinders, poles, ratio]): PublishedCheck => ({
      ...layout("magneto-ratio"),
      what: `magneto speed over crank speed, ${cylinders} cylinders and ${poles} poles`,
      source: "powerplant mechanics' text",
      kind: "memory",
      expected: ratio,
      tolerance: 0,
      got: () => figures(magnetoRatio(cylinders, poles)).ratio,
    }),
  ),
  {
    ...layout("valve-timing"),
    what: "overlap of intake opening 28 before and exhaust closing 45 after, degrees",
    source: "US Army TM 9-8000 p. 66, figure 2-55",
    kind: "read",
    expected: 73,
    tolerance: 0,
    got: () =>
      figures(
        valveTiming({
          intakeOpens_degBefore: 28,
          intakeCloses_degAfter: 71,
          exhaustOpens_degBefore: 70,
          exhaustCloses_degAfter: 45,
        }),
      ).overlap_deg,
  },
  {
    ...layout("valve-timing"),
    what: "crank travel from ignition at 28 before to intake opening at 15 before, degrees",
    source: "examination question at marksplanes.wikidot.com, its answer worked out here",
    kind: "computed",
    expected: 373,
    tolerance: 0,
    got: () => figures(crankTravel(-28, 360 - 15)).travel_deg,
  },
];

export const unchecked: UncheckedComputation[] = [
  {
    computation: "low-cylinders",
    group: 7,
    why: "geometry; that 4 and 5 are the lowest of a seven-cylinder row is common practice without a source",
  },
];
