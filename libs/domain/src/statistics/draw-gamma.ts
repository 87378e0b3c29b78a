import { assertPositive } from './guards.js';
import type { RandomSource } from './seeded-random.js';

/**
 * One draw from the standard normal distribution, by the polar method.
 *
 * @see Marsaglia & Bray (1964), SIAM Review 6, 260–264
 */
export function drawNormal(random: RandomSource): number {
  for (;;) {
    const across = 2 * random() - 1;
    const up = 2 * random() - 1;
    const radius = across ** 2 + up ** 2;
    if (radius > 0 && radius < 1) return across * Math.sqrt((-2 * Math.log(radius)) / radius);
  }
}

/**
 * Draws from the standard normal distribution, one after another as `drawNormal` gives them.
 *
 * @param count - integer, at least 0
 */
export function drawNormals(random: RandomSource, count: number): Float64Array {
  const normals = new Float64Array(count);
  for (let draw = 0; draw < count; draw += 1) normals[draw] = drawNormal(random);
  return normals;
}

/**
 * Logarithm of one draw from a gamma distribution of scale 1. The logarithm, because draws of a
 * small shape are often too small for a double.
 *
 * @param random - uniform source
 * @param shape  - > 0
 * @throws DomainError `stats.invalid_number`
 * @see Marsaglia & Tsang (2000), ACM Trans. Math. Softw. 26, 363–372
 */
export function drawLogGamma(random: RandomSource, shape: number): number {
  assertPositive('shape', shape);
  if (shape < 1) {
    // A draw of shape a + 1 times U^(1/a) has shape a.
    return drawLogGamma(random, shape + 1) + Math.log(1 - random()) / shape;
  }

  const offset = shape - 1 / 3;
  const scale = 1 / Math.sqrt(9 * offset);
  for (;;) {
    const normal = drawNormal(random);
    const cubeRoot = 1 + scale * normal;
    if (cubeRoot > 0) {
      const ratio = cubeRoot * cubeRoot * cubeRoot;
      const uniform = 1 - random();
      // Most draws lie where no logarithm is needed to accept them.
      const accepted =
        uniform < 1 - 0.0331 * (normal * normal) ** 2 ||
        Math.log(uniform) < normal ** 2 / 2 + offset * (1 - ratio + Math.log(ratio));
      if (accepted) return Math.log(offset * ratio);
    }
  }
}

/**
 * One draw from a gamma distribution of scale 1.
 *
 * @param random - uniform source
 * @param shape  - > 0; both mean and variance
 * @throws DomainError `stats.invalid_number`
 */
export function drawGamma(random: RandomSource, shape: number): number {
  return Math.exp(drawLogGamma(random, shape));
}
