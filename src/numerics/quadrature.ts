/**
 * Gauss-Legendre quadrature.
 * Source of nodes and weights: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), Table 25.4.
 */

export interface GaussRule {
  /** on [-1, 1] */
  readonly nodes: readonly number[];
  readonly weights: readonly number[];
}

export const GAUSS_3: GaussRule = {
  nodes: [-0.774596669241483, 0, 0.774596669241483],
  weights: [5 / 9, 8 / 9, 5 / 9],
};

export const GAUSS_5: GaussRule = {
  nodes: [-0.906179845938664, -0.538469310105683, 0, 0.538469310105683, 0.906179845938664],
  weights: [0.236926885056189, 0.478628670499366, 0.568888888888889, 0.478628670499366, 0.236926885056189],
};

/** Integral of f from a to b by one panel of the rule. */
export function gauss(f: (x: number) => number, a: number, b: number, rule: GaussRule = GAUSS_5): number {
  const half = 0.5 * (b - a);
  const mid = 0.5 * (a + b);
  let sum = 0;
  rule.nodes.forEach((node, i) => {
    sum += (rule.weights[i] ?? 0) * f(mid + half * node);
  });
  return sum * half;
}

/** Integral of f from a to b by `panels` equal panels of the rule. */
export function quadrature(
  f: (x: number) => number,
  a: number,
  b: number,
  panels = 16,
  rule: GaussRule = GAUSS_5,
): number {
  const h = (b - a) / panels;
  let sum = 0;
  for (let i = 0; i < panels; i++) sum += gauss(f, a + i * h, a + (i + 1) * h, rule);
  return sum;
}
