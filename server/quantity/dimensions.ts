/**
 * Dimensions as products of base dimensions, with trade names for the usual ones.
 *
 * A dimension is a plain word that two units share exactly when one can be turned into the other.
 * Compound units are worked out as exponents of base dimensions and then named. Three pairs are kept
 * apart although their exponents agree, because mixing them is a mistake of the trade: torque and
 * energy, a scale temperature and a difference of temperatures, a mass at an arm (unbalance) and a
 * force at an arm (torque).
 */

/** Canonical name of a dimension: `length`, `volume/time`, `money:GBP`, or a product such as `length2.mass/time4`. */
export type Dimension = string;

/** Exponents of base dimensions; a base that is absent has exponent 0. */
export type Exponents = ReadonlyMap<string, number>;

/** Names of dimensions and what they are made of, in the notation of compound units. */
const NAMED: ReadonlyArray<readonly [name: string, product: string]> = [
  ["ratio", ""],
  ["area", "length2"],
  ["volume", "length3"],
  ["volume/time", "length3/time"],
  ["mass/time", "mass/time"],
  ["density", "mass/length3"],
  ["velocity", "length/time"],
  ["acceleration", "length/time2"],
  ["force", "mass.length/time2"],
  ["pressure", "mass/length.time2"],
  ["pressure/time", "mass/length.time3"],
  ["energy", "mass.length2/time2"],
  ["power", "mass.length2/time3"],
  ["mass/energy", "time2/length2"],
  ["volume/energy", "length.time2/mass"],
  ["irradiance", "mass/time3"],
  ["kinematic-viscosity", "length2/time"],
  ["unbalance", "mass.length"],
  ["thermal-expansion", "1/temperature-difference"],
  ["force/length", "mass/time2"],
  ["charge", "current.time"],
  ["voltage", "mass.length2/current.time3"],
  ["resistance", "mass.length2/current2.time3"],
  ["capacitance", "current2.time4/mass.length2"],
];

function productOf(exponents: Exponents): string {
  const above: string[] = [];
  const below: string[] = [];
  for (const base of [...exponents.keys()].sort()) {
    const power = exponents.get(base) ?? 0;
    const size = Math.abs(power);
    if (size !== 0) (power > 0 ? above : below).push(size === 1 ? base : `${base}${size}`);
  }
  if (below.length === 0) return above.join(".");
  return `${above.length === 0 ? "1" : above.join(".")}/${below.join(".")}`;
}

function exponentsOfProduct(product: string): Exponents {
  const sum = new Map<string, number>();
  product.split("/").forEach((side, index) => {
    for (const part of side.split(".")) {
      if (part === "" || part === "1") continue;
      const power = /\d$/.test(part) ? Number(part.at(-1)) : 1;
      const base = part.replace(/\d$/, "");
      sum.set(base, (sum.get(base) ?? 0) + (index === 0 ? power : -power));
    }
  });
  return sum;
}

const nameByProduct = new Map<string, string>();
const exponentsByName = new Map<string, Exponents>();
for (const [name, product] of NAMED) {
  const exponents = exponentsOfProduct(product);
  nameByProduct.set(productOf(exponents), name);
  exponentsByName.set(name, exponents);
}
// These two share exponents with another name, so they are only ever given by a unit's own definition.
exponentsByName.set("torque", exponentsOfProduct("mass.length2/time2"));
exponentsByName.set("temperature", exponentsOfProduct("temperature-difference"));

/**
 * Name of a product of base dimensions.
 *
 * @param exponents exponents of base dimensions
 */
export function dimensionOf(exponents: Exponents): Dimension {
  const product = productOf(exponents);
  return nameByProduct.get(product) ?? product;
}

/**
 * What a dimension is made of; a name without an entry is a base dimension of its own.
 *
 * A scale temperature is taken as a difference, which is what it means inside a compound unit.
 *
 * @param dimension a name as {@link dimensionOf} gives it
 */
export function exponentsOf(dimension: Dimension): Exponents {
  let found = exponentsByName.get(dimension);
  if (found === undefined) {
    found = /[./]/.test(dimension) || /\d$/.test(dimension) ? exponentsOfProduct(dimension) : new Map([[dimension, 1]]);
    exponentsByName.set(dimension, found);
  }
  return found;
}

/**
 * Adds `power` times the exponents `part` into `sum`.
 *
 * @param sum changed in place
 * @param part exponents to add
 * @param power how often, negative below the slash
 */
export function multiplyInto(sum: Map<string, number>, part: Exponents, power: number): void {
  for (const [base, size] of part) sum.set(base, (sum.get(base) ?? 0) + size * power);
}
