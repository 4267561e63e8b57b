import { settle, show } from "./figures.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse } from "./result.ts";

/** Diameters of one bore (or journal), taken at levels along its axis and on axes across it. */
export interface DiameterGrid {
  /** Names of the levels in order along the bore, for example head, mid, skirt. */
  readonly levels: readonly string[];
  /** Names of the axes at each level, for example thrust, axial. */
  readonly axes: readonly string[];
  /** diameter_mm[level][axis]; null where the reading is still to be taken or does not apply. */
  readonly diameter_mm: readonly (readonly (number | null)[])[];
}

export interface Figure {
  readonly value_mm: number;
}

export interface PlacedFigure extends Figure {
  readonly level: string;
  readonly axis: string;
}

export interface TaperFigure extends Figure {
  readonly axis: string;
  readonly wideAt: string;
  readonly narrowAt: string;
}

export interface LevelFigures {
  readonly level: string;
  readonly mean: Result<Figure>;
  readonly outOfRound: Result<Figure>;
}

export interface AxisFigures {
  readonly axis: string;
  readonly mean: Result<Figure>;
  readonly taper: Result<TaperFigure>;
}

export interface BoreGeometry extends Worked {
  readonly method: "two-point";
  readonly measured: number;
  readonly missing: readonly { readonly level: string; readonly axis: string }[];
  /** Greatest and least of what was measured: known even while a cell is missing. */
  readonly greatest: PlacedFigure;
  readonly least: PlacedFigure;
  /** Mean and range of the whole grid: refused while a cell is missing, because it could change them. */
  readonly mean: Result<Figure>;
  readonly range: Result<Figure>;
  readonly levels: readonly LevelFigures[];
  readonly axes: readonly AxisFigures[];
  /** The greatest out-of-round of all levels and the greatest taper of all axes. */
  readonly outOfRound: Result<Figure & { readonly level: string }>;
  readonly taper: Result<TaperFigure>;
}

function meanOf(values: readonly number[]): number {
  return settle(values.reduce((sum, value) => sum + value, 0) / values.length);
}

function complete(cells: readonly (number | null)[]): readonly number[] | undefined {
  const values = cells.filter((cell): cell is number => cell !== null);
  return values.length === cells.length ? values : undefined;
}

function levelFigures(level: string, cells: readonly (number | null)[], axes: readonly string[]): LevelFigures {
  const values = complete(cells);
  if (values === undefined) {
    const missing = axes.filter((_axis, index) => cells[index] === null).join(", ");
    const refused = refuse(`Level ${level} has no reading on ${missing}.`);
    return { level, mean: refused, outOfRound: refused };
  }
  const outOfRound =
    values.length < 2
      ? refuse(`Level ${level} was measured on one axis only; out-of-round needs two.`)
      : answer({ value_mm: settle(Math.max(...values) - Math.min(...values)) });
  return { level, mean: answer({ value_mm: meanOf(values) }), outOfRound };
}

function axisFigures(axis: string, cells: readonly (number | null)[], levels: readonly string[]): AxisFigures {
  const values = complete(cells);
  if (values === undefined) {
    const missing = levels.filter((_level, index) => cells[index] === null).join(", ");
    const refused = refuse(`Axis ${axis} has no reading at ${missing}.`);
    return { axis, mean: refused, taper: refused };
  }
  const mean = answer({ value_mm: meanOf(values) });
  if (values.length < 2) {
    return { axis, mean, taper: refuse(`Axis ${axis} was measured at one level only; taper needs two.`) };
  }
  const wide = Math.max(...values);
  const narrow = Math.min(...values);
  return {
    axis,
    mean,
    taper: answer({
      value_mm: settle(wide - narrow),
      axis,
      wideAt: levels[values.indexOf(wide)] ?? "",
      narrowAt: levels[values.indexOf(narrow)] ?? "",
    }),
  };
}

/** The greatest of figures that must all be known: a refused one could be the greatest. */
function greatestOf<T extends Figure>(figures: readonly Result<T>[], what: string): Result<T> {
  let greatest: Result<T> | undefined;
  for (const figure of figures) {
    if (!figure.ok) return refuse(`The greatest ${what} is not known yet: ${figure.refused}`);
    if (greatest === undefined || !greatest.ok || figure.value_mm > greatest.value_mm) greatest = figure;
  }
  return greatest ?? refuse(`There is nothing to take the greatest ${what} from.`);
}

/**
 * Mean, range, out-of-round and taper of a bore or journal from a grid of two-point diameters.
 *
 * Out-of-round of a level is its greatest less its least diameter over the axes; taper of an axis is its greatest less
 * its least diameter over the levels. Both are two-point figures: a three-lobed bore can be out of round and show none.
 * A figure that a missing reading could change is refused; it is never worked out from the rest.
 *
 * @param grid levels x axes of diameters in mm, each greater than zero, at least one reading taken
 * @returns refused when the grid is not rectangular, has no reading, or has a diameter that is not greater than zero
 * Source: two-section, two-direction procedure of a marine engine service manual (roundness: greatest difference of
 * the two directions over the sections; cylindricity: greatest difference of the sections over the directions),
 * manualarchiveguide.com, 3JH4E service manual p. 198.
 */
export function boreGeometry(grid: DiameterGrid): Result<BoreGeometry> {
  const { levels, axes, diameter_mm } = grid;
  if (levels.length === 0 || axes.length === 0) return refuse("The grid has no levels or no axes.");
  if (diameter_mm.length !== levels.length || diameter_mm.some((row) => row.length !== axes.length)) {
    return refuse(`The grid must have ${levels.length} levels of ${axes.length} readings each.`);
  }
  const missing: { level: string; axis: string }[] = [];
  const placed: PlacedFigure[] = [];
  for (const [levelIndex, level] of levels.entries()) {
    for (const [axisIndex, axis] of axes.entries()) {
      const value = diameter_mm[levelIndex]?.[axisIndex] ?? null;
      if (value === null) {
        missing.push({ level, axis });
        continue;
      }
      if (!Number.isFinite(value) || value <= 0) {
        return refuse(`The diameter at ${level}, ${axis} must be greater than zero, not ${value}.`);
      }
      placed.push({ value_mm: value, level, axis });
    }
  }
  const first = placed[0];
  if (first === undefined) return refuse("No diameter has been measured yet.");
  const greatest = placed.reduce((most, one) => (one.value_mm > most.value_mm ? one : most), first);
  const least = placed.reduce((most, one) => (one.value_mm < most.value_mm ? one : most), first);

  const gap = refuse(
    `Not all of the grid is measured: ${missing.map(({ level, axis }) => `${level} ${axis}`).join(", ")} still to be taken.`,
  );
  const perLevel = levels.map((level, index) => levelFigures(level, diameter_mm[index] ?? [], axes));
  const perAxis = axes.map((axis, index) =>
    axisFigures(
      axis,
      diameter_mm.map((row) => row[index] ?? null),
      levels,
    ),
  );
  const outOfRound = greatestOf(
    perLevel.map(({ level, outOfRound: figure }) =>
      figure.ok ? answer({ value_mm: figure.value_mm, level }) : figure,
    ),
    "out-of-round",
  );
  const taper = greatestOf(
    perAxis.map((figures) => figures.taper),
    "taper",
  );

  const steps = [
    `${placed.length} of ${levels.length * axes.length} diameters measured, by the two-point method.`,
    `Greatest ${show(greatest.value_mm, 9)} mm at ${greatest.level} ${greatest.axis}; least ${show(least.value_mm, 9)} mm at ${least.level} ${least.axis}.`,
  ];
  for (const { level, outOfRound: figure } of perLevel) {
    steps.push(
      figure.ok
        ? `Out-of-round at ${level}: greatest less least of the axes = ${show(figure.value_mm)} mm.`
        : figure.refused,
    );
  }
  for (const { axis, taper: figure } of perAxis) {
    steps.push(
      figure.ok
        ? `Taper on ${axis}: ${figure.wideAt} less ${figure.narrowAt} = ${show(figure.value_mm)} mm.`
        : figure.refused,
    );
  }
  return answer({
    method: "two-point" as const,
    measured: placed.length,
    missing,
    greatest,
    least,
    mean: missing.length > 0 ? gap : answer({ value_mm: meanOf(placed.map((one) => one.value_mm)) }),
    range: missing.length > 0 ? gap : answer({ value_mm: settle(greatest.value_mm - least.value_mm) }),
    levels: perLevel,
    axes: perAxis,
    outOfRound,
    taper,
    steps,
  });
}
