/**
 * Tables of the ISO code system for sizes to 500 mm, in micrometres.
 *
 * Source: ISO 286-1 and ISO 286-2, whose figures are repeated by the public texts named in the tests: step limits and
 * tolerance grades by engineersvault.blogspot.com and a tool maker's catalogue (catalog.bigdaishowa.com p. 139),
 * deviations by the book Machine Drawing (table 15.2), cobanengineering.com and a JIS B 0401 page (docs.steelcam.org).
 * The standards themselves are sold and were not seen.
 */

/** Upper ends of the main steps in mm. A step is over the end before it, up to and including its own. */
export const stepEnds_mm = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500] as const;

/** Upper ends of the finer steps in mm that letters r and s use above 50 mm. */
export const fineStepEnds_mm = [
  3, 6, 10, 18, 30, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500,
] as const;

/** Tolerance grade -> tolerance in micrometres for each main step. */
export const gradeTolerance_um: Readonly<Record<number, readonly number[]>> = {
  5: [4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27],
  6: [6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40],
  7: [10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63],
  8: [14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97],
  9: [25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155],
  10: [40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250],
  11: [60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400],
};

/** Upper deviation es in micrometres of shafts that lie below the nominal size, for each main step. */
export const shaftUpperDeviation_um: Readonly<Record<string, readonly number[]>> = {
  f: [-6, -10, -13, -16, -20, -25, -30, -36, -43, -50, -56, -62, -68],
  g: [-2, -4, -5, -6, -7, -9, -10, -12, -14, -15, -17, -18, -20],
  h: [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
};

/** Lower deviation ei in micrometres of shafts that lie above the nominal size, for each main step. */
export const shaftLowerDeviation_um: Readonly<Record<string, readonly number[]>> = {
  k: [0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5],
  m: [2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23],
  n: [4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40],
  p: [6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68],
};

/** Lower deviation ei in micrometres of shafts r and s, for each finer step. */
export const fineShaftLowerDeviation_um: Readonly<Record<string, readonly number[]>> = {
  r: [10, 15, 19, 23, 28, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126, 132],
  s: [14, 19, 23, 28, 35, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252],
};
