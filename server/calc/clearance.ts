import { settle, show } from "./figures.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse, refuseNotPositive } from "./result.ts";

/** How a hole and a shaft stand to each other. */
export type ClearanceKind = "clearance" | "size to size" | "interference";

export interface Clearance extends Worked {
  /** Hole less shaft; negative is an interference. */
  readonly clearance_mm: number;
  /** Shaft less hole where the shaft is the greater, otherwise zero. */
  readonly interference_mm: number;
  readonly kind: ClearanceKind;
}

export interface ClearanceRange extends Worked {
  readonly least_mm: number;
  readonly greatest_mm: number;
  readonly kind: "clearance" | "transition" | "interference";
}

export interface PlacedClearance {
  readonly place: string;
  readonly clearance: Result<Clearance>;
}

/**
 * Clearance between one hole and one shaft.
 * @param hole_mm diameter of the hole, greater than zero
 * @param shaft_mm diameter of the shaft, greater than zero
 * @returns refused when a diameter is not greater than zero
 * Source: definition (clearance is the size of the hole less the size of the shaft), ISO 286-1.
 */
export function clearance(hole_mm: number, shaft_mm: number): Result<Clearance> {
  const bad = refuseNotPositive({ "hole diameter": hole_mm, "shaft diameter": shaft_mm });
  if (bad !== undefined) return bad;
  const clearance_mm = settle(hole_mm - shaft_mm);
  const kind = clearance_mm > 0 ? "clearance" : clearance_mm < 0 ? "interference" : "size to size";
  const figure = `${show(hole_mm, 9)} mm - ${show(shaft_mm, 9)} mm = ${show(clearance_mm)} mm`;
  return answer({
    clearance_mm,
    interference_mm: clearance_mm < 0 ? settle(-clearance_mm) : 0,
    kind,
    steps: [`Hole less shaft: ${figure}${kind === "interference" ? ", an interference" : ""}.`],
  });
}

/**
 * Least and greatest clearance that limits of a hole and of a shaft allow.
 * @param limits least and greatest size of each, greater than zero, least not above greatest
 * @returns refused when a size is not greater than zero or a least is above its greatest
 * Source: ISO 286-1 (least clearance: least hole less greatest shaft; greatest: greatest hole less least shaft).
 */
export function clearanceRange(limits: {
  readonly holeLeast_mm: number;
  readonly holeGreatest_mm: number;
  readonly shaftLeast_mm: number;
  readonly shaftGreatest_mm: number;
}): Result<ClearanceRange> {
  const { holeLeast_mm, holeGreatest_mm, shaftLeast_mm, shaftGreatest_mm } = limits;
  const bad = refuseNotPositive({
    "least hole": holeLeast_mm,
    "greatest hole": holeGreatest_mm,
    "least shaft": shaftLeast_mm,
    "greatest shaft": shaftGreatest_mm,
  });
  if (bad !== undefined) return bad;
  if (holeLeast_mm > holeGreatest_mm) return refuse("The least hole is above the greatest hole.");
  if (shaftLeast_mm > shaftGreatest_mm) return refuse("The least shaft is above the greatest shaft.");
  const least_mm = settle(holeLeast_mm - shaftGreatest_mm);
  const greatest_mm = settle(holeGreatest_mm - shaftLeast_mm);
  return answer({
    least_mm,
    greatest_mm,
    kind:
      least_mm >= 0 ? ("clearance" as const) : greatest_mm <= 0 ? ("interference" as const) : ("transition" as const),
    steps: [
      `Least clearance: least hole ${show(holeLeast_mm, 9)} mm - greatest shaft ${show(shaftGreatest_mm, 9)} mm = ${show(least_mm)} mm.`,
      `Greatest clearance: greatest hole ${show(holeGreatest_mm, 9)} mm - least shaft ${show(shaftLeast_mm, 9)} mm = ${show(greatest_mm)} mm.`,
    ],
  });
}

/**
 * Clearances of two features at matching places. A place measured on one feature only is refused by name, never
 * skipped, so that a missing piston is not taken for a good one.
 * @param holes_mm place -> diameter of the hole, null where not measured
 * @param shafts_mm place -> diameter of the shaft, null where not measured
 * @returns one line for each place of either feature: places of the holes first, in their order
 */
export function clearancesByPlace(
  holes_mm: ReadonlyMap<string, number | null>,
  shafts_mm: ReadonlyMap<string, number | null>,
): readonly PlacedClearance[] {
  const places = [...holes_mm.keys(), ...[...shafts_mm.keys()].filter((place) => !holes_mm.has(place))];
  return places.map((place) => {
    const hole_mm = holes_mm.get(place) ?? null;
    const shaft_mm = shafts_mm.get(place) ?? null;
    if (hole_mm === null && shaft_mm === null) {
      return { place, clearance: refuse(`Neither part is measured at ${place}.`) };
    }
    if (hole_mm === null) return { place, clearance: refuse(`The hole at ${place} is not measured.`) };
    if (shaft_mm === null) return { place, clearance: refuse(`The shaft at ${place} is not measured.`) };
    return { place, clearance: clearance(hole_mm, shaft_mm) };
  });
}
